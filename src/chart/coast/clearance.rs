//! How close a leg comes to the shore.

use super::{Coast, ShorePoint, flat};
use crate::Point;

/// How close a leg comes to the shore, and where.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Clearance {
    /// The least distance, in grid metres; 0 where they meet.
    pub distance: f64,
    /// How much of the leg lies before the place, from 0 to 1.
    pub fraction: f64,
    /// The place on the leg.
    pub at_leg: Point,
    /// The place on the shore.
    pub on: ShorePoint,
}

impl Coast {
    /// How close the straight leg from `a` to `b` comes to the shore, if that is no farther than
    /// `reach` grid metres (infinity: however far). Of several places at one distance, the first
    /// along the leg.
    #[must_use]
    pub fn clearance(&self, a: Point, b: Point, reach: f64) -> Option<Clearance> {
        if let Some(touch) = self.first_touch(a, b).filter(|_| reach >= 0.0) {
            let (fraction, at_leg) = (touch.fraction, touch.on.at);
            return Some(Clearance { distance: 0.0, fraction, at_leg, on: touch.on });
        }
        let mut best: Option<(f64, f64, ShorePoint)> = None;
        for run in self.all_runs() {
            let Some(line) = self.line(run.line) else { continue };
            for (side, [s, e]) in run.sides() {
                let from_leg = [(a, 0.0), (b, 1.0)].map(|(p, fraction)| {
                    let (part, square) = flat::foot(p, [s, e]);
                    (square, fraction, part)
                });
                let from_side = [(s, 0.0), (e, 1.0)].map(|(p, part)| {
                    let (fraction, square) = flat::foot(p, [a, b]);
                    (square, fraction, part)
                });
                for (square, fraction, part) in from_leg.into_iter().chain(from_side) {
                    if best.is_none_or(|(s, f, _)| (square, fraction) < (s, f)) {
                        best = Some((square, fraction, line.place(side, part)));
                    }
                }
            }
        }
        let (square, fraction, on) = best?;
        let distance = square.sqrt();
        let at_leg = if fraction == 1.0 { b } else { a + (b - a) * fraction };
        (distance <= reach).then_some(Clearance { distance, fraction, at_leg, on })
    }
}
