//! The wind that a route is planned for.

use nav::leeway::{Leeway, TooMuchWind, Wind};
use nav::triangle::Stream;
use nav::{Bearing, OutOfRange, Speed};

/// One wind for the whole route, and how strongly it pushes the group.
///
/// It is a forecast's mean in words: nothing here knows gusts, lee or how it changes in the day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weather {
    /// The wind.
    pub wind: Wind,
    /// How strongly it pushes the group.
    pub leeway: Leeway,
}

/// A wind that no leeway is reckoned for, or that is none.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum WeatherError {
    /// A number out of its bounds.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// A wind of which the rule says nothing.
    #[error(transparent)]
    TooMuch(#[from] TooMuchWind),
}

impl Weather {
    /// This wind by the rule itself.
    #[must_use]
    pub const fn of(wind: Wind) -> Weather {
        Weather { wind, leeway: Leeway::RULE }
    }

    /// Its push, which adds to the stream's.
    ///
    /// # Errors
    /// [`TooMuchWind`] over force 4, of which the rule says nothing.
    pub fn drift(self) -> Result<Stream, TooMuchWind> {
        self.leeway.drift(self.wind)
    }

    /// The same as it is written: tenths of a degree, hundredths of a knot and of the factor. Rounded once,
    /// so that document and file agree.
    ///
    /// # Errors
    /// [`WeatherError`] when no leeway is reckoned for such a wind.
    pub fn checked(self) -> Result<Weather, WeatherError> {
        let rounded = |value: f64, parts: f64| (value * parts).round() / parts;
        // Just short of north rounds to it.
        let from = rounded(self.wind.from.as_degrees(), 10.0) % 360.0;
        let speed = Speed::from_knots(rounded(self.wind.speed.as_knots(), 100.0))?;
        let leeway = Leeway::from_factor(rounded(self.leeway.factor(), 100.0))?;
        let weather = Weather { wind: Wind { from: Bearing::from_degrees(from)?, speed }, leeway };
        weather.drift()?;
        Ok(weather)
    }
}
