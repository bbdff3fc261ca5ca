//! How far the horizon is, and how far over it a height is seen.
//!
//! **Refraction** is in it, that of the usual air over water: the horizon is a tenth farther than the straight line would have it.
//! Over water much colder or warmer than the air it is another, by a tenth and more. **What it leaves out**: haze, swell, the
//! light's own range, and the height of tide, which belongs to both heights.

use crate::{Length, OutOfRange};

/// Nautical miles for the root of a foot: Bowditch, American Practical Navigator, NGA Pub. 9 vol. II (2024), table 12.
const MILES_FOR_A_ROOT_FOOT: f64 = 1.17;

/// The international foot.
const FOOT: Length = Length::metres(0.3048);

/// What bounds a height: no more than a mountain, where a curve is as good as the Earth.
const BOUNDS: (f64, f64) = (0.0, 10_000.0);

/// How far heights see each other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    /// From the eye to its own horizon.
    pub horizon: Length,
    /// From the eye to where the target just shows over that horizon: the geographic range.
    pub target: Length,
}

/// Which height cannot be.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum HorizonError {
    /// The eye's.
    #[error(transparent)]
    Eye(OutOfRange),
    /// The target's.
    #[error(transparent)]
    Target(OutOfRange),
}

/// How far the horizon is from an eye, and how far off a target just shows over it; heights above the water, 0 to 10,000 m.
///
/// `1.17 √h` nautical miles, `h` in feet, for each of the two heights (Bowditch, 2024, table 12, and its geographic range): 2.119 for
/// metres. **Accuracy**: the table's own 0.05 NM in usual air, see the [module](self).
///
/// ```
/// use nav::{Length, horizon};
/// // From a kayak, and a light 30 m above the water.
/// let seen = horizon::range(0.7 * Length::METRE, 30.0 * Length::METRE).unwrap();
/// assert_eq!(format!("{:.1}", seen.horizon.as_nautical_miles()), "1.8");
/// assert_eq!(format!("{:.1}", seen.target.as_nautical_miles()), "13.4");
/// ```
///
/// # Errors
/// [`HorizonError`] when a height is not within 0 to 10,000 m.
pub fn range(eye: Length, target: Length) -> Result<Range, HorizonError> {
    let horizon = to_horizon("height of eye in metres", eye).map_err(HorizonError::Eye)?;
    let beyond = to_horizon("height of target in metres", target).map_err(HorizonError::Target)?;
    Ok(Range { horizon, target: horizon + beyond })
}

fn to_horizon(what: &'static str, height: Length) -> Result<Length, OutOfRange> {
    OutOfRange::check(what, height.as_metres(), BOUNDS, "0 to 10,000 m")?;
    Ok(MILES_FOR_A_ROOT_FOOT * (height / FOOT).sqrt() * Length::NAUTICAL_MILE)
}

#[cfg(test)]
mod tests;
