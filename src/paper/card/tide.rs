//! The tide of the day.

use jiff::{SignedDuration, Timestamp};
use nav::Position;
use nav::geodesic;
use nav::text;
use nav::tide::Water;
use plan::{Departure, Reckoning};

use super::Plan;

/// The tide of a day at a port.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TideOfDay {
    /// The port.
    pub port: String,
    /// How far it is from the start of the route.
    pub away: String,
    /// What its tide is told from.
    pub source: String,
    /// Its high and low waters.
    pub waters: Vec<HighOrLow>,
    /// Heights through the day: hours from its beginning, metres above chart datum.
    pub heights: Vec<(f64, f64)>,
    /// How many hours the day has.
    pub hours: f64,
    /// When the route's points are reached.
    pub events: Vec<Event>,
}

/// High or low water.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct HighOrLow {
    /// `HW` or `LW`.
    pub name: &'static str,
    /// `06:12`.
    pub clock: String,
    /// In metres above chart datum, `4.3 m`.
    pub height: String,
    /// Hours from the beginning of the day.
    pub hours: f64,
    /// In metres.
    pub metres: f64,
}

/// A point of the route in the day.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Event {
    /// The point's number.
    pub number: String,
    /// Hours from the beginning of the day.
    pub hours: f64,
}

/// From one height of the curve to the next.
const STEP: SignedDuration = SignedDuration::from_mins(10);

/// The tide of the day of departure at the port nearest to the start; nothing without a date, a port or a tide that
/// can be told.
pub(super) fn of(plan: &Plan<'_>, reckoning: &Reckoning) -> Option<TideOfDay> {
    let departure = plan.route.departure.as_ref()?;
    let start = plan.route.points.first()?.at;
    let gauges = plan.tides?.gauges().iter().filter_map(|gauge| {
        let there: Position = plan.chart.position(gauge.at()?).ok()?;
        Some((gauge, geodesic::inverse(start, there).distance))
    });
    let (gauge, away) = gauges.min_by(|a, b| a.1.as_metres().total_cmp(&b.1.as_metres()))?;
    let date = departure.moment().date();
    let day = gauge.day(date, departure.zone()).ok()?;
    let hours = |at: Timestamp| at.duration_since(day.from).as_secs_f64() / 3600.0;
    let curve = gauge.curve(day.from, day.to).ok()?;
    let mut heights = Vec::new();
    let mut at = day.from;
    while at <= day.to {
        heights.extend(curve.height(at).map(|height| (hours(at), height.as_metres())));
        at = at.checked_add(STEP).ok()?;
    }
    let zone = departure.zone();
    let waters = day.turns.iter().map(|turn| HighOrLow {
        name: if turn.water == Water::High { "HW" } else { "LW" },
        clock: text::clock(&turn.at.to_zoned_datetime(zone.clone())),
        height: format!("{:.1} m", turn.height.as_metres()),
        hours: hours(turn.at),
        metres: turn.height.as_metres(),
    });
    Some(TideOfDay {
        port: gauge.name().to_owned(),
        away: text::kilometres(away),
        source: gauge.said(date),
        waters: waters.collect(),
        heights,
        hours: hours(day.to),
        events: events(plan, reckoning, departure, &hours),
    })
}

fn events(
    plan: &Plan<'_>,
    reckoning: &Reckoning,
    departure: &Departure,
    hours: &impl Fn(Timestamp) -> f64,
) -> Vec<Event> {
    let at = |index: usize| match plan.passage {
        Some((_, passage)) => match index.checked_sub(1) {
            None => Some(passage.departs),
            Some(leg) => passage.legs.get(leg).map(|leg| leg.arrives),
        },
        None if index == 0 => Some(departure.moment().timestamp()),
        None => reckoning.points.get(index)?.arrives.as_ref().map(|at| at.timestamp()),
    };
    let points = 0..plan.route.points.len();
    let event =
        |index: usize| Some(Event { number: (index + 1).to_string(), hours: hours(at(index)?) });
    points.filter_map(event).collect()
}
