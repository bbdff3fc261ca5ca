//! A group's pace, and the time that a distance takes at it.

use std::fmt;
use std::str::FromStr;

use jiff::{SignedDuration, ZonedDateTime};

use crate::text::decimals;
use crate::{Length, OutOfRange, Speed};

/// The unit that a pace was given in, and is written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum PaceUnit {
    /// Knots, `kn`.
    #[default]
    Knots,
    /// Kilometres an hour, `km/h`.
    KilometresAnHour,
}

/// How fast a group gets along: its speed while it paddles, and its rest in each hour.
///
/// Longer stops belong to the places where they are made, not to the pace.
///
/// ```
/// use nav::{Length, Pace, text};
/// // Common practice, no published source: a laden group makes about three knots.
/// let pace: Pace = "3 kn".parse()?;
/// let time = pace.time_for(6.0 * Length::KILOMETRE).unwrap();
/// assert_eq!(text::duration(time), "1 h 05");
/// # Ok::<(), nav::PaceError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pace {
    speed: Speed,
    unit: PaceUnit,
    rest: SignedDuration,
}

/// Why a text or a number is no pace.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PaceError {
    /// The text does not begin with a number.
    #[error("“{0}” is not a pace; write, say, 3 kn or 5.5 km/h")]
    NotANumber(String),
    /// The number has no unit, or one that is no unit of speed.
    #[error("“{0}” is not a unit of pace; write kn or km/h behind the number")]
    Unit(String),
    /// A speed that no paddler has.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// A rest that leaves no time to paddle.
    #[error("a rest of {0} minutes in each hour is not within 0 to 59 minutes")]
    Rest(i64),
}

impl Pace {
    /// A steady pace at `speed`, without rests.
    #[must_use]
    pub const fn new(speed: Speed, unit: PaceUnit) -> Pace {
        Pace { speed, unit, rest: SignedDuration::ZERO }
    }

    /// The same speed with so much rest in each hour on the water.
    ///
    /// # Errors
    /// [`PaceError::Rest`] when it is negative or longer than 59 minutes.
    pub fn with_rest_per_hour(self, rest: SignedDuration) -> Result<Pace, PaceError> {
        if rest.is_negative() || rest > SignedDuration::from_mins(59) {
            return Err(PaceError::Rest(rest.as_mins()));
        }
        Ok(Pace { rest, ..self })
    }

    /// The speed while paddling.
    #[must_use]
    pub const fn speed(self) -> Speed {
        self.speed
    }

    /// The unit that it is written in.
    #[must_use]
    pub const fn unit(self) -> PaceUnit {
        self.unit
    }

    /// The rest in each hour.
    #[must_use]
    pub const fn rest_per_hour(self) -> SignedDuration {
        self.rest
    }

    /// The time that a distance takes, rests and all; nothing at no speed.
    ///
    /// Rests are spread evenly: with ten minutes in each hour, fifty minutes of paddling
    /// take an hour.
    #[must_use]
    pub fn time_for(self, distance: Length) -> Option<SignedDuration> {
        let paddling = (distance.abs() / self.speed)?;
        let hour = 3600.0;
        let stretched = paddling.as_secs_f64() * hour / (hour - self.rest.as_secs_f64());
        SignedDuration::try_from_secs_f64(stretched).ok()
    }
}

/// The moment of arrival: `elapsed` after `departure`, in the departure's time zone, through any
/// change of the clocks; nothing beyond the calendar's last year.
///
/// ```
/// use jiff::{SignedDuration, ZonedDateTime};
/// use nav::{arrival, text};
/// // The clocks go back at two o'clock.
/// let start: ZonedDateTime = "2026-10-25T00:30[Europe/London]".parse()?;
/// let end = arrival(&start, SignedDuration::from_hours(2)).unwrap();
/// assert_eq!(text::clock(&end), "01:30");
/// # Ok::<(), jiff::Error>(())
/// ```
#[must_use]
pub fn arrival(departure: &ZonedDateTime, elapsed: SignedDuration) -> Option<ZonedDateTime> {
    departure.checked_add(elapsed).ok()
}

/// In its own unit: `3 kn`, `5.5 km/h`.
impl fmt::Display for Pace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (number, unit) = match self.unit {
            PaceUnit::Knots => (self.speed.as_knots(), "kn"),
            PaceUnit::KilometresAnHour => (self.speed.as_kmh(), "km/h"),
        };
        let number = decimals(number, 2);
        let number = number.trim_end_matches('0').trim_end_matches('.');
        write!(f, "{number} {unit}")
    }
}

/// Reads a number and its unit: `3 kn`, `3 knots`, `5.5 km/h`, `5,5 kmh`.
impl FromStr for Pace {
    type Err = PaceError;

    fn from_str(text: &str) -> Result<Pace, PaceError> {
        let text = text.trim();
        let end = text.find(|c: char| !c.is_ascii_digit() && !matches!(c, '.' | ',' | '-' | '+'));
        let (number, unit) = text.split_at(end.unwrap_or(text.len()));
        let number: f64 =
            number.replace(',', ".").parse().map_err(|_| PaceError::NotANumber(text.to_owned()))?;
        match unit.trim().to_lowercase().as_str() {
            "kn" | "kt" | "kts" | "knot" | "knots" => {
                Ok(Pace::new(Speed::from_knots(number)?, PaceUnit::Knots))
            }
            "km/h" | "kmh" | "kph" => {
                Ok(Pace::new(Speed::from_kmh(number)?, PaceUnit::KilometresAnHour))
            }
            _ => Err(PaceError::Unit(unit.trim().to_owned())),
        }
    }
}

#[cfg(test)]
mod tests;
