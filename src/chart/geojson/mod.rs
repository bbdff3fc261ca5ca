//! Shores from GeoJSON ([RFC 7946](https://www.rfc-editor.org/rfc/rfc7946)).
//!
//! * A **polygon** is land within its outer ring, with lakes within its holes. Which way round
//!   its rings run does not matter. A ring that touches itself is cut there into rings that do not;
//!   one that crosses itself is refused, or left out or mended when that is asked for.
//! * A **line** is a piece of shore that encloses nothing, even where it closes: RFC 7946 gives a
//!   line no inside, and which side of a closed line is land is a custom of its makers. Closed
//!   lines are counted, so that the user can be told.
//! * **Points** are left out, and counted.
//! * Rings that a feature cuts at the antimeridian (RFC 7946, 3.1.9) are joined again where the two
//!   pieces match exactly, so that the cut is no shore.
//! * The name of a piece of land is its feature's property `name`, `Name` or `NAME`, cleaned; of
//!   several pieces in a feature the largest has it.
//! * Positions are longitude, latitude on WGS 84; a height is left out. On the chart's grid they are
//!   rounded to a centimetre.
//!
//! The file is read as a stream by a reader of our own: besides the shore itself only one feature is in memory, whether
//! the file is one line or many. What would take more than its share of memory ends in an error:
//! a text or number of more than a mebibyte, more than [`MOST_VERTICES`] vertices.

mod clip;
mod coordinates;
mod fault;
mod gather;
mod json;
mod number;
mod parse;
mod rings;
mod seam;
#[cfg(test)]
mod tests;

use std::fmt;
use std::io::Read;
use std::ops::ControlFlow;

pub(crate) use clip::{clipped, part_beyond};
pub(crate) use coordinates::Flat;
pub use fault::{Feature, ImportError, Why};
pub(crate) use gather::Gatherer;
pub(crate) use parse::{Geometry, Take};
pub(crate) use seam::joined;

use crate::clean::{NOTE, clean};
use crate::model::{Chart, Extent, Land, Point};
use json::Json;

/// The most vertices that a shore may have.
pub const MOST_VERTICES: usize = 4_000_000;

/// A shore on a chart's grid.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Shore {
    /// What polygons enclose.
    pub land: Vec<Land>,
    /// Lines, which enclose nothing.
    pub lines: Vec<Vec<Point>>,
}

/// What becomes of rings that are not closed or cross themselves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum BadRings {
    /// They are an error.
    #[default]
    Refuse,
    /// They are left out, and counted.
    LeaveOut,
    /// Those that cross themselves are cut where they cross, and pieces that then run against the
    /// whole are dropped: quantised coasts have such small twists. Others are an error.
    Mend,
}

/// How many things of a file are not in the shore, or not as one might think.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct LeftOut {
    /// Positions of points, which are no shore.
    pub points: usize,
    /// Geometries without positions.
    pub empty: usize,
    /// Rings and lines that vanish when they are rounded to a centimetre.
    pub small: usize,
    /// Rings that are not closed or cross themselves.
    pub bad: usize,
    /// Rings that crossed themselves and were cut there; these are in the shore.
    pub mended: usize,
    /// Lines that close but enclose nothing; these are in the shore.
    pub closed_lines: usize,
}

/// What is not in the shore, in words: `3 points, 1 empty geometry`.
impl fmt::Display for LeftOut {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let parts: Vec<String> = [
            (self.points, "point", "points"),
            (self.empty, "empty geometry", "empty geometries"),
            (self.small, "ring or line smaller than 1 cm", "rings or lines smaller than 1 cm"),
            (self.bad, "bad ring", "bad rings"),
        ]
        .into_iter()
        .filter(|(count, ..)| *count > 0)
        .map(|(count, one, many)| format!("{count} {}", if count == 1 { one } else { many }))
        .collect();
        f.write_str(if parts.is_empty() { "nothing" } else { "" })?;
        f.write_str(&parts.join(", "))
    }
}

/// What a file came to.
#[derive(Debug, Clone, PartialEq)]
pub struct Import {
    /// The shore.
    pub shore: Shore,
    /// What is not in it.
    pub left_out: LeftOut,
}

/// The shore in a GeoJSON file, on a grid.
///
/// `progress` is called every 256 KiB with the bytes read so far and may break the reading off.
///
/// # Errors
/// [`ImportError`] with the line and column at which the file stops to be a shore on that grid.
pub fn read(
    from: impl Read,
    grid: &nav::Grid,
    bad: BadRings,
    mut progress: impl FnMut(u64) -> ControlFlow<()>,
) -> Result<Import, ImportError> {
    let mut gatherer = Gatherer::new(grid, bad);
    let mut take = |name, geometries| gatherer.take(name, geometries);
    features(from, MOST_VERTICES, &mut progress, &mut take)?;
    gatherer.import().map_err(|why| ImportError { line: 1, column: 1, why })
}

/// Hands the features of a GeoJSON file to `take`, as they come; at most so many vertices.
pub(crate) fn features<'p>(
    from: impl Read,
    most_vertices: usize,
    progress: &'p mut (dyn FnMut(u64) -> ControlFlow<()> + 'p),
    take: &mut Take<'_>,
) -> Result<(), ImportError> {
    let json = Json::new(from, progress);
    parse::Parser { json, left: most_vertices, most: most_vertices, take }.document()
}

impl Import {
    /// A chart of the shore, which covers it with a margin.
    pub fn into_chart(self, grid: nav::Grid, title: &str, source: &str) -> Chart {
        let extent = self.shore.extent();
        Chart {
            title: clean(title, crate::clean::NAME),
            invented: false,
            source: clean(source, NOTE),
            grid,
            extent,
            land: self.shore.land,
            shorelines: self.shore.lines,
            drying: Vec::new(),
            depths: Vec::new(),
            landings: Vec::new(),
            hazards: Vec::new(),
            races: Vec::new(),
            gates: Vec::new(),
            places: Vec::new(),
            marks: Vec::new(),
            ports: Vec::new(),
            streams: Vec::new(),
        }
    }
}

impl Shore {
    /// Every point.
    fn points(&self) -> impl Iterator<Item = &Point> {
        let land = self.land.iter().flat_map(|land| &land.shore.0);
        land.chain(self.lines.iter().flatten())
    }

    /// Whole kilometres around everything, with at least half a kilometre to spare.
    fn extent(&self) -> Extent {
        const KILOMETRE: f64 = 1000.0;
        let (mut low, mut high) = match self.points().next() {
            Some(first) => (*first, *first),
            None => return Extent::new((0.0, 0.0), (KILOMETRE, KILOMETRE)),
        };
        for point in self.points() {
            low = Point { x: low.x.min(point.x), y: low.y.min(point.y) };
            high = Point { x: high.x.max(point.x), y: high.y.max(point.y) };
        }
        let down = |metres: f64| ((metres - KILOMETRE / 2.0) / KILOMETRE).floor() * KILOMETRE;
        let up = |metres: f64| ((metres + KILOMETRE / 2.0) / KILOMETRE).ceil() * KILOMETRE;
        Extent::new((down(low.x), down(low.y)), (up(high.x), up(high.y)))
    }
}
