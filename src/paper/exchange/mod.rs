//! Files that other tools read and write: GPX 1.1, GeoJSON (RFC 7946) and CSV.
//!
//! What is read becomes a [`Foreign`]: points, routes and tracks with their texts cleaned, and in words what
//! was left out. A file is trusted in nothing: every count, depth and length has a bound, and what is wrong is
//! a [`Fault`] with its line and column.

mod csv;
mod export;
mod fault;
mod form;
mod geojson;
pub mod gpx;
mod guard;
mod left;
mod moment;
pub mod record;
mod take;
mod thin;

#[cfg(test)]
mod tests;

use nav::Position;
use plan::track::Track;
use plan::{Kept, Route, Waypoint};

pub use export::{Export, With, Written};
pub use fault::{Fault, Place, Why};
pub use form::{Form, read};
use left::{Kind, Left};
pub use take::{TakeError, Taken, along_track, through};

/// The most points of routes and waypoints in one file. Fixes of tracks have a bound of their own,
/// [`Track::MOST`].
pub const MOST_POINTS: usize = 1_000_000;

/// The most characters that are kept of a name.
const MOST_NAME: usize = 400;

/// The most characters that are kept of a comment.
const MOST_NOTE: usize = 4_000;

/// What a foreign file holds.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Foreign {
    /// What it calls itself, or empty.
    pub title: String,
    /// The program that wrote it, or empty.
    pub creator: String,
    /// Points on their own.
    pub waypoints: Vec<ForeignPoint>,
    /// Points in order, to be followed.
    pub routes: Vec<ForeignRoute>,
    /// What receivers recorded.
    pub tracks: Vec<Track>,
    /// What the file holds and is not kept, or was taken otherwise than it stands, a sentence each.
    pub left_out: Vec<String>,
}

/// A route of a foreign file.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ForeignRoute {
    /// Its name, or empty.
    pub name: String,
    /// A word about it, or empty.
    pub note: String,
    /// Its points.
    pub points: Vec<ForeignPoint>,
    /// What this program wrote about the route as a whole when it wrote the file: a route without points.
    pub own: Option<Box<Route>>,
}

/// A point of a foreign file.
#[derive(Debug, Clone, PartialEq)]
pub struct ForeignPoint {
    /// Where it is.
    pub at: Position,
    /// Its name, or empty.
    pub name: String,
    /// A word about it, or empty.
    pub note: String,
    /// What else is said of it that a route keeps.
    pub kept: Option<Box<Kept>>,
    /// What this program wrote about the point when it wrote the file.
    pub own: Option<Box<Own>>,
}

/// What this program writes about a point beside its name, place and note.
#[derive(Debug, Clone, PartialEq)]
pub enum Own {
    /// It is a vertex of the traced leg to the next point that is none.
    Between,
    /// Its stop and how the leg to it runs; of its line only what is not in the points between.
    Facts(Waypoint),
}

impl ForeignPoint {
    /// A point without a word about it.
    #[must_use]
    pub const fn new(at: Position) -> ForeignPoint {
        ForeignPoint { at, name: String::new(), note: String::new(), kept: None, own: None }
    }
}

/// A foreign text on one line, cleaned and cut to `most` characters.
fn line(text: &str, most: usize, left: &mut Left) -> String {
    const BREAKS: [char; 3] = ['\n', '\r', '\t'];
    let line = if text.contains(BREAKS) {
        let parts = text.split(BREAKS).map(str::trim).filter(|part| !part.is_empty());
        parts.collect::<Vec<_>>().join(" ")
    } else {
        text.to_owned()
    };
    if line.trim().chars().count() > most {
        left.count(Kind::Cut);
    }
    chart::clean::clean(&line, most)
}
