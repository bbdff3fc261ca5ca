//! Textures: rows of dots and hatches, drawn as lines, so that every program and printer keeps them.
//!
//! They lie fast on the page, so that two areas side by side are one texture.

use crate::draw::{Area, Item, Mm, Outline, Spot, Stroke};

/// How far rows of dots are apart.
const ROWS: f64 = 0.85;
/// How far the lines of a hatch are apart, across the page.
const LINES: f64 = 1.5;

/// Rows of dots, every other one shifted by half a step.
pub(super) fn dots(area: Area, stroke: Stroke) -> Vec<Item> {
    let step = stroke.dash.map_or(1.0, |dash| (dash.on + dash.off).0);
    let mut rows = Outline::default();
    for row in multiples(area.top, area.bottom(), ROWS) {
        let shift = if row % 2 == 0 { 0.0 } else { step / 2.0 };
        // Begun at a whole step, so that the dots lie fast on the page.
        let left = (area.left.0 / step).floor() * step + shift;
        let y = f64::from(row) * ROWS;
        rows.add([Spot::new(left, y), Spot::new(area.right().0, y)], false);
    }
    vec![Item::stroke(rows, stroke)]
}

/// Lines rising to the right.
pub(super) fn hatch(area: Area, stroke: Stroke) -> Vec<Item> {
    let mut lines = Outline::default();
    for line in multiples(area.left + area.top, area.right() + area.bottom(), LINES) {
        let sum = f64::from(line) * LINES;
        let from = Spot::new(sum - area.bottom().0, area.bottom().0);
        let to = Spot::new(sum - area.top.0, area.top.0);
        lines.add([from, to], false);
    }
    vec![Item::stroke(lines, stroke)]
}

/// The whole numbers whose multiples of `step` lie between two lengths.
fn multiples(from: Mm, to: Mm, step: f64) -> std::ops::RangeInclusive<i32> {
    // Pages are at most some metres wide.
    (from.0 / step).ceil() as i32..=(to.0 / step).floor() as i32
}
