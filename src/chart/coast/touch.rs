//! Where a leg touches the shore.

use super::leg::Leg;
use super::points::ROOM;
use super::tree::up;
use super::{Coast, LineId, ShorePoint, flat};
use crate::Point;
use std::ops::ControlFlow;

/// A place where a leg meets the shore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Touch {
    /// How much of the leg lies before it, from 0 to 1; of a leg through many points, of the
    /// stretch.
    pub fraction: f64,
    /// The stretch of the leg, counted from 0: always 0 for a straight leg.
    pub stretch: usize,
    /// The place on the shore; `on.at` is where the leg meets it.
    pub on: ShorePoint,
}

impl Touch {
    /// What comes first along a leg; of what comes at once, the first line and side.
    fn key(&self) -> (f64, LineId, u32) {
        (self.fraction, self.on.line, self.on.side)
    }
}

impl Coast {
    /// Whether the straight leg from `a` to `b` has a point in common with the shore: crosses it,
    /// runs along it, ends on it. Exact.
    #[must_use]
    pub fn touches(&self, a: Point, b: Point) -> bool {
        let Some(leg) = Leg::new(a, b) else { return false };
        let arrays = self.arrays();
        let mut room = ROOM;
        let walk = arrays.search.visit(
            |block| leg.meets(block),
            |index| {
                let run = arrays.run(index, &mut room);
                if leg.candidates(&run).any(|(_, side)| flat::meets(leg.ends, side)) {
                    ControlFlow::Break(())
                } else {
                    ControlFlow::Continue(())
                }
            },
        );
        walk.is_break()
    }

    /// Where the straight leg from `a` to `b` first meets the shore, if it does at all. Whether it
    /// does is exact; the place is rounded, unless it is a vertex or an end of the leg.
    #[must_use]
    pub fn first_touch(&self, a: Point, b: Point) -> Option<Touch> {
        let leg = Leg::new(a, b)?;
        let arrays = self.arrays();
        let mut room = ROOM;
        let mut first: Option<Touch> = None;
        arrays.search.best_first(
            1.0,
            |block, bound| leg.before(block, bound),
            |index| {
                let run = arrays.run(index, &mut room);
                for (side, ends) in leg.candidates(&run) {
                    for touch in self.touches_of(&leg, run.line, side, ends) {
                        if first.is_none_or(|first| touch.key() < first.key()) {
                            first = Some(touch);
                        }
                    }
                }
                first.map_or(1.0, |first| up(first.fraction))
            },
        );
        first
    }

    /// All places where the straight leg from `a` to `b` meets the shore, in the order in which
    /// the leg comes to them. Where it runs along a side, both ends of that stretch are among
    /// them; a vertex of two sides is there once.
    #[must_use]
    pub fn crossings(&self, a: Point, b: Point) -> Vec<Touch> {
        let mut found = Vec::new();
        let Some(leg) = Leg::new(a, b) else { return found };
        let arrays = self.arrays();
        let mut room = ROOM;
        // The walk is never broken off.
        let _ = arrays.search.visit(
            |block| leg.meets(block),
            |index| {
                let run = arrays.run(index, &mut room);
                for (side, ends) in leg.candidates(&run) {
                    found.extend(self.touches_of(&leg, run.line, side, ends));
                }
                ControlFlow::Continue(())
            },
        );
        found.sort_by(|p, q| {
            let rest = |t: &Touch| (t.on.line, t.on.side);
            p.fraction.total_cmp(&q.fraction).then(rest(p).cmp(&rest(q)))
        });
        found.dedup_by(|p, q| p.on == q.on);
        found
    }

    /// Where a leg through many points first meets the shore: the first stretch that does.
    #[must_use]
    pub fn first_touch_along(&self, points: &[Point]) -> Option<Touch> {
        let mut stretches = points.windows(2).enumerate();
        stretches.find_map(|(stretch, pair)| {
            self.first_touch(pair[0], pair[1]).map(|touch| Touch { stretch, ..touch })
        })
    }

    /// Where a leg meets one side.
    fn touches_of(
        &self,
        leg: &Leg,
        line: LineId,
        side: u32,
        ends: [Point; 2],
    ) -> impl Iterator<Item = Touch> + '_ {
        let meetings = flat::meetings(leg.ends, ends).into_iter().flatten();
        meetings.filter_map(move |m| {
            let place = self.line(line)?.place(side, m.part);
            Some(Touch { fraction: m.fraction, stretch: 0, on: ShorePoint { at: m.at, ..place } })
        })
    }
}
