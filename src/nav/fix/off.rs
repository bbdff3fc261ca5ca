//! How much the lines of a fix may be trusted: the angle at which they cut, and where errors of them lead.

use super::lean::{Lean, Sums};
use super::{FixError, Sight, widest_cut};
use crate::{Bearing, Length, Position, True, Turn};

/// How far off a bearing may be that is taken with a hand compass from a small boat. Common practice, no published source.
pub const HAND_COMPASS: Turn = Turn::degrees(3.0);

/// Where a fix may go.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reach {
    /// How far.
    pub by: Length,
    /// Which way, and as far the opposite way.
    pub along: Bearing<True>,
}

/// The widest angle at which two of the lines cut, 0 to 90 degrees; none for one line.
///
/// Counted from the bearings as they are: lines of marks tens of kilometres apart cut at another angle by as much as their meridians
/// lean, a quarter of a degree for 20 km at 55°.
pub fn cut(sights: &[Sight]) -> Turn {
    Turn::wrapped(widest_cut(sights))
}

/// The farthest that a fix `at` a place moves if each of its bearings is off by as much as `off`, this way or that.
///
/// For two lines, half of the long diagonal of the rhomboid that four lines make which lie off by as much. **Accuracy**: the lines are
/// taken as straight about the fix, which for bearings 3° off and a cut of 30° or more is within a tenth.
///
/// ```
/// use nav::fix::{Sight, fix, reach};
/// use nav::{Bearing, Length, Position, Turn, geodesic};
/// // Two marks a kilometre off, at right angles: each line may lie 1000 m × 3° = 52 m off, both together 74 m.
/// let here = Position::from_degrees(57.0, -2.0).unwrap();
/// let sights = [10.0, 100.0].map(|degrees| {
///     let bearing = Bearing::from_degrees(degrees).unwrap();
///     Sight { mark: geodesic::direct(here, bearing, Length::KILOMETRE).position, bearing }
/// });
/// let reach = reach(&sights, fix(&sights)?.position, Turn::from_degrees(3.0).unwrap())?;
/// assert_eq!(reach.by.as_metres().round(), 74.0);
/// # Ok::<(), nav::fix::FixError>(())
/// ```
///
/// # Errors
/// [`FixError`] as [`fix`](super::fix()) has it, for lines that make none and for a place on a mark.
pub fn reach(sights: &[Sight], at: Position, off: Turn) -> Result<Reach, FixError> {
    if sights.len() < 2 {
        return Err(FixError::TooFew(sights.len()));
    }
    let widest = widest_cut(sights);
    if widest < super::LEAST_CUT {
        return Err(FixError::Parallel(widest));
    }
    let mut sums = Sums::default();
    let leans =
        sights.iter().map(|sight| Lean::of(sight, at)).collect::<Result<Vec<_>, FixError>>()?;
    for lean in &leans {
        sums.add(*lean);
    }
    // Where the fix goes for each radian of each bearing.
    let gains: Vec<(f64, f64)> =
        leans.iter().map(|lean| sums.solve_for((lean.east, lean.north))).collect();
    let (east, north) = farthest(&gains);
    let metres = east.hypot(north) * off.as_degrees().abs().to_radians();
    let along = Bearing::wrapped(east.atan2(north).to_degrees());
    Ok(Reach { by: Length::metres(metres), along })
}

/// The longest sum of the vectors, each taken forwards or backwards. The ends of such sums are the corners of a polygon whose
/// sides lie along the vectors, so that it is enough to look across each of them.
fn farthest(vectors: &[(f64, f64)]) -> (f64, f64) {
    let towards = |(x, y): (f64, f64), (across, up): (f64, f64)| x * across + y * up;
    let end = |look: (f64, f64), own: usize, sign: f64| {
        vectors.iter().enumerate().fold((0.0, 0.0), |sum, (index, vector)| {
            let sign = if index == own { sign } else { towards(*vector, look).signum() };
            (sum.0 + sign * vector.0, sum.1 + sign * vector.1)
        })
    };
    let across = |(x, y): (f64, f64)| (-y, x);
    let ends = vectors
        .iter()
        .enumerate()
        .flat_map(|(own, vector)| [1.0, -1.0].map(|sign| end(across(*vector), own, sign)));
    ends.max_by(|a, b| a.0.hypot(a.1).total_cmp(&b.0.hypot(b.1))).unwrap_or_default()
}
