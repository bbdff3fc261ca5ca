//! The departure strip: every start of a day, or of a fortnight, in cells that say how it does, and
//! what comes of the one that is looked at.

mod detail;

use jiff::Timestamp;
use nav::text;
use nav::tide::{Turn, Water};
use plan::depart::{Sky, Starts, Strip, Verdict};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::{Modifier, Style};

use super::ink::{self, Pen};
use super::inks::Inks;
use super::overlay::frame;
use crate::glyphs::DotSet;
use crate::layout::OverlayLayout;
use crate::state::{StartsBox, StartsGrid, State};

pub(super) fn draw(
    state: &State,
    open: &StartsBox,
    parts: &OverlayLayout,
    inks: &Inks,
    buffer: &mut Buffer,
) {
    frame(parts.area, &title(state, open), &foot(state, open), inks, buffer);
    let grid = StartsGrid::of(parts.rows, open.days);
    let Some(days) = state.starts.days() else {
        let words = match state.starts.wrong() {
            Some(wrong) => (wrong, inks.wrong),
            None => ("every start is being walked through the streams", inks.quiet),
        };
        return Pen::new(buffer, parts.rows).words(words.0, words.1);
    };
    let pick = open.pick(days);
    let sheet = Sheet { state, grid, inks };
    match days {
        [day] => sheet.day(day, pick.map(|pick| pick.1), buffer),
        days => sheet.fortnight(days, pick, buffer),
    }
}

fn title(state: &State, open: &StartsBox) -> String {
    let zone = match &state.document.route().departure {
        Some(departure) => departure.zone_name(),
        None => String::new(),
    };
    let day = open.first.strftime("%a %-d %B %Y");
    match open.days {
        1 => format!("When to leave: {day}, {zone}"),
        days => format!("When to leave: {days} days from {day}, {zone}"),
    }
}

fn foot(state: &State, open: &StartsBox) -> String {
    use crate::action::Act;
    let key = |act| state.keymap.shown(act).unwrap_or_default();
    let other = if open.days > 1 { "one day" } else { "fortnight" };
    format!(
        "{} takes it · {} {other} · {} limits · Esc closes",
        key(Act::Accept),
        key(Act::Fortnight),
        key(Act::LimitsList)
    )
}

/// From so many columns of cells on every hour is named.
const ROOMY: u16 = 24 * 6;

/// What the strip is drawn with.
struct Sheet<'a> {
    state: &'a State,
    grid: StartsGrid,
    inks: &'a Inks,
}

