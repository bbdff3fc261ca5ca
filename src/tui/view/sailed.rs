//! What the passage says in the readings: its times in place of those of the pace, what to steer, and
//! what the reader should know about it.

use jiff::Timestamp;
use nav::text;
use plan::table::{self, LegRow, PassageRow, TotalRow};

use super::readings::Readings;
use crate::state::{Sailed, State};

/// Puts the passage's times into the rows of the table, if there is a passage.
pub(super) fn rows(state: &State, readings: &mut Readings) {
    let Some(sailed) = state.sailed() else { return };
    readings.sailed = table::passage(&sailed.course, &sailed.passage);
    for (index, (row, passed)) in readings.legs.iter_mut().zip(&readings.sailed).enumerate() {
        leg(sailed, index, passed, row);
    }
    let total = table::passage_total(&sailed.course, &sailed.passage);
    (readings.whole.elapsed, readings.whole.clock) = (total.time, total.arrives);
    if let Some(words) = held(&total.halt, &readings.sailed) {
        readings.warning = words;
    }
    readings.notes = notes(sailed);
}

/// Puts them into the readings of a leg of the route.
pub(super) fn read(state: &State, index: usize, readings: &mut Readings) {
    let (Some(sailed), Some(row)) = (state.sailed(), readings.sailed.get(index)) else { return };
    leg(sailed, index, row, &mut readings.leg);
    readings.steer.clone_from(&row.steer);
    let TotalRow { elapsed, clock, .. } = &mut readings.so_far;
    elapsed.clone_from(&readings.leg.to.elapsed);
    clock.clone_from(&readings.leg.to.clock);
    readings.pace = match state.document.route().wind {
        Some(_) if state.tides().is_none() => "with the wind",
        Some(_) => "with stream, wind",
        None => "with the stream",
    }
    .to_owned();
}

/// Puts the sums into those of a leg that the pencil would draw on from waypoint `from`, which takes the
/// time that its pace says.
pub(super) fn pencil(state: &State, from: usize, readings: &mut Readings) {
    let Some(sailed) = state.sailed() else { return };
    let frame = plan::Frame::of(state.document.route(), &state.chart.grid);
    let begins = state.document.route().points.get(from).map(|point| point.at);
    let time = begins.zip(state.position()).and_then(|(a, b)| plan::lay(a, b, &frame).time);
    let departs = sailed.departs(from, state.document.route());
    let arrives = departs.zip(time).and_then(|(at, time)| at.checked_add(time).ok());
    let elapsed = arrives.map(|at| at.duration_since(sailed.passage.departs));
    readings.so_far.elapsed = elapsed.map(text::duration).unwrap_or_default();
    readings.so_far.clock = clock(state, arrives);
}

/// Puts the times of a leg into its row.
fn leg(sailed: &Sailed, index: usize, passed: &PassageRow, row: &mut LegRow) {
    row.time.clone_from(&passed.time);
    row.departs.clone_from(&passed.departs);
    row.to.clock.clone_from(&passed.arrives);
    let made = sailed.passage.legs.get(index);
    let since = |at: Timestamp| text::duration(at.duration_since(sailed.passage.departs));
    row.to.elapsed = made.map(|leg| since(leg.arrives)).unwrap_or_default();
}

/// What else the reader should know of the passage, the weightiest first.
fn notes(sailed: &Sailed) -> String {
    let warnings = sailed.passage.warnings.iter().map(ToString::to_string);
    warnings.collect::<Vec<_>>().join(" · ")
}

/// Why the passage comes to nothing, or waits.
fn held(halt: &str, legs: &[PassageRow]) -> Option<String> {
    let waits = legs.iter().filter(|leg| !leg.wait.is_empty());
    let waits = waits.map(|PassageRow { number, wait, wait_for, .. }| {
        format!("waits {wait} before leg {number} for {wait_for}")
    });
    let halt = Some(halt.to_owned()).filter(|halt| !halt.is_empty());
    let all: Vec<String> = halt.into_iter().chain(waits).collect();
    (!all.is_empty()).then(|| all.join(" · "))
}

fn clock(state: &State, at: Option<Timestamp>) -> String {
    let on_clock = at.map(|at| at.to_zoned_datetime(state.clock().clone()));
    on_clock.map(|at| text::clock(&at)).unwrap_or_default()
}
