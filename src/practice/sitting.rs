//! A sitting: what is practised now, and how it has gone so far.
//!
//! Nothing is remembered but what is practised and what was answered: the next question follows from that, from the record and
//! from the instant. So a sitting that was left goes on where it was when both are given back, on any machine.
//!
//! ```
//! use practice::{Ground, Long, Plan, Sitting};
//! use practice::memory::{Answered, Record};
//!
//! let chart = chart::practice()?;
//! let coast = chart::coast::Coast::of(&chart);
//! let ground = Ground::new(&chart, &coast);
//! let (mut record, now) = (Record::default(), "2026-06-14T09:00:00Z".parse()?);
//! let mut sitting = Sitting::new(Plan::Due(Long::Questions(2)));
//! while !sitting.is_full() {
//!     let Some(question) = sitting.next(&record, &ground, now) else { break };
//!     let mark = question.mark(&question.answer.to_string())?;
//!     let took = jiff::SignedDuration::from_secs(40);
//!     let answered = Answered::new(&question, &chart.title, Some(&mark), now, took);
//!     assert!(record.keep(sitting.note(answered)));
//! }
//! assert_eq!(sitting.tally().right, 2);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

#[cfg(test)]
mod tests;

use std::collections::{BTreeMap, HashSet};

use jiff::Timestamp;

use crate::memory::{Answered, Outcome, Record, Schedule};
use crate::series::Series;
use crate::set::{Clocked, Set};
use crate::{Ground, Kind, Level, MistakeKind, Question, ask, seed_of};

/// What is practised in a sitting.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Plan {
    /// What is due, the weakest first.
    Due(Long),
    /// Kinds by turns; no question is asked twice while there are others.
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

impl Tally {
    /// How many were answered, rightly or not.
    #[must_use]
    pub const fn answered(&self) -> usize {
        self.put - self.passed
    }
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

    /// Notes what came of a question, and gives it as it is to be kept: named by the set that it belongs to.
    pub fn note(&mut self, answered: Answered) -> Answered {
        let answered = match &self.plan {
            Plan::Set(set) => answered.of_set(&set.title),
            Plan::Due(_) | Plan::Kinds { .. } => answered,
        };
        self.answered.push(answered.clone());
        answered
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
            // It goes on after its time, and says then what came late.
            Plan::Set(_) => None,
        }
    }

    /// How long a timed set has taken so far; nothing of what has no time of its own.
    #[must_use]
    pub fn clocked(&self) -> Option<Clocked> {
        match &self.plan {
            Plan::Set(set) => Clocked::of(set, &self.answered),
            Plan::Due(_) | Plan::Kinds { .. } => None,
        }
    }

    /// Whether it has had as many questions as it has.
    #[must_use]
    pub fn is_full(&self) -> bool {
        self.count().is_some_and(|count| self.answered.len() >= count)
    }

    /// Where it is: `question 6 of 10`, the one that comes next, or `its end, 10 of 10 answered`.
    #[must_use]
    pub fn place(&self) -> String {
        let put = self.answered.len();
        let of = self.count().map_or_else(String::new, |count| format!(" of {count}"));
        if self.is_full() {
            return format!("its end, {put}{of} answered");
        }
        format!("question {}{of}", put + 1)
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

    /// The question that comes next at an instant, with everything that was ever answered; nothing where the chart has none, and
    /// behind the last of a series. Whether the time is up is another matter.
    #[must_use]
    pub fn next(&self, record: &Record, ground: &Ground<'_>, now: Timestamp) -> Option<Question> {
        match &self.plan {
            Plan::Due(_) => due(record, ground, now),
            Plan::Kinds { kinds, level, seed, count } => {
                let series = Series { kinds, level: *level, seed: *seed, count: *count };
                let asked = series.first(self.answered.len() + 1, ground, &mut HashSet::new());
                asked.into_iter().nth(self.answered.len())
            }
            Plan::Set(set) => set.question(ground, self.answered.len()),
        }
    }

    /// All questions that are still to come, where they do not hang on the answers; none of what is due.
    #[must_use]
    pub fn rest(&self, ground: &Ground<'_>) -> Vec<Question> {
        match &self.plan {
            Plan::Due(_) => Vec::new(),
            Plan::Kinds { kinds, level, seed, count } => {
                let series = Series { kinds, level: *level, seed: *seed, count: *count };
                let all = series.first(*count, ground, &mut HashSet::new());
                all.into_iter().skip(self.answered.len()).collect()
            }
            Plan::Set(set) => {
                let all = set.questions(ground).unwrap_or_default();
                all.into_iter().skip(self.answered.len()).collect()
            }
        }
    }
}

/// The question of the first kind by the schedule that the chart has.
fn due(record: &Record, ground: &Ground<'_>, now: Timestamp) -> Option<Question> {
    let seed = seed_of(0, record.answered().len() as u64);
    let schedule = Schedule::of(record, now);
    schedule.in_turn().into_iter().find_map(|item| ask(item.kind, ground, seed, item.level))
}
