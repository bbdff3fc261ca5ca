//! Secondary ports: a standard port's high and low waters, with differences of time and height.
//!
//! The ways are those that tide tables give in their own instructions. British ones print
//! time differences for two pairs of clock times at the standard port, at which its springs and its neaps
//! have their high waters, and height differences for its mean high and low waters at springs and
//! neaps; between them one takes what is in proportion. French ones print both for springs and for
//! neaps and go by the day's range. American ones print one time difference and a difference or a
//! ratio of heights.

use jiff::civil::Time;
use jiff::tz::Offset;
use jiff::{SignedDuration, Timestamp};

use super::height::Height;
use super::springs::MeanRanges;
use super::turns::{Turn, Water};
use crate::Length;

/// How much later than at the standard port.
#[derive(Debug, Clone, PartialEq)]
pub enum TimeDifference {
    /// Always the same.
    Fixed(SignedDuration),
    /// By the clock time at the standard port, in proportion round the clock between the times given.
    ByClock(ClockDifferences),
    /// By the day's factor between mean neaps and mean springs.
    ByRange {
        /// At mean springs.
        springs: SignedDuration,
        /// At mean neaps.
        neaps: SignedDuration,
    },
}

/// How much higher than at the standard port.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum HeightDifference {
    /// By the height at the standard port: what is added at its mean height of springs and at that of
    /// neaps, in proportion between them and on beyond.
    ByHeight {
        /// The standard port's mean height at springs, and the difference there.
        springs: (Height, Length),
        /// The standard port's mean height at neaps, and the difference there.
        neaps: (Height, Length),
    },
    /// So many times the height at the standard port: a plain number.
    Ratio(f64),
}

/// Time differences by clock times: at least one, in order, on one day.
#[derive(Debug, Clone, PartialEq)]
pub struct ClockDifferences(Vec<(Time, SignedDuration)>);

/// Why differences make no secondary port.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum SecondaryError {
    /// No clock times at all.
    #[error("time differences by the clock need at least one clock time")]
    NoTimes,
    /// Clock times that do not rise.
    #[error("{time} comes after {before}, and is no later; clock times of differences rise")]
    OutOfOrder {
        /// The one before.
        before: Time,
        /// The one that is no later.
        time: Time,
    },
    /// One height for both springs and neaps.
    #[error(
        "the standard port has {metres} m for both springs and neaps; there is nothing between them"
    )]
    SameHeight {
        /// That height in metres.
        metres: f64,
    },
    /// Differences by the range where the mean ranges are not given.
    #[error("time differences by the range need the standard port's mean ranges")]
    NoRanges,
}

impl ClockDifferences {
    /// Differences at clock times of the standard port, in order.
    ///
    /// # Errors
    /// [`SecondaryError`] without any, or when they do not rise.
    pub fn new(times: Vec<(Time, SignedDuration)>) -> Result<ClockDifferences, SecondaryError> {
        if times.is_empty() {
            return Err(SecondaryError::NoTimes);
        }
        match times.windows(2).find(|pair| pair[1].0 <= pair[0].0) {
            Some(pair) => Err(SecondaryError::OutOfOrder { before: pair[0].0, time: pair[1].0 }),
            None => Ok(ClockDifferences(times)),
        }
    }

    /// The same for two pairs of times half a day apart, as British tables print them.
    ///
    /// # Errors
    /// [`SecondaryError::OutOfOrder`] when the second is not within twelve hours after the first.
    pub fn pairs(
        first: (Time, SignedDuration),
        second: (Time, SignedDuration),
    ) -> Result<ClockDifferences, SecondaryError> {
        let half = SignedDuration::from_hours(12);
        let later =
            |(time, difference): (Time, SignedDuration)| (time.wrapping_add(half), difference);
        ClockDifferences::new(vec![first, second, later(first), later(second)])
    }

