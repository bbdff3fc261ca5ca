//! The tables of a card: legs and ways out.

use super::content::{Content, LegLine, PointLine};
use super::{Lies, WayOut};
use crate::draw::{Mm, Pt};
use crate::set::{Cell, Column, Row, Table};

/// How the legs are set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Look {
    /// What is read afloat large, the rest under it: two lines a leg.
    Large,
    /// All in one line.
    Close,
}

/// The table of the legs; nothing where it has no room. In one line references go under the names where there is no
/// room beside them.
pub(super) fn legs(content: &Content, look: Look, size: Pt, width: Mm) -> Option<Table> {
    let letters = letters(content);
    match look {
        Look::Large => large(content, letters.as_deref(), size, width),
        Look::Close => [true, false]
            .into_iter()
            .find_map(|beside| close(content, letters.as_deref(), beside, size, width)),
    }
}

/// What stands over the bearings.
fn north(content: &Content) -> &'static str {
    let from_true = content.legs.iter().any(|leg| leg.bearing.ends_with('T'));
    if from_true { "°T" } else { "°M" }
}

fn large(content: &Content, letters: Option<&str>, size: Pt, width: Mm) -> Option<Table> {
    let columns = [
        Column::words("").apart(),
        Column::figures(north(content)).over("back"),
        Column::figures("steer").over("set°T kn"),
        Column::figures("min").over("NM · km"),
        Column::figures("at"),
        Column::wrapped("to").over(letters.unwrap_or("reference")),
    ];
    let start = std::iter::once(start_large(&content.start, letters));
    let rows: Vec<Row> =
        start.chain(content.legs.iter().map(|leg| row_large(leg, letters))).collect();
    Table::new(&columns, &rows, size, width)
}

/// Number and name, over the reference.
fn point_large(point: &PointLine, letters: Option<&str>) -> [Cell; 2] {
    let reference = short(&point.reference, letters);
    let name = match point.name.as_str() {
        "" => Cell::new(reference),
        name => Cell::bold(name).over(reference),
    };
    [Cell::bold(&point.number).large(), name]
}

fn start_large(at: &PointLine, letters: Option<&str>) -> Row {
    let [number, name] = point_large(at, letters);
    let none = || Cell::default();
    let cells = vec![number, none(), none(), none(), Cell::new(&at.clock).large(), name];
    Row { cells, note: note(at, true, &[]) }
}

/// What is read on the way stands next to the number, so that the eye has no gap to cross.
fn row_large(leg: &LegLine, letters: Option<&str>) -> Row {
    let [number, name] = point_large(&leg.to, letters);
    let distances = [figure(&leg.nautical_miles, " NM"), kilometres(&leg.kilometres)];
    let cells = vec![
        number,
        Cell::bold(degrees(&leg.bearing)).large().over(degrees(&leg.back)),
        Cell::bold(degrees(&leg.steer)).large().over(stream(&leg.set)),
        Cell::bold(figure(&leg.time, " min")).large().over(distances.join(" · ")),
        Cell::new(&leg.to.clock).large(),
        name,
    ];
    Row { cells, note: note(&leg.to, true, &leg.notes) }
}

fn close(
    content: &Content,
    letters: Option<&str>,
    beside: bool,
    size: Pt,
    width: Mm,
) -> Option<Table> {
    let columns = [
        Column::figures(""),
        Column::wrapped("to"),
        Column::words(letters.unwrap_or("ref")),
        Column::figures(north(content)),
        Column::figures("back"),
        Column::figures("steer"),
        Column::figures("set°T kn"),
        Column::figures("NM"),
        Column::figures("km"),
        Column::figures("min"),
        Column::figures("at"),
    ];
    let mut rows = vec![start(&content.start, letters, beside)];
    rows.extend(content.legs.iter().map(|leg| row(leg, letters, beside)));
    Table::new(&columns, &rows, size, width)
}

/// A reference without the letters that stand over all of them.
fn short(reference: &str, letters: Option<&str>) -> String {
    let short = letters.and_then(|letters| reference.strip_prefix(letters));
    short.map_or(reference, str::trim_start).to_owned()
}

