//! The column of readings beside the chart.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use super::fix::{self, FixRead};
use super::ink::{self, Pen};
use super::inks::Inks;
use super::readings::Readings;
use super::thread::{self, Traced};
use crate::layout::window;
use crate::state::State;

/// From this width on there is room between the figures.
const ROOMY: u16 = 42;
/// What stands where there is nothing to read.
const NOTHING: &str = "–";

/// Draws the panes, one above the other.
pub(super) fn draw(state: &State, readings: &Readings, inks: &Inks, buffer: &mut Buffer) {
    let area = state.layout().readings;
    let (label, figure) = if area.width >= ROOMY { (13, 10) } else { (12, 8) };
    let mut column = Column { pen: Pen::new(buffer, area), inks, label, figure };
    if let Some(traced) = &readings.traced {
        trace(&mut column, traced);
        let below = Rect { y: area.y + DIVIDERS, height: STEPS, ..area };
        position(&mut column, readings, &traced.catches);
        return thread::dividers(state, below.intersection(area), inks, buffer);
    }
    if let Some(read) = &readings.fix {
        fix_pane(&mut column, read);
        position(&mut column, readings, &read.catches);
        let below = Rect { y: area.y + LEFT_OUT, height: LEFT_OUT_ROWS, ..area };
        let below = Rect { x: below.x + 2, width: below.width.saturating_sub(2), ..below };
        let words = if read.advice.is_empty() { fix::LEFT_OUT } else { &read.advice };
        return Pen::new(buffer, below.intersection(area)).words(words, inks.quiet);
    }
    bearing(&mut column, readings);
    distance(&mut column, readings);
    let both = [readings.shore.as_str(), &readings.near];
    let near = both.into_iter().filter(|it| !it.is_empty()).collect::<Vec<_>>().join(", ");
    position(&mut column, readings, &near);
    time(&mut column, readings);
}

/// The panes' pen and inks.
struct Column<'a> {
    pen: Pen<'a>,
    inks: &'a Inks,
    /// Where the first figure of a pane begins, behind its label.
    label: u16,
    /// The columns of a figure with its unit and the gap behind it.
    figure: u16,
}

impl Column<'_> {
    /// A pane's heading: its name, a rule, and a word about it at the right end.
    fn heading(&mut self, title: &str, word: &str) {
        let Column { pen, inks, .. } = self;
        pen.write(title, inks.heading).write(" ", inks.quiet);
        let word = ink::fit(word, pen.room().saturating_sub(3));
        let rule =
            pen.room().saturating_sub(if word.is_empty() { 0 } else { ink::width(&word) + 1 });
        pen.write(&"─".repeat(usize::from(rule)), inks.quiet);
        pen.write_last(&word, inks.plain).down();
    }

    /// A line of a pane: its label, then figures, each in a column of its own.
    fn figures<const N: usize>(&mut self, label: &str, figures: [&str; N]) {
        let Column { pen, inks, .. } = self;
        pen.skip(2).write(label, inks.quiet);
        let mut left = self.label;
        for figure in figures {
            let figure = if figure.is_empty() { NOTHING } else { figure };
            pen.to(left).write(figure, inks.figure);
            left += self.figure;
        }
        pen.down();
    }

    /// A word behind the one figure of the line before.
    fn aside(&mut self, word: &str) {
        let left = self.label + self.figure;
        self.pen.up().to(left).write(word, self.inks.quiet).down();
    }

    fn gap(&mut self) {
        self.pen.down();
    }
}

/// The row of the column at which the steps of the dividers begin, and how many there are.
const DIVIDERS: u16 = 10;
const STEPS: u16 = 5;

