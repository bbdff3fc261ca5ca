//! What dividers find along the trace, laid over the chart.

use ratatui::buffer::Buffer;

use super::super::inks::Inks;
use super::super::thread;
use super::frame;
use crate::layout::OverlayLayout;
use crate::state::State;

pub(super) fn draw(state: &State, parts: &OverlayLayout, inks: &Inks, buffer: &mut Buffer) {
    let slope = state.thread.reading().and_then(|reading| reading.slope);
    let slope = slope.map(|slope| format!(", slope {slope:.2}")).unwrap_or_default();
    let title = format!("Dividers along the line{slope}");
    let foot = "Esc closes · plot: length up, step across, log scales";
    frame(parts.area, &title, foot, inks, buffer);
    thread::dividers(state, parts.rows, inks, buffer);
}
