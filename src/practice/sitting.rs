//! A sitting: what is practised now, and how it has gone so far.

use std::collections::BTreeMap;

use jiff::Timestamp;

use crate::memory::{Answered, Outcome, Record, Schedule};
use crate::set::Set;
use crate::{Ground, Kind, Level, MistakeKind, Question, ask, kind_of, seed_of};

/// What is practised in a sitting.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Plan {
    /// What is due, the weakest first.
    Due(Long),
    /// Kinds in turn, or as the dice fall.
    Kinds {
        /// Which; those that a chart has not what it takes for are left out.
        kinds: Vec<Kind>,
        /// How hard.
        level: Level,
        /// What the questions are thrown from.
        seed: u64,
        /// How many.
        count: usize,
    },
    /// A coach's set, on its own chart.
    Set(Set),
}

/// How long a sitting is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Long {
    /// So many minutes; the last question may end after them.
    Minutes(u16),
    /// So many questions.
    Questions(usize),
}

/// What is practised, and what was answered in it: all that it takes to go on after a break.
#[derive(Debug, Clone, PartialEq)]
pub struct Sitting {
    plan: Plan,
    /// What was answered in it, in order.
    answered: Vec<Answered>,
}

/// How a sitting has gone so far.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Tally {
    /// How many questions were answered or passed over.
    pub put: usize,
    /// How many of them were passed over.
    pub passed: usize,
    /// How many were answered rightly.
    pub right: usize,
    /// The mistakes that were made, and how often.
    pub mistakes: BTreeMap<MistakeKind, usize>,
}

impl Sitting {
    /// One that begins.
    #[must_use]
    pub fn new(plan: Plan) -> Sitting {
        Sitting { plan, answered: Vec::new() }
    }

    /// One that was left: with what was answered in it before, in order.
    #[must_use]
    pub fn again(plan: Plan, answered: Vec<Answered>) -> Sitting {
        Sitting { plan, answered }
    }

    /// What is practised.
    #[must_use]
    pub fn plan(&self) -> &Plan {
        &self.plan
    }

    /// What was answered in it, in order.
    #[must_use]
    pub fn answered(&self) -> &[Answered] {
        &self.answered
    }

    /// Notes what came of a question.
    pub fn note(&mut self, answered: Answered) {
        self.answered.push(answered);
    }

    /// How many questions it has, if that is known.
    #[must_use]
    pub fn count(&self) -> Option<usize> {
        match &self.plan {
            Plan::Due(Long::Minutes(_)) => None,
            Plan::Due(Long::Questions(count)) | Plan::Kinds { count, .. } => Some(*count),
            Plan::Set(set) => Some(set.count()),
        }
    }

    /// How many minutes it lasts, if it goes by time.
    #[must_use]
    pub fn minutes(&self) -> Option<u16> {
        match &self.plan {
            Plan::Due(Long::Minutes(minutes)) => Some(*minutes),
            Plan::Due(Long::Questions(_)) | Plan::Kinds { .. } => None,
            Plan::Set(set) => set.minutes,
        }
    }

    /// Whether it has had as many questions as it has.
    #[must_use]
    pub fn is_full(&self) -> bool {
        self.count().is_some_and(|count| self.answered.len() >= count)
    }

    /// How it has gone so far.
    #[must_use]
    pub fn tally(&self) -> Tally {
        let mut tally = Tally::default();
        for it in &self.answered {
            tally.put += 1;
            tally.right += usize::from(it.outcome == Outcome::Right);
            tally.passed += usize::from(it.outcome == Outcome::Passed);
            if let Some(mistake) = it.mistake {
                *tally.mistakes.entry(mistake).or_default() += 1;
            }
        }
        tally
    }

    /// The question that comes next at an instant, with everything that was ever answered; nothing where the chart has none.
    /// Whether the sitting is over is another matter. It follows from what was answered, so that one that was left is asked again.
    #[must_use]
    pub fn next(&self, record: &Record, ground: &Ground<'_>, now: Timestamp) -> Option<Question> {
        match &self.plan {
            Plan::Due(_) => due(record, ground, now),
            Plan::Kinds { kinds, level, seed, count } => {
                // In a mixed series the kinds that the chart has not are left out.
                let asked = (0..count * 2 + Kind::ALL.len()).filter_map(|number| {
                    ask(
                        kind_of(kinds, *seed, number)?,
                        ground,
                        seed_of(*seed, number as u64),
                        *level,
                    )
                });
                asked.take(*count).nth(self.answered.len())
            }
            Plan::Set(set) => set.question(ground, self.answered.len()),
        }
    }
}

/// The question of the first kind by the schedule that the chart has.
fn due(record: &Record, ground: &Ground<'_>, now: Timestamp) -> Option<Question> {
    let seed = seed_of(0, record.answered().len() as u64);
    let schedule = Schedule::of(record, now);
    schedule.in_turn().into_iter().find_map(|item| ask(item.kind, ground, seed, item.level))
}
