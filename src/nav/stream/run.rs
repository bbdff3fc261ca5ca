//! A stream over a stretch of time.

use jiff::Timestamp;

use crate::angle::sin_cos_degrees;
use crate::moment::timestamp;
use crate::triangle::Stream;
use crate::{Bearing, Speed, True};

/// A stream as a vector: east and north, in metres per second.
pub(crate) type Vector = (f64, f64);

/// The vector of a stream.
pub(crate) fn vector(set: Bearing<True>, metres_per_second: f64) -> Vector {
    let (sin, cos) = sin_cos_degrees(set.as_degrees());
    (metres_per_second * sin, metres_per_second * cos)
}

/// The stream of a vector.
pub(crate) fn stream((east, north): Vector) -> Stream {
    Stream {
        // Of no direction at all where it is still; north then.
        set: Bearing::wrapped(east.atan2(north).to_degrees()),
        drift: Speed::metres_per_second(east.hypot(north)),
    }
}

pub(super) fn dot(a: Vector, b: Vector) -> f64 {
    a.0 * b.0 + a.1 * b.1
}

pub(crate) fn toward(a: Vector, b: Vector, part: f64) -> Vector {
    (a.0 + (b.0 - a.0) * part, a.1 + (b.1 - a.1) * part)
}

/// An instant in seconds from 1970, and the stream then.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Knot {
    pub(crate) at: f64,
    pub(crate) flow: Vector,
}

/// A stream over a stretch of time: vectors at knots, and straight lines between them.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// In order of time.
    pub(super) knots: Vec<Knot>,
}

/// A stretch of time in which the stream is under a limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Under {
    /// Its beginning, or that of the run.
    pub from: Timestamp,
    /// Its end, or that of the run.
    pub to: Timestamp,
    /// When it runs least.
    pub least_at: Timestamp,
    /// How fast then.
    pub least: Speed,
}

/// A turn of the stream.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StreamTurn {
    /// When.
    pub at: Timestamp,
    /// The way along the main axis that it runs from then on.
    pub then: Bearing<True>,
}

/// The greatest rate between two turns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Greatest {
    /// When.
    pub at: Timestamp,
    /// The stream then.
    pub stream: Stream,
}

impl Run {
    pub(crate) fn new(knots: Vec<Knot>) -> Run {
        debug_assert!(knots.windows(2).all(|pair| pair[0].at < pair[1].at), "knots rise");
        Run { knots }
    }

    /// Its knots, in order of time.
    pub(crate) fn knots(&self) -> &[Knot] {
        &self.knots
    }

    /// The number of the first knot later than `since` seconds after `origin`, in seconds from 1970.
    ///
    /// Knots mostly lie at even distances: where they do, the first guess is right.
    pub(crate) fn next_after(&self, origin: f64, since: f64) -> usize {
        let later = |knot: &Knot| knot.at - origin > since;
        if let (Some(first), Some(last)) = (self.knots.first(), self.knots.last()) {
            let part = (since - (first.at - origin)) / (last.at - first.at);
            // Numbers that are none, or less than none, are none as an index.
            let guess = (part * (self.knots.len() - 1) as f64) as usize;
            if let Some([before, after]) = self.knots.get(guess..guess.saturating_add(2))
                && !later(before)
                && later(after)
            {
                return guess + 1;
            }
        }
        self.knots.partition_point(|knot| !later(knot))
    }

    /// When it begins; nothing of an empty run.
    pub fn start(&self) -> Option<Timestamp> {
        self.knots.first().map(|knot| timestamp(knot.at))
    }

    /// When it ends; nothing of an empty run.
    pub fn end(&self) -> Option<Timestamp> {
        self.knots.last().map(|knot| timestamp(knot.at))
    }

    /// The stream at an instant; nothing outside the run's time.
    pub fn at(&self, at: Timestamp) -> Option<Stream> {
        self.flow(at.as_duration().as_secs_f64()).map(stream)
    }

    /// The vector at an instant in seconds from 1970; nothing outside the run's time.
    fn flow(&self, at: f64) -> Option<Vector> {
        let next = self.knots.partition_point(|knot| knot.at < at);
        let after = self.knots.get(next)?;
        if after.at == at {
            return Some(after.flow);
        }
        let before = &self.knots[next.checked_sub(1)?];
        Some(toward(before.flow, after.flow, (at - before.at) / (after.at - before.at)))
    }

    /// The stream made of so much of each of these, a plain number to each, over the time that all of
    /// them have: where they are straight between two knots, so is the sum, and nothing is lost.
    ///
    /// The run of one with the number 1 is that run itself.
    pub fn blended(parts: &[(f64, &Run)]) -> Run {
        let ends = |run: &Run| Some((run.knots.first()?.at, run.knots.last()?.at));
        let mut span = (f64::NEG_INFINITY, f64::INFINITY);
        for (_, run) in parts {
            let Some((first, last)) = ends(run) else { return Run::new(Vec::new()) };
            span = (span.0.max(first), span.1.min(last));
        }
        let knots = parts.iter().flat_map(|(_, run)| run.knots.iter().map(|knot| knot.at));
        // The latest first knot and the earliest last one are among them.
        let mut times: Vec<f64> = knots.filter(|at| (span.0..=span.1).contains(at)).collect();
        times.sort_by(f64::total_cmp);
        times.dedup();
        let flow = |at: f64| {
            let flows = parts.iter().filter_map(|(part, run)| Some((*part, run.flow(at)?)));
            flows.fold((0.0, 0.0), |sum, (part, flow)| {
                (sum.0 + part * flow.0, sum.1 + part * flow.1)
            })
        };
        Run::new(times.into_iter().map(|at| Knot { at, flow: flow(at) }).collect())
    }

