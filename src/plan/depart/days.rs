//! Civil days and how often a start is looked at.

use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};

/// Why the starts of a day cannot be told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum DayError {
    /// A start every so often, too often or too seldom.
    #[error("a start every {minutes} min is not within every minute and every 1440 min")]
    Every {
        /// What was given.
        minutes: i64,
    },
    /// A day that the zone's clocks leave out.
    #[error("there is no {0} in this zone: its clocks go from the day before to the day after")]
    Skipped(Date),
    /// A day beyond the calendar.
    #[error("{0} is at the end of the calendar")]
    Calendar(Date),
}

/// How often a start is looked at: whole minutes, from one minute to a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Every(SignedDuration);

impl Every {
    /// Every ten minutes.
    pub const TEN_MINUTES: Every = Every(SignedDuration::from_mins(10));

    /// Every so many minutes.
    ///
    /// # Errors
    /// [`DayError::Every`] when that is none or more than a day has.
    pub fn minutes(minutes: i64) -> Result<Every, DayError> {
        let every = SignedDuration::from_mins(minutes.clamp(0, 1440));
        if every.as_mins() == minutes && minutes > 0 {
            Ok(Every(every))
        } else {
            Err(DayError::Every { minutes })
        }
    }

    /// As a duration.
    pub const fn duration(self) -> SignedDuration {
        self.0
    }

    /// The instants from one up to just before another, the first included.
    pub fn instants(self, from: Timestamp, to: Timestamp) -> impl Iterator<Item = Timestamp> {
        std::iter::successors(Some(from), move |at| at.checked_add(self.0).ok())
            .take_while(move |at| *at < to)
    }
}

/// When a civil day begins and when the next one does, on the clock of `zone`: 23 or 25 hours apart where
/// the clocks change.
///
/// # Errors
/// [`DayError`] at the end of the calendar, and of a day that was left out where the date line moved.
pub fn civil_day(date: Date, zone: &TimeZone) -> Result<(Timestamp, Timestamp), DayError> {
    let start = |date: Date| {
        let start = date.to_zoned_datetime(zone.clone());
        start.map(|start| start.timestamp()).map_err(|_| DayError::Calendar(date))
    };
    let next = date.tomorrow().map_err(|_| DayError::Calendar(date))?;
    let (from, to) = (start(date)?, start(next)?);
    if from < to { Ok((from, to)) } else { Err(DayError::Skipped(date)) }
}
