//! The scale bars: nautical miles and kilometres, of their true length on the ground.

use super::Scale;
use super::look::LEAST;
use crate::draw::{Area, Ink, Item, Mm, Outline, Size, Spot, Stroke, Text};
use crate::font;

/// How high a bar is.
const HIGH: Mm = Mm(1.0);

/// The lengths that bars have, in their unit, with how many pieces they are parted in.
const LENGTHS: [f64; 16] =
    [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0];

/// A bar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bar {
    /// How many of its unit it shows.
    pub units: f64,
    /// How long it is on paper.
    pub length: Mm,
    /// Metres in its unit.
    pub metres: f64,
}

impl Bar {
    /// The longest bar of a unit of so many metres that has room.
    #[must_use]
    pub fn fitting(scale: Scale, metres: f64, room: Mm) -> Bar {
        let bar = |units: &f64| {
            let length = scale.of_metres(units * metres);
            Bar { units: *units, length, metres }
        };
        let mut bars = LENGTHS.iter().rev().map(bar);
        bars.find(|bar| bar.length <= room).unwrap_or_else(|| bar(&LENGTHS[0]))
    }

    /// Pieces of a round number of units: five of one or five, four of two.
    fn pieces(&self) -> u32 {
        let first = self.units / 10_f64.powf(self.units.log10().floor());
        if (1.5..3.0).contains(&first) { 4 } else { 5 }
    }

    /// The bar with its numbers over it, its left end on the base line of `at`.
    fn items(&self, at: Spot, unit: &str) -> Vec<Item> {
        let piece = self.length / f64::from(self.pieces());
        let top = at.y - HIGH;
        let mut items = Vec::new();
        for n in (0..self.pieces()).step_by(2) {
            let corner = Spot { x: at.x + piece * f64::from(n), y: top };
            let black = Area::at(corner, Size { width: piece, height: HIGH });
            items.push(Item::fill(Outline::rectangle(black), Ink::BLACK));
        }
        let whole = Area::at(Spot { x: at.x, y: top }, Size { width: self.length, height: HIGH });
        items.push(Item::stroke(Outline::rectangle(whole), Stroke::black(0.12)));
        let base = top - Mm(0.5);
        items.push(Text::new("0", Spot { x: at.x, y: base }, LEAST).middle().into());
        let end = Spot { x: whole.right(), y: base };
        let number = Text::new(self.units.to_string(), end, LEAST).middle();
        let right = number.width() / 2.0;
        items.push(number.into());
        let beside = Spot { x: end.x + right + Mm(0.7), y: base };
        items.push(Text::new(unit, beside, LEAST).into());
        items
    }
}

/// Both bars one under the other, from `at`, the upper left corner, and how wide they are.
pub(super) fn items(scale: Scale, at: Spot, room: Mm) -> (Vec<Item>, Mm) {
    // The unit stands behind the end.
    let room = room - font::width(font::Face::Regular, "1000 km", LEAST);
    let high = font::capital(LEAST) + Mm(0.5) + HIGH;
    let mut items = Vec::new();
    let mut wide = Mm::ZERO;
    for (row, (metres, unit)) in [(1852.0, "NM"), (1000.0, "km")].into_iter().enumerate() {
        let bar = Bar::fitting(scale, metres, room);
        let base = at.y + high + (high + Mm(1.0)) * row as f64;
        items.extend(bar.items(Spot { x: at.x, y: base }, unit));
        wide = wide.max(bar.length);
    }
    (items, wide)
}
