//! Stations with a row for each hour about high water at a port, as stream tables and atlases print.

use jiff::Timestamp;

use super::run::{Knot, Run, Vector, vector};
use crate::tide::{MeanRanges, Turn, Water};
use crate::{Bearing, Speed, True};

/// How many hours a table goes to either side of high water.
const HOURS: i8 = 6;

/// An hour's stream: where it sets, and how fast at mean springs and at mean neaps.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HourlyRow {
    /// Where it sets to.
    pub set: Bearing<True>,
    /// Its rate at mean springs.
    pub springs: Speed,
    /// Its rate at mean neaps.
    pub neaps: Speed,
}

impl HourlyRow {
    /// On a day so far between neaps and springs. Beyond them the rate goes on in proportion, but never
    /// below nothing: it does not turn round.
    fn flow(&self, factor: f64) -> Vector {
        let (springs, neaps) =
            (self.springs.as_metres_per_second(), self.neaps.as_metres_per_second());
        vector(self.set, (neaps + (springs - neaps) * factor).max(0.0))
    }
}

/// Why rows make no station.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum HourlyError {
    /// An hour without a row.
    #[error(
        "no row for the hour {0:+}; a station has one for each hour from -6 to +6 about high water"
    )]
    Missing(i8),
    /// An hour with two.
    #[error("two rows for the hour {0:+}; one is needed")]
    Twice(i8),
    /// A row that belongs to none of them.
    #[error("a row for the hour {0:+}; the hours are those from -6 to +6 about high water")]
    Hour(i8),
}

/// A station with thirteen rows, from six hours before to six hours after high water at a port.
#[derive(Debug, Clone, PartialEq)]
pub struct HourlyStation([HourlyRow; 13]);

/// A high water at the port that a station's hours are counted from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HighWater {
    /// When.
    pub at: Timestamp,
    /// The range's place between mean neaps (0) and mean springs (1).
    pub factor: f64,
}

/// The high waters among a port's turns, each with the factor of the range about it: the mean of the
/// rise before and the fall after.
pub fn high_waters(turns: &[Turn], ranges: MeanRanges) -> Vec<HighWater> {
    let highs = turns.iter().enumerate().filter(|(_, turn)| turn.water == Water::High);
    let factor = |(index, turn): (usize, &Turn)| {
        let beside = [index.checked_sub(1), Some(index + 1)];
        let range = |other: Option<usize>| Some((turn.height - turns.get(other?)?.height).abs());
        let factors: Vec<f64> =
            beside.into_iter().filter_map(range).map(|range| ranges.factor(range)).collect();
        let count = factors.len() as f64;
        (count > 0.0)
            .then(|| HighWater { at: turn.at, factor: factors.iter().sum::<f64>() / count })
    };
    highs.filter_map(factor).collect()
}

impl HourlyStation {
    /// The station of these rows, each with its hour from high water, in any order.
    ///
    /// # Errors
    /// [`HourlyError`] when an hour from -6 to 6 has no row or two, or a row another hour.
    pub fn new(rows: &[(i8, HourlyRow)]) -> Result<HourlyStation, HourlyError> {
        let mut table = [None; 13];
        for &(hour, row) in rows {
            if !(-HOURS..=HOURS).contains(&hour) {
                return Err(HourlyError::Hour(hour));
            }
            let place = &mut table[usize::from((hour + HOURS).unsigned_abs())];
            if place.replace(row).is_some() {
                return Err(HourlyError::Twice(hour));
            }
        }
        match (-HOURS..=HOURS).zip(&table).find(|(_, row)| row.is_none()) {
            Some((hour, _)) => Err(HourlyError::Missing(hour)),
            None => {
                let still = HourlyRow { set: Bearing::NORTH, springs: NONE, neaps: NONE };
                Ok(HourlyStation(table.map(|row| row.unwrap_or(still))))
            }
        }
    }

    /// Its stream from six hours before the first of these high waters to six hours after the last.
    ///
    /// Each high water has its rows at its own hours up to the middle between it and the next, and
    /// from the last of one to the first of the other the stream goes in a straight line: so the
    /// twenty-five minutes that two tides are longer than the table are bridged, and where they are
    /// shorter the outermost rows are left out.
    pub fn run(&self, high_waters: &[HighWater]) -> Run {
        let seconds = |water: &HighWater| water.at.as_duration().as_secs_f64();
        let mut waters = high_waters.to_vec();
        waters.sort_by_key(|water| water.at);
        waters.dedup_by_key(|water| water.at);
        let mut knots = Vec::new();
        for (index, water) in waters.iter().enumerate() {
            let at = seconds(water);
            let middle = |other: Option<&HighWater>| other.map(|other| (seconds(other) + at) / 2.0);
            let before = middle(index.checked_sub(1).map(|before| &waters[before]));
            let after = middle(waters.get(index + 1));
            for (hour, row) in (-HOURS..=HOURS).zip(&self.0) {
                let knot = at + f64::from(hour) * 3600.0;
                let is_own = before.is_none_or(|before| knot > before)
                    && after.is_none_or(|after| knot <= after);
                if is_own {
                    knots.push(Knot { at: knot, flow: row.flow(water.factor) });
                }
            }
        }
        Run::new(knots)
    }
}

const NONE: Speed = Speed::metres_per_second(0.0);
