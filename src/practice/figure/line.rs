//! A line with marks along it: the hours of a leg, the day back from a landing, a scale from neaps to springs.

use super::canvas::{Canvas, GIVEN, Ink, RIGHT};
use crate::mark::later;
use crate::{Answer, Reply};

/// A line, counted in minutes or in anything else that grows along it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Line {
    /// Where it begins.
    pub(crate) from: f64,
    /// Its parts, one after the other.
    pub(crate) parts: Vec<Part>,
    /// What is marked along it, that which needs room first before the rest.
    pub(crate) ticks: Vec<Tick>,
    /// Where the right answer is; nothing where the line is a step on the way to it.
    pub(crate) right: Option<f64>,
    /// Where what is fixed stands, such as when to be there.
    pub(crate) fixed: Option<f64>,
    /// How an answer is read off it.
    pub(crate) read: Read,
}

/// A part of a line.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Part {
    /// Where it ends.
    pub(crate) to: f64,
    /// What is written over it.
    pub(crate) words: String,
    /// Whether it is a break, as a stop is.
    pub(crate) is_break: bool,
}

/// A mark.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Tick {
    pub(crate) at: f64,
    /// Its sign on the line.
    pub(crate) sign: &'static str,
    /// What is written under it, row by row.
    pub(crate) words: Vec<String>,
}

/// How an answer is read off a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Read {
    /// It is a time of day.
    Clock,
    /// It is an amount, each unit of it so long.
    Amount(f64),
    /// It is not.
    Not,
}

/// How far a line is drawn on to an answer beyond its ends, as a part of its length.
const ON: f64 = 0.3;

/// Where the line stands.
struct Laid {
    from: f64,
    to: f64,
    columns: usize,
    /// Its row.
    row: usize,
}

impl Laid {
    fn column(&self, at: f64) -> usize {
        let part = ((at - self.from) / (self.to - self.from)).clamp(0.0, 1.0);
        // Not beyond the columns.
        (part * (self.columns - 1) as f64).round() as usize
    }
}

impl Line {
    pub(super) fn drawn(&self, given: Option<&Reply>, answer: &Answer, room: usize) -> Canvas {
        let given = given.and_then(|given| Some((self.at(given)?, said(given, answer)?)));
        let end = self.parts.last().map_or(self.from, |part| part.to);
        let on = ON * (end - self.from);
        let beyond = |at: f64| at.clamp(self.from - on, end + on);
        let (from, to) = given
            .as_ref()
            .map_or((self.from, end), |(at, _)| (self.from.min(beyond(*at)), end.max(beyond(*at))));
        let over = usize::from(self.parts.iter().any(|part| !part.words.is_empty()));
        let laid = Laid { from, to, columns: room, row: over + usize::from(given.is_some()) };
        let under = self.ticks.iter().map(|tick| tick.words.len()).max().unwrap_or(0);
        let mut canvas = Canvas::new(room, laid.row + 1 + under);
        self.parts(&laid, &mut canvas);
        self.ticks(&laid, &mut canvas);
        for (at, sign, ink) in [(self.fixed, "○", Ink::Plain), (self.right, RIGHT, Ink::Answer)] {
            if let Some(at) = at {
                canvas.put(laid.column(at), laid.row, sign, ink);
            }
        }
        if let Some((at, words)) = given {
            self::given(at, &words, &laid, &mut canvas);
        }
        canvas
    }

    /// Where an answer is on the line.
    fn at(&self, reply: &Reply) -> Option<f64> {
        match (self.read, reply) {
            (Read::Clock, Reply::Clock(minute)) => {
                let right = self.right?;
                // A minute of the day.
                Some(right + later(right as i64, *minute) as f64)
            }
            (Read::Amount(unit), Reply::Amount(value)) => Some(value * unit),
            _ => None,
        }
    }

    fn parts(&self, laid: &Laid, canvas: &mut Canvas) {
        let mut from = self.from;
        for part in &self.parts {
            let (begins, ends) = (laid.column(from), laid.column(part.to));
            let line = if part.is_break { "┄" } else { "─" };
            canvas.fill((begins, laid.row), ends - begins + 1, line, Ink::Quiet);
            let width = part.words.chars().count();
            if let Some(column) = canvas.place((begins + ends) / 2, width, 0..1) {
                canvas.put(column, 0, &part.words, Ink::Plain);
            }
            from = part.to;
        }
    }

    fn ticks(&self, laid: &Laid, canvas: &mut Canvas) {
        for tick in &self.ticks {
            let column = laid.column(tick.at);
            canvas.put(column, laid.row, tick.sign, Ink::Plain);
            let width = tick.words.iter().map(|words| words.chars().count()).max().unwrap_or(0);
            let rows = laid.row + 1..laid.row + 1 + tick.words.len();
            let Some(from) = canvas.place(column, width, rows.clone()) else { continue };
            for (row, words) in rows.zip(&tick.words) {
                let middle = (width - words.chars().count()) / 2;
                canvas.put(from + middle, row, words, Ink::Plain);
            }
        }
    }
}

/// The answer that was given over its place, or over the end that it lies beyond, with an arrow.
fn given(at: f64, words: &str, laid: &Laid, canvas: &mut Canvas) {
    let beyond = (at < laid.from, at > laid.to);
    let text = |left: &str, right: &str| format!("{left}{GIVEN}{right} {words}");
    let column = laid.column(at);
    let text = match beyond {
        (true, _) => text("◀", ""),
        (_, true) => format!("{words} {GIVEN}▶"),
        _ if column + 2 + words.chars().count() > laid.columns => format!("{words} {GIVEN}"),
        _ => text("", ""),
    };
    let ends_there = text.starts_with(words);
    let end = if beyond.1 { laid.columns } else { column + 1 };
    let column = if ends_there { end.saturating_sub(text.chars().count()) } else { column };
    canvas.put(column, laid.row - 1, &text, Ink::Yours);
}

/// An answer in words.
fn said(reply: &Reply, answer: &Answer) -> Option<String> {
    let said = match (reply, answer) {
        (Reply::Clock(minute), _) => Answer::Clock(*minute),
        (Reply::Amount(value), Answer::Amount { unit, decimals, .. }) => {
            Answer::Amount { value: *value, unit: *unit, decimals: *decimals }
        }
        _ => return None,
    };
    Some(said.to_string())
}
