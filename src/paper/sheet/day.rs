//! The plan: points and legs, where they should be by the clock, ways out.

use jiff::Timestamp;
use nav::text;
use plan::Waypoint;

use super::schedule::{Doing, Schedule, Spell};
use super::told::{Part, Told, joined, row, words};
use crate::leaflet::{Block, Column, Table};

/// Every point with its times, its place and the leg that begins there.
pub(super) fn plan(told: &Told<'_>) -> Part {
    let mut blocks = vec![Block::Heading("The plan".to_owned())];
    // What is steered through the stream is the card's; ashore nobody steers.
    let facts = told.card.facts.iter().filter(|(name, _)| name != "Variation" && name != "Stream");
    let facts: Vec<String> = facts.map(|(name, words)| format!("{name}: {words}")).collect();
    blocks.push(Block::List(facts));
    if told.plan.route.points.is_empty() {
        return blocks;
    }
    blocks.push(Block::Table(points(told)));
    let points = told.plan.route.points.iter().enumerate();
    let notes: Vec<String> = points.filter_map(|point| note(told, point)).collect();
    if !notes.is_empty() {
        blocks.push(Block::List(notes));
    }
    blocks
}

/// `At 9: stop 30 min; Tea.`
fn note(told: &Told<'_>, (index, point): (usize, &Waypoint)) -> Option<String> {
    let inner = index > 0 && Some(index) != told.last();
    let stop =
        (inner && !point.stop.is_zero()).then(|| format!("stop {}", text::duration(point.stop)));
    let words = joined([stop.unwrap_or_default().as_str(), &point.note], "; ");
    (!words.is_empty()).then(|| format!("At {}: {words}", index + 1))
}

/// Latitude and longitude.
fn position() -> Column {
    Column::words("position, WGS 84").whole()
}

/// The references, under the grid's name.
fn grid(told: &Told<'_>) -> Column {
    Column::words(told.plan.chart.grid.name()).whole()
}

fn points(told: &Told<'_>) -> Table {
    let columns = vec![
        Column::figures(""),
        Column::words("point"),
        Column::figures("arrive").whole(),
        Column::figures("leave").whole(),
        Column::figures("next leg").whole(),
        position(),
        grid(told),
    ];
    let points = told.plan.route.points.iter().enumerate();
    Table::new(columns, points.map(|(index, point)| point_row(told, index, point)).collect())
}

fn point_row(told: &Told<'_>, index: usize, point: &Waypoint) -> Vec<String> {
    let schedule = told.schedule.as_ref();
    let reached = schedule.and_then(|schedule| schedule.reached(index));
    // A point that is only passed is left when it is reached.
    let left = schedule.and_then(|schedule| schedule.left(index)).filter(|at| Some(*at) != reached);
    let words = |at: Option<Timestamp>| {
        schedule.zip(at).map(|(schedule, at)| schedule.words(at)).unwrap_or_default()
    };
    let place = told.places.place(point.at);
    let leg = told.card.legs.get(index).map(|leg| leg.nautical_miles.clone()).unwrap_or_default();
    row([
        &(index + 1).to_string(),
        &point.name,
        &words(reached),
        &words(left),
        &leg,
        &place.position,
        &place.reference,
    ])
}

/// Where they should be at each whole step of the clock.
pub(super) fn by_the_clock(told: &Told<'_>) -> Part {
    let Some(schedule) = &told.schedule else { return Part::new() };
    let rows: Vec<Vec<String>> =
        schedule.spells().iter().map(|spell| spell_row(told, schedule, spell)).collect();
    let mut blocks = vec![Block::Heading("Where they should be".to_owned()), words(by(schedule))];
    if rows.is_empty() {
        blocks.push(words("All of it lies between two whole steps of the clock."));
    } else {
        let columns = vec![
            Column::words(if schedule.clock { "at" } else { "after" }).whole(),
            position(),
            grid(told),
            Column::words("from"),
            Column::words("on"),
        ];
        blocks.push(Block::Table(Table::new(columns, rows)));
    }
    let end = told.last().map(|last| told.name(last)).unwrap_or_default();
    blocks.push(words(match schedule.arrives() {
        Some(at) => format!("From {} on they should be ashore at {end}.", schedule.words(at)),
        None => {
            "The passage does not go on beyond that as it is planned: nothing is known.".to_owned()
        }
    }));
    blocks
}

/// What the table of places is.
fn by(schedule: &Schedule) -> String {
    let every = text::duration(schedule.step());
    let by =
        if schedule.by_pace { "by the pace alone" } else { "by the passage through the stream" };
    let from = if schedule.clock { "" } else { " after the launch" };
    format!(
        "Where the plan has them every {every}{from}, {by}. Bearings are true, from the named place to the group."
    )
}

fn spell_row(told: &Told<'_>, schedule: &Schedule, spell: &Spell) -> Vec<String> {
    let place = told.places.place(spell.at);
    let doing = match spell.doing {
        Doing::Leg(leg) => format!("leg {}–{}, to {}", leg + 1, leg + 2, told.name(leg + 1)),
        Doing::Stays(point) => format!("stays at {}", told.name(point)),
    };
    row([&schedule.words(spell.when), &place.position, &place.reference, &place.from, &doing])
}

/// The ways out of the card.
pub(super) fn ways_out(told: &Told<'_>) -> Part {
    if told.card.legs.is_empty() {
        return Part::new();
    }
    let heading = Block::Heading("Ways out".to_owned());
    let ways = &told.card.ways_out;
    if ways.is_empty() {
        return vec![heading, words("The chart has no landing.")];
    }
    let rows = ways.iter().map(|way| {
        let (first, last) = (way.from_first.words(), way.from_last.words());
        row([&way.stage, &way.name, &way.reference, &first, &way.off, &last, &way.serves])
    });
    let columns = vec![
        Column::words("stage").whole(),
        Column::words("landing"),
        grid(told),
        Column::figures("from first").whole(),
        Column::figures("off").whole(),
        Column::figures("from last").whole(),
        Column::words("ground, serves"),
    ];
    vec![
        heading,
        words("The nearest landings by water, by stage, where a group may have gone ashore."),
        Block::Table(Table::new(columns, rows.collect())),
        words(told.card.ways_legend()),
    ]
}

/// What the reader should know of the figures, as on the card.
pub(super) fn notes(told: &Told<'_>) -> Part {
    let tide = told.card.tide.as_ref().map(|tide| {
        let waters = tide.waters.iter();
        let waters: Vec<String> =
            waters.map(|it| joined([it.name, &it.clock, &it.height], " ")).collect();
        format!("Tide at {}: {}. Told {}.", tide.port, waters.join(", "), tide.source)
    });
    let all: Vec<String> = told.card.notes.iter().cloned().chain(tide).collect();
    if all.is_empty() {
        return Part::new();
    }
    vec![Block::Heading("What the figures rest on".to_owned()), Block::List(all)]
}
