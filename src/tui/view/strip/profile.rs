//! The second row: how far off the nearest land the leg goes, as a profile.

use nav::{Length, text};
use ratatui::buffer::Buffer;

use super::Band;

/// From the lowest to the highest.
const HEIGHTS: [&str; 8] = ["▁", "▂", "▃", "▄", "▅", "▆", "▇", "█"];

/// The sign of a place on land.
const ASHORE: &str = "×";

pub(super) fn draw(band: &Band<'_>, buffer: &mut Buffer) {
    let Some(most) = band.leg.line.farthest() else { return };
    for (column, place) in band.places() {
        let place = &band.leg.line.places[place];
        let (glyph, style) = match place.off {
            _ if place.ashore => (ASHORE, band.inks.wrong),
            Some(off) => (HEIGHTS[height(off, most)], band.inks.across),
            None => continue,
        };
        band.pen(column, buffer).write(glyph, style);
    }
}

/// How high a distance stands, from 0 to 7.
fn height(off: Length, most: Length) -> usize {
    let part = if most > Length::ZERO { off / most } else { 0.0 };
    ((part * 8.0).ceil() as usize).clamp(1, HEIGHTS.len()) - 1
}

/// The least and the greatest distance.
pub(super) fn figures(band: &Band<'_>) -> String {
    let line = &band.leg.line;
    let (Some(nearest), Some(most)) = (line.nearest().and_then(|it| it.off), line.farthest())
    else {
        return "no shore on the chart".to_owned();
    };
    if line.places.iter().any(|place| place.ashore) {
        return "× over land".to_owned();
    }
    let (nearest, most) = (text::kilometres(nearest), text::kilometres(most));
    if nearest == most { nearest } else { format!("{nearest} to {most}") }
}
