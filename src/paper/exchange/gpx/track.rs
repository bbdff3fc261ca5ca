//! A track of GPX: by far the most of what is in a file, so that its fixes are read without a detour.

use std::io;

use jiff::Timestamp;
use plan::track::{Fix, Track};

use super::element::Element;
use super::point::Read;
use super::xml::Xml;
use crate::exchange::fault::shown;
use crate::exchange::left::Left;
use crate::exchange::{Fault, Why, moment};

/// A track whose tag has been opened; nothing if it is the line of a route that this program wrote beside it.
pub(super) fn read<R: io::Read>(xml: &mut Xml<R>, left: &mut Left) -> Result<Option<Track>, Fault> {
    let mut track = Track::default();
    let mut reading = Read::default();
    while let Some(element) = xml.child()? {
        match element {
            Element::Trkseg => segment(xml, &mut track, left)?,
            other => reading.child(xml, other, left)?,
        }
    }
    track.rename(&reading.name_and_note(left).0);
    Ok((!reading.own_line).then_some(track))
}

fn segment<R: io::Read>(xml: &mut Xml<R>, track: &mut Track, left: &mut Left) -> Result<(), Fault> {
    track.begin_segment();
    while let Some((element, place, at)) = xml.child_or(Element::Trkpt, "a trkpt")? {
        match at {
            Some(at) => {
                let fix = Fix::new(at, fix(xml, left)?);
                let many = |_| Why::Many { what: "fixes in a track", most: Track::MOST };
                track.push(fix).map_err(|error| many(error).at(place))?;
            }
            None => Read::passed(xml, element, left)?,
        }
    }
    Ok(())
}

/// When a fix whose tag has been opened was taken.
fn fix<R: io::Read>(xml: &mut Xml<R>, left: &mut Left) -> Result<Option<Timestamp>, Fault> {
    let mut when = None;
    while let Some(element) = xml.child()? {
        match element {
            Element::Time => {
                let (text, place) = xml.text()?;
                let read = moment::parse(text).ok_or_else(|| Why::Time(shown(text)).at(place))?;
                left.zone(read.1);
                when = Some(read.0);
            }
            other => Read::passed(xml, other, left)?,
        }
    }
    Ok(when)
}
