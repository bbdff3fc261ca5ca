//! A position from bearings of known marks.

use crate::angle::sin_cos_degrees;
use crate::{Bearing, Length, Position, True, geodesic};

mod off;
mod plane;

pub use off::{HAND_COMPASS, Reach, cut, reach};

/// A bearing of a mark.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sight {
    /// Where the mark stands.
    pub mark: Position,
    /// The bearing of the mark as it is taken from the boat, or the bearing back, as it is laid off from the mark: where the lines
    /// cross tells which of the two it is.
    pub bearing: Bearing<True>,
}

/// A position that bearings agree on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fix {
    /// The position.
    pub position: Position,
    /// How far from it the farthest corner lies at which two of the lines cross: the size of the triangle that three bearings
    /// make. Two lines have one crossing, which tells nothing of its error: nothing.
    pub error: Length,
}

/// The least angle at which two lines must cross, in degrees. A degree of error in one of them moves a crossing at this angle
/// by as far as the mark is away; common practice asks for 30° and more, no published source.
pub const LEAST_CUT: f64 = 1.0;

/// The farthest that a fix may lie from a mark: far beyond what can be seen, and near enough for the solution to close in.
pub const FARTHEST: Length = Length::metres(500_000.0);

/// Why bearings make no fix.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum FixError {
    /// One line has no crossing.
    #[error("{0} bearings; a fix needs two or more")]
    TooFew(usize),
    /// The lines run side by side.
    #[error("the bearings cross at {0:.2}° at most; under {LEAST_CUT}° they make no fix")]
    Parallel(f64),
    /// The lines cross far away.
    #[error(
        "the bearings cross farther than {} km from a mark, too far for a fix", FARTHEST.as_kilometres()
    )]
    TooFar,
    /// The crossing is a mark, where bearings of it mean nothing.
    #[error("the bearings cross at a mark itself")]
    AtMark,
}

/// The position from which two or more marks bear as stated: on the ellipsoid, by least squares of the angles where
/// there are more than two.
///
/// Each line is the geodesic between mark and boat, its bearing counted at the boat, or at the mark where it was laid off from
/// there. **Accuracy**: with bearings that agree, a micrometre for each kilometre between boat and mark, divided by the sine of
/// the angle at which the lines cross.
///
/// ```
/// use nav::fix::{Sight, fix};
/// use nav::{Bearing, Position};
/// let sight = |lat, lon, bearing| {
///     let mark = Position::from_degrees(lat, lon).unwrap();
///     Sight { mark, bearing: Bearing::from_degrees(bearing).unwrap() }
/// };
/// // A light due north and a beacon due east: on the light's meridian, and almost on the beacon's parallel.
/// let fix = fix(&[sight(57.2, -2.1, 0.0), sight(57.1, -2.0, 90.0)])?;
/// assert!((fix.position.lon.as_degrees() + 2.1).abs() < 1e-9);
/// assert!((fix.position.lat.as_degrees() - 57.1).abs() < 1e-4);
/// # Ok::<(), nav::fix::FixError>(())
/// ```
///
/// # Errors
/// [`FixError`] for fewer than two bearings, for lines that cross at less than [`LEAST_CUT`], and for a crossing at a mark or
/// farther than [`FARTHEST`] from one.
pub fn fix(sights: &[Sight]) -> Result<Fix, FixError> {
    if sights.len() < 2 {
        return Err(FixError::TooFew(sights.len()));
    }
    let cut = widest_cut(sights);
    if cut < LEAST_CUT {
        return Err(FixError::Parallel(cut));
    }
    let position = crossing(sights)?;
    Ok(Fix { position, error: triangle(sights, position) })
}

/// The angle at which two lines cross, 0 to 90 degrees.
fn angle(one: &Sight, other: &Sight) -> f64 {
    let turn = one.bearing.turn_to(other.bearing).as_degrees().abs();
    turn.min(180.0 - turn)
}

fn widest_cut(sights: &[Sight]) -> f64 {
    pairs(sights).map(|(one, other)| angle(one, other)).fold(0.0, f64::max)
}

