//! The three norths as ticks that lean as they do on the chart, whose grid lines stand upright.

use nav::{Convergence, Variation};

/// Leans of less than this many degrees are drawn upright.
const UPRIGHT: f64 = 0.5;

/// Where the norths point at a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Norths {
    /// From true to grid north.
    pub convergence: Convergence,
    /// From true to magnetic north.
    pub variation: Variation,
}

impl Norths {
    /// Three ticks, each with its letter, and less and less about the angles.
    pub(super) fn words(&self, ascii: bool) -> [String; 3] {
        // Angles from grid north, which is up.
        let to_true = -self.convergence.as_degrees_east();
        let to_magnetic = to_true + self.variation.as_degrees_east();
        let tick = |lean: f64| tick(lean, ascii);
        let (grid, true_, magnetic) = (tick(0.0), tick(to_true), tick(to_magnetic));
        let Norths { convergence, variation } = self;
        [
            format!(
                " G{grid} T{true_} M{magnetic} convergence {convergence} variation {variation} "
            ),
            format!(" G{grid} T{true_} {convergence} M{magnetic} {variation} "),
            format!(" G{grid} T{true_} M{magnetic} "),
        ]
        .map(|words| if ascii { words.replace('°', " ") } else { words })
    }
}

fn tick(lean: f64, ascii: bool) -> char {
    match (lean, ascii) {
        (l, true) if l.abs() < UPRIGHT => '|',
        (l, false) if l.abs() < UPRIGHT => '│',
        (l, true) if l > 0.0 => '/',
        (l, false) if l > 0.0 => '╱',
        (_, true) => '\\',
        (_, false) => '╲',
    }
}
