//! The limits that starts are judged by, one in a row.

use plan::Limit;
use ratatui::buffer::Buffer;

use super::super::ink::Pen;
use super::super::inks::Inks;
use super::{frame, row};
use crate::layout::OverlayLayout;
use crate::state::State;

/// The columns of a limit's name, with the gap behind it.
const NAME: usize = 22;

pub(super) fn draw(
    state: &State,
    chosen: usize,
    parts: &OverlayLayout,
    inks: &Inks,
    buffer: &mut Buffer,
) {
    frame(parts.area, "Your limits", "Enter sets the one chosen · Esc closes", inks, buffer);
    let limits = &state.document.route().limits;
    let meaning = Limit::ALL.get(chosen).map_or("", |limit| limit.meaning());
    Pen::new(buffer, parts.note).write(meaning, inks.quiet);
    let mut pen = Pen::new(buffer, parts.rows);
    for (index, limit) in Limit::ALL.iter().enumerate() {
        let name = limit.name();
        row(
            &mut pen,
            &format!("{name:NAME$}{}", limits.written(*limit)),
            "",
            index == chosen,
            inks,
        );
    }
}
