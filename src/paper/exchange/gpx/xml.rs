//! XML as a stream of pieces with their places, within bounds, and without any entity of the file's own.

use std::borrow::Cow;
use std::io::Read;

use nav::Position;
use quick_xml::Reader;
use quick_xml::errors::{Error, IllFormedError, SyntaxError};
use quick_xml::escape::{resolve_predefined_entity, unescape};
use quick_xml::events::attributes::AttrError;
use quick_xml::events::{BytesDecl, BytesRef, BytesStart, Event};
use quick_xml::name::{Namespace, NamespaceResolver, ResolveResult};

use super::element::Element;
use super::{NAMESPACE, NAMESPACE_1_0, OWN_NAMESPACE};
use crate::exchange::fault::{Fault, Place, Why, shown};
use crate::exchange::guard::{Guard, LONGEST};

/// The deepest nesting: GPX itself comes to five, additions of other programs to a few more.
const DEEPEST: usize = 64;

/// See the module.
pub(super) struct Xml<R> {
    reader: Reader<Guard<R>>,
    spaces: NamespaceResolver,
    buffer: Vec<u8>,
    depth: usize,
    text: String,
}

/// A piece of XML.
pub(super) enum Piece<'x> {
    Open(Tag<'x>),
    Close,
    Text(Cow<'x, str>),
    /// A comment or an instruction, of no meaning here.
    Nothing,
    End,
}

/// The beginning of an element.
pub(super) struct Tag<'x> {
    pub(super) element: Element,
    pub(super) place: Place,
    start: BytesStart<'x>,
}

impl<R: Read> Xml<R> {
    pub(super) fn new(from: R) -> Xml<R> {
        let mut reader = Reader::from_reader(Guard::new(from, LONGEST));
        reader.config_mut().expand_empty_elements = true;
        let spaces = NamespaceResolver::default();
        Xml { reader, spaces, buffer: Vec::new(), depth: 0, text: String::new() }
    }

    /// The place of what is next.
    pub(super) fn place(&self) -> Place {
        self.reader.get_ref().place()
    }

