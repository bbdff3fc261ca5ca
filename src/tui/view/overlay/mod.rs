//! What lies open on top of the chart: framed, without a shadow, legible in one colour.

mod ask;
mod dividers;
mod drills;
mod help;
mod jump;
mod legs;
mod limits;
mod list;

pub(crate) use drills::row_at as drills_row_at;
pub(crate) use help::last_top as help_last_top;

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::widgets::{Block, Clear, Widget};

use super::curve;
use super::ink::{self, Pen};
use super::inks::Inks;
use super::progress;
use super::readings::Readings;
use super::starts;
use crate::layout;
use crate::state::{Overlay, State};

/// Draws every open box, the topmost last.
pub(super) fn draw(state: &State, readings: &Readings, inks: &Inks, buffer: &mut Buffer) {
    for overlay in &state.overlays {
        let parts = layout::overlay(state.size, overlay);
        match overlay {
            Overlay::Help { top } => help::draw(state, *top, &parts, inks, buffer),
            Overlay::Legs => legs::draw(state, readings, &parts, inks, buffer),
            Overlay::Tide => curve::draw(state, readings.water.as_ref(), &parts, inks, buffer),
            Overlay::Dividers => dividers::draw(state, &parts, inks, buffer),
            Overlay::List(list) => list::draw(state, list, &parts, inks, buffer),
            Overlay::Jump(jump) => jump::draw(jump, &parts, inks, buffer),
            Overlay::Ask(ask) => ask::draw(ask, &parts, inks, buffer),
            Overlay::Starts(open) => starts::draw(state, open, &parts, inks, buffer),
            Overlay::Limits { row } => limits::draw(state, *row, &parts, inks, buffer),
            Overlay::Drills(list) => drills::draw(state, list, &parts, inks, buffer),
            Overlay::Progress(open) => progress::draw(state, open, &parts, inks, buffer),
        }
    }
}

/// Clears a box's area and draws its border, with a word in the border above and below.
pub(super) fn frame(area: Rect, title: &str, foot: &str, inks: &Inks, buffer: &mut Buffer) {
    let area = area.intersection(buffer.area);
    if area.is_empty() {
        return;
    }
    Clear.render(area, buffer);
    Block::bordered().style(inks.plain).border_style(inks.frame).render(area, buffer);
    let room = area.width.saturating_sub(4);
    let mut write = |text: &str, y: u16, style| {
        if !text.is_empty() && room > 2 {
            let text = format!(" {} ", ink::fit(text, room - 2));
            let x = area.x + 2;
            Pen::new(buffer, Rect::new(x, y, room, 1)).write(&text, style);
        }
    };
    write(title, area.y, inks.heading);
    if area.height > 1 {
        write(foot, area.bottom() - 1, inks.quiet);
    }
}

/// One row of a list of things to choose from: the mark of the chosen one, the thing, a word
/// about it at the right end.
fn row(pen: &mut Pen<'_>, text: &str, word: &str, chosen: bool, inks: &Inks) {
    let (mark, style, quiet) = match chosen {
        true => ("▸ ", inks.chosen, inks.chosen),
        false => ("  ", inks.plain, inks.key),
    };
    let end = pen.room();
    let text_room = end.saturating_sub(2 + if word.is_empty() { 0 } else { ink::width(word) + 2 });
    pen.write(mark, style).write(&ink::fit(text, text_room), style);
    if chosen {
        let gap = " ".repeat(usize::from(pen.room().saturating_sub(ink::width(word))));
        pen.write(&gap, style).write(word, style);
    } else {
        pen.write_last(word, quiet);
    }
    pen.down();
}
