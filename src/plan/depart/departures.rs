//! A route made ready to be left on at any time of a stretch of days.

use chart::coast::Coast;
use chart::water::{Gauge, Tides};
use chart::{Chart, Point};
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use nav::{DateOutside, Position, geodesic};

use super::judge::Judge;
use super::starts::Day;
use super::{
    DayError, Every, Landing, LandingPort, LegTime, Light, Lights, Start, Starts, Verdict,
    civil_day,
};
use crate::{Limits, Route, reckon};

/// Why starts cannot be told.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum DepartError {
    /// There is nowhere to go.
    #[error("the route has {points} points; it takes two to leave one for the other")]
    NoLegs {
        /// How many there are.
        points: usize,
    },
    /// Too far back or ahead.
    #[error(transparent)]
    Date(#[from] DateOutside),
    /// No such day.
    #[error(transparent)]
    Day(#[from] DayError),
}

/// A route on its water, ready for every start of some days.
pub struct Departures<'a> {
    gauge: Option<&'a Gauge>,
    port: Option<LandingPort>,
    launch: Position,
    landing: Position,
    times: Vec<SignedDuration>,
}

impl<'a> Departures<'a> {
    /// The starts of `route` on its chart.
    ///
    /// # Errors
    /// [`DepartError::NoLegs`] for a route without a leg.
    pub fn of(
        route: &Route,
        chart: &Chart,
        coast: &Coast,
        tides: &'a Tides,
    ) -> Result<Departures<'a>, DepartError> {
        let [first, .., last] = route.points.as_slice() else {
            return Err(DepartError::NoLegs { points: route.points.len() });
        };
        let (gauge, port) = nearest(last.at, chart, coast, tides).unzip();
        let times = reckon(route, &chart.grid).legs.iter().filter_map(|leg| leg.time).collect();
        Ok(Departures { gauge, port, launch: first.at, landing: last.at, times })
    }

    /// The starts of a civil day on the clock of `zone`.
    ///
    /// # Errors
    /// [`DepartError`] for a day that there is not, or before 1900 and after 2100.
    pub fn day(
        &self,
        date: Date,
        zone: &TimeZone,
        every: Every,
        limits: Limits,
    ) -> Result<Starts, DepartError> {
        let (from, to) = civil_day(date, zone)?;
        let after = to.checked_add(Limits::MOST_DAY).map_err(|_| DateOutside { at: to })?;
        let judge = Judge {
            limits,
            launch: Lights::over(self.launch, from, to)?,
            landing: Lights::over(self.landing, from, after)?,
            tide: self.gauge.map(|gauge| gauge.curve(from, after)).transpose()?,
        };
        let waters = self.gauge.map(|gauge| gauge.waters(from, to)).transpose()?;
        let (port, waters) = (self.port.clone(), waters.unwrap_or_default());
        let day = Day { from, to, every, zone: zone.clone(), port, waters };
        Ok(day.judged(&judge, |at| self.walk(at)))
    }

    fn walk(&self, at: Timestamp) -> Start {
        let mut departs = at;
        let mut legs = Vec::with_capacity(self.times.len());
        for time in &self.times {
            let arrives = departs + *time;
            let none = SignedDuration::ZERO;
            legs.push(LegTime { departs, arrives, waited: none, against: none });
            departs = arrives;
        }
        let took = departs.duration_since(at);
        Start {
            at,
            verdict: Verdict::Good,
            reasons: Vec::new(),
            legs,
            landing: Some(Landing { at: departs, took, height: None, light: Light::NoDay }),
            waited: SignedDuration::ZERO,
            against: SignedDuration::ZERO,
            worst_drift: None,
            races: Vec::new(),
            gates: Vec::new(),
        }
    }
}

/// The port nearest to a place, straight, on the ellipsoid.
fn nearest<'a>(
    place: Position,
    chart: &Chart,
    coast: &Coast,
    tides: &'a Tides,
) -> Option<(&'a Gauge, LandingPort)> {
    let away = |gauge: &Gauge| {
        let at = chart.position(gauge.at()?).ok()?;
        Some(geodesic::inverse(place, at).distance)
    };
    let gauges = tides.gauges().iter().filter_map(|gauge| Some((gauge, away(gauge)?)));
    let (gauge, away) = gauges.min_by(|(_, a), (_, b)| a.as_metres().total_cmp(&b.as_metres()))?;
    let clear = clear(place, gauge.at()?, chart, coast).unwrap_or(false);
    Some((gauge, LandingPort { name: gauge.name().to_owned(), away, clear }))
}

/// Whether the straight line between a place and a port crosses no land, but for its ends, which may lie
/// on the shore: a hundred metres of each are not looked at.
fn clear(place: Position, port: Point, chart: &Chart, coast: &Coast) -> Option<bool> {
    let on_grid = chart.grid.forward(place).ok()?;
    let (x, y) = (on_grid.point.easting.as_metres(), on_grid.point.northing.as_metres());
    let (from, along) = (Point { x, y }, port - Point { x, y });
    let end = 100.0 / along.x.hypot(along.y);
    Some(end >= 0.5 || !coast.touches(from + along * end, port - along * end))
}
