//! A day's light.

use jiff::Timestamp;
use jiff::civil::Date;

use super::place::{Altitude, hour_angle, sine_of_altitude};
use crate::Position;
use crate::moment::{DateOutside, midnight, seconds, timestamp};
use crate::roots::Smooth;

/// Which way the sun goes through an altitude.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// Upwards.
    Rising,
    /// Downwards.
    Setting,
}

/// The sun's going through an altitude.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Crossing {
    /// When.
    pub at: Timestamp,
    /// Upwards or downwards.
    pub way: Way,
}

/// Whether the sun comes through the horizon on a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Daylight {
    /// It rises or sets, or both.
    DayAndNight,
    /// It stays below the horizon.
    NeverRises,
    /// It stays above the horizon.
    NeverSets,
}

/// A day's light at a place: what there is of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Day {
    /// Civil twilight begins: the sun's centre comes up to -6 degrees.
    pub dawn: Option<Timestamp>,
    /// The sun's upper edge comes up to the horizon.
    pub rise: Option<Timestamp>,
    /// The sun goes through the meridian: its upper transit, be it below the horizon.
    pub noon: Timestamp,
    /// The sun's upper edge goes down to the horizon.
    pub set: Option<Timestamp>,
    /// Civil twilight ends: the sun's centre goes down to -6 degrees.
    pub dusk: Option<Timestamp>,
    /// Whether there are day and night.
    pub daylight: Daylight,
}

/// The light of the day at `position` whose noon falls on `date` at local mean time there: from
/// midnight to midnight by the sun, so that rise comes before noon and set after it.
///
/// Local mean time is UTC and four minutes for each degree of east longitude; noon by it is
/// always within `date` in UTC too, give or take a quarter of an hour at the date line, while rise and
/// set may be on the dates next to it.
///
/// Accuracy: what the sun takes to climb 0.005 degree, against JPL's DE421 and, to the minute that they
/// print, the US Naval Observatory's tables: 3 s at 60 degrees of latitude, more where it grazes
/// the horizon.
///
/// # Errors
/// [`DateOutside`] before 1900 and after 2100.
///
/// ```
/// use nav::{Position, sun};
/// // Lerwick on 2026 May 17: rise 03:21:20, set 20:42:19 UTC (Skyfield, DE421).
/// let lerwick = Position::from_degrees(60.15, -1.15).unwrap();
/// let day = sun::day(lerwick, "2026-05-17".parse().unwrap()).unwrap();
/// assert!(day.rise.unwrap().to_string().starts_with("2026-05-17T03:21:"));
/// assert!(day.set.unwrap().to_string().starts_with("2026-05-17T20:42:"));
/// ```
pub fn day(position: Position, date: Date) -> Result<Day, DateOutside> {
    // Four minutes a degree: noon by mean time.
    let mean_noon = midnight(date) + 43_200.0 - 240.0 * position.lon.as_degrees();
    seconds(timestamp(mean_noon))?;
    let noon = meridian(position, mean_noon, 0.0);
    let from = meridian(position, noon - 43_200.0, 180.0);
    let to = meridian(position, noon + 43_200.0, 180.0);
    let pair = |altitude| {
        let found = between(position, altitude, from, to);
        let of = |way| found.iter().find(|crossing| crossing.way == way).map(|found| found.at);
        (of(Way::Rising), of(Way::Setting))
    };
    let (dawn, dusk) = pair(Altitude::CIVIL);
    let (rise, set) = pair(Altitude::RISE_AND_SET);
    let horizon = Altitude::RISE_AND_SET.as_degrees().to_radians().sin();
    let daylight = match (rise, set) {
        (None, None) if sine_of_altitude(position, noon) > horizon => Daylight::NeverSets,
        (None, None) => Daylight::NeverRises,
        _ => Daylight::DayAndNight,
    };
    Ok(Day { dawn, rise, noon: timestamp(noon), set, dusk, daylight })
}

/// Every instant between two at which the sun goes through `altitude` as seen from `position`, in order.
///
/// # Errors
/// [`DateOutside`] before 1900 and after 2100.
pub fn crossings(
    position: Position,
    altitude: Altitude,
    from: Timestamp,
    to: Timestamp,
) -> Result<Vec<Crossing>, DateOutside> {
    Ok(between(position, altitude, seconds(from)?, seconds(to)?))
}

/// The same, in seconds from 1970.
fn between(position: Position, altitude: Altitude, from: f64, to: f64) -> Vec<Crossing> {
    let sine = altitude.as_degrees().to_radians().sin();
    let above = Smooth {
        value: |hours: f64| sine_of_altitude(position, from + hours * 3600.0) - sine,
        // The square of 2π in a day, in hours, and a little for the sun's own motion.
        bend: 0.07,
        finest: 1.0 / 3600.0,
    };
    let way = |hours: f64| {
        let (before, after) = ((above.value)(hours - 0.001), (above.value)(hours + 0.001));
        if after > before { Way::Rising } else { Way::Setting }
    };
    let roots = above.roots(0.0, (to - from) / 3600.0);
    let crossing = |hours: f64| Crossing { at: timestamp(from + hours * 3600.0), way: way(hours) };
    roots.into_iter().map(crossing).collect()
}

/// The instant near `about` at which the sun's hour angle is `degrees`, 0 or 180.
fn meridian(position: Position, about: f64, degrees: f64) -> f64 {
    // The hour angle grows a degree in four minutes, within one part in a thousand, so that each
    // round leaves a thousandth of what was wrong.
    (0..4).fold(about, |at, _| {
        let off = (hour_angle(position, at) - degrees + 180.0).rem_euclid(360.0) - 180.0;
        at - 240.0 * off
    })
}