    /// The difference at a clock time.
    fn at(&self, time: Time) -> SignedDuration {
        const DAY: f64 = 86_400.0;
        let count = self.0.len();
        let next = self.0.partition_point(|&(given, _)| given <= time);
        let (before, after) = (self.0[(next + count - 1) % count], self.0[next % count]);
        // Round the clock: the last of one day and the first of the next are neighbours.
        let since = |time: Time| time.duration_since(before.0).as_secs_f64().rem_euclid(DAY);
        let whole = since(after.0);
        let part = if whole > 0.0 { since(time) / whole } else { 0.0 };
        between(before.1, after.1, part)
    }
}

/// What lies `part` of the way from one duration to another, to the second.
fn between(from: SignedDuration, to: SignedDuration, part: f64) -> SignedDuration {
    let (from, to) = (from.as_secs_f64(), to.as_secs_f64());
    SignedDuration::from_secs((from + (to - from) * part).round() as i64)
}

impl HeightDifference {
    fn at(self, height: Height) -> Height {
        match self {
            HeightDifference::Ratio(ratio) => Height::above_datum(height.above() * ratio),
            HeightDifference::ByHeight { springs, neaps } => {
                let part = (height - neaps.0) / (springs.0 - neaps.0);
                height + neaps.1 + (springs.1 - neaps.1) * part
            }
        }
    }

    fn check(self) -> Result<(), SecondaryError> {
        match self {
            HeightDifference::ByHeight { springs, neaps } if springs.0 == neaps.0 => {
                Err(SecondaryError::SameHeight { metres: springs.0.as_metres() })
            }
            _ => Ok(()),
        }
    }
}

/// The differences of one kind of water.
#[derive(Debug, Clone, PartialEq)]
pub struct Differences {
    /// Of times.
    pub time: TimeDifference,
    /// Of heights.
    pub height: HeightDifference,
}

/// A port whose tide is known by differences from a standard port's.
#[derive(Debug, Clone, PartialEq)]
pub struct SecondaryPort {
    high: Differences,
    low: Differences,
    clock: Offset,
    ranges: Option<MeanRanges>,
    seasonal: Seasonal,
}

/// Seasonal changes of mean level, which tables print by months: an option, nothing unless given.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Seasonal {
    /// What the standard port's predictions hold already, taken off before the differences.
    pub standard: Length,
    /// What is added at the secondary port after them.
    pub secondary: Length,
}

impl SecondaryPort {
    /// The port of these differences, whose clock times are those of a standard port that keeps `clock`.
    /// `ranges` are the standard port's, for differences by the range.
    ///
    /// # Errors
    /// [`SecondaryError`] when springs and neaps have one height, or the ranges are wanted and lacking.
    pub fn new(
        high: Differences,
        low: Differences,
        clock: Offset,
        ranges: Option<MeanRanges>,
    ) -> Result<SecondaryPort, SecondaryError> {
        for differences in [&high, &low] {
            differences.height.check()?;
            if matches!(differences.time, TimeDifference::ByRange { .. }) && ranges.is_none() {
                return Err(SecondaryError::NoRanges);
            }
        }
        Ok(SecondaryPort { high, low, clock, ranges, seasonal: Seasonal::default() })
    }

    /// The same with seasonal changes of mean level.
    #[must_use]
    pub fn with_seasonal(self, seasonal: Seasonal) -> SecondaryPort {
        SecondaryPort { seasonal, ..self }
    }

    /// Its high and low waters, one for each of the standard port's, which follow one another.
    pub fn turns(&self, standard: &[Turn]) -> Vec<Turn> {
        let turn = |index: usize| {
            let turn = &standard[index];
            let differences = if turn.water == Water::High { &self.high } else { &self.low };
            let height = turn.height - self.seasonal.standard;
            let height = differences.height.at(height) + self.seasonal.secondary;
            let later = self.later(&differences.time, standard, index);
            Turn { at: shifted(turn.at, later), height, water: turn.water }
        };
        (0..standard.len()).map(turn).collect()
    }

