//! Instants as numbers of seconds, for formulas that run on time.

use jiff::Timestamp;
use jiff::civil::{self, Date};
use jiff::tz::TimeZone;

/// An instant outside the years that the formulas are held to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("{at} is not within the years 1900 to 2100, for which tides and light are reckoned")]
pub struct DateOutside {
    /// The instant asked for.
    pub at: Timestamp,
}

/// The instant in seconds from 1970, if it is within the years 1900 to 2100.
pub(crate) fn seconds(at: Timestamp) -> Result<f64, DateOutside> {
    let year = utc_date(at).year();
    if (1900..=2100).contains(&year) {
        Ok(at.as_duration().as_secs_f64())
    } else {
        Err(DateOutside { at })
    }
}

/// The day in UTC that an instant falls on.
pub(crate) fn utc_date(at: Timestamp) -> Date {
    TimeZone::UTC.to_datetime(at).date()
}

/// Seconds from 1970 to the beginning of a day in UTC.
pub(crate) fn midnight(date: Date) -> f64 {
    date.duration_since(civil::date(1970, 1, 1)).as_secs_f64()
}

/// The instant that lies so many seconds from 1970; to the microsecond, which is all that a
/// number of this size holds.
pub(crate) fn timestamp(seconds: f64) -> Timestamp {
    // The years 1900 to 2100 are within what it holds; what is past its ends is as far outside them there.
    let end = if seconds < 0.0 { Timestamp::MIN } else { Timestamp::MAX };
    Timestamp::from_microsecond((seconds * 1e6).round() as i64).unwrap_or(end)
}
