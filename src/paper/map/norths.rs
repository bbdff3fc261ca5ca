//! The three norths: a sign that shows on which side of each other they lie, and the angles in words.

use nav::Convergence;
use nav::magnetic::VariationAt;

use super::look::LEAST;
use crate::draw::{Item, Mm, Outline, Spot, Stroke, Text};

/// Where true and magnetic north lie at the middle of a chart.
#[derive(Debug, Clone, PartialEq)]
pub struct Norths {
    /// Grid north from true north.
    pub convergence: Convergence,
    /// Magnetic north from true north, if a date is known, and the year of that date.
    pub variation: Option<(VariationAt, f64)>,
}

/// How long the arrows are.
const LONG: Mm = Mm(7.0);
/// The least angle between two arrows, in degrees: the sign shows sides, not angles.
const LEAST_TURN: f64 = 18.0;
/// The greatest.
const MOST_TURN: f64 = 40.0;

/// The room that the sign takes.
pub(super) const WIDE: Mm = Mm(13.0);

impl Norths {
    /// Which way each north lies from the grid's, in degrees, grid first, with its letter.
    fn turns(&self) -> Vec<(char, f64)> {
        let truth = -self.convergence.as_degrees_east();
        let mut turns = vec![('G', 0.0), ('T', truth)];
        if let Some((at, _)) = &self.variation {
            turns.push(('M', truth + at.variation.as_degrees_east()));
        }
        turns
    }

    /// The sign, its foot at `at`.
    pub(super) fn sign(&self, at: Spot) -> Vec<Item> {
        let mut turns = self.turns();
        turns.sort_by(|a, b| a.1.total_cmp(&b.1));
        let grid = turns.iter().position(|turn| turn.0 == 'G').unwrap_or(0);
        let mut items = Vec::new();
        for (index, (letter, turn)) in turns.iter().enumerate() {
            let steps = index as f64 - grid as f64;
            // Spread so that the letters have room, each on its true side of the others.
            let least = LEAST_TURN * steps;
            let shown = if steps < 0.0 {
                turn.min(least).max(-MOST_TURN)
            } else {
                turn.max(least).min(MOST_TURN)
            };
            let tip = at.towards(shown, LONG);
            items.push(Item::stroke(Outline::line([at, tip]), Stroke::black(0.18)));
            let barbs =
                [tip.towards(shown + 160.0, Mm(1.4)), tip, tip.towards(shown - 160.0, Mm(1.4))];
            items.push(Item::stroke(Outline::line(barbs), Stroke::black(0.18)));
            let letter_at = at.towards(shown, LONG + Mm(0.7));
            items.push(Text::new(letter.to_string(), letter_at, LEAST).middle().into());
        }
        items
    }

    /// The angles in words.
    #[must_use]
    pub fn words(&self) -> Vec<String> {
        let mut words = vec![format!("G {} of T", self.convergence)];
        match &self.variation {
            Some((at, year)) => {
                words.push(format!("M {} of T ({year:.0})", at.variation));
            }
            None => words.push("M: no date is set".to_owned()),
        }
        words
    }
}

#[cfg(test)]
mod tests {
    use nav::magnetic::{DecimalYear, VariationSource};

    use super::*;

    #[test]
    fn the_norths_stand_in_their_order() {
        let at = nav::Position::from_degrees(52.0, -27.5).unwrap();
        let date = DecimalYear::from_date(jiff::civil::date(2026, 6, 14));
        let variation = VariationSource::Model.at(at, date);
        let convergence = Convergence::from_degrees_east(2.3).unwrap();
        let norths = Norths { convergence, variation: Some((variation, 2026.45)) };
        let turns = norths.turns();
        // True north left of the grid's, magnetic north left of both.
        assert!(turns[1].1 < 0.0 && turns[2].1 < turns[1].1, "{turns:?}");
        assert_eq!(norths.words()[0], "G 2.3°E of T");
        let texts: Vec<String> = norths
            .sign(Spot::new(50.0, 50.0))
            .into_iter()
            .filter_map(|item| match item {
                Item::Text(text) => Some(text.words),
                _ => None,
            })
            .collect();
        assert_eq!(texts, ["M", "T", "G"]);
    }
}
