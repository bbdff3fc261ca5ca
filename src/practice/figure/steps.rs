//! A height or a rate that grows and falls in steps: columns side by side, half a row as high as one part of the rule.

use super::canvas::{Canvas, GIVEN, Ink, RIGHT};
use crate::Reply;

/// Columns, one for each hour or sixth of the time.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Steps {
    /// From the first.
    pub(crate) columns: Vec<Column>,
    /// The number of the one that is asked for.
    pub(crate) at: usize,
    /// What the answer would be at the foot, and how much half a row is, in the answer's unit.
    pub(crate) base: f64,
    pub(crate) half: f64,
    /// What stands beside the scale, by halves of rows from the foot.
    pub(crate) scale: Vec<(i64, String)>,
    /// How high a line runs across, as over a bank, in halves of rows.
    pub(crate) across: Option<i64>,
    /// What the columns are of.
    pub(crate) words: &'static str,
}

/// One of them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Column {
    /// How high it is, in halves of rows.
    pub(crate) halves: i64,
    /// The step that leads to it.
    pub(crate) step: String,
    /// When.
    pub(crate) when: String,
}

/// The widest column with the gap behind it, and the narrowest.
const WIDEST: usize = 6;
const NARROWEST: usize = 3;

/// Where the parts stand.
struct Laid {
    /// The column of the line beside the scale.
    left: usize,
    /// How wide each column is, with the gap behind it.
    wide: usize,
    /// The rows over the foot.
    rows: usize,
}

impl Laid {
    fn column(&self, number: usize) -> usize {
        self.left + 1 + number * self.wide
    }

    /// The row of so many halves from the foot; of what is beyond an end the last one.
    fn row(&self, halves: i64) -> usize {
        let up = usize::try_from(halves.max(0) / 2).unwrap_or(0);
        self.rows.saturating_sub(1 + up.min(self.rows - 1))
    }
}

impl Steps {
    pub(super) fn drawn(&self, given: Option<&Reply>, room: usize) -> Canvas {
        let count = self.columns.len();
        let left = self.scale.iter().map(|(_, text)| text.chars().count()).max().unwrap_or(0) + 1;
        let wide = (room.saturating_sub(left + 1) / count.max(1)).clamp(NARROWEST, WIDEST);
        let top = self.columns.iter().map(|column| column.halves).max().unwrap_or(0);
        // A row more, for a sign over the highest.
        let laid = Laid { left, wide, rows: usize::try_from(top / 2).unwrap_or(0) + 1 };
        let mut canvas = Canvas::new(laid.column(count).min(room), laid.rows + 4);
        self.scale(&laid, &mut canvas);
        for (number, column) in self.columns.iter().enumerate() {
            self.column(number, column, &laid, &mut canvas);
        }
        self.times(&laid, &mut canvas);
        canvas.put(0, laid.rows + 3, self.words, Ink::Quiet);
        self.signs(given, &laid, &mut canvas);
        canvas
    }

    /// The scale at the left, the foot, and the line across.
    fn scale(&self, laid: &Laid, canvas: &mut Canvas) {
        for row in 0..laid.rows {
            canvas.put(laid.left, row, "│", Ink::Quiet);
        }
        canvas.put(laid.left, laid.rows, "└", Ink::Quiet);
        let long = self.columns.len() * laid.wide;
        canvas.fill((laid.left + 1, laid.rows), long, "─", Ink::Quiet);
        if let Some(halves) = self.across {
            canvas.fill((laid.left + 1, laid.row(halves)), long, "┄", Ink::Plain);
        }
        for (halves, text) in &self.scale {
            let row = if *halves == 0 { laid.rows } else { laid.row(halves - 1) };
            let from = laid.left.saturating_sub(1 + text.chars().count());
            canvas.put(from, row, text, Ink::Quiet);
        }
    }

    fn column(&self, number: usize, column: &Column, laid: &Laid, canvas: &mut Canvas) {
        let (from, wide) = (laid.column(number), laid.wide - 1);
        let ink = if number == self.at { Ink::Plain } else { Ink::Quiet };
        for halves in (0..column.halves - 1).step_by(2) {
            canvas.fill((from, laid.row(halves)), wide, "█", ink);
        }
        if column.halves % 2 == 1 {
            canvas.fill((from, laid.row(column.halves)), wide, "▄", ink);
        }
        let middle = (wide.saturating_sub(column.step.chars().count())) / 2;
        canvas.put(from + middle, laid.rows + 1, &column.step, ink);
    }

    /// The times under the columns, as many as have room: first that which is asked for, then the ends.
    fn times(&self, laid: &Laid, canvas: &mut Canvas) {
        let last = self.columns.len().saturating_sub(1);
        let order = [self.at, 0, last].into_iter().chain(1..last);
        let row = laid.rows + 2;
        let mut written = Vec::new();
        for number in order {
            let Some(column) = self.columns.get(number) else { continue };
            let middle = laid.column(number) + (laid.wide - 1) / 2;
            let width = column.when.chars().count();
            let place = canvas.place(middle, width, row..row + 1);
            // Not under another column.
            let near =
                place.filter(|from| (from + width / 2).abs_diff(middle) <= laid.wide / 2 + 1);
            if let (Some(from), false) = (near, written.contains(&number)) {
                let ink = if number == self.at { Ink::Plain } else { Ink::Quiet };
                canvas.put(from, row, &column.when, ink);
                written.push(number);
            }
        }
    }

    /// The right answer at its column's left, the one that was given at its right, each at its height.
    fn signs(&self, given: Option<&Reply>, laid: &Laid, canvas: &mut Canvas) {
        let Some(column) = self.columns.get(self.at) else { return };
        let from = laid.column(self.at);
        if let Some(Reply::Amount(value)) = given {
            // Far beyond any drawing at the most.
            let halves = ((value - self.base) / self.half).round().clamp(-99.0, 99.0) as i64;
            let most = 2 * laid.rows as i64 - 1;
            let beyond = if halves > most { "▲" } else { "▼" };
            canvas.put(from + laid.wide - 2, laid.row(halves), GIVEN, Ink::Yours);
            if !(0..=most).contains(&halves) {
                canvas.put(from + laid.wide - 1, laid.row(halves), beyond, Ink::Yours);
            }
        }
        canvas.put(from, laid.row(column.halves), RIGHT, Ink::Answer);
    }
}
