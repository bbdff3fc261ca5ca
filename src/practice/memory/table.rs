//! The record as text: CSV with a head, a line for each question.
//!
//! CSV, since it is what every spreadsheet reads and what a class hands in, and since a line is a result: two records are put
//! together by putting one's lines after the other's. Each line begins with the version, so that a line says by itself
//! how it is to be read. Version 2 has the exercise set and the learner behind what version 1 has; a record without either is
//! written as version 1, which older programs read too.

use std::fmt::Write;

use chart::clean::clean;
use jiff::Timestamp;

use super::{Answered, Outcome, Record};
use crate::{Kind, Level, MistakeKind};

/// What stands over the columns of the latest version.
const HEAD: [&str; 13] = [
    "version", "when", "kind", "level", "seed", "chart", "outcome", "hints", "off", "mistake",
    "seconds", "set", "learner",
];
/// How many of them the first version has.
const FIRST: usize = 11;
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
        if is_head(&cells) {
            headed = true;
            continue;
        }
        if !headed {
            let message = format!("a record begins with the line {}", head(FIRST));
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

/// The text of a record, in the oldest version that has all that is in it; [`read`] gives the record back.
#[must_use]
pub fn write(record: &Record) -> String {
    let plain = |it: &Answered| it.set.is_empty() && it.learner.is_empty();
    let first = record.answered().iter().all(plain);
    let (version, columns) = if first { (1, FIRST) } else { (2, HEAD.len()) };
    let mut text = head(columns);
    text.push('\n');
    for it in record.answered() {
        // Writing to a string does not fail.
        let _ = write!(
            text,
            "{version},{},{},{},{},{},{},{},{},{},{}",
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
        if !first {
            let _ = write!(text, ",{},{}", quoted(&it.set), quoted(&it.learner));
        }
        text.push('\n');
    }
    text
}

/// The line over so many columns.
fn head(columns: usize) -> String {
    HEAD.get(..columns).unwrap_or(&HEAD).join(",")
}

/// Whether these are what stands over the columns of some version.
fn is_head(cells: &[Cell]) -> bool {
    let known = cells.len() == FIRST || cells.len() == HEAD.len();
    known && cells.iter().zip(HEAD).all(|(cell, head)| cell.text == head)
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
    let (first, more) = cells.split_at(cells.len().min(FIRST));
    let version = cells.first();
    let takes = match version.map(|version| version.text.as_str()) {
        Some("1") => FIRST,
        Some("2") => HEAD.len(),
        other => {
            let other = other.unwrap_or_default();
            let message =
                format!("“{other}” is no version that this program reads; it reads 1 and 2");
            return Err(Wrong { column: 1, message });
        }
    };
    let ([_, when, kind, level, seed, chart, outcome, hints, off, mistake, seconds], true) =
        (first, cells.len() == takes)
    else {
        let has = cells.len();
        let message = format!("this line has {has} cells; a result has {takes}: {}", head(takes));
        return Err(Wrong { column: 1, message });
    };
    let outcomes = |name: &str| Outcome::ALL.into_iter().find(|it| it.name() == name);
    let mistakes = |key: &str| MistakeKind::ALL.iter().copied().find(|it| it.key() == key);
    let more = |index: usize| more.get(index).map_or("", |cell| &cell.text);
    Ok(Answered {
        when: when.as_a::<Timestamp>("is no instant, such as 2026-06-14T09:30:00Z")?,
        kind: kind.text.parse::<Kind>().map_err(|error| kind.is(error.to_string()))?,
        level: level.text.parse::<Level>().map_err(|error| level.is(error.to_string()))?,
        seed: seed.as_a("is no seed; it is a whole number")?,
        chart: clean(&chart.text, LONGEST),
        outcome: outcomes(&outcome.text)
            .ok_or_else(|| outcome.wrong("is no outcome; it is right, wrong or passed"))?,
        hints: hints.as_a("is no number of hints")?,
        off: clean(&off.text, LONGEST),
        mistake: match mistake.text.as_str() {
            "" => None,
            key => Some(mistakes(key).ok_or_else(|| mistake.wrong("is no mistake that is known"))?),
        },
        seconds: seconds.as_a("is no number of seconds")?,
        set: clean(more(0), LONGEST),
        learner: clean(more(1), LONGEST),
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