impl Sheet<'_> {
    fn ascii(&self) -> bool {
        self.state.settings.dots == DotSet::Ascii
    }

    fn shade(&self, verdict: Verdict) -> char {
        if self.ascii() { verdict.ascii() } else { verdict.shade() }
    }

    fn style(&self, verdict: Verdict) -> Style {
        match verdict {
            Verdict::Good => self.inks.with,
            Verdict::Slow => self.inks.slow,
            Verdict::HeldUp => self.inks.against,
            Verdict::Refused => self.inks.quiet,
        }
    }

    /// The hours along the top.
    fn hours(&self, strip: &Strip, buffer: &mut Buffer) {
        let every = if self.grid.cells.width >= ROOMY { 1 } else { 2 };
        for (cell, hour) in strip.hours(every) {
            let column = u16::try_from(cell).unwrap_or(u16::MAX);
            if let Some(area) = self.cell(0, column, self.grid.hours) {
                let area = Rect { width: 2, ..area };
                Pen::new(buffer, area).write(&hour, self.inks.quiet);
            }
        }
    }

    /// The cell in a row and a column of a part of the grid.
    fn cell(&self, row: u16, column: u16, part: Rect) -> Option<Rect> {
        let inside = row < part.height && column < part.width;
        inside.then(|| Rect::new(part.x + column, part.y + row, 1, 1))
    }

    /// A day's cells, shaded in one row or more, the last of which is marked.
    fn cells(&self, strip: &Strip, rows: std::ops::Range<u16>, buffer: &mut Buffer) {
        for (column, cell) in (0..).zip(&strip.cells) {
            let style = self.style(cell.verdict);
            let shade = self.shade(cell.verdict).to_string();
            for row in rows.clone() {
                let Some(area) = self.cell(row, column, self.grid.cells) else { continue };
                let marked = cell.mark().filter(|_| row + 1 == rows.end);
                match marked {
                    Some(mark) => {
                        let style = match cell.best || cell.latest {
                            true => self.inks.figure.add_modifier(Modifier::REVERSED),
                            false => style,
                        };
                        Pen::new(buffer, area).write(&mark.to_string(), style)
                    }
                    None => Pen::new(buffer, area).write(&shade, style),
                };
            }
        }
    }

    fn day(&self, day: &Starts, chosen: Option<usize>, buffer: &mut Buffer) {
        let grid = &self.grid;
        let strip = Strip::of(day, grid.slice);
        self.hours(&strip, buffer);
        self.cells(&strip, 0..grid.cells.height, buffer);
        let below = grid.below;
        let line = |row: u16| Rect {
            y: below.y.saturating_add(row).min(below.bottom()),
            height: 1.min(below.height.saturating_sub(row)),
            ..below
        };
        let start = chosen.and_then(|chosen| day.starts.get(chosen));
        let cells = |row: u16| Rect { x: grid.cells.x, width: grid.cells.width, ..line(row) };
        if let Some(column) = start.and_then(|start| grid.column(day, start.at))
            && let Some(area) = self.cell(0, column, cells(0))
        {
            Pen::new(buffer, area).write("▲", self.inks.key);
        }
        Pen::new(buffer, line(1)).write("light", self.inks.quiet);
        self.sky(&strip, cells(1), buffer);
        Pen::new(buffer, line(2)).write("tide", self.inks.quiet);
        self.waters(day, cells(2), buffer);
        let rest = Rect { y: line(4).y, height: below.height.saturating_sub(4), ..below };
        detail::draw(self.state.tides(), (day, start), rest, self.inks, buffer);
    }

    /// Dark, twilight and day.
    fn sky(&self, strip: &Strip, area: Rect, buffer: &mut Buffer) {
        for (column, cell) in (0..).zip(&strip.cells) {
            let Some(area) = self.cell(0, column, area) else { continue };
            let (sky, style) = match (cell.sky, self.ascii()) {
                (Sky::Day, _) => ("─", self.inks.key),
                (Sky::Twilight, false) => ("░", self.inks.quiet),
                (Sky::Dark, false) => ("▓", self.inks.quiet),
                (Sky::Twilight, true) => (":", self.inks.quiet),
                (Sky::Dark, true) => ("#", self.inks.quiet),
            };
            Pen::new(buffer, area).write(sky, style);
        }
    }

    /// The high and low waters at the landing's port, each where its time falls.
    fn waters(&self, day: &Starts, area: Rect, buffer: &mut Buffer) {
        let column = |turn: &Turn| self.grid.column(day, turn.at);
        let columns: Vec<u16> = day.waters.iter().filter_map(column).collect();
        for (index, turn) in day.waters.iter().enumerate() {
            let Some(column) = columns.get(index).copied() else { continue };
            let word = match turn.water {
                Water::High => "HW",
                Water::Low => "LW",
            };
            let clock = clock(day, turn.at);
            let forms = [
                format!("╵{word} {clock} {:.1} m", turn.height.as_metres()),
                format!("╵{word} {clock}"),
                format!("╵{word}"),
            ];
            // As much as there is room for before the next one, or up to the end.
            let next = columns.get(index + 1).copied().unwrap_or(area.width + 1);
            let room = next.saturating_sub(column + 1);
            let words = forms.iter().find(|words| ink::width(words) <= room);
            let words = words.map_or("╵", String::as_str);
            let area = Rect { x: area.x + column, width: area.width - column, ..area };
            Pen::new(buffer, area).write(words, self.inks.plain);
        }
    }

    fn fortnight(&self, days: &[Starts], pick: Option<(usize, usize)>, buffer: &mut Buffer) {
        let grid = &self.grid;
        let shown = grid.cells.height;
        let first = grid.first(pick.map(|pick| pick.0), days.len());
        for (row, (index, day)) in (0..shown).zip(days.iter().enumerate().skip(first)) {
            let strip = Strip::of(day, grid.slice);
            if row == 0 {
                self.hours(&strip, buffer);
            }
            self.cells(&strip, row..row + 1, buffer);
            let chosen = pick.filter(|pick| pick.0 == index);
            let label = Rect { y: grid.labels.y + row, height: 1, ..grid.labels };
            let name = day.from.to_zoned_datetime(day.zone.clone()).strftime("%a %-d").to_string();
            let style = if chosen.is_some() { self.inks.chosen } else { self.inks.plain };
            Pen::new(buffer, label).write(&name, style);
            let at = chosen.and_then(|(_, start)| day.starts.get(start));
            if let Some(column) = at.and_then(|start| grid.column(day, start.at))
                && let Some(area) = self.cell(row, column, grid.cells)
            {
                buffer.set_style(area.intersection(buffer.area), self.inks.chosen);
                buffer.set_style(
                    area.intersection(buffer.area),
                    Style::new().add_modifier(Modifier::REVERSED),
                );
            }
        }
        let picked = pick.and_then(|(day, start)| Some((days.get(day)?, start)));
        if let Some((day, start)) = picked {
            let rest = Rect {
                y: grid.below.y.saturating_add(1).min(grid.below.bottom()),
                height: grid.below.height.saturating_sub(1),
                ..grid.below
            };
            detail::draw(self.state.tides(), (day, day.starts.get(start)), rest, self.inks, buffer);
        }
    }
}

/// An instant on the clock of a day.
fn clock(day: &Starts, at: Timestamp) -> String {
    text::clock(&at.to_zoned_datetime(day.zone.clone()))
}
