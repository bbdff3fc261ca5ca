//! A straight leg before the blocks of the tree: which it may meet, how soon, how near it comes.

use super::flat;
use super::runs::{Run, SHORT, Window, larger, smaller};
use super::tree::{Block, FAN, Some16, down, up};
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
    pub(super) fn meets(&self, block: &Block) -> Some16 {
        // Few are left to look at closely.
        self.window.meets(block).and(|i| self.is_on(&self.seen(block, i)))
    }

    /// Which children the leg may meet before the part `bound` of it is behind, and how much of it
    /// lies at least before each of them.
    pub(super) fn before(&self, block: &Block, bound: f32) -> (Some16, [f32; FAN]) {
        let mut parts = [0.0; FAN];
        let near = self.meets(block);
        for i in near {
            let seen = self.seen(block, i);
            let [dx, dy] = self.run;
            let (u, v) = (dx * seen.middle[0], dy * seen.middle[1]);
            let reach = dx.abs() * seen.half[0] + dy.abs() * seen.half[1];
            let least = u + v - reach - (u.abs() + v.abs() + reach) * WRONG;
            // Of a leg without length nothing lies before anything: what is no number counts as 0.
            parts[i] = larger(least / self.square + 0.5 - WRONG, 0.0);
        }
        (near.and(|i| parts[i] <= bound), parts)
    }

    /// Which children may be no farther than the root of `bound`, and the squares of the distances
    /// to them, never too great.
    pub(super) fn squares(&self, block: &Block, bound: f32) -> (Some16, [f32; FAN]) {
        let mut squares = self.window.squares(block);
        let near = Some16::of(|i| squares[i] <= bound);
        for i in near {
            let beside = larger(self.beside(&self.seen(block, i)), 0.0);
            let square = larger(beside * beside / self.square * SHORT, squares[i]);
            squares[i] = smaller(square, f32::MAX);
        }
        (near.and(|i| squares[i] <= bound), squares)
    }

    /// The sides of a run that the leg may meet: all but those with both ends on one hand of it.
    pub(super) fn candidates<'r>(
        &self,
        run: &Run<'r>,
    ) -> impl Iterator<Item = (u32, [Point; 2])> + use<'r> {
        let [a, b] = self.ends;
        let points = run.points;
        let mut behind = points.first().map_or(0, |p| flat::rough_hand(a, b, *p));
        (run.first_side..).zip(points.windows(2)).filter_map(move |(side, ends)| {
            let ahead = flat::rough_hand(a, b, ends[1]);
            let may = behind * ahead != 1;
            behind = ahead;
            may.then(|| (side, [ends[0], ends[1]]))
        })
    }
}
