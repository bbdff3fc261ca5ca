//! A position from bearings of known marks.

use crate::{Bearing, Length, Position, True, geodesic};

mod corner;
mod lean;
mod least;
mod off;

use corner::Corner;
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
    /// How far from it the farthest corner lies at which two of the lines cross at [`GOOD_CUT`] or more: the size of the triangle
    /// that three bearings make. A corner of lines that run nearly side by side lies far off for the smallest of errors, and says
    /// nothing of the place that a line across them gives. Where no two lines cross so widely, those corners count whose cut is a
    /// third of the widest or more. Two lines have one crossing, which tells nothing of its error: nothing.
    pub error: Length,
    /// How many pairs of lines have no corner that counts in it; of two lines the one that there is.
    pub left_out: usize,
}

/// The least angle at which two lines must cross, in degrees. A degree of error in one of them moves a crossing at this angle
/// by as far as the mark is away.
pub const LEAST_CUT: f64 = 1.0;

/// The angle from which on a crossing says where a boat is, in degrees: there an error in one line moves it by twice as much as
/// across the line. Common practice, no published source.
pub const GOOD_CUT: f64 = 30.0;

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
/// there are more than two. Bearings that do not agree are no error: how far they are off is told by the triangle.
///
/// Each line is the geodesic between mark and boat, its bearing counted at the boat, or at the mark where it was laid off from
/// there. **Accuracy**: with bearings that agree, a micrometre for each kilometre between boat and mark, divided by the sine of
/// the angle at which the lines cross. With bearings up to 20° off no place is known that fits better but in one of some hundred
/// fixes, where two places fit nearly alike.
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
    let corners = corner::all(sights)?;
    let position = match corners.as_slice() {
        [only] if sights.len() == 2 => only.at,
        _ => least::place(sights, &corners)?,
    };
    let counted = counted(sights, &corners);
    let far = counted.iter().map(|corner| geodesic::inverse(position, corner.at).distance);
    let error = far.fold(Length::ZERO, Length::max);
    Ok(Fix { position, error, left_out: pairs(sights).count() - counted.len() })
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

/// The corners that tell how large the triangle is; none of two lines.
fn counted<'a>(sights: &[Sight], corners: &'a [Corner]) -> Vec<&'a Corner> {
    let widest = corners.iter().map(|corner| corner.cut).fold(0.0, f64::max);
    let least = if widest < GOOD_CUT { widest / 3.0 } else { GOOD_CUT };
    corners.iter().filter(|corner| sights.len() > 2 && corner.cut >= least).collect()
}

#[cfg(test)]
mod tests;
