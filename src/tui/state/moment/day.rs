//! What the water does about one civil day, made ready for many frames.

use chart::water::{Flows, Gauge, GaugeCurve, TideDay, Tides};
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use nav::DateOutside;
use nav::tide::{Height, Turn};

/// How far before and after a day the water is known with it, so that what comes next is known at
/// every instant of the day.
const BEFORE: SignedDuration = SignedDuration::from_hours(14);
const AFTER: SignedDuration = SignedDuration::from_hours(30);

/// The water of a civil day, from half a day before it to a day after it.
#[derive(Debug, Clone)]
pub struct WaterDay {
    date: Date,
    zone: TimeZone,
    ports: Vec<PortDay>,
    flows: Flows,
}

/// A port's tide about a day.
#[derive(Debug, Clone)]
pub struct PortDay {
    /// The day itself.
    pub day: TideDay,
    /// The high and low waters of the day and about it, in order.
    pub turns: Vec<Turn>,
    curve: GaugeCurve,
}

impl WaterDay {
    /// The water of `date` on the clock of `zone`.
    ///
    /// # Errors
    /// [`DateOutside`] before 1900 and after 2100.
    pub fn of(tides: &Tides, date: Date, zone: &TimeZone) -> Result<WaterDay, DateOutside> {
        let start = |date: Date| {
            let start = date.to_zoned_datetime(zone.clone()).map(|start| start.timestamp());
            start.map_err(|_| DateOutside { at: Timestamp::MAX })
        };
        let next = date.tomorrow().map_err(|_| DateOutside { at: Timestamp::MAX })?;
        let (begins, ends) = (start(date)?, start(next)?);
        let from = begins.checked_sub(BEFORE).map_err(|_| DateOutside { at: begins })?;
        let to = ends.checked_add(AFTER).map_err(|_| DateOutside { at: ends })?;
        let port = |gauge: &Gauge| {
            let day = gauge.day(date, zone)?;
            let turns = gauge.waters(from, to)?;
            Ok(PortDay { day, turns, curve: gauge.curve(from, to)? })
        };
        let ports = tides.gauges().iter().map(port).collect::<Result<_, DateOutside>>()?;
        let flows = tides.flows(from, to)?;
        Ok(WaterDay { date, zone: zone.clone(), ports, flows })
    }

    /// Whether it is the water of this day on this clock.
    pub(crate) fn is_of(&self, date: Date, zone: &TimeZone) -> bool {
        self.date == date && self.zone == *zone
    }

    /// The streams.
    pub fn flows(&self) -> &Flows {
        &self.flows
    }

    /// The ports, in the chart's order.
    pub fn ports(&self) -> &[PortDay] {
        &self.ports
    }
}

impl PortDay {
    /// The height of tide at an instant about the day; nothing where a port's differences give none.
    pub fn height(&self, at: Timestamp) -> Option<Height> {
        self.curve.height(at)
    }

    /// The first high or low water after an instant.
    pub fn next(&self, at: Timestamp) -> Option<&Turn> {
        self.turns.iter().find(|turn| turn.at > at)
    }

    /// The last high or low water before an instant.
    pub fn before(&self, at: Timestamp) -> Option<&Turn> {
        self.turns.iter().rev().find(|turn| turn.at < at)
    }
}
