//! The instant that is looked at: moved by keys, by the pointer and by itself.

mod field;
#[cfg(test)]
mod tests;

use std::sync::Arc;

use chart::water::Tides;
use jiff::{SignedDuration, Timestamp};
use nav::tide::Water;

use crate::action::Act;
use crate::layout;
use crate::state::{Moment, Overlay, WaterDay};
use crate::{Command, State, Wanted};

pub(super) use field::{ask, found};

const HOUR: SignedDuration = SignedDuration::from_hours(1);

/// Does an action of the group of time and tide.
pub(super) fn act(state: &mut State, act: Act) -> Vec<Command> {
    if !matches!(act, Act::Play | Act::TideCurve | Act::StreamArrows | Act::NextPort) {
        state.moment.playing = false;
    }
    match act {
        Act::TimeBack => step(state, -Moment::STEP),
        Act::TimeOn => step(state, Moment::STEP),
        Act::HourBack => step(state, -HOUR),
        Act::HourOn => step(state, HOUR),
        Act::PreviousWater => to_water(state, false),
        Act::NextWater => to_water(state, true),
        Act::NextSlack => to_slack(state),
        Act::AtDeparture => {
            if let Some(departs) = state.moment.departs {
                go(state, departs);
            }
        }
        Act::Now => return vec![Command::Clock(Wanted::Water)],
        Act::Play => state.moment.playing ^= true,
        Act::NextPort => next_port(state),
        Act::TideCurve => open_or_close(state),
        _ => state.settings.streams ^= true,
    }
    Vec::new()
}

/// Opens the curve of the tide, or closes it.
fn open_or_close(state: &mut State) {
    if state.overlays.last() == Some(&Overlay::Tide) {
        state.overlays.pop();
    } else {
        state.overlays.push(Overlay::Tide);
    }
}

/// Looks at the instant of a column of the curve, to ten minutes.
pub(super) fn point(state: &mut State, column: u16) {
    let Some(overlay) = state.overlays.last() else { return };
    let plot = layout::tide_plot(layout::overlay(state.size, overlay).rows);
    let day = state.water_day().zip(state.port()).and_then(|(day, port)| day.ports().get(port));
    let Some((from, to)) = day.map(|port| (port.day.from, port.day.to)) else { return };
    let part = (f64::from(column) - f64::from(plot.x)) / f64::from(plot.width.max(1));
    let step = Moment::STEP.as_secs_f64();
    let all = to.duration_since(from).as_secs_f64() / step;
    // The last of the day is still on the day.
    let steps = (part.max(0.0) * all).ceil().min(all.ceil() - 1.0);
    state.moment.playing = false;
    if let Ok(at) = from.checked_add(SignedDuration::from_secs((steps * step) as i64)) {
        go(state, at);
    }
}

/// Moves the instant on while it plays.
pub(super) fn tick(state: &mut State) {
    if state.moment.playing {
        step(state, Moment::STEP);
    }
}

/// Looks at an instant, if tides are told of it.
pub(super) fn go(state: &mut State, at: Timestamp) {
    state.moment.at = at;
}

/// Moves the instant; it stays where tides can be told.
fn step(state: &mut State, by: SignedDuration) {
    match state.moment.at.checked_add(by) {
        Ok(at) => go(state, at),
        Err(_) => state.moment.playing = false,
    }
}

/// Goes to the next high or low water at the port that is told of, or to the one before.
fn to_water(state: &mut State, on: bool) {
    let Some((day, port)) = state.water_day().zip(state.port()) else { return };
    let Some(port) = day.ports().get(port) else { return };
    let at = state.moment.at;
    let turn = if on { port.next(at) } else { port.before(at) };
    let Some(turn) = turn.copied() else {
        return state.refuse("no high or low water comes within a day");
    };
    go(state, turn.at);
    let word = if turn.water == Water::High { "high water" } else { "low water" };
    state.say(format!("{word}, {:.1} m", turn.height.as_metres()));
}

/// Goes to the next turn of the stream at the cursor.
fn to_slack(state: &mut State) {
    let at = state.moment.at;
    let run = state.flows().zip(state.shares_here()).and_then(|(flows, shares)| flows.run(shares));
    let Some(run) = run else {
        return state.refuse("nothing is known of the stream at the cursor");
    };
    match run.turns().into_iter().find(|turn| turn.at > at) {
        Some(turn) => {
            go(state, turn.at);
            state.say(format!("the stream turns, and then sets {}", turn.then));
        }
        None => state.refuse("the stream at the cursor does not turn within a day"),
    }
}

/// Tells of the next port, in the chart's order, and after the last of the nearest again.
fn next_port(state: &mut State) {
    let Some(tides) = state.tides().cloned() else { return };
    let next = state.moment.port.map_or(0, |port| port + 1);
    state.moment.port = (next < tides.gauges().len()).then_some(next);
    state.say(match state.moment.port.and_then(|port| tides.gauges().get(port)) {
        Some(gauge) => format!("tide at {}", gauge.name()),
        None => "tide at the port nearest to the cursor".to_owned(),
    });
}

/// Brings what hangs on instant, chart, route and cursor up to date.
pub(crate) fn follow(state: &mut State) {
    follow_departure(state);
    let Some(tides) = state.tides().cloned() else {
        state.moment.day = Err("the chart has no tides".to_owned());
        return;
    };
    follow_day(state, &tides);
    let State { chart, moment, .. } = state;
    let Moment { wet, day, at, .. } = moment;
    wet.follow(chart, day.as_deref().ok(), *at);
    if state.moment.here.as_ref().is_none_or(|(at, _)| *at != state.cursor) {
        let shares = tides.shares(state.coast(), state.cursor);
        state.moment.here = Some((state.cursor, shares));
    }
}

/// A departure that is set, or set otherwise, is looked at.
fn follow_departure(state: &mut State) {
    let departure = state.document.route().departure.as_ref();
    let departs = departure.map(|departure| departure.moment().timestamp());
    if departs != state.moment.departs {
        state.moment.departs = departs;
        if let Some(departs) = departs {
            go(state, departs);
        }
    }
}

fn follow_day(state: &mut State, tides: &Tides) {
    let date = state.moment_on_clock().date();
    let same = state.water_day().is_some_and(|day| day.is_of(date, state.clock()));
    if !same {
        let day = WaterDay::of(tides, date, state.clock());
        state.moment.day = day.map(Arc::new).map_err(|outside| outside.to_string());
        state.moment.playing &= state.moment.day.is_ok();
    }
}
