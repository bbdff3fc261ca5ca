//! The shore of a chart at one level of detail, indexed.
//!
//! A [`Coast`] holds lines: rings of land, rings of lakes, and shores that are open at both ends.
//! Everything lies on the plane of the chart's own grid ([`Point`](crate::Point), metres on the grid), and every
//! answer is about the shore as given, its vertices joined by straight sides on that plane.
//! Distances on the plane are **grid metres**; along a line there are also ground lengths, by
//! geodesics on the ellipsoid.

mod ashore;
mod build;
mod cells;
mod clearance;
mod crew;
pub mod detail;
pub mod file;
mod flat;
mod ground;
mod leg;
mod line;
mod nearest;
mod order;
mod parts;
mod place;
mod points;
pub mod rhumb;
mod rim;
mod runs;
mod search;
mod slab;
mod touch;
mod tree;

#[cfg(test)]
mod tests;

pub use ashore::Ashore;
pub use build::Builder;
pub use clearance::Clearance;
pub use crew::{Alone, Crew};
pub use line::{Line, LineId, LineKind};
pub use nearest::{Near, Walker};
pub use place::ShorePoint;
pub use points::{Scale, Ticks};
pub use runs::Run;
pub use slab::{SharedBytes, Slab, SlabError};
pub use touch::Touch;

use crate::Chart;
use cells::Cells;
pub(crate) use flat::hand;
use line::LineRecord;
use points::Points;
pub(crate) use rim::Rim;
use runs::RunRecord;
use tree::{Block, Levels};

/// The [`feature`](Line::feature) of lines that are there a second time, to be drawn and kept clear
/// of: what of a shore lies beyond the 180th meridian, on its other side. They are not measured.
pub const AGAIN: u32 = u32::MAX;

/// The most sides in a [`Run`].
pub const RUN: usize = 16;

/// The shore at one level of detail, indexed. It is made once and never changes; share it in an
/// `Arc`.
#[derive(Debug, Clone, PartialEq)]
pub struct Coast {
    grid: nav::Grid,
    points: Points,
    lines: Slab<LineRecord>,
    names: Slab<u8>,
    runs: Slab<RunRecord>,
    tree: Slab<Block>,
    levels: Levels,
    cells: Cells,
}

impl Coast {
    /// The shore of `chart`: its land, the lakes in it, and its open shorelines. Lines beyond
    /// four thousand million vertices are left out.
    #[must_use]
    pub fn of(chart: &Chart) -> Coast {
        let mut builder = Builder::new(chart.grid.clone());
        for (feature, land) in (0..).zip(&chart.land) {
            builder.line(LineKind::Land, feature, &land.name, land.shore.0.iter().copied());
            for lake in &land.lakes {
                builder.line(LineKind::Lake, feature, "", lake.0.iter().copied());
            }
        }
        for (feature, line) in (0..).zip(&chart.shorelines) {
            builder.line(LineKind::Open, feature, "", line.iter().copied());
        }
        builder.finish()
    }

    /// No shore.
    fn nothing(grid: nav::Grid) -> Coast {
        Coast {
            grid,
            points: Points::Exact(Vec::new()),
            lines: Slab::default(),
            names: Slab::default(),
            runs: Slab::default(),
            tree: Slab::default(),
            levels: Levels::over(0),
            cells: Cells::default(),
        }
    }

    /// The grid on whose plane the shore lies.
    #[must_use]
    pub fn grid(&self) -> &nav::Grid {
        &self.grid
    }

    /// All lines. Their order is the coast's own, not that of the chart: neighbours on the plane
    /// tend to be neighbours in it.
    pub fn lines(&self) -> impl ExactSizeIterator<Item = Line<'_>> {
        (0..self.lines.len()).map(|index| Line::new(self, LineId(index as u32)))
    }

    /// The line of that number, if there is one.
    #[must_use]
    pub fn line(&self, id: LineId) -> Option<Line<'_>> {
        self.lines.get(id.0 as usize).map(|_| Line::new(self, id))
    }

    /// How many vertices all lines have; the repeated first one of a closed line is not counted.
    #[must_use]
    pub fn vertices(&self) -> usize {
        self.lines().map(|line| line.vertices() as usize).sum()
    }

    /// Whether there is no shore at all.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.lines.is_empty()
    }
}