    fn later(&self, time: &TimeDifference, standard: &[Turn], index: usize) -> SignedDuration {
        match time {
            TimeDifference::Fixed(later) => *later,
            TimeDifference::ByClock(clock) => {
                clock.at(self.clock.to_datetime(standard[index].at).time())
            }
            &TimeDifference::ByRange { springs, neaps } => {
                // There by `new`; and mean neaps for a turn without a neighbour.
                let range = range_about(standard, index);
                let factor = self.ranges.zip(range).map_or(0.0, |(mean, range)| mean.factor(range));
                between(neaps, springs, factor)
            }
        }
    }
}

/// The range about a turn: the mean of those before and after it.
fn range_about(turns: &[Turn], index: usize) -> Option<Length> {
    let range = |a: usize, b: usize| Some((turns.get(a)?.height - turns.get(b)?.height).abs());
    let before = index.checked_sub(1).and_then(|before| range(before, index));
    match (before, range(index, index + 1)) {
        (Some(before), Some(after)) => Some((before + after) / 2.0),
        (before, after) => before.or(after),
    }
}

/// An instant moved, but for the end of all time, where it stays.
fn shifted(at: Timestamp, later: SignedDuration) -> Timestamp {
    at.checked_add(later).unwrap_or(at)
}

/// The pressure of the air at sea level.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct AirPressure(f64);

impl AirPressure {
    /// The standard atmosphere, 1013.25 hPa (ISO 2533).
    pub const STANDARD: AirPressure = AirPressure(1013.25);

    /// A pressure of so many hectopascals, which are millibars.
    ///
    /// # Errors
    /// [`crate::OutOfRange`] when it is not within 850 to 1100.
    pub fn from_hectopascals(pressure: f64) -> Result<AirPressure, crate::OutOfRange> {
        crate::OutOfRange::check(
            "air pressure in hPa",
            pressure,
            (850.0, 1100.0),
            "850 to 1,100 hPa",
        )
        .map(AirPressure)
    }

    /// In hectopascals.
    pub const fn as_hectopascals(self) -> f64 {
        self.0
    }

