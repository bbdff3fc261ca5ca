//! Where a leg touches the shore.

use super::{Coast, ShorePoint, flat};
use crate::Point;

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

impl Coast {
    /// Whether the straight leg from `a` to `b` has a point in common with the shore: crosses it,
    /// runs along it, ends on it. Exact.
    #[must_use]
    pub fn touches(&self, a: Point, b: Point) -> bool {
        self.all_runs().any(|run| run.sides().any(|(_, side)| flat::meets([a, b], side)))
    }

    /// Where the straight leg from `a` to `b` first meets the shore, if it does at all. Whether it
    /// does is exact; the place is rounded, unless it is a vertex or an end of the leg.
    #[must_use]
    pub fn first_touch(&self, a: Point, b: Point) -> Option<Touch> {
        self.crossings(a, b).first().copied()
    }

    /// All places where the straight leg from `a` to `b` meets the shore, in the order in which
    /// the leg comes to them. Where it runs along a side, both ends of that stretch are among
    /// them; a vertex of two sides is there once.
    #[must_use]
    pub fn crossings(&self, a: Point, b: Point) -> Vec<Touch> {
        let mut found = Vec::new();
        for run in self.all_runs() {
            let Some(line) = self.line(run.line) else { continue };
            for (side, ends) in run.sides() {
                let meetings = flat::meetings([a, b], ends).into_iter().flatten();
                found.extend(meetings.map(|m| Touch {
                    fraction: m.fraction,
                    stretch: 0,
                    on: ShorePoint { at: m.at, ..line.place(side, m.part) },
                }));
            }
        }
        let key = |t: &Touch| (t.on.line, t.on.side);
        found.sort_by(|p, q| p.fraction.total_cmp(&q.fraction).then(key(p).cmp(&key(q))));
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
}