fn pairs(sights: &[Sight]) -> impl Iterator<Item = (&Sight, &Sight)> {
    let later = |index: usize| sights.iter().skip(index + 1);
    sights
        .iter()
        .enumerate()
        .flat_map(move |(index, one)| later(index).map(move |other| (one, other)))
}

/// The farthest corner of two or more lines from their fix.
fn triangle(sights: &[Sight], at: Position) -> Length {
    if sights.len() == 2 {
        return Length::ZERO;
    }
    pairs(sights)
        .filter(|(one, other)| angle(one, other) >= LEAST_CUT)
        .filter_map(|(one, other)| crossing(&[*one, *other]).ok())
        .map(|corner| geodesic::inverse(at, corner).distance)
        .fold(Length::ZERO, Length::max)
}

/// The place that fits all lines best: begun on a plane about the first mark, drawn in to where the lines cross on the plane
/// about each place found, then by the angles until it stays.
///
/// Angles alone lead astray from far off: a bearing of a mark 50 m away turns right round within the error of a plane on which
/// another mark lies 50 km away. Lines as they run on the plane cross wherever one begins.
fn crossing(sights: &[Sight]) -> Result<Position, FixError> {
    let plane = plane::Plane::about(sights);
    let mut at = plane.position(plane.crossing(sights));
    let mut by_angles = false;
    for _ in 0..MOST_STEPS {
        let leans = sights.iter().map(|sight| lean(sight, at)).collect::<Result<Vec<_>, _>>()?;
        let mut sums = plane::Sums::default();
        for lean in &leans {
            sums.add(if by_angles { *lean } else { lean.along_the_line() });
        }
        let (east, north) = sums.solve();
        let step = Length::metres(east.hypot(north));
        if step > FARTHEST {
            return Err(FixError::TooFar);
        }
        let way = Bearing::wrapped(east.atan2(north).to_degrees());
        at = geodesic::direct(at, way, step).position;
        if by_angles && step < SETTLED {
            return Ok(at);
        }
        by_angles |= leans.iter().all(|lean| step.as_metres() * lean.a_metre() < NEAR);
    }
    Err(FixError::TooFar)
}

/// Each step leaves a part of the error that is as small as the way to the mark is beside the Earth.
const MOST_STEPS: usize = 40;
const SETTLED: Length = Length::metres(1e-6);

/// How small a step is beside the way to the nearest mark where angles are as good as lines.
const NEAR: f64 = 0.05;

/// How a line lies about a place.
#[derive(Debug, Clone, Copy)]
struct Lean {
    /// How the bearing changes, in radians a metre to the east and to the north.
    east: f64,
    north: f64,
    /// By how much it should, in radians.
    off: f64,
}

impl Lean {
    /// By how many radians the bearing changes in a metre across it.
    fn a_metre(self) -> f64 {
        self.east.hypot(self.north)
    }

    /// The same line as it runs on the plane about the place, for any error of the bearing: turned by the error, and as far
    /// aside as its sine says.
    fn along_the_line(self) -> Lean {
        let (sin, cos) = self.off.sin_cos();
        Lean {
            east: self.east * cos + self.north * sin,
            north: self.north * cos - self.east * sin,
            off: sin,
        }
    }
}

fn lean(sight: &Sight, at: Position) -> Result<Lean, FixError> {
    let line = geodesic::inverse(at, sight.mark);
    let metres = line.distance.as_metres();
    if line.distance > FARTHEST {
        return Err(FixError::TooFar);
    }
    if metres < 1e-3 {
        return Err(FixError::AtMark);
    }
    let (sin, cos) = sin_cos_degrees(line.bearing_at_start.as_degrees());
    let seen = line.bearing_at_start.turn_to(sight.bearing).as_degrees();
    let laid_off = line.bearing_at_end.back().turn_to(sight.bearing).as_degrees();
    // Both bearings turn alike as the boat moves: the line has two ends.
    let off = if seen.abs() <= laid_off.abs() { seen } else { laid_off };
    Ok(Lean { east: -cos / metres, north: sin / metres, off: off.to_radians() })
}

#[cfg(test)]
mod tests;