    /// How much the sea stands higher under this pressure than under `usual`, once it has had the
    /// time to: by the water's weight, 9.95 mm for each hectopascal less (1025 kg/m³, 9.807 m/s²).
    ///
    /// ```
    /// use nav::tide::AirPressure;
    /// let low = AirPressure::from_hectopascals(979.25).unwrap();
    /// // Tables say 0.3 m for 34 hPa.
    /// assert!((low.raises(AirPressure::STANDARD).as_metres() - 0.34).abs() < 0.005);
    /// ```
    pub fn raises(self, usual: AirPressure) -> Length {
        Length::metres((usual.0 - self.0) * 100.0 / (1025.0 * 9.807))
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::time;
    use super::*;

    fn minutes(minutes: i64) -> SignedDuration {
        SignedDuration::from_mins(minutes)
    }

    fn clock(hour: i8, minute: i8) -> Time {
        Time::new(hour, minute, 0, 0).unwrap()
    }

    fn metres(metres: f64) -> Height {
        Height::metres(metres)
    }

    fn by_height(springs: (f64, f64), neaps: (f64, f64)) -> HeightDifference {
        let pair = |(at, more): (f64, f64)| (metres(at), more * Length::METRE);
        HeightDifference::ByHeight { springs: pair(springs), neaps: pair(neaps) }
    }

    /// A standard port of mean heights 5.0, 4.0, 2.0, 1.0 m (constructed).
    fn british() -> SecondaryPort {
        let pairs = |first, second| {
            TimeDifference::ByClock(
                ClockDifferences::pairs((clock(0, 0), first), (clock(6, 0), second)).unwrap(),
            )
        };
        let high = Differences {
            time: pairs(minutes(-30), minutes(-18)),
            height: by_height((5.0, -0.6), (4.0, -0.2)),
        };
        let low = Differences {
            time: pairs(minutes(-20), minutes(-40)),
            height: by_height((1.0, 0.1), (2.0, 0.3)),
        };
        SecondaryPort::new(high, low, Offset::UTC, None).unwrap()
    }

    fn turn(at: &str, height: f64, water: Water) -> Turn {
        Turn { at: time(at), height: metres(height), water }
    }

    #[test]
    fn differences_in_proportion_by_clock_and_height() {
        let standard = [
            turn("2026-06-14T02:00Z", 4.5, Water::High),
            turn("2026-06-14T09:00Z", 0.5, Water::Low),
            turn("2026-06-14T15:00Z", 5.5, Water::High),
            turn("2026-06-14T21:00Z", 2.5, Water::Low),
        ];
        let turns = british().turns(&standard);
        // A third of the way from -30 to -18; half way from -40 back to -20; and so round.
        let expected = [
            ("2026-06-14T01:34Z", 4.5 - 0.4),
            ("2026-06-14T08:30Z", 0.5 + 0.0),
            ("2026-06-14T14:36Z", 5.5 - 0.8),
            ("2026-06-14T20:30Z", 2.5 + 0.4),
        ];
        for (turn, (at, height)) in turns.iter().zip(expected) {
            assert_eq!(turn.at, time(at));
            assert!((turn.height.as_metres() - height).abs() < 1e-12, "{turn:?}");
        }
    }

    #[test]
    fn the_clock_is_the_standard_ports_own() {
        let standard = [turn("2026-06-14T05:00Z", 4.5, Water::High)];
        let east = SecondaryPort { clock: Offset::constant(1), ..british() };
        assert_eq!(east.turns(&standard)[0].at, time("2026-06-14T04:42Z"));
    }

    #[test]
    fn by_range_and_by_ratio() {
        let time_difference = TimeDifference::ByRange { springs: minutes(30), neaps: minutes(10) };
        let ratio = HeightDifference::Ratio(0.8);
        let both = Differences { time: time_difference, height: ratio };
        let ranges = MeanRanges::new(4.0 * Length::METRE, 2.0 * Length::METRE).unwrap();
        let port =
            SecondaryPort::new(both.clone(), both.clone(), Offset::UTC, Some(ranges)).unwrap();
        let standard = [
            turn("2026-06-14T00:00Z", 4.0, Water::High),
            turn("2026-06-14T06:00Z", 1.0, Water::Low),
            turn("2026-06-14T12:00Z", 6.0, Water::High),
        ];
        let turns = port.turns(&standard);
        // Ranges of 3, of 4 in the mean, and of 5 m.
        let at = ["2026-06-14T00:20Z", "2026-06-14T06:30Z", "2026-06-14T12:40Z"].map(time);
        assert_eq!([turns[0].at, turns[1].at, turns[2].at], at);
        assert!((turns[2].height.as_metres() - 4.8).abs() < 1e-12);
        let lacking = SecondaryPort::new(both.clone(), both, Offset::UTC, None).unwrap_err();
        assert_eq!(lacking, SecondaryError::NoRanges);
    }

    #[test]
    fn seasons_come_off_and_on() {
        let standard = [turn("2026-06-14T02:00Z", 4.6, Water::High)];
        let length = |metres| metres * Length::METRE;
        let seasonal = Seasonal { standard: length(0.1), secondary: length(0.2) };
        let height = british().with_seasonal(seasonal).turns(&standard)[0].height.as_metres();
        assert!((height - (4.5 - 0.4 + 0.2)).abs() < 1e-12);
    }

    #[test]
    fn what_is_wrong_is_named() {
        assert_eq!(ClockDifferences::new(vec![]), Err(SecondaryError::NoTimes));
        let twice = vec![(clock(6, 0), minutes(1)), (clock(0, 0), minutes(1))];
        let error = ClockDifferences::new(twice).unwrap_err().to_string();
        assert_eq!(
            error,
            "00:00:00 comes after 06:00:00, and is no later; clock times of differences rise"
        );
        let flat = Differences {
            time: TimeDifference::Fixed(minutes(1)),
            height: by_height((4.0, 0.0), (4.0, 0.0)),
        };
        let error = SecondaryPort::new(flat.clone(), flat, Offset::UTC, None).unwrap_err();
        assert_eq!(error, SecondaryError::SameHeight { metres: 4.0 });
    }
}