    /// Every stretch of time in which the stream runs at less than `limit`: slack water, or the hours
    /// of a tidal gate.
    pub fn under(&self, limit: Speed) -> Vec<Under> {
        let limit = limit.as_metres_per_second();
        let mut found: Vec<(f64, f64)> = Vec::new();
        for pair in self.knots.windows(2) {
            let Some((from, to)) = piece_under(pair[0], pair[1], limit) else { continue };
            match found.last_mut() {
                // The stretch goes on over the knot.
                Some(last) if last.1 >= from => last.1 = to,
                _ => found.push((from, to)),
            }
        }
        found.into_iter().map(|(from, to)| self.least(from, to)).collect()
    }

    /// A stretch with the instant in it at which the stream runs least.
    fn least(&self, from: f64, to: f64) -> Under {
        let mut least = (from, f64::INFINITY);
        for pair in self.knots.windows(2) {
            let (low, high) = (pair[0].at.max(from), pair[1].at.min(to));
            if low > high {
                continue;
            }
            let at = nearest_to_still(pair[0], pair[1]).clamp(low, high);
            let part = (at - pair[0].at) / (pair[1].at - pair[0].at);
            let flow = toward(pair[0].flow, pair[1].flow, part);
            let rate = flow.0.hypot(flow.1);
            if rate < least.1 {
                least = (at, rate);
            }
        }
        let (least_at, rate) = least;
        Under {
            from: timestamp(from),
            to: timestamp(to),
            least_at: timestamp(least_at),
            least: Speed::metres_per_second(if rate.is_finite() { rate } else { 0.0 }),
        }
    }

    /// The axis that the stream mostly runs along, either way: the principal axis of its knots about
    /// still water. Nothing where it never moves, or has no main axis.
    pub fn main_axis(&self) -> Option<Bearing<True>> {
        let sum = |of: fn(Vector) -> f64| self.knots.iter().map(|knot| of(knot.flow)).sum::<f64>();
        let (across, along) = (2.0 * sum(|v| v.0 * v.1), sum(|v| v.1 * v.1 - v.0 * v.0));
        let whole = sum(|v| dot(v, v));
        // Twice the axis' angle from north, by the moments of second order.
        (across.hypot(along) > 1e-9 * whole)
            .then(|| Bearing::wrapped(across.atan2(along).to_degrees() / 2.0))
    }

    /// When the stream turns: when its part along the main axis changes its sign. In a narrows this is
    /// slack water; where the stream goes round the clock it is when it sets across.
    pub fn turns(&self) -> Vec<StreamTurn> {
        let Some(axis) = self.main_axis() else { return Vec::new() };
        let unit = vector(axis, 1.0);
        let turn = |pair: &[Knot]| {
            let (before, after) = (dot(pair[0].flow, unit), dot(pair[1].flow, unit));
            ((before < 0.0) != (after < 0.0)).then(|| StreamTurn {
                at: timestamp(pair[0].at + (pair[1].at - pair[0].at) * before / (before - after)),
                then: if after < 0.0 { axis.back() } else { axis },
            })
        };
        self.knots.windows(2).filter_map(turn).collect()
    }

    /// The greatest rate of each stretch between two turns, and of those before the first and after
    /// the last.
    pub fn greatest(&self) -> Vec<Greatest> {
        let mut ends: Vec<f64> =
            self.turns().iter().map(|turn| turn.at.as_duration().as_secs_f64()).collect();
        ends.push(f64::INFINITY);
        let mut from = f64::NEG_INFINITY;
        let mut found = Vec::new();
        for to in ends {
            // A straight line is furthest from the origin at one of its ends.
            let within = self.knots.iter().filter(|knot| (from..to).contains(&knot.at));
            let greatest =
                within.max_by(|a, b| dot(a.flow, a.flow).total_cmp(&dot(b.flow, b.flow)));
            found.extend(
                greatest.map(|knot| Greatest { at: timestamp(knot.at), stream: stream(knot.flow) }),
            );
            from = to;
        }
        found
    }
}

/// When the straight line between two knots, drawn out beyond them, comes nearest to still water.
fn nearest_to_still(a: Knot, b: Knot) -> f64 {
    let change = (b.flow.0 - a.flow.0, b.flow.1 - a.flow.1);
    let square = dot(change, change);
    if square > 0.0 { a.at - (b.at - a.at) * dot(a.flow, change) / square } else { a.at }
}

/// The part of the time between two knots in which the rate is under a limit: the roots of a
/// quadratic, cut to the ends.
fn piece_under(a: Knot, b: Knot, limit: f64) -> Option<(f64, f64)> {
    let change = (b.flow.0 - a.flow.0, b.flow.1 - a.flow.1);
    let middle = nearest_to_still(a, b);
    let least = toward(a.flow, b.flow, (middle - a.at) / (b.at - a.at));
    let left = limit * limit - dot(least, least);
    if left <= 0.0 {
        return None;
    }
    // A stream that does not change is under the limit all the time.
    let half = (left / dot(change, change)).sqrt() * (b.at - a.at);
    let (from, to) = ((middle - half).max(a.at), (middle + half).min(b.at));
    (from < to).then_some((from, to))
}
