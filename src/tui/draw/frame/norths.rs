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
    /// Three ticks, each with its letter, and as much about the angles as leaves the
    /// scale bars enough of a foot of `room` columns.
    pub(super) fn words(&self, ascii: bool, room: i32) -> String {
        // Angles from grid north, which is up.
        let to_true = -self.convergence.as_degrees_east();
        let to_magnetic = to_true + self.variation.as_degrees_east();
        let tick = |lean: f64| tick(lean, ascii);
        let (grid, true_, magnetic) = (tick(0.0), tick(to_true), tick(to_magnetic));
        let long = format!(
            " G{grid} T{true_} M{magnetic} convergence {} variation {} ",
            self.convergence, self.variation
        );
        let short =
            format!(" G{grid} T{true_} {} M{magnetic} {} ", self.convergence, self.variation);
        let least = format!(" G{grid} T{true_} M{magnetic} ");
        let fits = |words: &String, room: i32| {
            i32::try_from(words.chars().count()).is_ok_and(|count| count < room)
        };
        let choices = [(long, room / 3), (short, room / 2), (least, room / 2)];
        let found = choices.into_iter().find(|(words, room)| fits(words, *room));
        let found = found.map(|(words, _)| words).unwrap_or_default();
        if ascii { found.replace('°', " ") } else { found }
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
