//! When the group leaves, on which clock.

use std::fmt;
use std::str::FromStr;

use jiff::civil::{Date, DateTime};
use jiff::tz::{Offset, TimeZone};
use jiff::{RoundMode, Unit, ZonedDateTime, ZonedDateTimeRound};
use nav::{Longitude, Position};

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

    /// Nine in the morning of `day`, on the clock of `place`: what a day begins as until the user
    /// says otherwise.
    ///
    /// # Errors
    /// As [`Departure::new`].
    pub fn usual(day: Date, place: Position) -> Result<Departure, DepartureError> {
        Departure::new(day.at(9, 0, 0, 0), nautical_zone(place.lon))
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

/// The nautical time zone of a longitude: the nearest whole hour to its sun, 15° an hour, which
/// needs no borders and no change of clocks. Ashore the law may set another.
#[must_use]
pub fn nautical_zone(lon: Longitude) -> TimeZone {
    // Within ±12 by the bounds of a longitude.
    let hours = (lon.as_degrees() / 15.0).round() as i8;
    Offset::from_hours(hours).map_or(TimeZone::UTC, TimeZone::fixed)
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

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    fn at(text: &str) -> Departure {
        text.parse().unwrap()
    }

    #[test]
    fn a_departure_is_a_time_on_a_clock() {
        assert_eq!(at("2026-06-14T09:30[-02:00]").to_string(), "2026-06-14T09:30:00-02:00[-02:00]");
        assert_eq!(
            at("2026-06-14T09:30:59[Europe/Oslo]").to_string(),
            "2026-06-14T09:30:00+02:00[Europe/Oslo]"
        );
        // The same moment on another clock.
        assert_ne!(at("2026-06-14T09:30[-02:00]"), at("2026-06-14T10:30[-01:00]"));
        for bad in ["", "2026-06-14T09:30", "2026-06-14T09:30Z", "2026-13-01T09:30[UTC]", "09:30"] {
            assert!(bad.parse::<Departure>().is_err(), "{bad}");
        }
    }

    #[test]
    fn changes_of_the_clock_move_a_departure_on_or_take_the_first() {
        let zone = TimeZone::get("Europe/London").unwrap();
        let spring = Departure::new(date(2026, 3, 29).at(1, 30, 0, 0), zone.clone()).unwrap();
        assert_eq!(spring.to_string(), "2026-03-29T02:30:00+01:00[Europe/London]");
        let autumn = Departure::new(date(2026, 10, 25).at(1, 30, 0, 0), zone).unwrap();
        assert_eq!(autumn.to_string(), "2026-10-25T01:30:00+01:00[Europe/London]");
    }

    #[test]
    fn a_place_has_a_clock_by_its_sun() {
        for (lon, offset) in
            [(-27.5, "-02"), (-22.4, "-01"), (0.0, "UTC"), (180.0, "+12"), (-180.0, "-12")]
        {
            let place = Position::from_degrees(52.0, lon).unwrap();
            let usual = Departure::usual(date(2026, 6, 14), place).unwrap();
            let shown = usual.moment().strftime("%H:%M %:Q").to_string();
            assert!(shown.starts_with("09:00") && shown.contains(offset), "{lon}: {shown}");
        }
    }
}
