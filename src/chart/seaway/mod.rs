//! Ways by water: how one comes from a place to another round the land.
//!
//! A [`Seaway`] knows the shore in square cells and looks for a way from cell to cell; what it finds is then drawn tight
//! about the shore's own vertices, like a thread. What comes out is a line that never crosses the shore and that no small
//! change makes shorter.
//!
//! **How good it is.** Of ways that lead round islands on different hands, that is taken which is the shorter from cell to
//! cell: it may be longer than the shortest by [`DETOUR`] of it. A strait narrower than a cell ([`CELL`]) may be passed
//! by, and so may be one on whose other side there is no room for a cell's middle: then the way is longer, never shorter.
//! Nothing is known of depth: ground that dries counts as water.
//!
//! Everything lies on the plane of the coast's grid; lengths are grid metres.

mod cells;
mod search;
mod taut;

#[cfg(test)]
mod tests;

use crate::coast::Coast;
use crate::{Extent, Point};
use cells::Cells;
use search::Field;

/// How wide a cell is, in metres, while there are no more than four million of them.
pub const CELL: f64 = 25.0;

/// By how much of itself the shortest way may be shorter than the one that is found, where another leads round some land
/// on its other hand: steps from cell to cell go in sixteen directions, and lie off the straight by no more.
pub const DETOUR: f64 = 0.028;

/// So near to the shore, in metres, a place on land is still one that a boat comes to.
pub const BEACH: f64 = 60.0;

/// Looks for ways by water on the shore of a coast within an extent.
#[derive(Debug)]
pub struct Seaway<'a> {
    coast: &'a Coast,
    cells: Cells,
    /// Cells of which it is known that they hang together with nothing but each other.
    closed: Vec<Field>,
}

impl<'a> Seaway<'a> {
    /// Ways within `extent`: none is found that leaves it.
    #[must_use]
    pub fn new(coast: &'a Coast, extent: Extent) -> Seaway<'a> {
        Seaway { coast, cells: Cells::of(coast, extent), closed: Vec::new() }
    }

    /// The place itself where it lies on the water; where it lies on the shore, or on land no farther than [`BEACH`] from
    /// it, water off the shore there; else nothing.
    #[must_use]
    pub fn afloat(&self, at: Point) -> Option<Point> {
        if !self.coast.on_land(at) && self.coast.nearest(at, 0.1).is_none() {
            return Some(at);
        }
        let shore = self.coast.nearest(at, BEACH)?.on.at;
        let turns = (0..16u8).map(|turn| f64::from(turn) * std::f64::consts::TAU / 16.0);
        let around = [0.5, 4.0, 15.0].into_iter().flat_map(|off| {
            turns.clone().map(move |turn| Point {
                x: shore.x + off * turn.sin(),
                y: shore.y + off * turn.cos(),
            })
        });
        around.into_iter().find(|spot| !self.coast.on_land(*spot))
    }

    /// The short way by water from one of some places to another, all [`afloat`](Self::afloat): its corners, both ends
    /// included. Nothing where none is found within the extent, or none that is shorter than `most` metres.
    pub fn way(&mut self, from: &[Point], to: Point, most: f64) -> Option<Vec<Point>> {
        let direct = |from: &&Point| !self.coast.touches(**from, to);
        let away = |from: &Point| (to.x - from.x).hypot(to.y - from.y);
        let near = from.iter().min_by(|a, b| away(a).total_cmp(&away(b)))?;
        if direct(&near) {
            return (away(near) < most).then(|| vec![*near, to]);
        }
        let found = search::way(self.coast, &self.cells, &self.closed, (from, to), most);
        match found {
            Ok(steps) => Some(taut::pulled(self.coast, steps)),
            Err(closed) => {
                self.closed.extend(closed);
                None
            }
        }
    }
}
