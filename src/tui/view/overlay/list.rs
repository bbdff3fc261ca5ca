//! The list of actions: type to filter, Enter does the one chosen.

use ratatui::buffer::Buffer;

use super::super::ink::Pen;
use super::super::inks::Inks;
use super::super::line;
use super::{frame, row};
use crate::layout::{OverlayLayout, window};
use crate::state::{List, State};

pub(super) fn draw(
    state: &State,
    list: &List,
    parts: &OverlayLayout,
    inks: &Inks,
    buffer: &mut Buffer,
) {
    frame(parts.area, "Actions", "Enter does it · Esc closes", inks, buffer);
    let mut pen = Pen::new(buffer, parts.line);
    pen.write("› ", inks.key);
    line::draw(&mut pen, &list.line, inks.figure);
    let mut pen = Pen::new(buffer, parts.rows);
    if list.acts.is_empty() {
        pen.write("  nothing that can be done is called that", inks.wrong);
        return;
    }
    let first = window(list.acts.len(), list.row, parts.rows.height);
    let shown = usize::from(parts.rows.height);
    for (index, act) in list.acts.iter().enumerate().skip(first).take(shown) {
        let key = state.keymap.shown(*act).unwrap_or_default();
        row(&mut pen, act.row().help, &key, index == list.row, inks);
    }
}
