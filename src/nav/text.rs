//! The one way to write every quantity, on screen, on paper and on the command line.
//!
//! | quantity | as |
//! | --- | --- |
//! | distance | `4.3 NM`, `8.0 km`, `240 m` |
//! | duration | `1 h 25`, `34 min` |
//! | clock time | `14:05` |
//! | a range between neaps and springs | `60 % of the way from neaps to springs` |
//! | latitude, longitude | `57°09.3′N  002°04.8′W` and [in other forms](AngleForm) |
//!
//! Directions, with their three figures and their north, and variation are written by their
//! own [`Display`](std::fmt::Display).

use jiff::{SignedDuration, Unit, ZonedDateTime};

use crate::Length;

mod angle;
mod parse;
mod time;

pub use angle::{AngleForm, AngleStyle, latitude, longitude, position};
pub use parse::{PositionError, parse_position};
pub use time::{DurationError, parse_duration};

/// The caution on everything that could be carried afloat.
pub const CAUTION: &str = "Not for navigation. Check current charts, tide tables, notices and the \
                           forecast; follow local rules, and the advice of qualified local \
                           leaders and the rescue service.";

/// The caution in three words, where there is room for no more.
pub const CAUTION_IN_SHORT: &str = "not for navigation";

/// A distance in nautical miles, to a tenth: `4.3 NM`.
///
/// ```
/// use nav::{Length, text};
/// assert_eq!(text::nautical_miles(8.0 * Length::KILOMETRE), "4.3 NM");
/// ```
#[must_use]
pub fn nautical_miles(distance: Length) -> String {
    format!("{} NM", decimals(distance.as_nautical_miles(), 1))
}

/// A distance in kilometres, to a tenth; under one kilometre in metres: `8.0 km`, `240 m`.
///
/// ```
/// use nav::{Length, text};
/// assert_eq!(text::kilometres(8.04 * Length::KILOMETRE), "8.0 km");
/// assert_eq!(text::kilometres(240.2 * Length::METRE), "240 m");
/// assert_eq!(text::kilometres(999.7 * Length::METRE), "1.0 km");
/// ```
#[must_use]
pub fn kilometres(distance: Length) -> String {
    let metres = distance.as_metres().round();
    if metres.abs() < 1000.0 {
        format!("{} m", decimals(metres, 0))
    } else {
        format!("{} km", decimals(distance.as_kilometres(), 1))
    }
}

/// A duration to the nearest minute: `34 min`, and from an hour on `1 h 25`.
///
/// ```
/// use jiff::SignedDuration;
/// use nav::text;
/// assert_eq!(text::duration(SignedDuration::from_mins(85)), "1 h 25");
/// assert_eq!(text::duration(SignedDuration::from_secs(59 * 60 + 36)), "1 h 00");
/// ```
#[must_use]
pub fn duration(time: SignedDuration) -> String {
    // Half minutes away from zero. The day's arithmetic never nears the ends of the range,
    // where rounding has no answer and the whole minutes stand.
    let whole = i128::from(time.as_mins());
    let half_over = time.as_millis() - whole * 60_000;
    let minutes = whole + half_over / 30_000;
    let sign = if minutes < 0 { "-" } else { "" };
    match (minutes.abs() / 60, minutes.abs() % 60) {
        (0, minutes) => format!("{sign}{minutes} min"),
        (hours, minutes) => format!("{sign}{hours} h {minutes:02}"),
    }
}

/// A time of day to the nearest minute, `14:05`; its zone is named elsewhere, once.
///
/// ```
/// use nav::text;
/// let start: jiff::ZonedDateTime = "2026-06-14T09:59:40+01:00[Europe/London]".parse()?;
/// assert_eq!(text::clock(&start), "10:00");
/// # Ok::<(), jiff::Error>(())
/// ```
#[must_use]
pub fn clock(time: &ZonedDateTime) -> String {
    let minute = time.round(Unit::Minute).map_or_else(|_| time.time(), |rounded| rounded.time());
    format!("{:02}:{:02}", minute.hour(), minute.minute())
}

/// Where a day's range lies between mean neaps and mean springs, from its
/// [factor](crate::tide::MeanRanges::factor): `mean springs`, `60 % of the way from neaps to springs`,
/// `10 % beyond springs`, `20 % below neaps`. The per cent are those of the way between the two.
///
/// ```
/// use nav::text;
/// assert_eq!(text::springs_or_neaps(0.98), "mean springs");
/// assert_eq!(text::springs_or_neaps(0.6), "60 % of the way from neaps to springs");
/// assert_eq!(text::springs_or_neaps(1.1), "10 % beyond springs");
/// assert_eq!(text::springs_or_neaps(-0.2), "20 % below neaps");
/// ```
#[must_use]
pub fn springs_or_neaps(factor: f64) -> String {
    let per_cent = decimals(factor * 100.0, 0);
    // Within five hundredths of a mean it is that mean, which is no more exact itself.
    match factor {
        f if (f - 1.0).abs() < 0.05 => "mean springs".to_owned(),
        f if f.abs() < 0.05 => "mean neaps".to_owned(),
        f if f > 1.0 => format!("{} % beyond springs", decimals((f - 1.0) * 100.0, 0)),
        f if f < 0.0 => format!("{} % below neaps", decimals(-f * 100.0, 0)),
        _ => format!("{per_cent} % of the way from neaps to springs"),
    }
}

/// A number with so many decimals, and no minus before a zero.
pub(crate) fn decimals(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    match text.strip_prefix('-') {
        Some(zero) if zero.bytes().all(|digit| matches!(digit, b'0' | b'.')) => zero.to_owned(),
        _ => text,
    }
}

#[cfg(test)]
mod tests;
