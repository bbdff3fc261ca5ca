//! The tide of a day.

use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use nav::tide::Turn;
use nav::{DateOutside, Length};

use super::Gauge;

/// The tide of a civil day.
#[derive(Debug, Clone, PartialEq)]
pub struct TideDay {
    /// When the day begins on its clock.
    pub from: Timestamp,
    /// When the next one begins.
    pub to: Timestamp,
    /// Its high and low waters, in order.
    pub turns: Vec<Turn>,
    /// The mean of the rises and falls that have an end in the day.
    pub range: Option<Length>,
    /// Where that range lies between mean neaps, 0, and mean springs, 1; nothing where the port's
    /// springs and neaps cannot be told.
    pub factor: Option<f64>,
}

impl Gauge {
    /// The tide of a civil day on the clock of `zone`.
    ///
    /// # Errors
    /// [`DateOutside`] before 1900 and after 2100.
    pub fn day(&self, date: Date, zone: &TimeZone) -> Result<TideDay, DateOutside> {
        let start = |date: Date| {
            let start = date.to_zoned_datetime(zone.clone()).map(|start| start.timestamp());
            start.map_err(|_| DateOutside { at: Timestamp::MAX })
        };
        let next = date.tomorrow().map_err(|_| DateOutside { at: Timestamp::MAX })?;
        let (from, to) = (start(date)?, start(next)?);
        // The last day of 2100 ends in another year.
        let turns = self.around(from, to - SignedDuration::from_secs(1))?;
        let within = |turn: &Turn| (from..to).contains(&turn.at);
        let pairs = turns.windows(2).filter(|pair| pair.iter().any(within));
        let rises: Vec<Length> =
            pairs.map(|pair| (pair[1].height - pair[0].height).abs()).collect();
        let sum = rises.iter().copied().reduce(|sum, rise| sum + rise);
        let range = sum.map(|sum| sum / rises.len() as f64);
        let factor = self.ranges.ok().zip(range).map(|(ranges, range)| ranges.factor(range));
        let turns = turns.into_iter().filter(within).collect();
        Ok(TideDay { from, to, turns, range, factor })
    }
}
