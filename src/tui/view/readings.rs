//! What the panes and the table of legs say: taken once a frame from the rows that the plan
//! writes, the same that the command line prints.

use nav::Position;
use nav::magnetic::VariationSource;
use nav::text;
use plan::table::{self, LegRow, PassageRow, StretchRow, Style, TotalRow};
use plan::{Frame, Reckoning, Route, Warning, Waypoint};

use super::fix::{self, FixRead};
use super::near;
use super::sailed;
use super::thread::{self, Traced};
use super::water::words::{self, Said};
use crate::action::Act;
use crate::state::{Hand, Of, State};

/// Everything that is read off.
#[derive(Debug, Clone, Default)]
pub(super) struct Readings {
    /// Which leg the readings are of.
    pub(super) of: String,
    /// That leg; empty if there is none.
    pub(super) leg: LegRow,
    /// From the start to the end of that leg.
    pub(super) so_far: TotalRow,
    /// The variation on that leg.
    pub(super) variation: String,
    /// Where the variation comes from.
    pub(super) source: &'static str,
    /// Every leg of the route.
    pub(super) legs: Vec<LegRow>,
    /// The legs by the passage; none without a passage.
    pub(super) sailed: Vec<PassageRow>,
    /// What to steer on the leg that is read, where the water moves.
    pub(super) steer: String,
    /// The whole route.
    pub(super) whole: TotalRow,
    /// The grid reference of the cursor.
    pub(super) reference: String,
    /// Its latitude and longitude.
    pub(super) position: String,
    /// How far the nearest shore is from it.
    pub(super) shore: String,
    /// What it is on or near.
    pub(super) near: String,
    /// What the trace measures that is kept beside the route.
    pub(super) measured: String,
    /// The clock that times are given on, or the key that sets the departure.
    pub(super) zone: String,
    /// The pace that times are reckoned with.
    pub(super) pace: String,
    /// What makes the next leg, where there is none to read.
    pub(super) advice: String,
    /// What the reader should know about the figures, or empty.
    pub(super) warning: String,
    /// What the water does, on a chart with tides.
    pub(super) water: Option<Said>,
    /// What is less weighty than a warning, or empty.
    pub(super) notes: String,
    /// What is read of the trace, with the thread in hand.
    pub(super) traced: Option<Traced>,
    /// What is read of a fix, with bearings in hand.
    pub(super) fix: Option<FixRead>,
}

impl Readings {
    /// The first and the last stretch of the leg, if it runs along a shore.
    pub(super) fn ends(&self) -> Option<(&StretchRow, &StretchRow)> {
        let stretches = &self.leg.along.as_ref()?.stretches;
        stretches.first().zip(stretches.last())
    }
}

/// The readings of `state`.
pub(super) fn readings(state: &State) -> Readings {
    let route = shown_route(state);
    let reckoning = reckon(state, &route);
    let style = Style::new(state.settings.figures, state.settings.angles);
    let mut readings = Readings {
        legs: table::legs(&route, &reckoning, &state.chart.grid, style),
        whole: whole(&reckoning),
        zone: zone(state),
        pace: format!("at {}", route.pace),
        advice: advice(state),
        warning: warning(&reckoning),
        water: words::said(state),
        ..Readings::default()
    };
    sailed::rows(state, &mut readings);
    cursor(state, style, &mut readings);
    readings.measured = thread::measured(state);
    if state.hand.traces() {
        let traced = thread::traced(state);
        if !traced.warning.is_empty() {
            readings.warning = traced.warning.clone();
        }
        readings.traced = Some(traced);
        return readings;
    }
    if state.hand == Hand::Fix {
        let read = fix::read(state);
        if !read.warning.is_empty() {
            readings.warning = read.warning.clone();
        }
        readings.fix = Some(read);
        return readings;
    }
    match state.read_leg() {
        None => {
            readings.of = match route.points.len() {
                0 => "no waypoint yet".to_owned(),
                _ => "from 1 on".to_owned(),
            };
        }
        Some(Of::Leg(index)) => {
            readings.of = format!("leg {}", index + 1);
            over_land(state, &route, index, &mut readings);
            read(state, &mut readings, &upto(&route, index + 1), style);
            sailed::read(state, index, &mut readings);
        }
        Some(Of::Pencil(from)) => {
            readings.of = format!("from {} to the cursor", from + 1);
            if let Some(at) = state.position() {
                let mut drawn = upto(&route, from);
                drawn.points.push(Waypoint::new(at));
                over_land(state, &drawn, from, &mut readings);
                read(state, &mut readings, &drawn, style);
                sailed::pencil(state, from, &mut readings);
            }
        }
    }
    readings
}

