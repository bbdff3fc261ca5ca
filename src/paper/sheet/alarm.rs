//! What to tell the rescue service, in the order in which it is asked.
//!
//! The order is what published lists have in common: the distress message of the Radio Regulations (identity,
//! position, nature of the distress, assistance, what else helps: 47 CFR 80.316), the situation report of the IAMSAR
//! Manual (identity, position, situation, persons at risk, assistance, description, weather), and what services gather
//! from somebody who calls (New Zealand Search and Rescue Council; Surf Life Saving New South Wales), the caller
//! first. `tests/data/alarm/order.csv` has these lists, and a test holds the order to each. That a parked vehicle is
//! asked for is common practice, no published source.

use super::people::{Boat, Kit};
use super::told::{Part, Told, joined, row, words};
use crate::leaflet::{Block, Column, Field, Table};

/// The line for the number.
const NUMBER: &str =
    "Look up the local number of the rescue service before they leave and write it here";
/// How to say it.
const SAY: &str = "Say it in this order, without haste, and answer what you are asked. Then stay where they can call you back.";

/// What to tell.
pub(super) fn part(told: &Told<'_>) -> Part {
    let mut rows = Vec::new();
    for (number, (asked, answers)) in (1..).zip(asked(told)) {
        for (about, answer) in answers {
            let asked =
                if about.is_empty() { format!("{number} {asked}") } else { about.to_owned() };
            rows.push(row([&asked, &answer]));
        }
    }
    // On a page of its own where it has room there, to be held beside a telephone.
    vec![Block::Together(vec![
        Block::Heading("What to tell the rescue service".to_owned()),
        Block::Fields(vec![Field::blank(NUMBER)]),
        words(SAY),
        Block::Table(Table::for_a_pen(
            vec![Column::words("they ask"), Column::words("you say")],
            rows,
        )),
    ])]
}

