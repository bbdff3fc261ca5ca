//! Where two lines cross.

use super::lean::{Lean, Sums, moved};
use super::{FARTHEST, FixError, LEAST_CUT, Sight, angle, pairs};
use crate::angle::sin_cos_degrees;
use crate::{Length, Position, geodesic};

/// Where two lines cross.
#[derive(Debug, Clone, Copy)]
pub(super) struct Corner {
    pub(super) at: Position,
    /// The angle at which they do, 0 to 90 degrees.
    pub(super) cut: f64,
}

/// All corners of the lines; none of those that run side by side, cross too far away or at a mark.
///
/// # Errors
/// Where there is none, why the two lines have none that cross most widely.
pub(super) fn all(sights: &[Sight]) -> Result<Vec<Corner>, FixError> {
    let mut corners = Vec::new();
    let mut why = (0.0, FixError::Parallel(0.0));
    for (one, other) in pairs(sights) {
        let cut = angle(one, other);
        if cut < LEAST_CUT {
            continue;
        }
        match corner(one, other) {
            Ok(at) => corners.push(Corner { at, cut }),
            Err(error) if cut > why.0 => why = (cut, error),
            Err(_) => {}
        }
    }
    if corners.is_empty() { Err(why.1) } else { Ok(corners) }
}

/// Each step leaves a part of the error that is as small as the way to the mark is beside the Earth.
const MOST_STEPS: usize = 40;
const SETTLED: Length = Length::metres(1e-6);

/// Where two lines cross: begun on a plane about the first mark, then on the plane about each place found, until it stays.
///
/// Angles would lead astray from far off: a bearing of a mark 50 m away turns right round within the error of a plane on which
/// another mark lies 50 km away. Lines as they run on the plane cross wherever one begins.
fn corner(one: &Sight, other: &Sight) -> Result<Position, FixError> {
    let mut at = on_a_plane(one, other);
    for _ in 0..MOST_STEPS {
        let mut sums = Sums::default();
        for sight in [one, other] {
            sums.add(Lean::of(sight, at)?.along_the_line());
        }
        let (next, step) = moved(at, sums.solve());
        if step > FARTHEST {
            return Err(FixError::TooFar);
        }
        at = next;
        if step < SETTLED {
            return Ok(at);
        }
    }
    Err(FixError::TooFar)
}

/// Where two lines cross as if a plane about the first mark were the Earth.
fn on_a_plane(one: &Sight, other: &Sight) -> Position {
    let line = geodesic::inverse(one.mark, other.mark);
    let (sin, cos) = sin_cos_degrees(line.bearing_at_start.as_degrees());
    let metres = line.distance.as_metres();
    let mut sums = Sums::default();
    for (sight, (x, y)) in [(one, (0.0, 0.0)), (other, (metres * sin, metres * cos))] {
        let (sin, cos) = sin_cos_degrees(sight.bearing.as_degrees());
        sums.add(Lean { east: -cos, north: sin, off: sin * y - cos * x });
    }
    moved(one.mark, sums.solve()).0
}
