//! The record as text: CSV with a head, a line for each question.
//!
//! CSV, since it is what every spreadsheet reads and what a class hands in, and since a line is a result: two records are put
//! together by putting one's lines after the other's. Each line begins with the version, so that a line says by itself
//! how it is to be read.

use std::fmt::Write;

use jiff::Timestamp;

use super::{Answered, Outcome, Record};
use crate::{Kind, Level, MistakeKind};

/// The version that is written.
const VERSION: &str = "1";
/// What stands over the columns.
const HEAD: [&str; 11] = [
    "version", "when", "kind", "level", "seed", "chart", "outcome", "hints", "off", "mistake",
    "seconds",
];
/// The longest line: more than any result has.
const LONGEST: usize = 4096;

/// What is wrong with a record, and where.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{line}:{column}: {message}")]
pub struct RecordError {
    /// The line, from one.
    pub line: usize,
    /// The column in characters, from one.
    pub column: usize,
    /// What is wrong, and what would be right.
    pub message: String,
}

/// What is wrong within a line.
struct Wrong {
    column: usize,
    message: String,
}

/// A cell and where it begins.
struct Cell {
    column: usize,
    text: String,
}

/// The record that a text holds; the empty one of an empty text. The head may come again, where records were put together.
///
/// # Errors
/// [`RecordError`] for the first line that is none of a record, or one too many.
pub fn read(text: &str) -> Result<Record, RecordError> {
    let mut record = Record::default();
    let mut headed = false;
    for (line, written) in (1..).zip(text.lines()) {
        let fail = |Wrong { column, message }| RecordError { line, column, message };
        if written.is_empty() {
            continue;
        }
        let cells = cells(written).map_err(fail)?;
        let is_head = cells.len() == HEAD.len()
            && cells.iter().zip(HEAD).all(|(cell, head)| cell.text == head);
        if is_head {
            headed = true;
            continue;
        }
        if !headed {
            let message = format!("a record begins with the line {}", HEAD.join(","));
            return Err(fail(Wrong { column: 1, message }));
        }
        let answered = answered(&cells).map_err(fail)?;
        if !record.keep(answered) {
            let message = format!("a record has at most {} results", Record::MOST);
            return Err(fail(Wrong { column: 1, message }));
        }
    }
    Ok(record)
}

/// The text of a record; [`read`] gives the record back.
#[must_use]
pub fn write(record: &Record) -> String {
    let mut text = HEAD.join(",");
    text.push('\n');
    for it in record.answered() {
        // Writing to a string does not fail.
        let _ = writeln!(
            text,
            "{VERSION},{},{},{},{},{},{},{},{},{},{}",
            it.when,
            it.kind.name(),
            it.level.number(),
            it.seed,
            quoted(&it.chart),
            it.outcome.name(),
            it.hints,
            quoted(&it.off),
            it.mistake.map_or("", MistakeKind::key),
            it.seconds
        );
    }
    text
}

/// As a cell is written (RFC 4180).
fn quoted(text: &str) -> String {
    if text.contains([',', '"']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text.to_owned()
    }
}

/// The cells of a line.
fn cells(line: &str) -> Result<Vec<Cell>, Wrong> {
    if line.len() > LONGEST {
        let message = format!("this line is longer than {LONGEST} bytes; is it one of a record?");
        return Err(Wrong { column: 1, message });
    }
    let mut cells = vec![Cell { column: 1, text: String::new() }];
    let mut letters = (1..).zip(line.chars()).peekable();
    let mut open = None;
    while let Some((column, letter)) = letters.next() {
        let Some(cell) = cells.last_mut() else { break };
        match (letter, open) {
            ('"', None) if cell.text.is_empty() => open = Some(column),
            ('"', Some(_)) => match letters.next_if(|next| next.1 == '"') {
                Some(_) => cell.text.push('"'),
                None => open = None,
            },
            (',', None) => cells.push(Cell { column: column + 1, text: String::new() }),
            (letter, _) => cell.text.push(letter),
        }
    }
    match open {
        Some(column) => Err(Wrong { column, message: "this quote is never closed".to_owned() }),
        None => Ok(cells),
    }
}

fn answered(cells: &[Cell]) -> Result<Answered, Wrong> {
    let [version, when, kind, level, seed, chart, outcome, hints, off, mistake, seconds] = cells
    else {
        let (has, takes) = (cells.len(), HEAD.len());
        let message =
            format!("this line has {has} cells; a result has {takes}: {}", HEAD.join(","));
        return Err(Wrong { column: 1, message });
    };
    if version.text != VERSION {
        return Err(version.wrong("is no version that this program reads; it reads 1"));
    }
    let outcomes = |name: &str| Outcome::ALL.into_iter().find(|it| it.name() == name);
    let mistakes = |key: &str| MistakeKind::ALL.iter().copied().find(|it| it.key() == key);
    Ok(Answered {
        when: when.as_a::<Timestamp>("is no instant, such as 2026-06-14T09:30:00Z")?,
        kind: kind.text.parse::<Kind>().map_err(|error| kind.is(error.to_string()))?,
        level: level.text.parse::<Level>().map_err(|error| level.is(error.to_string()))?,
        seed: seed.as_a("is no seed; it is a whole number")?,
        chart: chart::clean::clean(&chart.text, LONGEST),
        outcome: outcomes(&outcome.text)
            .ok_or_else(|| outcome.wrong("is no outcome; it is right, wrong or passed"))?,
        hints: hints.as_a("is no number of hints")?,
        off: chart::clean::clean(&off.text, LONGEST),
        mistake: match mistake.text.as_str() {
            "" => None,
            key => Some(mistakes(key).ok_or_else(|| mistake.wrong("is no mistake that is known"))?),
        },
        seconds: seconds.as_a("is no number of seconds")?,
    })
}

impl Cell {
    fn as_a<T: std::str::FromStr>(&self, what: &str) -> Result<T, Wrong> {
        self.text.parse().map_err(|_| self.wrong(what))
    }

    fn wrong(&self, what: &str) -> Wrong {
        self.is(format!("“{}” {what}", self.text))
    }

    fn is(&self, message: String) -> Wrong {
        Wrong { column: self.column, message }
    }
}
