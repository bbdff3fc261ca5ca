//! The table of legs: what goes on a card, one row a leg.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;

use super::ink::{self, Pen};
use super::inks::Inks;
use super::readings::Readings;
use crate::layout::window;
use crate::state::State;
use plan::table::{LegRow, PassageRow, PointRow, TotalRow};

/// A column of the table: its title, its width with the gap before it, what a leg and the sum
/// of all legs say in it.
struct Column {
    title: &'static str,
    width: u16,
    leg: for<'a> fn(&Leg<'a>) -> &'a str,
    sum: fn(&TotalRow) -> &str,
}

/// A row: what is reckoned of the leg, and what the passage says of it.
struct Leg<'a> {
    row: &'a LegRow,
    sail: Option<&'a PassageRow>,
}

impl<'a> Leg<'a> {
    /// What the passage says of it; empty where it says nothing.
    fn sail(&self, of: fn(&PassageRow) -> &str) -> &'a str {
        self.sail.map_or("", of)
    }
}

const NUMBER: Column = Column { title: "", width: 4, leg: |leg| &leg.row.number, sum: |_| "" };
const OUT: Column = Column { title: "out", width: 7, leg: out, sum: |_| "" };
const BACK: Column =
    Column { title: "back", width: 7, leg: |leg| &leg.row.back_magnetic, sum: |_| "" };
const MILES: Column = Column {
    title: "",
    width: 8,
    leg: |leg| &leg.row.nautical_miles,
    sum: |sum| &sum.nautical_miles,
};
const KILOMETRES: Column =
    Column { title: "", width: 9, leg: |leg| &leg.row.kilometres, sum: |sum| &sum.kilometres };
const TIME: Column =
    Column { title: "time", width: 8, leg: |leg| &leg.row.time, sum: |sum| &sum.elapsed };
const CLOCK: Column =
    Column { title: "clock", width: 7, leg: |leg| &leg.row.to.clock, sum: |sum| &sum.clock };
const STEER: Column =
    Column { title: "steer", width: 7, leg: |leg| leg.sail(|sail| &sail.steer), sum: |_| "" };
const SPEED: Column = Column {
    title: "speed",
    width: 8,
    leg: |leg| leg.sail(|sail| &sail.ground_speed),
    sum: |_| "",
};
const SET: Column =
    Column { title: "set", width: 7, leg: |leg| leg.sail(|sail| &sail.set), sum: |_| "" };
const DRIFT: Column =
    Column { title: "drift", width: 8, leg: |leg| leg.sail(|sail| &sail.drift), sum: |_| "" };

/// The bearing that a leg is held on; a line along the shore holds none.
fn out<'a>(leg: &Leg<'a>) -> &'a str {
    if leg.row.along.is_some() { "shore" } else { &leg.row.from_magnetic }
}

/// The columns that a table of this width has before the one of names, which takes what is left; with
/// those of the passage, if there is one and room for them.
fn columns(width: u16, sailed: bool) -> &'static [Column] {
    if sailed && width >= 72 {
        &[NUMBER, OUT, STEER, SPEED, SET, DRIFT, MILES, TIME, CLOCK]
    } else if sailed && width >= 41 {
        &[NUMBER, OUT, STEER, MILES, TIME, CLOCK]
    } else if width >= 72 {
        &[NUMBER, OUT, BACK, MILES, KILOMETRES, TIME, CLOCK]
    } else {
        &[NUMBER, OUT, MILES, TIME, CLOCK]
    }
}

/// Draws the table beside the chart: heading, rows, and the sum below the last of them.
pub(super) fn draw(state: &State, readings: &Readings, inks: &Inks, buffer: &mut Buffer) {
    let layout = state.layout();
    let (area, rows) = (layout.legs, layout.leg_rows());
    let sailed = !readings.sailed.is_empty();
    heading("Legs", area, sailed, inks, buffer);
    if readings.legs.is_empty() {
        let area = Rect { x: rows.x + 2, width: rows.width.saturating_sub(2), ..rows };
        return Pen::new(buffer, area).words(&readings.advice, inks.plain);
    }
    self::rows(state, readings, rows, inks, buffer);
    let columns = columns(area.width, sailed);
    let used = u16::try_from(readings.legs.len()).unwrap_or(u16::MAX).min(rows.height);
    let y = rows.y.saturating_add(used);
    let mut pen = Pen::new(buffer, Rect { y, height: area.bottom().saturating_sub(y), ..area });
    let ruled: u16 = columns.iter().map(|column| column.width).sum();
    pen.skip(2).write(&"─".repeat(usize::from(ruled.saturating_sub(2))), inks.quiet).down();
    let sums = columns.iter().map(|column| (column.width, (column.sum)(&readings.whole)));
    line(&mut pen, sums, inks.figure);
}

/// Draws the line that names the table and its columns.
pub(super) fn heading(title: &str, area: Rect, sailed: bool, inks: &Inks, buffer: &mut Buffer) {
    let mut pen = Pen::new(buffer, Rect { height: area.height.min(1), ..area });
    pen.rule("─", inks.quiet).to(0).write(title, inks.heading).write(" ", inks.quiet);
    let mut right = 0;
    for Column { title, width, .. } in columns(area.width, sailed) {
        right += width;
        if !title.is_empty() {
            pen.to(right.saturating_sub(ink::width(title) + 1)).write(" ", inks.quiet);
            pen.write(title, inks.quiet);
            if right < area.width {
                pen.write(" ", inks.quiet);
            }
        }
    }
}

/// Draws the rows, scrolled so that the leg that is lit is seen.
pub(super) fn rows(
    state: &State,
    readings: &Readings,
    area: Rect,
    inks: &Inks,
    buffer: &mut Buffer,
) {
    let legs = &readings.legs;
    let lit = state.lit_leg();
    let first = window(legs.len(), lit.unwrap_or(0), area.height);
    let columns = columns(area.width, !readings.sailed.is_empty());
    let mut pen = Pen::new(buffer, area);
    for (index, leg) in legs.iter().enumerate().skip(first).take(usize::from(area.height)) {
        let (figure, name) = if lit == Some(index) {
            pen.rule(" ", inks.chosen).to(0).write("▸", inks.chosen);
            (inks.chosen, inks.chosen)
        } else {
            (inks.figure, inks.plain)
        };
        let row = Leg { row: leg, sail: readings.sailed.get(index) };
        line(&mut pen, columns.iter().map(|column| (column.width, (column.leg)(&row))), figure);
        pen.skip(2);
        let about = about(&leg.to);
        // A few letters and an ellipsis say nothing.
        if pen.room() > 6 || ink::width(&about) <= pen.room() {
            pen.write(&about, name);
        }
        pen.down();
    }
}

/// What is said about the waypoint that a leg leads to: its name, and how long the group stays.
fn about(to: &PointRow) -> String {
    let stop = if to.stop.is_empty() { String::new() } else { format!("stop {}", to.stop) };
    let words = [to.name.as_str(), &stop];
    words.into_iter().filter(|word| !word.is_empty()).collect::<Vec<_>>().join(", ")
}

/// Writes texts, each at the right end of its column.
fn line<'a>(pen: &mut Pen<'_>, texts: impl Iterator<Item = (u16, &'a str)>, style: Style) {
    let mut right = 0;
    for (width, text) in texts {
        right += width;
        pen.to(right.saturating_sub(ink::width(text))).write(text, style).to(right);
    }
}
