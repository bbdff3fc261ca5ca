//! The legs of a card.

use jiff::Timestamp;
use nav::text;
use nav::triangle::Stream;
use plan::passage::{LegPassage, WaitFor};
use plan::table::{self, AlongRow, LegRow, StretchRow, Style};
use plan::{Course, Reckoning, Steering};

use super::Plan;
use super::content::{LegLine, PointLine};

/// The legs in words; `ends` are the points that they lead to.
pub(super) fn of(plan: &Plan<'_>, reckoning: &Reckoning, ends: &[PointLine]) -> Vec<LegLine> {
    let rows = table::legs(plan.route, reckoning, &plan.chart.grid, Style::default());
    rows.into_iter()
        .zip(ends)
        .enumerate()
        .map(|(index, (row, to))| line(plan, index, row, to))
        .collect()
}

fn line(plan: &Plan<'_>, index: usize, row: LegRow, to: &PointLine) -> LegLine {
    let mut notes: Vec<String> = row.along.iter().map(stretches).collect();
    let mut line = LegLine {
        to: to.clone(),
        bearing: row.from_magnetic,
        back: row.back_magnetic,
        nautical_miles: row.nautical_miles,
        kilometres: row.kilometres,
        time: row.time,
        ..LegLine::default()
    };
    if line.bearing.is_empty() && row.along.is_none() {
        // Without a date there is no magnetic bearing.
        (line.bearing, line.back) = (row.from_true, row.back_true);
    }
    if let Some((course, passage)) = plan.passage {
        let made = passage.legs.get(index);
        line.time = made.map(|made| text::duration(made.time())).unwrap_or_default();
        line.steer = made.and_then(steer).unwrap_or_default();
        line.set = made.and_then(|made| made.sums.mean()).map(set).unwrap_or_default();
        notes.extend(made.and_then(steering));
        notes.extend(made.into_iter().flat_map(|made| events(course, made)));
    } else if plan.route.points.get(index + 1).is_some_and(|it| it.steer == Steering::OneHeading) {
        notes.push(format!("on one heading: {}", wanting(plan)));
    }
    LegLine { notes, ..line }
}

/// The stretches of a leg along a shore: `a 057°M 1.2 NM · b 101°M 0.6 NM`.
fn stretches(row: &AlongRow) -> String {
    let one = |stretch: &StretchRow| {
        let StretchRow { number, from_magnetic, from_true, nautical_miles, .. } = stretch;
        let letter = number.trim_start_matches(|c: char| c.is_ascii_digit());
        let bearing = if from_magnetic.is_empty() { from_true } else { from_magnetic };
        format!("{letter} {bearing} {nautical_miles}")
    };
    let all: Vec<String> = row.stretches.iter().map(one).collect();
    format!("along the shore: {}", all.join(" · "))
}

/// What is steered all along a leg; nothing where that bends.
fn steer(made: &LegPassage) -> Option<String> {
    Some(made.headings?.mean?.from_magnetic.to_string())
}

/// What is steered where the one figure does not say it: along a shore, and on a crossing, which goes off its line.
fn steering(made: &LegPassage) -> Option<String> {
    let headings = made.headings?;
    if headings.mean.is_none() {
        let (first, last) = (headings.first.from_magnetic, headings.last.from_magnetic);
        return Some(format!("steer {first} at its start, {last} at its end"));
    }
    let off = made.off_line?;
    Some(format!("on one heading, at the farthest {} of the line", table::off_line(off)))
}

/// What it takes to tell the heading of a crossing.
fn wanting(plan: &Plan<'_>) -> &'static str {
    match plan.route.departure {
        None => "which one is known once a departure is set",
        Some(_) => "which one is not known, as no stream is told for the day",
    }
}

/// A stream, `214°T 1.2 kn`; slack where it would be written with no rate.
fn set(stream: Stream) -> String {
    let knots = stream.drift.as_knots();
    if knots < 0.05 {
        return "slack".to_owned();
    }
    format!("{} {knots:.1} kn", stream.set)
}

/// Waits, races and gates.
fn events(course: &Course, made: &LegPassage) -> Vec<String> {
    let clock = |at: Timestamp| text::clock(&at.to_zoned_datetime(course.zone().clone()));
    let mut events = Vec::new();
    if !made.waited.is_zero() {
        let what = match &made.waited_for {
            Some(WaitFor::Gate(gate)) => format!(" for {gate}"),
            Some(WaitFor::Stream) => " for the stream".to_owned(),
            None => String::new(),
        };
        events.push(format!(
            "wait {}{what}, leave {}",
            text::duration(made.waited),
            clock(made.departs)
        ));
    }
    for race in &made.races {
        let state =
            race.state.map_or_else(|| "state not known".to_owned(), |state| state.to_string());
        events.push(format!("{} {} to {}: {state}", race.name, clock(race.from), clock(race.to)));
    }
    for gate in &made.gates {
        let state = match gate.open {
            Some(true) => "open",
            Some(false) => "shut",
            None => "not known whether open",
        };
        events.push(format!("{} {}: {state}", gate.name, clock(gate.at)));
    }
    events
}
