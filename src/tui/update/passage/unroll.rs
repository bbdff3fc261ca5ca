//! The leg that is read, unrolled anew when it changes.

use std::sync::Arc;

use jiff::Timestamp;
use nav::{Length, Pace, Position};
use plan::Line;
use plan::unrolled::{Ground, Unrolled};

use crate::State;
use crate::state::{Of, UnrolledLeg};

/// At how many places a leg is looked at: about one for each column of a broad screen.
const PLACES: usize = 129;

/// Brings the leg strip up to date, if it is open.
pub(super) fn follow(state: &mut State) {
    let before = state.unrolled.take();
    let leg = state.read_leg().filter(|_| state.strip && !state.hand.traces());
    state.unrolled = leg.and_then(|leg| unrolled(state, leg, before));
}

fn unrolled(state: &State, leg: Of, before: Option<UnrolledLeg>) -> Option<UnrolledLeg> {
    let (from, to) = match leg {
        Of::Leg(index) => (index, Some(index + 1)),
        Of::Pencil(from) => (from, None),
    };
    let made_of = made_of(state, from, to)?;
    let kept = before.filter(|before| before.made_of == made_of).map(|before| before.line);
    let line = match kept {
        Some(line) => line,
        None => Arc::new(laid_out(state, &made_of)?),
    };
    let times = times(state, from, &line);
    let (met, no_stream) = met(state, &line, &times);
    Some(UnrolledLeg { from, to, line, times, met, no_stream, made_of })
}

/// The ends of the leg as it is shown, and its line.
fn made_of(
    state: &State,
    from: usize,
    to: Option<usize>,
) -> Option<(Position, Position, Option<Line>)> {
    let shown = state.shown_positions();
    let begins = *shown.get(from)?;
    let Some(to) = to else { return Some((begins, state.position()?, None)) };
    let end = state.document.route().points.get(to)?;
    let carried = state.hand.carried().is_some_and(|taken| taken == from || taken == to);
    let line = end.along.as_ref().filter(|_| !carried).map(|along| along.line.clone());
    Some((begins, *shown.get(to)?, line))
}

fn laid_out(
    state: &State,
    (begins, ends, line): &(Position, Position, Option<Line>),
) -> Option<Unrolled> {
    let ground = Ground {
        chart: &state.chart,
        coast: state.coast(),
        tides: state.tides().map(|tides| &**tides),
    };
    let between = line.as_deref().unwrap_or_default().iter().copied();
    let all = std::iter::once(*begins).chain(between).chain([*ends]);
    Unrolled::of(all, &ground, PLACES)
}

/// When each place is passed at the group's pace.
fn times(state: &State, from: usize, line: &Unrolled) -> Vec<Option<Timestamp>> {
    let route = state.document.route();
    let departs = plan::reckon(route, &state.chart.grid).departs(from);
    let departs = departs.map(|at| at.timestamp());
    let at = |along: Length| passes(departs?, route.pace, along);
    line.places.iter().map(|place| at(place.along)).collect()
}

fn passes(departs: Timestamp, pace: Pace, along: Length) -> Option<Timestamp> {
    departs.checked_add(pace.time_for(along)?).ok()
}

/// How the stream meets the group at each place: at the time of passing, or at the moment looked at
/// where that is not known.
fn met(
    state: &State,
    line: &Unrolled,
    times: &[Option<Timestamp>],
) -> (Vec<Option<plan::unrolled::Met>>, &'static str) {
    let Some(flows) = state.flows() else { return (Vec::new(), "no streams on the chart") };
    let looked_at = state.moment.at();
    let times: Vec<Option<Timestamp>> =
        times.iter().map(|time| Some(time.unwrap_or(looked_at))).collect();
    (line.met(flows, &times), "no stream known here")
}
