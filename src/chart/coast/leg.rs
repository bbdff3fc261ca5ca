//! A straight leg before the blocks of the tree: which it may meet, how soon, how near it comes.

use super::flat;
use super::runs::{Run, SHORT, Window};
use super::tree::{Block, FAN, down, up};
use crate::Point;

/// More than sums of products in `f32` can be wrong by, as a part of what is summed.
const WRONG: f32 = 1e-6;

/// A straight leg, and what is compared with the bounds in a block.
pub(super) struct Leg {
    pub(super) ends: [Point; 2],
    window: Window,
    /// The middle, between the next smaller and the next greater `f32`.
    low: [f32; 2],
    high: [f32; 2],
    /// From start to end.
    run: [f32; 2],
    square: f32,
}

/// The bounds of a child as the leg sees them: middle and half size, measured from the leg's own
/// middle.
struct Seen {
    middle: [f32; 2],
    half: [f32; 2],
}

impl Leg {
    /// The leg, if its ends are numbers.
    pub(super) fn new(a: Point, b: Point) -> Option<Leg> {
        let finite = [a.x, a.y, b.x, b.y].into_iter().all(f64::is_finite);
        let middle = Point { x: a.x / 2.0 + b.x / 2.0, y: a.y / 2.0 + b.y / 2.0 };
        let run = [(b.x - a.x) as f32, (b.y - a.y) as f32];
        finite.then(|| Leg {
            ends: [a, b],
            window: Window::new(
                Point { x: a.x.min(b.x), y: a.y.min(b.y) },
                Point { x: a.x.max(b.x), y: a.y.max(b.y) },
            ),
            low: [down(middle.x), down(middle.y)],
            high: [up(middle.x), up(middle.y)],
            run,
            square: run[0] * run[0] + run[1] * run[1],
        })
    }

    fn seen(&self, block: &Block, i: usize) -> Seen {
        let west = block.west[i] - self.high[0];
        let east = block.east[i] - self.low[0];
        let south = block.south[i] - self.high[1];
        let north = block.north[i] - self.low[1];
        Seen {
            middle: [(west + east) / 2.0, (south + north) / 2.0],
            half: [(east - west) / 2.0, (north - south) / 2.0],
        }
    }

    /// How far beside the line of the leg the bounds lie, times the leg's length: not above 0 when
    /// the line may meet them.
    fn beside(&self, seen: &Seen) -> f32 {
        let [dx, dy] = self.run;
        let (u, v) = (dx * seen.middle[1], dy * seen.middle[0]);
        let reach = dx.abs() * seen.half[1] + dy.abs() * seen.half[0];
        (u - v).abs() - reach - (u.abs() + v.abs() + reach) * WRONG
    }

    /// Whether the line of the leg may meet the bounds. Of a leg too long for `f32` nothing is
    /// known, and it may.
    fn is_on(&self, seen: &Seen) -> bool {
        let beside = self.beside(seen);
        beside <= 0.0 || beside.is_nan()
    }

    /// Which children the leg may meet.
    pub(super) fn meets(&self, block: &Block) -> [bool; FAN] {
        let near = self.window.meets(block);
        std::array::from_fn(|i| near[i] & self.is_on(&self.seen(block, i)))
    }

    /// How much of the leg lies at least before each child that it may meet; infinity for one that
    /// it does not.
    pub(super) fn before(&self, block: &Block) -> [f32; FAN] {
        let near = self.window.meets(block);
        std::array::from_fn(|i| {
            let seen = self.seen(block, i);
            if !(near[i] & self.is_on(&seen)) {
                return f32::INFINITY;
            }
            let [dx, dy] = self.run;
            let (u, v) = (dx * seen.middle[0], dy * seen.middle[1]);
            let reach = dx.abs() * seen.half[0] + dy.abs() * seen.half[1];
            let least = u + v - reach - (u.abs() + v.abs() + reach) * WRONG;
            // Of a leg without length nothing lies before anything; `max` passes over what is no
            // number.
            (least / self.square + 0.5 - WRONG).max(0.0)
        })
    }

    /// The squares of the distances to the children, never too great.
    pub(super) fn squares(&self, block: &Block) -> [f32; FAN] {
        let apart = self.window.squares(block);
        std::array::from_fn(|i| {
            let beside = self.beside(&self.seen(block, i)).max(0.0);
            apart[i].max(beside * beside / self.square * SHORT).min(f32::MAX)
        })
    }

    /// Hands the sides of a run that the leg may meet to `with`: all but those with both ends on
    /// one hand of it.
    pub(super) fn candidates(&self, run: &Run<'_>, mut with: impl FnMut(u32, [Point; 2])) {
        let [a, b] = self.ends;
        let (dx, dy) = (b.x - a.x, b.y - a.y);
        let hand = |p: Point| {
            let (u, v) = (dx * (p.y - a.y), dy * (p.x - a.x));
            let lost = (u.abs() + v.abs()) * flat::LOST;
            i8::from(u - v > lost) - i8::from(v - u > lost)
        };
        let Some((first, rest)) = run.points.split_first() else { return };
        let mut behind = (*first, hand(*first));
        for (side, point) in (run.first_side..).zip(rest) {
            let ahead = (*point, hand(*point));
            if behind.1 * ahead.1 != 1 {
                with(side, [behind.0, ahead.0]);
            }
            behind = ahead;
        }
    }
}
