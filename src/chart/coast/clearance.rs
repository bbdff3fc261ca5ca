//! How close a leg comes to the shore.

use super::leg::Leg;
use super::nearest::nearest_side;
use super::points::ROOM;
use super::runs::Run;
use super::tree::up;
use super::{Coast, LineId, ShorePoint, flat};
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
        let leg = Leg::new(a, b).filter(|_| reach >= 0.0)?;
        if let Some(touch) = self.first_touch(a, b) {
            let (fraction, at_leg) = (touch.fraction, touch.on.at);
            return Some(Clearance { distance: 0.0, fraction, at_leg, on: touch.on });
        }
        let arrays = self.arrays();
        let mut room = ROOM;
        let mut best = Closest { square: reach * reach * (1.0 + 1e-12), ..Closest::NONE };
        arrays.search.best_first(
            up(best.square),
            |block, bound| leg.squares(block, bound),
            |index| {
                best.look(&leg, &arrays.run(index, &mut room));
                up(best.square)
            },
        );
        let distance = best.square.sqrt();
        let line = self.line(best.line).filter(|_| distance <= reach)?;
        let on = line.place(best.side, best.part);
        let at_leg = flat::along([a, b], best.fraction);
        Some(Clearance { distance, fraction: best.fraction, at_leg, on })
    }
}

/// The closest that leg and shore come, so far.
#[derive(Debug, Clone, Copy)]
struct Closest {
    square: f64,
    fraction: f64,
    line: LineId,
    side: u32,
    part: f64,
}

impl Closest {
    const NONE: Closest = Closest {
        square: f64::INFINITY,
        fraction: f64::INFINITY,
        line: LineId(u32::MAX),
        side: 0,
        part: 0.0,
    };

    /// Compares with the sides of a run. Where leg and side do not meet, an end of one of them is
    /// closest to the other.
    fn look(&mut self, leg: &Leg, run: &Run<'_>) {
        for (end, fraction) in leg.ends.into_iter().zip([0.0, 1.0]) {
            nearest_side(end, run, self.square, |side, part, square| {
                self.offer(Closest { square, fraction, line: run.line, side, part });
                self.square
            });
        }
        let last = run.points.len().saturating_sub(2) as u32;
        for (index, point) in (0..).zip(run.points) {
            if !flat::may_be_near(*point, leg.ends, self.square) {
                continue;
            }
            let (fraction, square) = flat::foot(*point, leg.ends);
            // The last vertex ends a side, all others begin one.
            let (side, part) = if index > last { (last, 1.0) } else { (index, 0.0) };
            let side = run.first_side + side;
            self.offer(Closest { square, fraction, line: run.line, side, part });
        }
    }

    fn offer(&mut self, new: Closest) {
        let key = |c: &Closest| (c.square, c.fraction, c.line, c.side);
        if key(&new) < key(self) {
            *self = new;
        }
    }
}
