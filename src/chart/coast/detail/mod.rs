//! The shore at several levels of detail, so that drawing costs what is seen and not what is on file.
//!
//! Each level is a [`Coast`] of its own, made of some of the vertices of the full one. It keeps to
//! these rules, with its tolerance as the measure:
//!
//! - No shore moves by more than the tolerance: every place on a shore of the full coast lies
//!   within it of that shore in the level, and the other way round.
//! - Shores that do not cross or touch in the full coast do not do so in the level, and a ring that
//!   does not cross itself never comes to do so. So a strait, however narrow, stays open water.
//! - A ring that is at least twice the tolerance wide or high (in the next finer level) stays, if
//!   only as a triangle. Smaller islands thin out where they crowd: of those whose middles lie in
//!   one square of twice the tolerance, the largest stays, so that none vanishes but beside another.
//!   Smaller lakes are left out with the islands in them. [`Level::left_out`] counts them all.
//!
//! Tracing and measuring use the full coast alone.

mod level;
mod near;
mod small;
mod thin;

#[cfg(test)]
mod tests;

pub use level::{coarser, tolerances};

use std::sync::Arc;

use super::{Alone, Coast, Crew};

/// A coast of fewer vertices is drawn as it is.
const LEAST: usize = 1 << 16;

/// What part of the vertices of the level before a level may have, to be worth its room.
const WORTH: f64 = 0.75;

/// A level of detail.
#[derive(Debug, Clone, PartialEq)]
pub struct Level {
    /// How far its shores may lie from those of the full coast, in grid metres.
    pub tolerance: f64,
    /// How many small islands and lakes of the full coast are not in it.
    pub left_out: usize,
    /// Its shores.
    pub coast: Arc<Coast>,
}

/// The shore of a chart at all levels of detail.
#[derive(Debug, Clone, PartialEq)]
pub struct Shores {
    full: Arc<Coast>,
    /// The finest first.
    levels: Vec<Level>,
}

impl Shores {
    /// The shore with levels made before, in any order.
    #[must_use]
    pub fn new(full: Arc<Coast>, mut levels: Vec<Level>) -> Shores {
        levels.sort_by(|a, b| a.tolerance.total_cmp(&b.tolerance));
        Shores { full, levels }
    }

    /// The shore with levels made now: none for a small one, which is drawn as it is. Takes
    /// seconds for ten million vertices; nothing where `crew` breaks it off.
    #[must_use]
    pub fn made_by(full: Arc<Coast>, crew: &mut dyn Crew) -> Option<Shores> {
        let tolerances = tolerances(&full);
        let mut finer = Level { tolerance: 0.0, left_out: 0, coast: full.clone() };
        let mut levels = Vec::new();
        for tolerance in tolerances {
            let level = coarser(&finer, tolerance, crew)?;
            if (level.coast.vertices() as f64) < WORTH * finer.coast.vertices() as f64 {
                levels.push(level.clone());
                finer = level;
            }
        }
        Some(Shores { full, levels })
    }

    /// The same by the thread that asks, alone and to the end.
    #[must_use]
    pub fn of(full: Arc<Coast>) -> Shores {
        let alone = || Shores { full: full.clone(), levels: Vec::new() };
        Shores::made_by(full.clone(), &mut Alone).unwrap_or_else(alone)
    }

    /// The shore as given.
    #[must_use]
    pub fn full(&self) -> &Arc<Coast> {
        &self.full
    }

    /// The levels, the finest first.
    #[must_use]
    pub fn levels(&self) -> &[Level] {
        &self.levels
    }

    /// How far east the same place comes again on the plane, in grid metres: only a grid of the
    /// whole world goes round it.
    #[must_use]
    pub fn turn(&self) -> Option<f64> {
        let grid = self.full.grid();
        let east = nav::Position::from_degrees(0.0, 180.0).ok()?;
        let round = matches!(grid, nav::Grid::WorldMercator(_));
        round.then(|| Some(2.0 * grid.forward(east).ok()?.point.easting.as_metres()))?
    }

    /// The shore for a drawing whose dots are so many grid metres apart: the coarsest that moves
    /// nothing by more than half a dot.
    #[must_use]
    pub fn for_scale(&self, metres_per_dot: f64) -> &Coast {
        let fine = |level: &&Level| level.tolerance <= metres_per_dot / 2.0;
        self.levels.iter().rev().find(fine).map_or(&self.full, |level| &level.coast)
    }
}
