//! What dividers find along the trace, laid over the chart.

use ratatui::buffer::Buffer;

use super::super::inks::Inks;
use super::super::thread;
use super::frame;
use crate::layout::OverlayLayout;
use crate::state::State;

pub(super) fn draw(state: &State, parts: &OverlayLayout, inks: &Inks, buffer: &mut Buffer) {
    frame(parts.area, "Dividers along the line", "Esc closes", inks, buffer);
    thread::dividers(state, parts.rows, inks, buffer);
}
