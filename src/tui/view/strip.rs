//! The leg strip: the leg that is read, unrolled along the foot of the chart from its start on the
//! left to its end on the right.
//!
//! Its rows are the clock, how far off the land it goes, how the stream meets the group at the time
//! of passing, and what is passed. A low screen has room for the first three.

mod clock;
mod passing;
mod profile;
mod stream;

#[cfg(test)]
mod tests;

use nav::text;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use super::ink::{self, Pen};
use super::inks::Inks;
use crate::action::Act;
use crate::state::{State, UnrolledLeg};

/// The columns of the labels, with the gap behind them.
const LABEL: u16 = 11;

/// The columns of the figures at the right end, with the gap before them, on a broad band and on a
/// narrow one, and how broad the first has to be.
const FIGURES: u16 = 32;
const FIGURES_LEAST: u16 = 20;
const BROAD: u16 = 120;

/// How a band is divided: labels, the leg itself, figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Columns {
    labels: Rect,
    leg: Rect,
    figures: Rect,
}

impl Columns {
    fn of(area: Rect) -> Columns {
        let figures = if area.width >= BROAD { FIGURES } else { FIGURES_LEAST };
        let label = if area.width >= BROAD { LABEL } else { LABEL - 1 };
        let leg = area.width.saturating_sub(label + figures);
        let from = |x: u16, width: u16| Rect { x: area.x.saturating_add(x), width, ..area };
        Columns {
            labels: from(1, label - 1),
            leg: from(label, leg),
            figures: from(label + leg + 2, figures - 2),
        }
    }
}

/// The place of a leg unrolled that lies under a column of the screen, counted from the left of the
/// leg; nothing outside of it.
fn place(leg: Rect, column: u16, places: usize) -> Option<usize> {
    let last = leg.width.checked_sub(1)?;
    let inside = column <= last && places > 0;
    let part = f64::from(column) / f64::from(last.max(1));
    inside.then(|| (part * (places - 1) as f64).round() as usize)
}

/// The place of the leg that the pointer is on; nothing where it is on none.
pub(crate) fn place_at(area: Rect, column: u16, places: usize) -> Option<usize> {
    let leg = Columns::of(area).leg;
    place(leg, column.checked_sub(leg.x)?, places)
}

/// Draws the band.
pub(super) fn draw(state: &State, inks: &Inks, buffer: &mut Buffer) {
    let area = state.layout().strip;
    if area.is_empty() {
        return;
    }
    buffer.set_style(area.intersection(buffer.area), inks.plain);
    let Some(leg) = &state.unrolled else {
        let key = state.keymap.shown(Act::Drop).unwrap_or_default();
        let words = format!("a leg is unrolled here from start to end; {key} twice makes one");
        Pen::new(buffer, area).down().skip(1).write(&words, inks.quiet);
        return;
    };
    let columns = Columns::of(area);
    let rows: &[Row] = if area.height > 3 { &ROWS } else { &ROWS[..3] };
    for (y, row) in (area.y..area.bottom()).zip(rows) {
        let line = |part: Rect| Rect { y, height: 1, ..part };
        let band = Band { state, leg, inks, area: line(columns.leg) };
        Pen::new(buffer, line(columns.labels)).write(&(row.label)(leg), inks.quiet);
        let figures = ink::fit(&(row.figures)(&band), columns.figures.width).into_owned();
        Pen::new(buffer, line(columns.figures)).write(&figures, inks.figure);
        (row.draw)(&band, buffer);
    }
    // Where there is no row for what is passed, its signs stand on the line of the clock.
    if rows.len() < ROWS.len() {
        let area = Rect { height: 1, ..columns.leg };
        passing::signs(&Band { state, leg, inks, area }, buffer);
    }
}

/// A row of the band being drawn.
struct Band<'a> {
    state: &'a State,
    leg: &'a UnrolledLeg,
    inks: &'a Inks,
    /// The cells of the leg in this row.
    area: Rect,
}

impl Band<'_> {
    /// Whether there is room for many words.
    fn is_broad(&self) -> bool {
        self.state.layout().strip.width >= BROAD
    }

    /// The columns of the leg, each with the place under it.
    fn places(&self) -> impl Iterator<Item = (u16, usize)> + '_ {
        let count = self.leg.line.places.len();
        (0..self.area.width).filter_map(move |c| Some((c, place(self.area, c, count)?)))
    }

    /// The column under which a part of the leg's length lies.
    fn column(&self, along: nav::Length) -> u16 {
        let length = self.leg.line.length;
        let part = if length > nav::Length::ZERO { along / length } else { 0.0 };
        let last = f64::from(self.area.width.saturating_sub(1));
        (part.clamp(0.0, 1.0) * last).round() as u16
    }

    /// A pen at a column of the leg.
    fn pen<'b>(&self, column: u16, buffer: &'b mut Buffer) -> Pen<'b> {
        let column = column.min(self.area.width);
        let x = self.area.x.saturating_add(column);
        Pen::new(buffer, Rect { x, width: self.area.width - column, ..self.area })
    }
}

/// What stands in a row.
struct Row {
    label: fn(&UnrolledLeg) -> String,
    figures: fn(&Band<'_>) -> String,
    draw: fn(&Band<'_>, &mut Buffer),
}

const ROWS: [Row; 4] = [
    Row { label: UnrolledLeg::name, figures: whole, draw: clock::draw },
    Row { label: |_| "off land".to_owned(), figures: profile::figures, draw: profile::draw },
    Row { label: |_| "stream".to_owned(), figures: stream::figures, draw: stream::draw },
    Row { label: |_| "passing".to_owned(), figures: passing::figures, draw: passing::draw },
];

/// The leg's length and time.
fn whole(band: &Band<'_>) -> String {
    let leg = band.leg;
    let length = leg.line.length;
    let time = leg.time().map(|time| format!("  {}", text::duration(time))).unwrap_or_default();
    match band.is_broad() {
        true => format!("{}  {}{time}", text::nautical_miles(length), text::kilometres(length)),
        false => format!("{}{time}", text::nautical_miles(length)),
    }
}