/// A bearing whose north stands over it.
fn degrees(words: &str) -> String {
    words.trim_end_matches(['M', 'T']).to_owned()
}

/// A figure whose unit stands over it.
fn figure(words: &str, unit: &str) -> String {
    words.strip_suffix(unit).unwrap_or(words).to_owned()
}

/// A stream whose units stand over it.
fn stream(words: &str) -> String {
    figure(words, " kn").replace('T', "")
}

/// The letters with which all references begin, which then stand over them once.
fn letters(content: &Content) -> Option<String> {
    let (letters, _) = content.start.reference.split_once(' ')?;
    let is_word = !letters.is_empty() && letters.chars().all(|c| c.is_ascii_alphabetic());
    let others = content.legs.iter().map(|leg| leg.to.reference.split_once(' '));
    let same = others.into_iter().all(|other| other.is_some_and(|(other, _)| other == letters));
    (is_word && same).then(|| letters.to_owned())
}

fn point(point: &PointLine, letters: Option<&str>, beside: bool) -> [Cell; 3] {
    let number = Cell::bold(&point.number);
    match (beside, point.name.as_str()) {
        (true, name) => [number, Cell::bold(name), Cell::new(short(&point.reference, letters))],
        (false, "") => [number, Cell::new(&point.reference), Cell::default()],
        (false, name) => [number, Cell::bold(name), Cell::default()],
    }
}

fn note(point: &PointLine, beside: bool, notes: &[String]) -> String {
    // That of a point without a name stands in its place.
    let told = beside || point.name.is_empty();
    let reference = if told { String::new() } else { point.reference.clone() };
    let all = std::iter::once(&reference).chain(notes).chain(&point.notes).map(String::as_str);
    all.filter(|words| !words.is_empty()).collect::<Vec<_>>().join("; ")
}

fn start(at: &PointLine, letters: Option<&str>, beside: bool) -> Row {
    let mut cells = point(at, letters, beside).to_vec();
    cells.extend(std::iter::repeat_n(Cell::default(), 7));
    cells.push(Cell::bold(&at.clock));
    Row { cells, note: note(at, beside, &[]) }
}

fn row(leg: &LegLine, letters: Option<&str>, beside: bool) -> Row {
    let mut cells = point(&leg.to, letters, beside).to_vec();
    cells.extend([
        Cell::bold(degrees(&leg.bearing)),
        Cell::new(degrees(&leg.back)),
        Cell::bold(degrees(&leg.steer)),
        Cell::new(stream(&leg.set)),
        Cell::new(figure(&leg.nautical_miles, " NM")),
        Cell::new(kilometres(&leg.kilometres)),
        Cell::bold(figure(&leg.time, " min")),
        Cell::new(&leg.to.clock),
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

/// How a landing lies, the north of its bearing being told under the table.
fn lies(lies: &Lies) -> String {
    match lies.clone() {
        Lies::Way { bearing, distance, round } => {
            Lies::Way { bearing: degrees(&bearing), distance, round }.words()
        }
        other => other.words(),
    }
}

/// The table of the ways out; nothing of none.
pub(super) fn ways_out(content: &Content, size: Pt, width: Mm) -> Option<Table> {
    let columns = [
        Column::words("stage"),
        Column::wrapped("landing"),
        Column::figures("from first"),
        Column::figures("off"),
        Column::figures("from last"),
    ];
    let row = |way: &WayOut| {
        let cells = [
            Cell::bold(&way.stage),
            Cell::bold(&way.name),
            Cell::new(lies(&way.from_first)),
            Cell::new(&way.off),
            Cell::new(lies(&way.from_last)),
        ];
        Row { cells: cells.to_vec(), note: format!("{} · {}", way.reference, way.serves) }
    };
    let rows: Vec<Row> = content.ways_out.iter().map(row).collect();
    if rows.is_empty() { None } else { Table::new(&columns, &rows, size, width) }
}
