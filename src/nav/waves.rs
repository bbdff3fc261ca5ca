//! How big a wind's waves get on a fetch.
//!
//! By the equations of the *Shore Protection Manual* (US Army Corps of Engineers, Coastal Engineering Research Center, 4th edition, 1984,
//! chapter 3, sections IV and VI; the numbers of its equations from memory): deep water and water of one depth, bounded by the fetch, by the time that the wind has blown, and by
//! the fully developed sea. They are the one published set that has all four; of the others the manual's successor (2002) is for deep
//! water and its period's coefficient is printed in two ways, JONSWAP (1973) knows neither depth nor an end of growth, and Young and
//! Verhagen (1996) no time.
//!
//! **Which wind**: the mean wind 10 m above the water, as forecasts give it, gusts left out. The manual's adjusted wind speed,
//! `U_A = 0.71 U^1.23` in metres per second (equation 3-28a), is applied here: never put it in.
//!
//! **Accuracy**: the height is the significant one, the mean of the highest third: about one wave in a thousand is 1.9 times as high. The period
//! is that of the spectrum's peak. Beside the other three methods, on fetches of 500 m to 100 km, heights are from a tenth lower at
//! 3 m/s to four tenths higher at 20 m/s: over force 4 they err to the high side. Measured heights scatter by a quarter and more.
//!
//! **What it leaves out**: swell from elsewhere, streams (a sea that runs against one is shorter, higher and may break), a shore's
//! refraction and reflection, shoals on the way, breaking, and a wind that changes, bends round headlands or falls off them. A narrow
//! fetch has smaller waves. Depth is the mean along the fetch.

use jiff::SignedDuration;

use crate::{Length, OutOfRange, Speed};

/// The gravity in all of the equations, in metres per second squared, as is usual with them.
const GRAVITY: f64 = 9.81;

/// What makes waves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Blow {
    /// The mean wind 10 m above the water.
    pub wind: Speed,
    /// The open water upwind of the place, along the wind.
    pub fetch: Length,
    /// The mean depth along the fetch; none for deep water.
    pub depth: Option<Length>,
    /// How long the wind has blown; none for so long that more makes no difference.
    pub time: Option<SignedDuration>,
}

/// The waves at the downwind end of a fetch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Waves {
    /// The significant height, from trough to crest.
    pub height: Length,
    /// The period of the spectrum's peak.
    pub period: SignedDuration,
}

/// What cannot be water or time.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum WavesError {
    /// The fetch is less than nothing.
    #[error(transparent)]
    Fetch(OutOfRange),
    /// The depth is less than nothing.
    #[error(transparent)]
    Depth(OutOfRange),
    /// The time is less than nothing.
    #[error(transparent)]
    Time(OutOfRange),
}

/// The waves that a steady wind makes on a fetch, by the *Shore Protection Manual* (1984): equations 3-33 to 3-38 in deep water, 3-39 and
/// 3-40 where the depth is given.
///
/// A wind that has not blown for long enough makes the waves of the shorter fetch for which its time would do (equation 3-35), in any
/// depth. A depth never makes waves higher or longer than deep water does. No wind, no fetch, no water or no time gives no waves. For
/// what the numbers mean, how good they are and what is left out see the [module](self).
///
/// ```
/// use nav::waves::{Blow, waves};
/// use nav::{Length, Speed};
/// // Five nautical miles of open water in a force 5.
/// let wind = Speed::from_knots(19.0)?;
/// let fetch = 5.0 * Length::NAUTICAL_MILE;
/// let open = waves(&Blow { wind, fetch, depth: None, time: None }).unwrap();
/// assert_eq!(format!("{:.2}", open.height.as_metres()), "0.58");
/// assert_eq!(format!("{:.1}", open.period.as_secs_f64()), "3.0");
/// // The same over banks of three metres.
/// let banks = Blow { wind, fetch, depth: Some(3.0 * Length::METRE), time: None };
/// assert_eq!(format!("{:.2}", waves(&banks).unwrap().height.as_metres()), "0.46");
/// # Ok::<(), nav::OutOfRange>(())
/// ```
///
/// # Errors
/// [`WavesError`] for a fetch, a depth or a time of less than nothing.
pub fn waves(blow: &Blow) -> Result<Waves, WavesError> {
    let not_less =
        |quantity, value| OutOfRange::check(quantity, value, (0.0, f64::MAX), "0 and more");
    let fetch = not_less("fetch in metres", blow.fetch.as_metres()).map_err(WavesError::Fetch)?;
    let depth = blow.depth.map(|depth| not_less("depth in metres", depth.as_metres()));
    let depth = depth.transpose().map_err(WavesError::Depth)?;
    let hours = blow.time.map(|time| not_less("hours", time.as_secs_f64() / 3600.0));
    let hours = hours.transpose().map_err(WavesError::Time)?;
    let stress = stress(blow.wind);
    Ok(grown(stress, fetch, depth, hours.map(|hours| hours * 3600.0)))
}

/// The adjusted wind speed, in metres per second.
fn stress(wind: Speed) -> f64 {
    0.71 * wind.as_metres_per_second().powf(1.23)
}

/// The waves of an adjusted wind speed, in metres and seconds.
fn grown(stress: f64, fetch: f64, depth: Option<f64>, time: Option<f64>) -> Waves {
    let least = [stress, fetch, depth.unwrap_or(1.0), time.unwrap_or(1.0)];
    // Without one of them there is nothing, where the equations divide by it.
    if least.contains(&0.0) {
        return Waves { height: Length::ZERO, period: SignedDuration::ZERO };
    }
    let of_length = |metres: f64| GRAVITY * metres / (stress * stress);
    let fetch = time
        .map_or(of_length(fetch), |time| of_length(fetch).min(fetch_for(GRAVITY * time / stress)));
    let open = deep(fetch);
    let (height, period) = match depth {
        None => open,
        // With much fetch and depth these go above the fully developed sea of deep water.
        Some(depth) => {
            let bounded = shallow(fetch, of_length(depth));
            (open.0.min(bounded.0), open.1.min(bounded.1))
        }
    };
    let seconds = period * stress / GRAVITY;
    Waves {
        height: Length::metres(height * stress * stress / GRAVITY),
        period: SignedDuration::try_from_secs_f64(seconds).unwrap_or(SignedDuration::MAX),
    }
}

/// The fetch for which a time just does, all by the wind and gravity: `g t / U_A = 68.8 (g F / U_A²)^(2/3)`.
fn fetch_for(time: f64) -> f64 {
    (time / 68.8).powf(1.5)
}

/// Height and period in deep water, `g H / U_A²` and `g T / U_A`, up to the fully developed sea.
fn deep(fetch: f64) -> (f64, f64) {
    let height = 1.6e-3 * fetch.sqrt();
    let period = 0.2857 * fetch.cbrt();
    (height.min(0.2433), period.min(8.134))
}

/// The same in water of one depth, `g d / U_A²`.
fn shallow(fetch: f64, depth: f64) -> (f64, f64) {
    let height = (0.530 * depth.powf(0.75)).tanh();
    let period = (0.833 * depth.powf(0.375)).tanh();
    (
        0.283 * height * (0.00565 * fetch.sqrt() / height).tanh(),
        7.54 * period * (0.0379 * fetch.cbrt() / period).tanh(),
    )
}

#[cfg(test)]
mod tests;
