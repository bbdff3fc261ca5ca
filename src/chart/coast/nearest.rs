//! The shore nearest to a point.

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
}

impl Walker<'_> {
    /// As [`Coast::nearest`].
    pub fn nearest(&mut self, point: Point, reach: f64) -> Option<Near> {
        self.coast.nearest(point, reach)
    }
}

impl Coast {
    /// The place on the shore nearest to `point`, if there is one no farther than `reach` grid
    /// metres (infinity: however far).
    #[must_use]
    pub fn nearest(&self, point: Point, reach: f64) -> Option<Near> {
        let mut best = None;
        let mut least = f64::INFINITY;
        for run in self.all_runs() {
            for (side, ends) in run.sides() {
                let (part, square) = flat::foot(point, ends);
                if square < least || (best.is_none() && square <= least) {
                    (least, best) = (square, Some((run.line, side, part)));
                }
            }
        }
        let distance = least.sqrt();
        let (line, side, part) = best.filter(|_| distance <= reach)?;
        Some(Near { on: self.line(line)?.place(side, part), distance })
    }

    /// Follows a moving point.
    #[must_use]
    pub fn walker(&self) -> Walker<'_> {
        Walker { coast: self }
    }
}
