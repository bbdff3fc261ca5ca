//! A point of GPX that is no fix, and the texts that routes and tracks share with it.

use std::io;
use std::ops::RangeInclusive;

use chart::clean::clean;
use nav::{Length, Position};
use plan::{Kept, Link, Route};

use super::element::Element;
use super::xml::Xml;
use crate::exchange::left::{Kind, Left};
use crate::exchange::{Fault, ForeignPoint, MOST_NAME, MOST_NOTE, Own, Why};

/// What is gathered of a point, a route or a track.
#[derive(Default)]
pub(super) struct Read {
    name: String,
    comment: String,
    description: String,
    pub(super) own_route: Option<Box<Route>>,
    own_point: Option<Box<Own>>,
    kept: Kept,
    /// Whether descriptions are this program's own words about what it writes: of no use here.
    own_words: bool,
    /// Whether it is the line of a route that this program wrote beside it.
    pub(super) own_line: bool,
}

/// A point whose tag has been opened.
pub(super) fn read<R: io::Read>(
    xml: &mut Xml<R>,
    at: Position,
    own_words: bool,
    left: &mut Left,
) -> Result<ForeignPoint, Fault> {
    let mut reading = Read::of(own_words);
    while let Some((element, address)) = xml.child_or_link()? {
        match (element, address) {
            (Element::Ele, _) => reading.height(xml, left)?,
            (Element::Sym, _) => reading.kept.symbol = text(xml, MOST_NAME, left)?,
            (Element::Type, _) => reading.kept.class = text(xml, MOST_NAME, left)?,
            (Element::Link, Some(address)) => reading.link(xml, &address, left)?,
            (other, _) => reading.child(xml, other, left)?,
        }
    }
    let (name, note, description) = reading.texts();
    let Read { mut kept, mut own_point, .. } = reading;
    kept.description = description;
    if let Some(Own::Facts(facts)) = own_point.as_deref_mut() {
        // The description is this program's own words about the point; what another said is among the facts.
        let own = facts.kept.take().map(|own| own.description);
        kept.description = own.unwrap_or_default();
    }
    Ok(ForeignPoint { at, name, note, kept: kept.some(), own: own_point })
}

/// The highest and the lowest that a point may lie, in metres.
const HEIGHTS: RangeInclusive<f64> = -12_000.0..=20_000.0;

/// The most links that are looked at.
const MOST_LINKS: usize = 100;

impl Read {
    /// Nothing yet.
    pub(super) fn of(own_words: bool) -> Read {
        Read { own_words, ..Read::default() }
    }

    /// Whether descriptions are this program's own words.
    pub(super) const fn has_own_words(&self) -> bool {
        self.own_words || self.own_route.is_some()
    }

    /// A child that has been opened.
    pub(super) fn child<R: io::Read>(
        &mut self,
        xml: &mut Xml<R>,
        element: Element,
        left: &mut Left,
    ) -> Result<(), Fault> {
        match element {
            Element::Name => self.name = text(xml, MOST_NAME, left)?,
            Element::Cmt => self.comment = text(xml, MOST_NOTE, left)?,
            Element::Desc => self.description = text(xml, MOST_NOTE, left)?,
            Element::Extensions => self.extensions(xml, left)?,
            other => Read::passed(xml, other, left)?,
        }
        Ok(())
    }

    /// Additions, of which this program knows its own.
    fn extensions<R: io::Read>(&mut self, xml: &mut Xml<R>, left: &mut Left) -> Result<(), Fault> {
        let mut foreign = false;
        while let Some(element) = xml.child()? {
            match element {
                Element::OwnRoute => self.own_route = Some(Box::new(own(xml, plan::format::read)?)),
                Element::OwnPoint => {
                    let facts = own(xml, plan::format::read_point)?;
                    self.own_point = Some(Box::new(Own::Facts(facts)));
                }
                Element::OwnBetween => {
                    self.own_point = Some(Box::new(Own::Between));
                    xml.skip()?;
                }
                Element::OwnLine => {
                    self.own_line = true;
                    xml.skip()?;
                }
                _ => {
                    foreign = true;
                    xml.skip()?;
                }
            }
        }
        if foreign {
            left.count(Kind::Extensions);
        }
        Ok(())
    }

    /// A height that has been opened; one that is none is left out.
    fn height<R: io::Read>(&mut self, xml: &mut Xml<R>, left: &mut Left) -> Result<(), Fault> {
        let metres = xml.text()?.0.parse().ok().filter(|metres| HEIGHTS.contains(metres));
        self.kept.height = metres.and_then(|metres| Length::from_metres(metres).ok());
        if self.kept.height.is_none() {
            left.count(Kind::Heights);
        }
        Ok(())
    }

    /// A link that has been opened.
    fn link<R: io::Read>(
        &mut self,
        xml: &mut Xml<R>,
        address: &str,
        left: &mut Left,
    ) -> Result<(), Fault> {
        let address = clean(address, MOST_NOTE);
        let mut link = Link { address, ..Link::default() };
        while let Some(element) = xml.child()? {
            match element {
                Element::Text => link.text = text(xml, MOST_NAME, left)?,
                Element::Type => link.kind = text(xml, MOST_NAME, left)?,
                other => Read::passed(xml, other, left)?,
            }
        }
        if link.address.is_empty() || self.kept.links.len() >= MOST_LINKS {
            left.count(Kind::Links);
        } else {
            self.kept.links.push(link);
        }
        Ok(())
    }

    /// Name and note; a description beside them is left out.
    pub(super) fn name_and_note(&mut self, left: &mut Left) -> (String, String) {
        let (name, note, description) = self.texts();
        if !description.is_empty() {
            left.count(Kind::Descriptions);
        }
        (name, note)
    }

    /// Name, note, and a description beside it that says something else. The comment is the note, and the description
    /// where there is none.
    fn texts(&mut self) -> (String, String, String) {
        let [name, comment, description] =
            [&mut self.name, &mut self.comment, &mut self.description].map(std::mem::take);
        if self.has_own_words() {
            return (name, comment, String::new());
        }
        if comment.is_empty() {
            return (name, description, String::new());
        }
        let other = if description == comment { String::new() } else { description };
        (name, comment, other)
    }
}

/// What this program wrote in the form of the route file.
fn own<R: io::Read, T>(
    xml: &mut Xml<R>,
    read: impl FnOnce(&str) -> Result<T, plan::format::FormatError>,
) -> Result<T, Fault> {
    let (text, place) = xml.text()?;
    read(text).map_err(|error| Why::Own(error.message).at(place))
}

/// The text of an element that has been opened, on one line and cleaned.
pub(super) fn text<R: io::Read>(
    xml: &mut Xml<R>,
    most: usize,
    left: &mut Left,
) -> Result<String, Fault> {
    let (text, _) = xml.text()?;
    Ok(crate::exchange::line(text, most, left))
}
