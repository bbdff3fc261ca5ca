//! The limits that a departure is judged by. The user sets them; nothing here knows what they ought to be.

mod words;

#[cfg(test)]
mod tests;

pub use chart::water::RaceState;
use jiff::SignedDuration;
use nav::tide::Height;
use nav::{Length, Speed};

pub use words::{Limit, LimitText};

/// What a start must keep to so that it is acceptable: to the user who set it, for this group on this
/// day. A start within its limits has kept them and no more.
///
/// Times are whole minutes, rates and heights hundredths of their unit, as [`Limits::checked`] rounds
/// them, so that document and file agree.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// The longest wait under way, all of them together: at gates, or for a stream that lets the group
    /// make no way.
    pub longest_wait: SignedDuration,
    /// The least light left at the landing: from the landing to the end of civil twilight. With it goes
    /// that nobody leaves before civil twilight begins. Nothing accepts the dark.
    pub light_left: Option<SignedDuration>,
    /// The worst state in which a race may be met.
    pub worst_race: RaceState,
    /// The greatest drift: the most that the water may run, whichever way, anywhere on the way.
    pub greatest_drift: Option<Speed>,
    /// The least height of tide at the landing.
    pub least_height: Option<Height>,
    /// The longest day: from the launch to the landing, stops and waits included.
    pub longest_day: Option<SignedDuration>,
    /// By how much of the day's quickest acceptable time a start must be longer to count as slow, in
    /// hundredths.
    pub slow_percent: u16,
}

/// A limit out of its bounds.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum LimitsError {
    /// A time.
    #[error("a {what} of {minutes} min is not within 0 and {most} min")]
    Time {
        /// Which limit.
        what: Limit,
        /// What was given.
        minutes: i64,
        /// The most.
        most: i64,
    },
    /// A rate.
    #[error("a {what} of {knots} kn is not within 0.1 and {most} kn")]
    Rate {
        /// Which limit.
        what: Limit,
        /// What was given.
        knots: f64,
        /// The most.
        most: f64,
    },
    /// A height.
    #[error("a {what} of {metres} m is not within -{most} and {most} m")]
    Height {
        /// Which limit.
        what: Limit,
        /// What was given.
        metres: f64,
        /// The most either way.
        most: f64,
    },
    /// A part.
    #[error("{what} by {percent} % is not within 1 and {most} %")]
    Percent {
        /// Which limit.
        what: Limit,
        /// What was given.
        percent: u16,
        /// The most.
        most: u16,
    },
}

impl Default for Limits {
    /// What a careful leader may begin from: an hour's wait, an hour of light left, races quiet or
    /// running but not at their worst; slow from a quarter longer than the best. Common practice, no
    /// published source.
    fn default() -> Limits {
        Limits {
            longest_wait: SignedDuration::from_mins(60),
            light_left: Some(SignedDuration::from_mins(60)),
            worst_race: RaceState::Running,
            greatest_drift: None,
            least_height: None,
            longest_day: None,
            slow_percent: 25,
        }
    }
}

impl Limits {
    /// The longest wait that can be set: a day.
    pub const MOST_WAIT: SignedDuration = SignedDuration::from_hours(24);
    /// The most light left that can be asked for: half a day.
    pub const MOST_LIGHT: SignedDuration = SignedDuration::from_hours(12);
    /// The longest day that can be set: two of them.
    pub const MOST_DAY: SignedDuration = SignedDuration::from_hours(48);
    /// The greatest drift that can be set, in knots.
    pub const MOST_DRIFT_KN: f64 = 30.0;
    /// The furthest from datum that a height can be set, in metres.
    pub const MOST_HEIGHT_M: f64 = 20.0;
    /// The most by which a start may be longer and not slow, in hundredths.
    pub const MOST_SLOW: u16 = 400;

    /// These limits rounded as they are written, if each is within its bounds.
    ///
    /// # Errors
    /// [`LimitsError`] with the first that is not.
    pub fn checked(self) -> Result<Limits, LimitsError> {
        let time = |what, time: SignedDuration, most: SignedDuration| match time {
            time if time.is_negative() || time > most => {
                Err(LimitsError::Time { what, minutes: time.as_mins(), most: most.as_mins() })
            }
            time => Ok(SignedDuration::from_mins(time.as_mins())),
        };
        let light = self.light_left.map(|light| time(Limit::Light, light, Limits::MOST_LIGHT));
        let day = self.longest_day.map(|day| time(Limit::Day, day, Limits::MOST_DAY));
        if !(1..=Limits::MOST_SLOW).contains(&self.slow_percent) {
            let (percent, most) = (self.slow_percent, Limits::MOST_SLOW);
            return Err(LimitsError::Percent { what: Limit::Slow, percent, most });
        }
        Ok(Limits {
            longest_wait: time(Limit::Wait, self.longest_wait, Limits::MOST_WAIT)?,
            light_left: light.transpose()?,
            greatest_drift: self.greatest_drift.map(drift).transpose()?,
            least_height: self.least_height.map(height).transpose()?,
            longest_day: day.transpose()?,
            ..self
        })
    }
}

fn drift(rate: Speed) -> Result<Speed, LimitsError> {
    let (knots, most) = (rate.as_knots(), Limits::MOST_DRIFT_KN);
    let wrong = LimitsError::Rate { what: Limit::Drift, knots, most };
    let rounded = (knots * 100.0).round() / 100.0;
    let rate = Speed::from_knots(rounded).ok();
    rate.filter(|_| (0.1..=most).contains(&rounded)).ok_or(wrong)
}

fn height(height: Height) -> Result<Height, LimitsError> {
    let (metres, most) = (height.as_metres(), Limits::MOST_HEIGHT_M);
    // Adding zero turns a negative zero into a plain one.
    let rounded = (metres * 100.0).round() / 100.0 + 0.0;
    let height = Length::from_metres(rounded).ok().filter(|_| rounded.abs() <= most);
    height.map(Height::above_datum).ok_or(LimitsError::Height { what: Limit::Height, metres, most })
}
