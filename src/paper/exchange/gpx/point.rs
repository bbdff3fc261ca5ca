//! A point of GPX that is no fix, and the texts that routes and tracks share with it.

use std::io;

use nav::Position;
use plan::Route;

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
    while let Some(element) = xml.child()? {
        reading.child(xml, element, left)?;
    }
    let (name, note) = reading.texts(left);
    Ok(ForeignPoint { at, name, note, own: reading.own_point })
}

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

    /// Name and note. The comment is the note, and the description where there is none.
    pub(super) fn texts(&mut self, left: &mut Left) -> (String, String) {
        let [name, comment, description] =
            [&mut self.name, &mut self.comment, &mut self.description].map(std::mem::take);
        if self.has_own_words() {
            return (name, comment);
        }
        if comment.is_empty() {
            return (name, description);
        }
        if !description.is_empty() && description != comment {
            left.count(Kind::Descriptions);
        }
        (name, comment)
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
