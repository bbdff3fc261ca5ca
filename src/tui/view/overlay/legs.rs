//! The table of legs laid over a screen that has no room for it beside the chart.

use ratatui::buffer::Buffer;

use super::super::inks::Inks;
use super::super::legs;
use super::super::readings::Readings;
use super::frame;
use crate::layout::OverlayLayout;
use crate::state::State;

pub(super) fn draw(
    state: &State,
    readings: &Readings,
    parts: &OverlayLayout,
    inks: &Inks,
    buffer: &mut Buffer,
) {
    let whole = &readings.whole;
    let sums = [&whole.nautical_miles, &whole.kilometres, &whole.elapsed, &whole.clock];
    let sums: Vec<&str> =
        sums.into_iter().map(String::as_str).filter(|sum| !sum.is_empty()).collect();
    let foot = if !readings.warning.is_empty() {
        readings.warning.clone()
    } else if sums.is_empty() {
        "no leg yet".to_owned()
    } else {
        [sums.join("  "), readings.notes.clone()].join(" · ").trim_end_matches(" · ").to_owned()
    };
    frame(parts.area, "Legs", &foot, inks, buffer);
    legs::heading("", parts.note, !readings.sailed.is_empty(), inks, buffer);
    legs::rows(state, readings, parts.rows, inks, buffer);
}
