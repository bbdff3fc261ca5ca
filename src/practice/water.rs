//! The ground's own water, as a printed table has it: high and low waters at the chart's ports, to the minute and to a tenth of a
//! metre, and the hours of its streams.
//!
//! What rounds so closely that the last bit of a sine could decide it is left out, so that the tables are alike on every machine.

use std::ops::Range;

use chart::model::{Stream, StreamRates};
use chart::water::{Gauge, Tides};
use chart::{Chart, Point};
use jiff::{SignedDuration, Timestamp};
use nav::Length;
use nav::tide::{MeanRanges, Water};

use crate::words::{clock, whole};

/// The season of the tables: four times from springs to springs, from 1 May 2026, so that all ranges come up.
const SEASON: (i64, i64) = (1_777_593_600, 59);

/// The minutes of a day.
pub(crate) const DAY: i64 = 24 * 60;

/// A line of a tide table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Line {
    /// Minutes of UTC from some midnight: in a port's table from that of 1 January 1970.
    pub(crate) minute: i64,
    /// Tenths of a metre above chart datum.
    pub(crate) tenths: i64,
    pub(crate) water: Water,
}

/// The season's table of a port.
#[derive(Debug, Clone)]
pub(crate) struct PortTable {
    pub(crate) name: String,
    pub(crate) at: Option<Point>,
    /// High and low waters by turns; nothing in the place of one that cannot be rounded.
    pub(crate) lines: Vec<Option<Line>>,
    /// The mean ranges at springs and at neaps, in tenths of a metre.
    pub(crate) ranges: Option<(i64, i64)>,
}

/// An hour of a stream, in whole minutes from high water at its port.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Hour {
    pub(crate) later: i64,
    /// Whole degrees, true.
    pub(crate) set: i64,
    /// Tenths of knots.
    pub(crate) springs: i64,
    pub(crate) neaps: i64,
}

/// What is known of a stream that goes by a port's high water.
#[derive(Debug, Clone)]
pub(crate) struct StreamTable {
    pub(crate) name: String,
    pub(crate) at: Point,
    /// The number of its port among [`Waters::ports`].
    pub(crate) port: usize,
    /// When it is slack, and the greatest rate of what begins then and is over six hours later.
    pub(crate) slacks: Vec<Hour>,
    /// Its rows.
    pub(crate) hours: Vec<Hour>,
}

/// A high water, with the day's range there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Tide {
    /// Minutes of UTC from 1 January 1970.
    pub(crate) high: i64,
    /// From this high water to the low water after it, in tenths of a metre.
    pub(crate) range: i64,
}

/// The tables of a chart.
#[derive(Debug, Clone, Default)]
pub(crate) struct Waters {
    pub(crate) ports: Vec<PortTable>,
    pub(crate) streams: Vec<StreamTable>,
}

impl Waters {
    /// The tables of a chart; none where its tides cannot be told.
    pub(crate) fn of(chart: &Chart) -> Waters {
        let Ok(tides) = Tides::of(chart) else { return Waters::default() };
        let ports: Vec<PortTable> = tides.gauges().iter().map(port).collect();
        let streams = chart.streams.iter().filter_map(|it| stream(it, &ports)).collect();
        Waters { ports, streams }
    }
}

impl PortTable {
    /// Every so many lines one after the other that belong to one day, are no stands, and none of which is missing.
    pub(crate) fn windows(&self, count: usize) -> impl Iterator<Item = &[Option<Line>]> {
        let tide = |pair: &[Option<Line>]| {
            let [Some(one), Some(other)] = pair else { return false };
            let long = other.minute - one.minute;
            let range = (other.tenths - one.tenths).abs();
            (5 * 60..=7 * 60 + 30).contains(&long) && range >= LEAST
        };
        let one_day = |lines: &[Option<Line>]| {
            let day = |line: Option<&Option<Line>>| line?.map(|line| line.minute.div_euclid(DAY));
            day(lines.first()) == day(lines.last())
        };
        let windows = self.lines.windows(count);
        windows.filter(move |lines| one_day(lines) && lines.windows(2).all(tide))
    }

    /// The high waters with their ranges.
    pub(crate) fn tides(&self) -> impl Iterator<Item = Tide> {
        self.lines.windows(2).filter_map(|pair| {
            let (one, other) = (pair[0]?, pair[1]?);
            let tide = Tide { high: one.minute, range: one.tenths - other.tenths };
            (one.water == Water::High).then_some(tide)
        })
    }
}

/// The least range that is worked by hand, in tenths of a metre.
const LEAST: i64 = 8;

fn season() -> Range<Timestamp> {
    let start = Timestamp::UNIX_EPOCH + SignedDuration::from_secs(SEASON.0);
    start..start + SignedDuration::from_hours(24 * SEASON.1)
}

