//! A coach's exercise set: what is asked, of which chart, how near is right, shared as a file and run by learners.
//!
//! A [`Set`] is a value; [`read`] has it from the text of a file (RON), with what is wrong at its line and column. The
//! same set gives the same questions on every machine, since its chart, its seed, its sheet and its parts are all that they follow
//! from. [`write()`] is the way back.

mod clock;
mod format;
mod left;
mod near;
#[cfg(test)]
mod tests;
mod write;

pub use clock::Clocked;
pub use format::{SetError, place_of_chart, place_of_part, read};
pub use left::Changed;
pub use near::{Measure, Near, NearError};
pub use write::write;

use std::collections::HashSet;

use chart::maker::Wishes;

use crate::dice::Dice;
use crate::series::Series;
use crate::{Ground, Kind, Level, Question, Sheet, seed_of};

/// A first set with comments, for a coach to change.
pub const FIRST: &str = include_str!("first.ron");

/// The basis of a coach's tolerance.
pub const BY_COACH: &str = "the exercise set's own tolerance";

/// Exercises that belong together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Set {
    /// What it is called; results are named by it.
    pub title: String,
    /// What the coach says to the learner; may be empty.
    pub words: String,
    /// The chart that it is worked on.
    pub chart: SetChart,
    /// The sheet of paper that it can be worked on: its questions lie on a part of the chart that such a sheet shows. Nothing for
    /// the whole chart.
    pub sheet: Option<Sheet>,
    /// What the questions are thrown from.
    pub seed: u64,
    /// In which order they come.
    pub order: Order,
    /// How many minutes are allowed, if it is timed.
    pub minutes: Option<u16>,
    /// Whether hints are given.
    pub hints: bool,
    /// What is asked; never empty.
    pub parts: Vec<Part>,
}

/// The chart of a set.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SetChart {
    /// The built-in practice chart.
    BuiltIn,
    /// One that is made, the same on every machine.
    Made {
        /// What it is made from.
        seed: u64,
        /// What it is like.
        wishes: Wishes,
    },
    /// One in a file: the path from the folder of the set, never absolute, never upwards.
    Beside(String),
}

/// In which order the questions of a set come.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Order {
    /// Part after part.
    #[default]
    AsWritten,
    /// The parts shuffled into each other, in an order of the set's own.
    Mixed,
}

/// Some questions of a set.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// The kinds, by turns; never empty.
    pub kinds: Vec<Kind>,
    /// How hard.
    pub level: Level,
    /// How many questions.
    pub count: u16,
    /// How near is right, if not as the questions have it.
    pub tolerance: Option<Near>,
}

impl Set {
    /// The most questions of a set.
    pub const MOST: u16 = 200;
    /// The most parts.
    pub const MOST_PARTS: usize = 50;
    /// The most minutes.
    pub const MOST_MINUTES: u16 = 600;

    /// How many questions it has.
    #[must_use]
    pub fn count(&self) -> usize {
        self.parts.iter().map(|part| usize::from(part.count)).sum()
    }

    /// The question of this number, from 0, on the ground of its chart; nothing behind the last, and where
    /// [`Set::questions`] fails.
    #[must_use]
    pub fn question(&self, ground: &Ground<'_>, number: usize) -> Option<Question> {
        self.questions(ground).ok()?.into_iter().nth(number)
    }

    /// All of its questions on the ground of its chart. None is asked twice where there are enough others.
    ///
    /// # Errors
    /// The number of the first part, from 0, for which the chart has not what it takes.
    pub fn questions(&self, ground: &Ground<'_>) -> Result<Vec<Question>, usize> {
        let whole = self.asked(ground)?;
        let asked = |ground: &Ground<'_>| self.asked(ground).unwrap_or_default();
        match self.sheet.and_then(|sheet| sheet.part(ground, self.seed, asked)) {
            Some(part) => self.asked(&ground.within(part)),
            None => Ok(whole),
        }
    }

    /// All of them on a ground as it is.
    fn asked(&self, ground: &Ground<'_>) -> Result<Vec<Question>, usize> {
        let mut asked = HashSet::new();
        let mut all = Vec::with_capacity(self.count());
        for (index, part) in self.parts.iter().enumerate() {
            let count = usize::from(part.count);
            let seed = seed_of(self.seed, index as u64);
            let series = Series { kinds: &part.kinds, level: part.level, seed, count };
            let of_part = series.first(count, ground, &mut asked);
            if of_part.len() < count {
                return Err(index);
            }
            all.extend(of_part.into_iter().map(|question| self.as_wished(part, question)));
        }
        if self.order == Order::Mixed {
            Dice::new(self.seed, "set", 0).shuffle(&mut all);
        }
        Ok(all)
    }

    /// A question as the coach wants it.
    fn as_wished(&self, part: &Part, question: Question) -> Question {
        let near = part.tolerance.and_then(|near| near.of(&question.answer));
        let mut wished = match near {
            Some(near) => question.with_tolerance(near, BY_COACH),
            None => question,
        };
        wished.hints.retain(|_| self.hints);
        wished
    }
}
