//! When to worry.
//!
//! That a contact ashore has a time at which to expect the group and one at which to raise the alarm, and tries to
//! reach it in between, is common practice, no published source.

use jiff::Timestamp;
use nav::{sun, text};

use super::schedule::Schedule;
use super::told::{Part, Told, row, words};
use crate::leaflet::{Block, Column, Field, Table};

const LAUNCH: &str =
    "If the plan changes before the launch they tell you, and you write it on this sheet.";
/// What to do once the group is expected.
const EXPECTED: &str = "They tell you as soon as they are ashore. If you hear nothing, they are overdue from now on: \
     try to reach them by every telephone on this sheet, at the landings, at the vehicles. Note whom you tried, and when.";
/// What to do when they are overdue for too long.
const ALARM: &str = "If you still have heard nothing, wait no longer: call the rescue service, and tell it what \
     stands under “What to tell the rescue service”.";
/// When to do so at once.
const AT_ONCE: &str = "If you hear or see that they are in trouble, raise the alarm at once, whatever the time. When you \
     hear that they are ashore, tell everybody whom you have called, the rescue service first.";
/// When they are expected, when they are overdue, and when to raise the alarm.
pub(super) fn part(told: &Told<'_>) -> Part {
    let mut blocks = vec![Block::Heading("When to worry".to_owned())];
    blocks.extend(unknown(told).or_else(|| in_short(told)).map(Block::Strong));
    blocks.push(Block::Table(times(told)));
    if told
        .schedule
        .as_ref()
        .is_some_and(|schedule| !schedule.clock && schedule.arrives().is_some())
    {
        let times = ["Launched at", "so expected at", "and the alarm at"];
        blocks.push(Block::Fields(times.map(Field::blank).to_vec()));
    }
    blocks.push(words(AT_ONCE));
    let expected = told.schedule.as_ref().and_then(Schedule::arrives);
    blocks.extend(expected.map(|_| words(margin(told))));
    blocks.extend(dark(told).map(Block::Strong));
    blocks.push(words(left_out(told)));
    blocks.push(Block::Fields(vec![Field::blank("Agreed otherwise")]));
    blocks
}

/// What the times leave out.
fn left_out(told: &Told<'_>) -> String {
    let by_pace = told.schedule.as_ref().is_none_or(|schedule| schedule.by_pace);
    let (how, first, turn) = match (by_pace, told.plan.route.wind.is_some()) {
        (true, _) => (", by the pace alone", "Stream, wind", ""),
        (false, true) => ("", "A change of the wind", "; the stream may turn early or late"),
        (false, false) => ("", "Wind", "; the stream may turn early or late"),
    };
    format!(
        "The times are reckoned beforehand{how}. {first}, waves, eddies, surge, a slow paddler and a long stop are not in \
         them{turn}. A group may well be later than this, or land somewhere else. Ask the leader what could make them late, \
         and how they would tell you."
    )
}

fn margin(told: &Told<'_>) -> String {
    let margin = text::duration(told.sheet.overdue);
    format!(
        "From “expected” to “raise the alarm” it is {margin}: how long that is, is the leader's choice."
    )
}

/// The two times that count, and the clock that they are on.
fn in_short(told: &Told<'_>) -> Option<String> {
    let schedule = told.schedule.as_ref()?;
    let zone = told.plan.route.departure.as_ref()?.zone_name();
    let expected = schedule.arrives()?;
    let alarm = expected.checked_add(told.sheet.overdue).ok()?;
    let (expected, alarm) = (schedule.words(expected), schedule.words(alarm));
    Some(format!(
        "Expected ashore at {expected}; raise the alarm at {alarm}. All times on this sheet are on the clock of {zone}."
    ))
}

/// Why there is no time, where there is none.
fn unknown(told: &Told<'_>) -> Option<String> {
    let Some(schedule) = &told.schedule else {
        return Some(
            "The route has no leg yet: agree on times with the leader and write them here."
                .to_owned(),
        );
    };
    if let Some(halt) = schedule.halt() {
        return Some(format!(
            "As it is planned the passage does not arrive: {halt}. So there is no time at which they are expected. Agree \
             on times with the leader before they leave, and write them here."
        ));
    }
    (!schedule.clock).then(|| {
        "No departure is set: times count from the launch. Write those of the clock under them."
            .to_owned()
    })
}

fn times(told: &Told<'_>) -> Table {
    let named = |what: &str, point: Option<usize>| match point {
        Some(point) => format!("{what} {}", told.name(point)),
        None => what.to_owned(),
    };
    let schedule = told.schedule.as_ref();
    let launch = schedule.filter(|schedule| schedule.clock).map(Schedule::departs);
    let expected = schedule.and_then(Schedule::arrives);
    let alarm = expected.and_then(|at| at.checked_add(told.sheet.overdue).ok());
    let clock = |at: Option<Timestamp>| {
        schedule.zip(at).map(|(schedule, at)| schedule.words_in_full(at)).unwrap_or_default()
    };
    let ashore = named("Expected ashore at", told.last());
    let launch_at = named("Launch at", told.last().map(|_| 0));
    Table::for_a_pen(
        vec![Column::words("when"), Column::words("what"), Column::words("what you do")],
        vec![
            row([&clock(launch), &launch_at, LAUNCH]),
            row([&clock(expected), &ashore, EXPECTED]),
            row([&clock(alarm), "Raise the alarm", ALARM]),
        ],
    )
}

/// That it is dark when the alarm is raised.
fn dark(told: &Told<'_>) -> Option<String> {
    let schedule = told.schedule.as_ref()?;
    let zone = told.plan.route.departure.as_ref()?.zone().clone();
    let expected = schedule.arrives()?;
    let alarm = expected.checked_add(told.sheet.overdue).ok()?;
    let place = told.plan.route.points.last()?.at;
    let set = sun::day(place, expected.to_zoned_datetime(zone).date()).ok()?.set?;
    (alarm > set).then(|| {
        format!(
            "The sun sets at {}, before the alarm is raised: ask the leader whether it should be raised earlier.",
            schedule.words(set)
        )
    })
}
