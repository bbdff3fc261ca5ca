//! Who goes, in which boats, and with what.

use super::people::{Kit, Person};
use super::told::{Part, Told, joined, row};
use crate::draw::Mm;
use crate::leaflet::{Block, Column, Field, Table, Tick};

/// How wide a name is that a pen writes.
const NAME: Mm = Mm(30.0);

/// Names, boats, colours.
pub(super) fn who(told: &Told<'_>) -> Part {
    let people = &told.people;
    let columns = ["boat, its colours", "clothes, their colours", "telephone carried"];
    let name = Column::words("name").at_least(NAME);
    let columns = [Column::words(""), name].into_iter().chain(columns.map(Column::words)).collect();
    let mut blocks = vec![Block::Heading("Who goes".to_owned())];
    if !people.group.is_empty() {
        blocks.push(Block::Fields(vec![Field::of("Group", &people.group)]));
    }
    blocks.push(Block::Table(Table::for_a_pen(columns, rows(told))));
    blocks.push(Block::Fields(vec![Field::of("Experience", &people.experience)]));
    blocks.push(Block::Fields(vec![Field::of(
        "Health, medicines, allergies: what a rescuer should know",
        &people.medical,
    )]));
    let contact = &people.contact;
    blocks.push(Block::Fields(vec![
        Field::of("Contact ashore", &contact.name),
        Field::of("where", &contact.place),
        Field::of("telephone", &contact.phone),
    ]));
    blocks.extend(vehicles(told));
    blocks
}

fn rows(told: &Told<'_>) -> Vec<Vec<String>> {
    if told.people.count() == 0 {
        return (1..=told.sheet.lines)
            .map(|number| row([&number.to_string(), "", "", "", ""]))
            .collect();
    }
    let people = told.people.boats.iter().enumerate().flat_map(|(index, boat)| {
        let colours = joined([boat.kind.as_str(), &boat.colours], ", ");
        // With its number, so that nobody takes two in one boat for two boats.
        let colours = joined([format!("{}", index + 1).as_str(), &colours], ": ");
        boat.crew.iter().map(move |person| (person, colours.clone()))
    });
    (1..)
        .zip(people)
        .map(|(number, (Person { name, clothing, phone, note }, boat))| {
            row([&number.to_string(), &joined([name.as_str(), note], "; "), &boat, clothing, phone])
        })
        .collect()
}

fn vehicles(told: &Told<'_>) -> Vec<Block<'static>> {
    let field = |what: &str, parked: &str| {
        Block::Fields(vec![
            Field::of("Vehicle, registration", what),
            Field::of("parked at", parked),
        ])
    };
    match told.people.vehicles.as_slice() {
        [] => vec![field("", "")],
        some => some.iter().map(|vehicle| field(&vehicle.what, &vehicle.parked)).collect(),
    }
}

/// What they carry.
pub(super) fn kit(told: &Told<'_>) -> Part {
    let tick = |what: &Kit| {
        let carried = told.people.carried(*what);
        let details = carried.map(|carried| carried.details.as_str()).unwrap_or_default();
        let words = joined([what.to_string().as_str(), details], ": ");
        Tick { words, ticked: carried.is_some() }
    };
    vec![
        Block::Heading("What they carry".to_owned()),
        Block::Boxes(Kit::ALL.iter().map(tick).collect()),
        Block::Fields(vec![Field::blank("What else")]),
    ]
}
