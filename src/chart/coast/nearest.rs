//! The shore nearest to a point.

use super::points::{ROOM, Room};
use super::runs::{Arrays, Run, Window, within};
use super::tree::up;
use super::{Coast, ShorePoint, flat};
use crate::Point;

/// The nearest place on the shore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Near {
    /// The place. Of several at one distance, that of the first line, and on it of the first side.
    pub on: ShorePoint,
    /// How far it is, in grid metres.
    pub distance: f64,
}

/// Asks for the nearest shore again and again as a point moves: quick when each point is near the
/// one before. The answers are those of [`Coast::nearest`].
#[derive(Debug, Clone)]
pub struct Walker<'a> {
    coast: &'a Coast,
    /// Where the last answer was found.
    run: Option<usize>,
}

impl Walker<'_> {
    /// As [`Coast::nearest`].
    pub fn nearest(&mut self, point: Point, reach: f64) -> Option<Near> {
        let best = self.coast.best(point, reach, self.run)?;
        self.run = Some(best.run);
        self.coast.near(best)
    }
}

impl Coast {
    /// The place on the shore nearest to `point`, what closes a ring along the edge of the plane left
    /// out, if there is one no farther than `reach` grid
    /// metres (infinity: however far).
    #[must_use]
    pub fn nearest(&self, point: Point, reach: f64) -> Option<Near> {
        self.near(self.best(point, reach, None)?)
    }

    /// Follows a moving point.
    #[must_use]
    pub fn walker(&self) -> Walker<'_> {
        Walker { coast: self, run: None }
    }

    /// The best side, beginning with the run `first`, which is likely to be near.
    fn best(&self, point: Point, reach: f64, first: Option<usize>) -> Option<Best> {
        if !(point.x.is_finite() && point.y.is_finite() && reach >= 0.0) {
            return None;
        }
        let arrays = self.arrays();
        let from = Window::new(point, point);
        let mut room = ROOM;
        // A foot is rounded, so that one at the reach may seem to lie beyond it: the distance as it
        // is told decides, at the end.
        let mut best = Best { square: reach * reach * (1.0 + 1e-12), ..Best::NONE };
        if let Some(first) = first.filter(|run| *run < arrays.runs.len()) {
            best.look(point, &arrays, first, &mut room);
        }
        arrays.search.best_first(
            up(best.square),
            |block, bound| within(from.squares(block), bound),
            |run| {
                if Some(run) != first {
                    best.look(point, &arrays, run, &mut room);
                }
                up(best.square)
            },
        );
        (best.run != usize::MAX && best.square.sqrt() <= reach).then_some(best)
    }

    fn near(&self, best: Best) -> Option<Near> {
        let line = self.line(super::LineId(self.runs.get(best.run)?.line))?;
        let distance = best.square.sqrt();
        Some(Near { on: line.place(best.side, best.part), distance })
    }
}

/// The nearest side so far.
#[derive(Debug, Clone, Copy)]
struct Best {
    square: f64,
    run: usize,
    side: u32,
    part: f64,
}

impl Best {
    const NONE: Best = Best { square: f64::INFINITY, run: usize::MAX, side: 0, part: 0.0 };

    /// Compares with the sides of a run.
    fn look(&mut self, point: Point, arrays: &Arrays<'_>, index: usize, room: &mut Room) {
        let run = arrays.run(index, room);
        nearest_side(point, &run, self.square, |side, part, square| {
            // Runs are numbered by line and side, so that the first of equals is the same however
            // the search came to it.
            let ends = || {
                let first = (side - run.first_side) as usize;
                [run.points[first], run.points[first + 1]]
            };
            if (square, index, side) < (self.square, self.run, self.side)
                && !arrays.rim.is_some_and(|rim| rim.closes(ends()))
            {
                *self = Best { square, run: index, side, part };
            }
            self.square
        });
    }
}

/// Hands the sides that may be no farther from `point` than the root of `bound` to `found`, with
/// the part at the foot and the square of the distance; it returns the bound from then on.
pub(super) fn nearest_side(
    point: Point,
    run: &Run<'_>,
    mut bound: f64,
    mut found: impl FnMut(u32, f64, f64) -> f64,
) {
    for (side, ends) in run.sides() {
        if flat::may_be_near(point, ends, bound) {
            let (part, square) = flat::foot(point, ends);
            bound = found(side, part, square);
        }
    }
}
