//! A GPX file as a whole.

use std::io::Read;

use super::CREATOR;
use super::element::Element;
use super::point::{self, Read as Reading};
use super::track;
use super::xml::{Piece, Xml};
use crate::exchange::fault::shown;
use crate::exchange::left::{Kind, Left};
use crate::exchange::{Fault, Foreign, ForeignRoute, MOST_NAME, MOST_POINTS, Place, Why};

/// Everything in a file.
pub(super) fn read<R: Read>(mut xml: Xml<R>) -> Result<Foreign, Fault> {
    let mut file = Foreign::default();
    let mut left = Left::default();
    loop {
        let place = xml.place();
        match xml.next()? {
            Piece::Open(tag) if tag.element == Element::Gpx => {
                file.creator =
                    chart::clean::clean(&tag.attribute("creator")?.unwrap_or_default(), MOST_NAME);
                break;
            }
            Piece::Open(tag) => return Err(Why::Root(shown(tag.name())).at(tag.place)),
            Piece::Text(text) if !is_blank(&text) => {
                return Err(Why::Xml("text before the first <".into()).at(place));
            }
            Piece::End => return Err(Why::Ends.at(place)),
            _ => {}
        }
    }
    root(&mut xml, &mut file, &mut left)?;
    end(&mut xml)?;
    file.left_out = left.said();
    Ok(file)
}

/// White space, and the mark with which some programs begin a text.
fn is_blank(text: &str) -> bool {
    text.trim_start_matches('\u{feff}').trim().is_empty()
}

fn root<R: Read>(xml: &mut Xml<R>, file: &mut Foreign, left: &mut Left) -> Result<(), Fault> {
    let mut points = 0;
    let own_words = file.creator == CREATOR;
    while let Some((element, place, at)) = xml.child_or(Element::Wpt, "a wpt")? {
        match (element, at) {
            (_, Some(at)) => {
                counted(&mut points, place)?;
                file.waypoints.push(point::read(xml, at, false, left)?);
            }
            (Element::Metadata, _) => metadata(xml, file, left)?,
            (Element::Name, _) => file.title = point::text(xml, MOST_NAME, left)?,
            // What has no points is nothing to choose.
            (Element::Rte, _) => {
                let route = route(xml, own_words, &mut points, left)?;
                file.routes.extend(Some(route).filter(|route| !route.points.is_empty()));
            }
            (Element::Trk, _) => {
                let track = track::read(xml, left)?;
                file.tracks.extend(track.filter(|track| !track.fixes().is_empty()));
            }
            (Element::Time | Element::Derived, _) => xml.skip()?,
            (other, _) => Reading::passed(xml, other, left)?,
        }
    }
    Ok(())
}

fn counted(points: &mut usize, place: Place) -> Result<(), Fault> {
    *points += 1;
    if *points > MOST_POINTS {
        return Err(Why::Many { what: "points", most: MOST_POINTS }.at(place));
    }
    Ok(())
}

fn metadata<R: Read>(xml: &mut Xml<R>, file: &mut Foreign, left: &mut Left) -> Result<(), Fault> {
    while let Some(element) = xml.child()? {
        match element {
            Element::Name => file.title = point::text(xml, MOST_NAME, left)?,
            Element::Time | Element::Derived => xml.skip()?,
            Element::Desc if file.creator == CREATOR => xml.skip()?,
            Element::Desc => Reading::passed(xml, Element::About, left)?,
            other => Reading::passed(xml, other, left)?,
        }
    }
    Ok(())
}

fn route<R: Read>(
    xml: &mut Xml<R>,
    own_words: bool,
    points: &mut usize,
    left: &mut Left,
) -> Result<ForeignRoute, Fault> {
    let mut route = ForeignRoute::default();
    let mut reading = Reading::of(own_words);
    while let Some((element, place, at)) = xml.child_or(Element::Rtept, "an rtept")? {
        match at {
            Some(at) => {
                counted(points, place)?;
                route.points.push(point::read(xml, at, reading.has_own_words(), left)?);
            }
            None => reading.child(xml, element, left)?,
        }
    }
    (route.name, route.note) = reading.name_and_note(left);
    route.own = reading.own_route;
    Ok(route)
}

/// Holds that nothing follows the root.
fn end<R: Read>(xml: &mut Xml<R>) -> Result<(), Fault> {
    loop {
        let place = xml.place();
        match xml.next()? {
            Piece::End => return Ok(()),
            Piece::Open(_) => return Err(Why::Follows.at(place)),
            Piece::Text(text) if !is_blank(&text) => return Err(Why::Follows.at(place)),
            _ => {}
        }
    }
}

impl Reading {
    /// Passes over an element that is not kept.
    pub(super) fn passed<R: Read>(
        xml: &mut Xml<R>,
        element: Element,
        left: &mut Left,
    ) -> Result<(), Fault> {
        left.count(match element {
            Element::Ele => Kind::Heights,
            Element::Time => Kind::Times,
            Element::Link => Kind::Links,
            Element::Class | Element::Type | Element::Sym => Kind::Classes,
            Element::Quality => Kind::Qualities,
            Element::Name | Element::Cmt | Element::Desc => Kind::FixTexts,
            Element::About => Kind::About,
            Element::Extensions | Element::Foreign => Kind::Extensions,
            _ => Kind::Unknown,
        });
        xml.skip()
    }
}