    /// The next piece.
    pub(super) fn next(&mut self) -> Result<Piece<'_>, Fault> {
        self.buffer.clear();
        let place = self.reader.get_ref().place();
        self.reader.get_mut().begin();
        // The error first, since it needs the reader again.
        let event = match self.reader.read_event_into(&mut self.buffer) {
            Ok(event) => event,
            Err(error) => return Err(fault(self.reader.get_mut(), &error, place)),
        };
        match event {
            Event::Start(start) | Event::Empty(start) => {
                self.depth += 1;
                if self.depth > DEEPEST {
                    return Err(Why::Deep { most: DEEPEST }.at(place));
                }
                open_space(&mut self.spaces, self.depth, &start).map_err(|why| why.at(place))?;
                let (space, name) = self.spaces.resolve_element(start.name());
                let element = element(&space, name.into_inner());
                Ok(Piece::Open(Tag { element, place, start }))
            }
            Event::End(_) => {
                self.depth -= 1;
                Ok(Piece::Close)
            }
            Event::Text(text) => Ok(Piece::Text(text.into_inner())),
            Event::CData(text) => Ok(Piece::Text(text.into_inner())),
            Event::GeneralRef(name) => referred(&name, place).map(Piece::Text),
            Event::DocType(_) => Err(Why::Doctype.at(place)),
            Event::Decl(said) => declared(&said, place).map(|()| Piece::Nothing),
            Event::Comment(_) | Event::PI(_) => Ok(Piece::Nothing),
            Event::Eof if self.depth > 0 => Err(Why::Ends.at(place)),
            Event::Eof => Ok(Piece::End),
        }
    }

    /// The next tag within the one that is open, and where it stands, with the position if it is a `point`; nothing at the
    /// end of that.
    pub(super) fn child_or(
        &mut self,
        point: Element,
        of: &'static str,
    ) -> Result<Option<(Element, Place, Option<Position>)>, Fault> {
        loop {
            let tag = match self.next()? {
                Piece::Open(tag) => tag,
                Piece::Close => return Ok(None),
                _ => continue,
            };
            let at = (tag.element == point).then(|| tag.position(of)).transpose()?;
            return Ok(Some((tag.element, tag.place, at)));
        }
    }

    /// The next tag within the one that is open; nothing at the end of that.
    pub(super) fn child(&mut self) -> Result<Option<Element>, Fault> {
        loop {
            match self.next()? {
                Piece::Open(tag) => return Ok(Some(tag.element)),
                Piece::Close => return Ok(None),
                _ => {}
            }
        }
    }

    /// As [`child`](Self::child), with the address if it is a link that has one.
    pub(super) fn child_or_link(&mut self) -> Result<Option<(Element, Option<String>)>, Fault> {
        loop {
            match self.next()? {
                Piece::Open(tag) if tag.element == Element::Link => {
                    let address = tag.attribute("href")?.map(Cow::into_owned);
                    return Ok(Some((Element::Link, address)));
                }
                Piece::Open(tag) => return Ok(Some((tag.element, None))),
                Piece::Close => return Ok(None),
                _ => {}
            }
        }
    }

    /// Passes over the rest of an element that has been opened.
    pub(super) fn skip(&mut self) -> Result<(), Fault> {
        let above = self.depth - 1;
        while self.depth > above {
            self.next()?;
        }
        Ok(())
    }

    /// The text of an element that has been opened, without space at its ends, and its place. Elements
    /// within it are passed over.
    pub(super) fn text(&mut self) -> Result<(&str, Place), Fault> {
        let mut text = std::mem::take(&mut self.text);
        text.clear();
        let (begin, above) = (self.place(), self.depth - 1);
        let mut first = None;
        while self.depth > above {
            let (place, direct) = (self.place(), self.depth == above + 1);
            match self.next()? {
                Piece::Text(more) if direct => {
                    let blank = more.len() - more.trim_start().len();
                    if text.is_empty() && blank < more.len() {
                        first = Some(place.after(more.as_bytes().get(..blank).unwrap_or_default()));
                    }
                    let more = if text.is_empty() { more.trim_start() } else { &more };
                    text.push_str(more);
                }
                _ => {}
            }
            if text.len() > LONGEST {
                return Err(Why::Long { most: LONGEST }.at(begin));
            }
        }
        text.truncate(text.trim_end().len());
        self.text = text;
        Ok((&self.text, first.unwrap_or(begin)))
    }
}

impl Tag<'_> {
    /// An attribute without a namespace, its entities resolved, or nothing.
    pub(super) fn attribute(&self, name: &str) -> Result<Option<Cow<'_, str>>, Fault> {
        for attribute in self.start.attributes() {
            let attribute = attribute.map_err(|error| attribute_fault(&error).at(self.place))?;
            if attribute.key.0 == name {
                return self.resolved(attribute.value).map(Some);
            }
        }
        Ok(None)
    }

    fn resolved<'v>(&self, value: Cow<'v, str>) -> Result<Cow<'v, str>, Fault> {
        if !value.contains('&') {
            return Ok(value);
        }
        let text = unescape(&value).map_err(|_| Why::Entity(entity_of(&value)).at(self.place))?;
        Ok(Cow::Owned(text.into_owned()))
    }

    /// The position that the attributes of a point give.
    pub(super) fn position(&self, of: &'static str) -> Result<Position, Fault> {
        let (mut lat, mut lon) = (None, None);
        for attribute in self.start.attributes() {
            let attribute = attribute.map_err(|error| attribute_fault(&error).at(self.place))?;
            match attribute.key.0 {
                "lat" => lat = Some(self.degrees("latitude", &attribute.value)?),
                "lon" => lon = Some(self.degrees("longitude", &attribute.value)?),
                _ => {}
            }
        }
        let missing = |what| Why::Missing { of, what }.at(self.place);
        let lat = lat.ok_or_else(|| missing("lat"))?;
        let lon = lon.ok_or_else(|| missing("lon"))?;
        Position::from_degrees(lat, lon).map_err(|error| Why::from(error).at(self.place))
    }

    fn degrees(&self, what: &'static str, value: &str) -> Result<f64, Fault> {
        let number = |text: &str| text.trim().parse::<f64>().ok();
        if let Some(degrees) = number(value) {
            return Ok(degrees);
        }
        let text = self.resolved(Cow::Borrowed(value))?;
        number(&text).ok_or_else(|| Why::Number { what, text: shown(&text) }.at(self.place))
    }

    /// The name as it stands, with its prefix.
    pub(super) fn name(&self) -> &str {
        self.start.name().into_inner()
    }
}

