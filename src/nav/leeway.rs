//! Leeway: how far the wind pushes a group off.
//!
//! Common practice, no published source: a laden kayak is pushed downwind at about three hundredths
//! of the wind's speed, more with a high deck or an empty boat, less with a low one. That push is a
//! vector that adds to the stream's, whatever the heading: it slows a group that heads into the wind
//! by as much as it helps one that runs before it.
//!
//! What it leaves out: what the wind takes from a group's speed by its drag on the body, the blade and
//! by the waves, gusts and lulls, the lee of the land, and the set of a sea that has run for hours. Over
//! force 4 it gives no figure, since a mixed group stops making planned progress there.

use crate::triangle::Stream;
use crate::{Bearing, OutOfRange, Speed, True};

/// The wind as forecasts give it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wind {
    /// The direction that it comes from.
    pub from: Bearing<True>,
    /// Its mean speed, gusts left out.
    pub speed: Speed,
}

/// A wind in which no figure is given.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error(
    "a wind of {knots:.1} kn is over force 4 (16 kn), where a mixed group stops making planned progress; no leeway is reckoned"
)]
pub struct TooMuchWind {
    /// Its speed in knots.
    pub knots: f64,
}

/// How strongly the wind pushes a group, as a multiple of the rule.
///
/// ```
/// use nav::leeway::{Leeway, Wind};
/// use nav::{Bearing, Speed};
/// // Common practice, no published source: 3% of 10 kn, downwind.
/// let wind = Wind { from: Bearing::from_degrees(250.0)?, speed: Speed::from_knots(10.0)? };
/// let drift = Leeway::RULE.drift(wind).unwrap();
/// assert_eq!(drift.set.to_string(), "070°T");
/// assert!((drift.drift.as_knots() - 0.3).abs() < 1e-12);
/// // A group with high decks and little in them.
/// let half_more = Leeway::from_factor(1.5)?.drift(wind).unwrap();
/// assert!((half_more.drift.as_knots() - 0.45).abs() < 1e-12);
/// # Ok::<(), nav::OutOfRange>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Leeway(f64);

impl Leeway {
    /// The drift downwind as a part of the wind's speed at the factor 1: three hundredths. Common
    /// practice, no published source.
    pub const PART_OF_WIND: f64 = 0.03;

    /// The wind left out.
    pub const NONE: Leeway = Leeway(0.0);

    /// A laden group by the rule itself: the factor 1.
    pub const RULE: Leeway = Leeway(1.0);

    /// The strongest wind that a figure is given for, in knots: the top of force 4, 11 to 16 knots, of the
    /// Beaufort scale in the *Manual on Codes* (World Meteorological Organization, WMO-No. 306; quoted
    /// from memory).
    pub const MOST_WIND_KNOTS: f64 = 16.0;

    /// So many times the rule.
    ///
    /// # Errors
    /// [`OutOfRange`] when the factor is not within 0 to 3, which is 9% of the wind's speed: more than any
    /// boat that is paddled.
    pub fn from_factor(factor: f64) -> Result<Leeway, OutOfRange> {
        OutOfRange::check("leeway factor", factor, (0.0, 3.0), "0 to 3").map(Leeway)
    }

    /// How many times the rule.
    pub const fn factor(self) -> f64 {
        self.0
    }

    /// The wind's push as a stream that adds to the water's: straight downwind, at
    /// [`PART_OF_WIND`](Leeway::PART_OF_WIND) times the factor of the wind's speed.
    ///
    /// A rule of thumb, see the [module](self): no better than half or twice.
    ///
    /// # Errors
    /// [`TooMuchWind`] over [`MOST_WIND_KNOTS`](Leeway::MOST_WIND_KNOTS), whatever the factor.
    pub fn drift(self, wind: Wind) -> Result<Stream, TooMuchWind> {
        let knots = wind.speed.as_knots();
        // The bound itself, whatever the unit that it came in.
        if knots > Self::MOST_WIND_KNOTS + 1e-9 {
            return Err(TooMuchWind { knots });
        }
        let drift = wind.speed.as_metres_per_second() * Self::PART_OF_WIND * self.0;
        Ok(Stream { set: wind.from.back(), drift: Speed::metres_per_second(drift) })
    }
}

/// The rule itself.
impl Default for Leeway {
    fn default() -> Leeway {
        Leeway::RULE
    }
}

#[cfg(test)]
mod tests;