fn trace(column: &mut Column<'_>, traced: &Traced) {
    column.heading("Trace", &traced.of);
    column.figures("along", [&traced.nautical_miles, &traced.kilometres]);
    column.figures("straight", [&traced.straight_nautical_miles, &traced.straight_kilometres]);
    column.figures("longer", [&traced.longer]);
    if !traced.longer.is_empty() {
        column.aside("times");
    }
    column.figures("time", [&traced.time]);
    column.figures("first", traced.first.each_ref().map(String::as_str));
    column.figures("last", traced.last.each_ref().map(String::as_str));
    column.figures("laid", [&traced.laid]);
    column.gap();
    column.heading("Dividers", &traced.slope);
    for _ in 0..=STEPS {
        column.gap();
    }
}

/// The rows for bearings in the column, the row below the fix, and the rows there for what is left out.
const BEARINGS: usize = 4;
const LEFT_OUT: u16 = 11;
const LEFT_OUT_ROWS: u16 = 4;

fn fix_pane(column: &mut Column<'_>, read: &FixRead) {
    column.heading("Fix", &read.of);
    let lit = read.rows.iter().position(|row| row.chosen).unwrap_or(read.rows.len());
    let first = window(read.rows.len(), lit, BEARINGS as u16);
    for row in read.rows.iter().skip(first).take(BEARINGS) {
        let Column { pen, inks, label, figure } = column;
        pen.write(if row.chosen { "▸ " } else { "  " }, inks.key).write(&row.read, inks.figure);
        pen.to(*label).write(&row.from_true, inks.figure);
        pen.to(*label + *figure).write(&row.name, inks.plain).down();
    }
    for _ in read.rows.len()..BEARINGS {
        column.gap();
    }
    column.figures("fix", [&read.reference]);
    column.figures("", [&read.position]);
    column.figures("cut", [&read.cut]);
    if !read.narrow.is_empty() {
        column.aside(read.narrow);
    }
    column.figures("triangle", [&read.triangle]);
    if !read.corner.is_empty() {
        column.aside(read.corner);
    }
    column.figures(&read.off, [&read.reach]);
    if !read.along.is_empty() {
        column.aside(&read.along);
    }
    for _ in 0..=LEFT_OUT_ROWS {
        column.gap();
    }
}

fn bearing(column: &mut Column<'_>, readings: &Readings) {
    let Readings { of, leg, variation, source, .. } = readings;
    column.heading("Bearing", of);
    match readings.ends() {
        // A line along the shore holds no one bearing.
        Some((first, last)) => {
            column.figures("first", [&first.from_true, &first.from_grid, &first.from_magnetic]);
            column.figures("last", [&last.from_true, &last.from_grid, &last.from_magnetic]);
        }
        None => {
            column.figures("out", [&leg.from_true, &leg.from_grid, &leg.from_magnetic]);
            column.figures("back", [&leg.back_true, &leg.back_grid, &leg.back_magnetic]);
        }
    }
    column.figures("variation", [variation]);
    column.aside(source);
    column.gap();
}

fn distance(column: &mut Column<'_>, readings: &Readings) {
    let Readings { leg, so_far, whole, .. } = readings;
    column.heading("Distance", "");
    column.figures("this leg", [&leg.nautical_miles, &leg.kilometres]);
    column.figures("so far", [&so_far.nautical_miles, &so_far.kilometres]);
    column.figures("whole", [&whole.nautical_miles, &whole.kilometres]);
    column.gap();
}

fn position(column: &mut Column<'_>, readings: &Readings, near: &str) {
    column.heading("Position", "of the cursor");
    for figures in [&readings.reference, &readings.position] {
        column.pen.skip(2).write(figures, column.inks.figure).down();
    }
    column.pen.skip(2).write(near, column.inks.plain).down();
    column.gap();
}

fn time(column: &mut Column<'_>, readings: &Readings) {
    let Readings { leg, so_far, whole, pace, zone, .. } = readings;
    column.heading("Time", zone);
    column.figures("this leg", [&leg.time]);
    if !leg.time.is_empty() {
        column.aside(pace);
    }
    column.figures("so far", [&so_far.elapsed, &so_far.clock]);
    column.figures("whole", [&whole.elapsed, &whole.clock]);
    column.gap();
}