/// Goes into an element at a depth. Hardly any binds a namespace, so that most are not asked.
fn open_space(
    spaces: &mut NamespaceResolver,
    depth: usize,
    start: &BytesStart<'_>,
) -> Result<(), Why> {
    // What was bound in elements that have been closed goes; the depth is bounded.
    spaces.set_level(depth as u16 - 1);
    let attributes = start.attributes_raw();
    if attributes.as_bytes().contains(&b'x') && attributes.contains("xmlns") {
        spaces.push(start).map_err(|error| Why::Xml(shown(&error.to_string())))?;
    }
    Ok(())
}

fn element(space: &ResolveResult<'_>, name: &str) -> Element {
    match space {
        ResolveResult::Bound(Namespace(NAMESPACE | NAMESPACE_1_0)) | ResolveResult::Unbound => {
            Element::of_gpx(name)
        }
        ResolveResult::Bound(Namespace(OWN_NAMESPACE)) => Element::of_own(name),
        ResolveResult::Bound(_) | ResolveResult::Unknown(_) => Element::Foreign,
    }
}

fn attribute_fault(error: &AttrError) -> Why {
    Why::Xml(
        match error {
            AttrError::Duplicated(..) => "an attribute that is there twice",
            AttrError::UnquotedValue(_) | AttrError::ExpectedQuote(..) => {
                "an attribute whose value is not in quotes"
            }
            AttrError::ExpectedEq(_) | AttrError::ExpectedValue(_) => {
                "an attribute without a value"
            }
        }
        .to_owned(),
    )
}

/// What a reference in a text stands for.
fn referred<'x>(name: &BytesRef<'_>, place: Place) -> Result<Cow<'x, str>, Fault> {
    if let Some(text) = resolve_predefined_entity(name) {
        return Ok(Cow::Borrowed(text));
    }
    match name.resolve_char_ref() {
        Ok(Some(character)) => Ok(Cow::Owned(character.to_string())),
        _ => Err(Why::Entity(shown(name)).at(place)),
    }
}

/// The first reference in an attribute that XML itself does not resolve.
fn entity_of(value: &str) -> String {
    let names = value.split('&').skip(1).map(|rest| rest.split(';').next().unwrap_or_default());
    let unknown = |name: &&str| {
        resolve_predefined_entity(name).is_none()
            && !matches!(BytesRef::new(*name).resolve_char_ref(), Ok(Some(_)))
    };
    shown(names.into_iter().find(unknown).unwrap_or_default())
}

/// Whether the declaration says that the text is what it has been read as.
fn declared(said: &BytesDecl<'_>, place: Place) -> Result<(), Fault> {
    match said.encoding() {
        Some(Ok(encoding)) => {
            let known = ["utf-8", "utf8", "us-ascii"];
            if known.iter().any(|name| encoding.eq_ignore_ascii_case(name)) {
                return Ok(());
            }
            Err(Why::Encoding(shown(&encoding)).at(place))
        }
        _ => Ok(()),
    }
}

/// What an error of the reader means, and where it is.
fn fault<R: Read>(guard: &mut Guard<R>, error: &Error, place: Place) -> Fault {
    if let Some(why) = guard.why() {
        let at = if matches!(why, Why::Long { .. }) { place } else { guard.place() };
        return why.at(at);
    }
    match error {
        Error::Syntax(SyntaxError::InvalidBangMarkup) => {
            Why::Xml("markup that begins with <!".into())
        }
        Error::Syntax(_) => Why::Ends,
        Error::IllFormed(IllFormedError::MismatchedEndTag { expected, found }) => {
            let (expected, found) = (shown(expected), shown(found));
            Why::Xml(format!("</{found}> where </{expected}> should stand"))
        }
        Error::IllFormed(IllFormedError::UnmatchedEndTag(found)) => {
            Why::Xml(format!("</{}> closes nothing", shown(found)))
        }
        Error::IllFormed(IllFormedError::UnclosedReference) => {
            Why::Xml("an & without its name and semicolon; a plain one is written &amp;".into())
        }
        other => Why::Xml(shown(&other.to_string())),
    }
    .at(place)
}