/// Answers to a question, each with what it is about if that is something else than what is asked; empty for a pen.
type Answers = Vec<(&'static str, String)>;

/// What is asked in its order, with what is answered.
pub(super) fn asked(told: &Told<'_>) -> Vec<(&'static str, Answers)> {
    vec![
        ("Who is calling", calling(told)),
        ("Which craft", vec![("", craft(told))]),
        ("Where they are", place(told)),
        ("What is wrong", matter(told)),
        ("How many people", vec![("", people(told))]),
        ("What help is wanted", help()),
        ("What they look like", vec![("", looks(told))]),
        ("What they planned", plan(told)),
        ("What they carry", vec![("", carried(told))]),
        ("Weather and light", weather(told)),
        ("Who they are", vec![("", WHO.to_owned())]),
        ("Vehicles", vehicles(told)),
    ]
}

const WHO: &str = "Names, experience, health and whom to tell stand under “Who goes”.";

fn calling(told: &Told<'_>) -> Answers {
    let contact = &told.people.contact;
    let who = joined([contact.name.as_str(), &contact.place], ", ");
    vec![("", who), ("your own number", contact.phone.clone())]
}

/// `2 × single sea kayak, 1 × double`.
fn craft(told: &Told<'_>) -> String {
    let mut kinds: Vec<(&str, usize)> = Vec::new();
    for Boat { kind, .. } in &told.people.boats {
        let kind = if kind.is_empty() { "sea kayak" } else { kind.as_str() };
        match kinds.iter_mut().find(|(seen, _)| *seen == kind) {
            Some((_, count)) => *count += 1,
            None => kinds.push((kind, 1)),
        }
    }
    let kinds: Vec<String> =
        kinds.iter().map(|(kind, count)| format!("{count} × {kind}")).collect();
    let kinds = kinds.join(", ");
    if kinds.is_empty() { kinds } else { joined([kinds.as_str(), &told.people.group], "; ") }
}

fn place(told: &Told<'_>) -> Answers {
    let bound = told.last().and_then(|last| told.point(last));
    let bound = bound.map(|to| format!(" Bound for {to}.")).unwrap_or_default();
    let planned =
        format!("By their plan, as under “Where they should be” for the time of day.{bound}");
    vec![("", planned), ("last seen or heard of: where, when, by whom", String::new())]
}

fn matter(told: &Told<'_>) -> Answers {
    let arrives = told.schedule.as_ref().filter(|schedule| schedule.clock);
    let arrives = arrives.and_then(|schedule| Some(schedule.words_in_full(schedule.arrives()?)));
    match arrives {
        Some(at) => vec![("", format!("Overdue. Expected ashore at {at}; not heard of since."))],
        None => vec![("", "Overdue.".to_owned()), ("expected ashore at", String::new())],
    }
}

fn people(told: &Told<'_>) -> String {
    let count = told.people.count();
    if count == 0 { String::new() } else { count.to_string() }
}

fn help() -> Answers {
    let search = "A search for them. The service decides what is done; do what it asks of you.";
    vec![("", search.to_owned()), ("anybody hurt, cold or in the water", String::new())]
}

fn looks(told: &Told<'_>) -> String {
    let boat = |(number, boat): (i32, &Boat)| {
        let clothing = joined(boat.crew.iter().map(|person| person.clothing.as_str()), " and ");
        let boat = joined([boat.kind.as_str(), &boat.colours], ", ");
        let looks = joined([boat.as_str(), &clothing], "; worn: ");
        if looks.is_empty() { looks } else { format!("Boat {number}: {looks}.") }
    };
    let boats: Vec<String> = (1..).zip(&told.people.boats).map(boat).collect();
    joined(boats.iter().map(String::as_str), " ")
}

fn plan(told: &Told<'_>) -> Answers {
    let (Some(schedule), Some(last)) = (&told.schedule, told.last()) else {
        return vec![("", String::new())];
    };
    let (from, to) = (told.point(0).unwrap_or_default(), told.point(last).unwrap_or_default());
    let way = way(told, last);
    let arrives = schedule.arrives().map(|at| schedule.words_in_full(at));
    let arrives = match arrives {
        Some(at) if schedule.clock => format!(", expected at {at}"),
        Some(after) => format!(", expected {after}"),
        None => "; it is not known when".to_owned(),
    };
    let from = format!("From {from}.");
    let rest = format!("{way}To {to}{arrives}. Ways out stand under that heading.");
    if schedule.clock {
        let at = schedule.words_in_full(schedule.departs());
        return vec![("", format!("{from} Launch at {at}. {rest}"))];
    }
    vec![("", format!("{from} {rest}")), ("launched at", String::new())]
}

/// How many points on the way are named: as many as somebody writes down who listens.
const NAMED: usize = 5;

/// The first named points on the way.
fn way(told: &Told<'_>, last: usize) -> String {
    let points = told.plan.route.points.iter().take(last).skip(1);
    let names: Vec<&str> =
        points.map(|point| point.name.as_str()).filter(|name| !name.is_empty()).collect();
    let (first, more) = names.split_at(names.len().min(NAMED));
    match (first, more) {
        ([], _) => String::new(),
        (first, []) => format!("By way of {}. ", first.join(", ")),
        (first, _) => {
            format!("By way of {} and further points, as under “The plan”. ", first.join(", "))
        }
    }
}

fn carried(told: &Told<'_>) -> String {
    let kit = Kit::ALL.iter().filter_map(|what| told.people.carried(*what));
    let kit: Vec<String> =
        kit.map(|carried| joined([&*carried.what.to_string(), &carried.details], ": ")).collect();
    match kit.is_empty() {
        true => "What is ticked under “What they carry”.".to_owned(),
        false => kit.join("; "),
    }
}

fn weather(told: &Told<'_>) -> Answers {
    let fact = |name: &str| {
        let found = told.card.facts.iter().find(|(known, _)| known == name);
        found.map(|(_, words)| words.clone())
    };
    let wind = fact("Wind").map_or_else(
        || "No wind is in the plan.".to_owned(),
        |wind| format!("Planned for wind {wind}."),
    );
    let light = fact("Light").map(|light| format!(" That day: {light}.")).unwrap_or_default();
    vec![("", format!("{wind}{light}")), ("as it is now where they are", String::new())]
}

fn vehicles(told: &Told<'_>) -> Answers {
    let vehicles = told.people.vehicles.iter();
    let vehicles: Vec<String> =
        vehicles.map(|it| joined([it.what.as_str(), &it.parked], ", parked at ")).collect();
    vec![
        ("", joined(vehicles.iter().map(String::as_str), "; ")),
        ("still there: which, at what time", String::new()),
    ]
}
