//! A course made ready to be left on at any time of some days.

use std::sync::Arc;

use chart::Point;
use chart::water::{Flows, Gauge, Openings, Tides};
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use nav::{DateOutside, Position, geodesic};

use super::judge::Judge;
use super::starts::Day;
use super::{DayError, Every, GateHours, LandingPort, Lights, Starts, civil_day, walk};
use crate::unrolled::Ground;
use crate::{Course, Limits};

/// How long before the first start its streams begin.
const BEFORE: SignedDuration = SignedDuration::from_hours(1);

/// Why starts cannot be told.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum DepartError {
    /// There is nowhere to go.
    #[error("the route has no legs; it takes two points to leave one for the other")]
    NoLegs,
    /// Too far back or ahead.
    #[error(transparent)]
    Date(#[from] DateOutside),
    /// No such day.
    #[error(transparent)]
    Day(#[from] DayError),
}

/// A course on its water, ready for every start of some days.
#[derive(Debug, Clone)]
pub struct Departures<'a> {
    course: &'a Course,
    tides: Option<&'a Tides>,
    port: Option<(&'a Gauge, LandingPort)>,
    launch: Position,
    landing: Position,
}

/// Days that follow one another, and how their starts are looked at.
#[derive(Debug, Clone)]
pub struct Days {
    /// The first.
    pub first: Date,
    /// How many.
    pub count: u16,
    /// The clock that they are days by.
    pub zone: TimeZone,
    /// How far apart the starts are.
    pub every: Every,
}

/// A day, when it begins, and when it ends.
struct Span {
    date: Date,
    from: Timestamp,
    to: Timestamp,
}

impl Days {
    /// Each with when it begins and when it ends.
    fn spans(&self) -> Result<Vec<Span>, DayError> {
        let mut date = self.first;
        let mut spans = Vec::with_capacity(self.count.into());
        for _ in 0..self.count {
            let (from, to) = civil_day(date, &self.zone)?;
            spans.push(Span { date, from, to });
            date = date.tomorrow().map_err(|_| DayError::Calendar(date))?;
        }
        Ok(spans)
    }
}

impl<'a> Departures<'a> {
    /// The starts of a course on the ground that it was made on.
    ///
    /// # Errors
    /// [`DepartError::NoLegs`] for a course without a leg.
    pub fn of(course: &'a Course, ground: &Ground<'a>) -> Result<Departures<'a>, DepartError> {
        let [first, ..] = course.legs() else { return Err(DepartError::NoLegs) };
        let last = course.legs().last().unwrap_or(first);
        let (launch, landing) = (first.from, last.to);
        let port = nearest(landing, ground);
        Ok(Departures { course, tides: ground.tides, port, launch, landing })
    }

    /// The starts of each of these days, all walked on one table.
    ///
    /// A wait on the way is never longer than the limits have it: a passage that needs a longer one
    /// ends there. One that takes longer than [`Limits::MOST_DAY`] is refused, whatever the limits.
    ///
    /// # Errors
    /// [`DepartError`] for a day that there is not, or before 1900 and after 2100.
    pub fn days(&self, days: &Days, limits: Limits) -> Result<Vec<Starts>, DepartError> {
        let spans = days.spans()?;
        let (Some(&Span { from, .. }), Some(&Span { to, .. })) = (spans.first(), spans.last())
        else {
            return Ok(Vec::new());
        };
        let outside = |at| move |_| DateOutside { at };
        let begins = from.checked_sub(BEFORE).map_err(outside(from))?;
        let ends = to.checked_add(Limits::MOST_DAY).map_err(outside(to))?;
        let flows = self.tides.map(|tides| tides.flows(begins, ends)).transpose()?;
        let waters = match (self.tides, &flows) {
            (Some(tides), Some(flows)) => self.course.waters(tides, flows)?,
            _ => self.course.still_waters(),
        };
        let judge = self.judge(limits, from, ends)?;
        let gate = self.gate(flows.as_ref())?;
        let table = waters.table(from, to);
        let day = |&Span { date, from, to }: &Span| {
            let turns = self.port.as_ref().map(|(gauge, _)| gauge.waters(from, to)).transpose()?;
            let (zone, waters) = (days.zone.clone(), turns.unwrap_or_default());
            let port = self.port.as_ref().map(|(_, port)| port.clone());
            let open = |(name, openings): &(Arc<str>, Openings)| GateHours {
                name: name.clone(),
                open: openings.between(from, to),
            };
            let gate = gate.as_ref().map(open);
            let day = Day { date, from, to, every: days.every, zone, port, waters, gate };
            Ok(day.judged(&judge, |at| walk::start(table.passage(at, limits.longest_wait))))
        };
        spans.iter().map(day).collect()
    }

    /// The first gate on the way, and when it is open.
    fn gate(&self, flows: Option<&Flows>) -> Result<Option<(Arc<str>, Openings)>, DateOutside> {
        let first = self.course.legs().iter().find_map(|leg| leg.gates.first());
        let found = first.zip(self.tides).zip(flows);
        let openings = found.and_then(|((on, tides), flows)| {
            let gate = tides.gates().get(on.gate)?;
            Some(gate.openings(tides, flows).map(|openings| (on.name.clone(), openings)))
        });
        openings.transpose()
    }

    fn judge(&self, limits: Limits, from: Timestamp, to: Timestamp) -> Result<Judge, DateOutside> {
        let curve = self.port.as_ref().map(|(gauge, _)| gauge.curve(from, to));
        Ok(Judge {
            limits,
            launch: Lights::over(self.launch, from, to)?,
            landing: Lights::over(self.landing, from, to)?,
            tide: curve.transpose()?,
        })
    }
}

/// The port nearest to a place, straight, on the ellipsoid.
fn nearest<'a>(place: Position, ground: &Ground<'a>) -> Option<(&'a Gauge, LandingPort)> {
    let away = |gauge: &Gauge| {
        let at = ground.chart.position(gauge.at()?).ok()?;
        Some(geodesic::inverse(place, at).distance)
    };
    let gauges = ground.tides?.gauges().iter();
    let gauges = gauges.filter_map(|gauge| Some((gauge, away(gauge)?)));
    let (gauge, away) = gauges.min_by(|(_, a), (_, b)| a.as_metres().total_cmp(&b.as_metres()))?;
    let clear = clear(place, gauge.at()?, ground).unwrap_or(false);
    Some((gauge, LandingPort { name: gauge.name().to_owned(), away, clear }))
}

/// Whether the straight line between a place and a port crosses no land, but for its ends, which may lie
/// on the shore: a hundred metres of each are not looked at.
fn clear(place: Position, port: Point, ground: &Ground<'_>) -> Option<bool> {
    let on_grid = ground.chart.grid.forward(place).ok()?;
    let (x, y) = (on_grid.point.easting.as_metres(), on_grid.point.northing.as_metres());
    let (from, along) = (Point { x, y }, port - Point { x, y });
    let end = 100.0 / along.x.hypot(along.y);
    Some(end >= 0.5 || !ground.coast.touches(from + along * end, port - along * end))
}
