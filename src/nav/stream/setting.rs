//! When a stream sets within a range of directions.

use jiff::Timestamp;

use super::Run;
use super::run::{Knot, Vector, dot, toward, vector};
use crate::moment::timestamp;
use crate::{Bearing, True};

impl Run {
    /// Every stretch of time in which the stream sets between two directions, from the first
    /// clockwise to the second: exact roots of its straight pieces, to the microsecond. Still water
    /// sets nowhere.
    pub fn setting(
        &self,
        first: Bearing<True>,
        second: Bearing<True>,
    ) -> Vec<(Timestamp, Timestamp)> {
        let mut found: Vec<(f64, f64)> = Vec::new();
        for pair in self.knots.windows(2) {
            for (from, to) in piece(pair[0], pair[1], first, second) {
                match found.last_mut() {
                    // The stretch goes on over the knot, or over still water.
                    Some(last) if last.1 >= from => last.1 = to,
                    _ => found.push((from, to)),
                }
            }
        }
        found.into_iter().map(|(from, to)| (timestamp(from), timestamp(to))).collect()
    }
}

/// The parts of the time between two knots in which the stream sets within the range.
fn piece(
    a: Knot,
    b: Knot,
    first: Bearing<True>,
    second: Bearing<True>,
) -> impl Iterator<Item = (f64, f64)> {
    let wide = clockwise(first.as_degrees(), second.as_degrees());
    let sets_within = move |(east, north): Vector| {
        let set = east.atan2(north).to_degrees();
        (east, north) != (0.0, 0.0) && clockwise(first.as_degrees(), set) <= wide
    };
    let mut parts = [0.0, crosses(a, b, first), crosses(a, b, second), 1.0];
    parts.sort_by(f64::total_cmp);
    let at = move |part: f64| a.at + (b.at - a.at) * part;
    [(parts[0], parts[1]), (parts[1], parts[2]), (parts[2], parts[3])]
        .into_iter()
        .filter(move |(from, to)| {
            from < to && sets_within(toward(a.flow, b.flow, (from + to) / 2.0))
        })
        .map(move |(from, to)| (at(from), at(to)))
}

/// The part of the time between two knots at which the stream sets along a line, either way; the
/// beginning where it never does.
fn crosses(a: Knot, b: Knot, line: Bearing<True>) -> f64 {
    let (east, north) = vector(line, 1.0);
    let across = (north, -east);
    let (before, after) = (dot(a.flow, across), dot(b.flow, across));
    let part = before / (before - after);
    if (0.0..=1.0).contains(&part) { part } else { 0.0 }
}

/// Degrees from one direction clockwise to another: 0 up to 360.
fn clockwise(from: f64, to: f64) -> f64 {
    (to - from).rem_euclid(360.0)
}

#[cfg(test)]
mod tests;
