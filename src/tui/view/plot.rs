//! A small plot: length against the step of the dividers, both by their logarithms, and the
//! straight line whose slope is told.

use chart::dots::Mask;
use nav::Length;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use super::ink::Pen;
use super::inks::Inks;
use crate::glyphs::DotSet;
use crate::state::Reading;

/// The least size in which a plot says anything.
const LEAST: (u16, u16) = (8, 3);

/// Draws the plot: a longer step lies farther right, a longer line higher.
pub(super) fn draw(reading: &Reading, dots: DotSet, area: Rect, inks: &Inks, buffer: &mut Buffer) {
    let places = places(&reading.walks);
    if places.len() < 2 || area.width < LEAST.0 || area.height < LEAST.1 {
        return;
    }
    let (across, down) = dots.size();
    let frame = Frame::around(
        &places,
        f64::from(area.width) * f64::from(across),
        f64::from(area.height) * f64::from(down),
    );
    let mut mask = Mask::new(
        usize::from(area.width) * usize::from(across),
        usize::from(area.height) * usize::from(down),
    );
    if let Some(slope) = reading.slope {
        fitted(&places, slope, &frame, &mut mask);
    }
    for place in &places {
        let (x, y) = frame.dot(*place);
        for (dx, dy) in [(0, 0), (1, 0), (0, 1), (1, 1)] {
            mask.set(x + dx, y + dy);
        }
    }
    let mut cells = Vec::new();
    let mut pen = Pen::new(buffer, area);
    for row in 0..usize::from(area.height) {
        mask.cells(row, (across, down), &mut cells);
        let glyph = |bits: &u8| if *bits == 0 { ' ' } else { dots.glyph(*bits) };
        let text: String = cells.iter().map(glyph).collect();
        pen.write(text.trim_end(), inks.plain).down();
    }
}

/// The logarithms of each step and of the length found with it.
fn places(walks: &[(Length, Option<Length>)]) -> Vec<(f64, f64)> {
    let place = |(step, length): &(Length, Option<Length>)| {
        let length = length.filter(|length| *length > Length::ZERO)?;
        Some((step.as_metres().ln(), length.as_metres().ln()))
    };
    walks.iter().filter_map(place).collect()
}

/// How the plane of logarithms lies on the dots.
struct Frame {
    low: (f64, f64),
    per_dot: (f64, f64),
    height: f64,
}

/// The dots left free at each side.
const MARGIN: f64 = 2.0;

/// The least span of the lengths that fills the height, as a logarithm: less than that is drawn
/// as flat as it is.
const FLAT: f64 = 0.02;

impl Frame {
    fn around(places: &[(f64, f64)], width: f64, height: f64) -> Frame {
        let span = |of: fn(&(f64, f64)) -> f64| {
            let low = places.iter().map(of).fold(f64::INFINITY, f64::min);
            (low, places.iter().map(of).fold(f64::NEG_INFINITY, f64::max) - low)
        };
        let ((left, across), (foot, up)) = (span(|it| it.0), span(|it| it.1));
        let held = up.max(FLAT);
        Frame {
            low: (left, foot - (held - up) / 2.0),
            per_dot: (
                across.max(f64::MIN_POSITIVE) / (width - 1.0 - 2.0 * MARGIN).max(1.0),
                held / (height - 1.0 - 2.0 * MARGIN).max(1.0),
            ),
            height,
        }
    }

    /// The dot at a place, counted from the top left.
    fn dot(&self, (x, y): (f64, f64)) -> (i64, i64) {
        let right = MARGIN + (x - self.low.0) / self.per_dot.0;
        let up = MARGIN + (y - self.low.1) / self.per_dot.1;
        (right.round() as i64, (self.height - 1.0 - up).round() as i64)
    }
}

/// Draws every third dot of the line of this slope through the middle of the places.
fn fitted(places: &[(f64, f64)], slope: f64, frame: &Frame, mask: &mut Mask) {
    let count = places.len() as f64;
    let middle = places.iter().fold((0.0, 0.0), |sum, it| (sum.0 + it.0, sum.1 + it.1));
    let (x, y) = (middle.0 / count, middle.1 / count);
    for dot in (0..mask.width()).step_by(3) {
        let at = frame.low.0 + (dot as f64 - MARGIN) * frame.per_dot.0;
        let (right, down) = frame.dot((at, y + slope * (at - x)));
        mask.set(right, down);
    }
}