/// The readings of a route, with today's variation for one without a date.
fn reckon(state: &State, route: &Route) -> Reckoning {
    let frame = Frame::of(route, &state.chart.grid);
    plan::reckon_in(route, &Frame { date: Some(state.year()), ..frame })
}

/// Reads the last leg of `route` and the sums up to its end.
fn read(state: &State, readings: &mut Readings, route: &Route, style: Style) {
    let reckoning = reckon(state, route);
    let rows = table::legs(route, &reckoning, &state.chart.grid, style);
    readings.leg = rows.into_iter().next_back().unwrap_or_default();
    readings.so_far = whole(&reckoning);
    if let Some(at) = reckoning.legs.last().and_then(|leg| leg.variation.as_ref()) {
        readings.variation = at.variation.to_string();
        readings.source = match route.variation {
            VariationSource::Model => "by the model",
            VariationSource::Printed(_) => "as printed",
        };
    }
}

/// Says where a straight leg touches land, before anything else that is said.
fn over_land(state: &State, route: &Route, leg: usize, readings: &mut Readings) {
    let (Some(from), Some(to)) = (route.points.get(leg), route.points.get(leg + 1)) else { return };
    let (Some(a), Some(b)) = (state.point_of(from.at), state.point_of(to.at)) else { return };
    if to.along.is_none()
        && let Some(at) = near::land_on_the_way(state, a, b)
        && let Some(at) = state.position_of(at)
    {
        readings.warning = format!("touches land at {}", reference(state, at));
    }
}

/// The first word about the figures that no pane says by itself.
fn warning(reckoning: &Reckoning) -> String {
    let warnings = &reckoning.warnings;
    let first = warnings.iter().find(|warning| **warning != Warning::NoDeparture);
    first.map(ToString::to_string).unwrap_or_default()
}

/// The sums of a route, nothing if it has no leg.
fn whole(reckoning: &Reckoning) -> TotalRow {
    if reckoning.legs.is_empty() { TotalRow::default() } else { table::total(reckoning) }
}

/// The route with the waypoint that is taken up where the cursor is.
fn shown_route(state: &State) -> Route {
    let mut route = state.document.route().clone();
    for (waypoint, at) in route.points.iter_mut().zip(state.shown_positions()) {
        waypoint.at = plan::rounded(at);
    }
    route
}

/// The route up to and with waypoint `last`.
fn upto(route: &Route, last: usize) -> Route {
    let mut route = route.clone();
    route.points.truncate(last + 1);
    route
}

fn cursor(state: &State, style: Style, readings: &mut Readings) {
    let Some(at) = state.position() else {
        readings.near = "outside the grid".to_owned();
        return;
    };
    readings.reference = reference(state, at);
    readings.position = text::position(at, style.angles);
    readings.near = near::words(state, state.cursor);
    readings.shore = near::shore(state, state.cursor);
}

pub(crate) fn reference(state: &State, at: Position) -> String {
    let on_grid = state.chart.grid.forward(at).map(|on| on.point);
    let reference =
        on_grid.and_then(|point| state.chart.grid.reference(point, state.settings.figures));
    reference.unwrap_or_else(|error| error.to_string())
}

/// How the route gets its first leg.
fn advice(state: &State) -> String {
    match (state.keymap.shown(Act::Drop), state.document.route().points.len()) {
        (Some(key), 0) if state.read_only().is_none() => {
            format!("{key} drops the first waypoint at the cursor")
        }
        (Some(key), 1) if state.read_only().is_none() => {
            format!("{key} drops the next waypoint and makes a leg")
        }
        _ => "no leg".to_owned(),
    }
}

/// The zone of the clock times, or the key that sets the departure.
fn zone(state: &State) -> String {
    match &state.document.route().departure {
        Some(departure) => departure.zone_name(),
        None => match state.keymap.shown(Act::Departure) {
            Some(key) => format!("{key} sets the departure"),
            None => String::new(),
        },
    }
}
