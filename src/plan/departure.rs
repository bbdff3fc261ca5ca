//! When the group leaves, on which clock.

use std::fmt;
use std::str::FromStr;

use jiff::civil::DateTime;
use jiff::tz::TimeZone;
use jiff::{RoundMode, Unit, ZonedDateTime, ZonedDateTimeRound};

/// A moment of departure with the time zone in which the day's clock times are given.
///
/// Two departures are equal when moment and zone are: the same moment on another clock is
/// another departure, since every time on the card would read differently.
#[derive(Debug, Clone)]
pub struct Departure(ZonedDateTime);

/// Why a departure could not be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error(
    "departure {text:?} is not a local time with its zone in brackets, such as \
     2026-06-14T09:30[-02:00] or 2026-06-14T09:30[Europe/Oslo]"
)]
pub struct DepartureError {
    /// What was given.
    pub text: String,
}

impl Departure {
    /// The departure at `moment`, any seconds dropped. A zone without a name is held as its
    /// offset at that moment, since nothing else about it could be written down.
    ///
    /// # Errors
    /// [`DepartureError`] when the moment is the first of all, before which there is no whole minute.
    pub fn at(moment: &ZonedDateTime) -> Result<Departure, DepartureError> {
        let to_the_minute = ZonedDateTimeRound::new().smallest(Unit::Minute).mode(RoundMode::Trunc);
        let minute =
            moment.round(to_the_minute).map_err(|_| DepartureError { text: moment.to_string() })?;
        let named = minute.time_zone().iana_name().is_some();
        let offset = TimeZone::fixed(minute.offset());
        Ok(Departure(if named { minute } else { minute.with_time_zone(offset) }))
    }

    /// The departure when a clock in `zone` shows `local`.
    ///
    /// A local time that the spring change of clocks leaves out is moved on by the gap; of two
    /// moments that the autumn change gives one time, the first is meant.
    ///
    /// # Errors
    /// [`DepartureError`] when the moment lies outside the years -9999 to 9999.
    pub fn new(local: DateTime, zone: TimeZone) -> Result<Departure, DepartureError> {
        let moment = zone.to_ambiguous_zoned_datetime(local).compatible();
        Departure::at(&moment.map_err(|_| DepartureError { text: local.to_string() })?)
    }

    /// The moment with its zone.
    pub const fn moment(&self) -> &ZonedDateTime {
        &self.0
    }

    /// The time zone of the day's clock times.
    pub fn zone(&self) -> &TimeZone {
        self.0.time_zone()
    }

    /// What the zone is called beside clock times: `Europe/Oslo`, or `UTC-2` for one without a name.
    ///
    /// ```
    /// let departure: plan::Departure = "2026-06-14T09:30[-02:30]".parse()?;
    /// assert_eq!(departure.zone_name(), "UTC-2:30");
    /// # Ok::<(), plan::DepartureError>(())
    /// ```
    pub fn zone_name(&self) -> String {
        if let Some(name) = self.zone().iana_name() {
            return name.to_owned();
        }
        let minutes = self.0.offset().seconds() / 60;
        let sign = if minutes < 0 { '-' } else { '+' };
        match (minutes.abs() / 60, minutes.abs() % 60) {
            (0, 0) => "UTC".to_owned(),
            (hours, 0) => format!("UTC{sign}{hours}"),
            (hours, minutes) => format!("UTC{sign}{hours}:{minutes:02}"),
        }
    }
}

impl PartialEq for Departure {
    fn eq(&self, other: &Self) -> bool {
        self.0 == other.0 && self.0.time_zone() == other.0.time_zone()
    }
}

/// Local time, offset and zone (RFC 9557): `2026-06-14T09:30:00-02:00[-02:00]`.
impl fmt::Display for Departure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl FromStr for Departure {
    type Err = DepartureError;

    fn from_str(text: &str) -> Result<Departure, DepartureError> {
        let read = text.trim().parse().ok().and_then(|moment| Departure::at(&moment).ok());
        read.ok_or_else(|| DepartureError { text: text.to_owned() })
    }
}
