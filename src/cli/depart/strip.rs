//! A strip of starts in characters.

use nav::tide::Water;
use plan::depart::{Cell, Kind, Sky, Strip, Verdict};

/// As many columns stand before the cells of a day as its labels need.
const LABEL: usize = 6;

/// The hours over the cells, every third one written from its cell on, behind a label so wide.
pub(super) fn hours(strip: &Strip, label: usize) -> String {
    let mut line = " ".repeat(label);
    for (cell, hour) in strip.hours(3) {
        let written = line.chars().count();
        line.push_str(&" ".repeat((cell + label).saturating_sub(written)));
        line.push_str(&hour);
    }
    line
}

/// The shades of the verdicts.
pub(super) fn shades(strip: &Strip) -> String {
    strip.cells.iter().map(|cell| cell.verdict.shade()).collect()
}

/// A whole day in rows: hours, shades, marks, tide and light.
pub(super) fn rows(strip: &Strip) -> Vec<String> {
    let row = |label: &str, sign: &dyn Fn(&Cell) -> char| {
        let signs: String = strip.cells.iter().map(sign).collect();
        format!("{label:LABEL$}{signs}").trim_end().to_owned()
    };
    vec![
        hours(strip, LABEL),
        row("start", &|cell| cell.verdict.shade()),
        row("why", &|cell| cell.mark().unwrap_or(' ')),
        row("tide", &water),
        row("light", &sky),
    ]
}

fn water(cell: &Cell) -> char {
    match cell.water {
        Some(Water::High) => 'H',
        Some(Water::Low) => 'L',
        None => ' ',
    }
}

fn sky(cell: &Cell) -> char {
    match cell.sky {
        Sky::Day => '=',
        Sky::Twilight => '-',
        Sky::Dark => ' ',
    }
}

/// What the shades of these strips mean, those that are there.
pub(super) fn shade_legend(strips: &[Strip]) -> String {
    let cells = strips.iter().flat_map(|strip| &strip.cells);
    let shades = Verdict::ALL.into_iter();
    let there = shades.filter(|it| cells.clone().any(|cell| cell.verdict == *it));
    there.map(|it| format!("{} {it}", it.shade())).collect::<Vec<_>>().join("; ")
}

/// What the shades and marks of a strip mean, those that are there.
pub(super) fn legend(strip: &Strip) -> String {
    let cells = || strip.cells.iter();
    let mut said = vec![shade_legend(std::slice::from_ref(strip))];
    let marks = Kind::ALL.into_iter().filter(|it| cells().any(|cell| cell.kind == Some(*it)));
    let mut marks: Vec<String> =
        marks.map(|kind| format!("{} {}", kind.mark(), kind.meaning())).collect();
    marks.dedup();
    said.append(&mut marks);
    if cells().any(|cell| cell.best) {
        said.push(format!("{} best", Cell::BEST));
        said.push(format!("{} latest within the limits", Cell::LATEST));
    }
    format!("{}.", said.join("; "))
}
