//! A strip of starts in characters.

use nav::tide::Water;
use plan::depart::{Cell, Kind, Sky, Strip, Verdict};

/// As many columns stand before the cells of a day as its labels need.
const LABEL: usize = 5;

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

/// Which signs are drawn.
#[derive(Debug, Clone, Copy)]
pub(super) enum Signs {
    /// Shades of blocks.
    Blocks,
    /// Those of every keyboard.
    Ascii,
}

impl Signs {
    /// A verdict's shade.
    pub(super) const fn shade(self, verdict: Verdict) -> char {
        match self {
            Signs::Blocks => verdict.shade(),
            Signs::Ascii => verdict.ascii(),
        }
    }

    /// The shades of a strip.
    pub(super) fn shades(self, strip: &Strip) -> String {
        strip.cells.iter().map(|cell| self.shade(cell.verdict)).collect()
    }

    /// What the shades of these strips mean, those that are there.
    pub(super) fn shade_legend(self, strips: &[Strip]) -> String {
        let cells = strips.iter().flat_map(|strip| &strip.cells);
        let shades = Verdict::ALL.into_iter();
        let there = shades.filter(|it| cells.clone().any(|cell| cell.verdict == *it));
        there.map(|it| format!("{} {it}", self.shade(it))).collect::<Vec<_>>().join("; ")
    }

    /// What the shades and marks of a strip mean, those that are there.
    pub(super) fn legend(self, strip: &Strip) -> String {
        let cells = || strip.cells.iter();
        let mut said = vec![self.shade_legend(std::slice::from_ref(strip))];
        let marks = Kind::ALL.into_iter().filter(|it| cells().any(|cell| cell.kind == Some(*it)));
        said.extend(marks.map(|kind| format!("{} {}", kind.mark(), kind.meaning())));
        if cells().any(|cell| cell.best) {
            said.push(format!("{} best", Cell::BEST));
            said.push(format!("{} latest within the limits", Cell::LATEST));
        }
        said.join("; ")
    }

    /// A whole day in rows: hours, shades, marks, tide, gate and light.
    pub(super) fn rows(self, strip: &Strip) -> Vec<String> {
        let row = |label: &str, sign: &dyn Fn(&Cell) -> char| {
            let signs: String = strip.cells.iter().map(sign).collect();
            format!("{label:LABEL$}{signs}").trim_end().to_owned()
        };
        let mut rows = vec![
            hours(strip, LABEL),
            row("out", &|cell| self.shade(cell.verdict)),
            row("why", &|cell| cell.mark().unwrap_or(' ')),
            row("tide", &water),
        ];
        if strip.cells.iter().any(|cell| cell.gate.is_some()) {
            rows.push(row("gate", &|cell| if cell.gate == Some(true) { '=' } else { ' ' }));
        }
        rows.push(row("sky", &sky));
        rows
    }
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
