//! The tables of a card: legs and ways out.

use super::WayOut;
use super::content::{Content, LegLine, PointLine};
use crate::draw::{Mm, Pt};
use crate::set::{Cell, Column, Row, Table};

/// The table of the legs; references go under the names where there is no room beside them.
pub(super) fn legs(content: &Content, size: Pt, width: Mm) -> Option<Table> {
    let letters = letters(content);
    let all = |beside: bool| {
        let columns = [
            Column::figures(""),
            Column::wrapped("to"),
            Column::words(letters.as_deref().unwrap_or("ref")),
            Column::figures("°M"),
            Column::figures("back"),
            Column::figures("steer"),
            Column::figures("set°T kn"),
            Column::figures("NM"),
            Column::figures("km"),
            Column::figures("time"),
            Column::figures("at"),
        ];
        let true_north = content.legs.iter().any(|leg| leg.bearing.ends_with('T'));
        let columns = columns.map(|column| {
            if true_north && column.head == "°M" { Column::figures("°T") } else { column }
        });
        let mut rows = vec![start(&content.start, beside)];
        rows.extend(content.legs.iter().map(|leg| row(leg, beside)));
        for cell in rows.iter_mut().filter_map(|row| row.cells.get_mut(2)) {
            let short = letters.as_deref().and_then(|letters| cell.words.strip_prefix(letters));
            if let Some(short) = short {
                cell.words = short.trim_start().to_owned();
            }
        }
        Table::new(&columns, &rows, size, width)
    };
    all(true).or_else(|| all(false))
}

/// The letters with which all references begin, which then stand over them once.
fn letters(content: &Content) -> Option<String> {
    let (letters, _) = content.start.reference.split_once(' ')?;
    let is_word = !letters.is_empty() && letters.chars().all(|c| c.is_ascii_alphabetic());
    let others = content.legs.iter().map(|leg| leg.to.reference.split_once(' '));
    let same = others.into_iter().all(|other| other.is_some_and(|(other, _)| other == letters));
    (is_word && same).then(|| letters.to_owned())
}

fn point(point: &PointLine, beside: bool) -> [Cell; 3] {
    let reference = if beside { point.reference.clone() } else { String::new() };
    [Cell::bold(&point.number), Cell::bold(&point.name), Cell::new(reference)]
}

fn note(point: &PointLine, beside: bool, notes: &[String]) -> String {
    let reference = if beside { String::new() } else { point.reference.clone() };
    let all = std::iter::once(&reference).chain(notes).chain(&point.notes).map(String::as_str);
    all.filter(|words| !words.is_empty()).collect::<Vec<_>>().join("; ")
}

fn start(at: &PointLine, beside: bool) -> Row {
    let mut cells = point(at, beside).to_vec();
    cells.extend(std::iter::repeat_n(Cell::default(), 7));
    cells.push(Cell::bold(&at.clock));
    Row { cells, note: note(at, beside, &[]) }
}

fn row(leg: &LegLine, beside: bool) -> Row {
    let mut cells = point(&leg.to, beside).to_vec();
    let bearing = |words: &str| words.trim_end_matches(['M', 'T']).to_owned();
    cells.extend([
        Cell::bold(bearing(&leg.bearing)),
        Cell::new(bearing(&leg.back)),
        Cell::bold(bearing(&leg.steer)),
        Cell::new(leg.set.trim_end_matches(" kn").replace('T', "")),
        Cell::new(leg.nautical_miles.trim_end_matches(" NM")),
        Cell::new(kilometres(&leg.kilometres)),
        Cell::new(&leg.time),
        Cell::bold(&leg.to.clock),
    ]);
    Row { cells, note: note(&leg.to, beside, &leg.notes) }
}

/// A distance in a column of kilometres: what is written in metres to their hundredths.
fn kilometres(words: &str) -> String {
    let metres = words.strip_suffix(" m").and_then(|metres| metres.parse::<f64>().ok());
    match metres {
        Some(metres) => format!("{:.2}", metres / 1000.0),
        None => words.trim_end_matches(" km").to_owned(),
    }
}

/// The table of the ways out; what they are of goes under the names where there is no room beside them. Nothing of none.
pub(super) fn ways_out(content: &Content, size: Pt, width: Mm) -> Option<Table> {
    let columns = [
        Column::words("leg"),
        Column::wrapped("landing"),
        Column::words("ref"),
        Column::figures("along"),
        Column::figures("off"),
        Column::words("ground, serves"),
    ];
    let rows = |beside: bool| -> Vec<Row> {
        let row = |way: &WayOut| {
            let serves = if beside { way.serves.as_str() } else { "" };
            let cells = [
                Cell::bold(&way.leg),
                Cell::new(&way.name),
                Cell::new(&way.reference),
                Cell::new(&way.along),
                Cell::new(&way.off),
                Cell::new(serves),
            ];
            let note = if beside { String::new() } else { way.serves.clone() };
            Row { cells: cells.to_vec(), note }
        };
        content.ways_out.iter().map(row).collect()
    };
    if content.ways_out.is_empty() {
        return None;
    }
    let table = |beside| Table::new(&columns, &rows(beside), size, width);
    table(true).or_else(|| table(false))
}
