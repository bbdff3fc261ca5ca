//! The second row: how far off the nearest land the leg goes, as a profile.

use nav::{Length, text};
use plan::unrolled::Place;
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
            _ if is_over_land(band, place) => (ASHORE, band.inks.wrong),
            Some(off) => (HEIGHTS[height(off, most)], band.inks.across),
            None => continue,
        };
        band.pen(column, buffer).write(glyph, style);
    }
}

/// A leg may begin and end on a shore: so near to its ends, in metres, it is not over land.
const AT_AN_END: f64 = 50.0;

/// Whether the leg is on land at a place that is not one of its ends.
fn is_over_land(band: &Band<'_>, place: &Place) -> bool {
    let left = band.leg.line.length - place.along;
    place.ashore && place.along.as_metres().min(left.as_metres()) > AT_AN_END
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
    if line.places.iter().any(|place| is_over_land(band, place)) {
        return "× over land".to_owned();
    }
    let (nearest, most) = (text::kilometres(nearest), text::kilometres(most));
    if nearest == most { nearest } else { format!("{nearest} to {most}") }
}
