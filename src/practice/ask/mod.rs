//! The questions, a module for each family.

mod back;
mod norths;
mod reference;

use crate::dice::Dice;
use crate::{Answer, Ground, Kind, Level, Question};

/// How often the dice are thrown before it is said that the chart has no such question.
const THROWS: u64 = 60;

/// The question of this kind that a seed and a level give on this ground, alike on every machine; nothing where the chart has
/// not what the question needs, say no two landings on one shore.
///
/// It takes some microseconds.
#[must_use]
pub fn ask(kind: Kind, ground: &Ground<'_>, seed: u64, level: Level) -> Option<Question> {
    (0..THROWS).find_map(|number| {
        let dice = Dice::new(seed, kind.name(), number * 4 + u64::from(level.number()));
        // What is only wished for, such as a point well within its square, is given up after half of the throws.
        let choosy = number < THROWS / 2;
        let question = thrown(kind, &mut Throw { ground, level, dice, choosy })?;
        gives_nothing_away(&question).then_some(Question { kind, level, seed, ..question })
    })
}

/// What a question is made of.
pub(crate) struct Throw<'a, 'g> {
    pub(crate) ground: &'a Ground<'g>,
    pub(crate) level: Level,
    pub(crate) dice: Dice,
    /// Whether what is wished for counts, too.
    pub(crate) choosy: bool,
}

fn thrown(kind: Kind, throw: &mut Throw<'_, '_>) -> Option<Question> {
    match kind {
        Kind::Reference => reference::of_a_mark(throw),
        Kind::Find => reference::find(throw),
        Kind::Figures => reference::of_coordinates(throw),
        Kind::Back => back::back(throw),
        Kind::ToMagnetic => norths::to_magnetic(throw),
        Kind::ToGrid => norths::to_grid(throw),
        _ => None,
    }
}

/// Whether the answer does not stand in the question. A choice stands there with all the others.
fn gives_nothing_away(question: &Question) -> bool {
    let chosen = matches!(question.answer, Answer::Choice(_) | Answer::Square { .. });
    chosen || !question.text.contains(&question.answer.to_string())
}