fn port(gauge: &Gauge) -> PortTable {
    let season = season();
    let (from, to) = gauge.covers().unwrap_or((season.start, season.end));
    let turns = gauge.waters(from, to).unwrap_or_default();
    let line = |turn: &nav::tide::Turn| {
        let minute = whole(turn.at.as_duration().as_secs_f64() / 60.0, 1.0)?;
        let tenths = whole(turn.height.as_metres(), 0.1)?;
        Some(Line { minute, tenths, water: turn.water })
    };
    let ranges = gauge.ranges().ok().and_then(|ranges| {
        let tenths = |length: Length| whole(length.as_metres(), 0.1);
        let (springs, neaps) = (tenths(ranges.springs())?, tenths(ranges.neaps())?);
        (springs > neaps && neaps > 0).then_some((springs, neaps))
    });
    PortTable {
        name: gauge.name().to_owned(),
        at: gauge.at(),
        lines: turns.iter().map(line).collect(),
        ranges,
    }
}

fn stream(stream: &Stream, ports: &[PortTable]) -> Option<StreamTable> {
    let named = |name: &str| ports.iter().position(|port| port.name == name);
    let (port, slacks, hours) = match &stream.rates {
        StreamRates::Hourly { port, rows } => {
            let hour = |(later, row): (i64, &chart::model::StreamRow)| {
                Some(Hour {
                    later: 60 * later,
                    set: whole(row.set_deg, 1.0)?.rem_euclid(360),
                    springs: whole(row.springs_kn, 0.1)?,
                    neaps: whole(row.neaps_kn, 0.1)?,
                })
            };
            let hours: Vec<Hour> = (-6..=6).zip(rows).map(hour).collect::<Option<_>>()?;
            (named(port)?, slacks(&hours), hours)
        }
        StreamRates::Greatest { flood_deg, port, flood_begins_h, springs_kn } => {
            let port = named(port)?;
            let (most, least) = ports.get(port)?.ranges?;
            let slack = |set: f64, later: f64| {
                Some(Hour {
                    later: whole(later, 1.0)?,
                    set: whole(set, 1.0)?.rem_euclid(360),
                    springs: whole(*springs_kn, 0.1)?,
                    neaps: whole(springs_kn * least as f64 / most as f64, 0.1)?,
                })
            };
            let begins = flood_begins_h * 60.0;
            let slacks =
                vec![slack(*flood_deg, begins)?, slack(flood_deg + 180.0, begins + HALF_TIDE)?];
            let hours = slacks.iter().flat_map(by_the_rule).collect();
            (port, slacks, hours)
        }
        // By constants it keeps no hours about a high water.
        StreamRates::Axis { .. } => return None,
    };
    let name = stream.name.clone();
    // One that is worth working: it differs between springs and neaps, and is no slack at its best.
    let runs = |slack: &Hour| slack.springs > slack.neaps && slack.neaps >= 8;
    let known = ports.get(port)?.ranges.is_some() && !slacks.is_empty();
    (known && slacks.iter().all(runs)).then_some(StreamTable {
        name,
        at: stream.at,
        port,
        slacks,
        hours,
    })
}

/// Half a tide of the moon, in minutes.
const HALF_TIDE: f64 = 372.6;

/// What begins where a row is slack and ends where the sixth after it is, greatest half way between.
fn slacks(hours: &[Hour]) -> Vec<Hour> {
    let still = |hour: &Hour| hour.springs == 0;
    let slack = |rows: &[Hour]| {
        let [first, .., last] = rows else { return None };
        let middle = rows.get(3)?;
        let greatest = rows.iter().all(|row| row.springs <= middle.springs);
        let runs = rows.iter().filter(|row| still(row)).count() == 2;
        (still(first) && still(last) && greatest && runs)
            .then_some(Hour { later: first.later, ..*middle })
    };
    hours.windows(7).filter_map(slack).collect()
}

/// The hours of what begins at a slack, by fifty and ninety hundredths.
fn by_the_rule(slack: &Hour) -> Vec<Hour> {
    let hour = |(number, hundredths): (i64, i64)| {
        // Rounded to the nearest tenth, five hundredths upwards: whole numbers, alike everywhere.
        let part = |tenths: i64| (tenths * hundredths + 50) / 100;
        let (springs, neaps) = (part(slack.springs), part(slack.neaps));
        Hour { later: slack.later + 60 * number, springs, neaps, ..*slack }
    };
    (1..=5).zip([50, 90, 100, 90, 50]).map(hour).collect()
}

/// Where a range lies between neaps, 0, and springs, 1; both in tenths of a metre.
pub(crate) fn factor((springs, neaps): (i64, i64), range: i64) -> Option<f64> {
    let metres = |tenths: i64| tenths as f64 / 10.0 * Length::METRE;
    let ranges = MeanRanges::new(metres(springs), metres(neaps)).ok()?;
    Some(ranges.factor(metres(range)))
}

/// The day of a minute: `14 May 2026`.
pub(crate) fn day(minute: i64) -> String {
    let at = Timestamp::UNIX_EPOCH + SignedDuration::from_mins(minute);
    at.strftime("%-d %B %Y").to_string()
}

/// Day and time of a minute: `14:05 UTC on 14 May 2026`.
pub(crate) fn moment(minute: i64) -> String {
    format!("{} UTC on {}", clock(minute), day(minute))
}
