//! What was answered, in the order in which it was kept.

use chart::clean::clean;
use jiff::{SignedDuration, Timestamp};

use crate::{Kind, Level, Mark, MistakeKind, Question};

/// The most characters of a text that is kept.
const TEXT: usize = 200;

/// Everything that was answered.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Record {
    answered: Vec<Answered>,
}

/// What came of a question.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Outcome {
    /// The answer was right.
    Right,
    /// It was not.
    Wrong,
    /// There was none: the question was passed over.
    Passed,
}

impl Outcome {
    pub(super) const ALL: [Outcome; 3] = [Outcome::Right, Outcome::Wrong, Outcome::Passed];

    /// `right`, `wrong`, `passed`.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Outcome::Right => "right",
            Outcome::Wrong => "wrong",
            Outcome::Passed => "passed",
        }
    }
}

/// One question and what came of it: enough to ask it again.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answered {
    /// When, in whole seconds.
    pub when: Timestamp,
    /// The kind of exercise.
    pub kind: Kind,
    /// How hard it was.
    pub level: Level,
    /// What it was thrown from.
    pub seed: u64,
    /// The title of its chart.
    pub chart: String,
    /// What came of it.
    pub outcome: Outcome,
    /// How many hints were asked for.
    pub hints: u32,
    /// How far off it was, in words; empty where that is not to be said.
    pub off: String,
    /// The mistake that it looked like.
    pub mistake: Option<MistakeKind>,
    /// How long it took, in whole seconds.
    pub seconds: u32,
    /// The title of the exercise set that it belongs to; empty where it was of none.
    pub set: String,
    /// Who answered, in what is handed in; empty in one's own record.
    pub learner: String,
}

impl Answered {
    /// A question on the chart of this title and its mark; no mark where it was passed over.
    #[must_use]
    pub fn new(
        question: &Question,
        chart: &str,
        mark: Option<&Mark>,
        when: Timestamp,
        took: SignedDuration,
    ) -> Answered {
        let outcome = match mark {
            Some(mark) if mark.right => Outcome::Right,
            Some(_) => Outcome::Wrong,
            None => Outcome::Passed,
        };
        let off = mark.and_then(|mark| mark.off.as_deref()).unwrap_or_default();
        Answered {
            when: Timestamp::from_second(when.as_second()).unwrap_or(when),
            kind: question.kind,
            level: question.level,
            seed: question.seed,
            chart: clean(chart, TEXT),
            outcome,
            hints: 0,
            off: clean(off, TEXT),
            mistake: mark.and_then(|mark| mark.mistake),
            seconds: u32::try_from(took.as_secs()).unwrap_or(0),
            set: String::new(),
            learner: String::new(),
        }
    }

    /// The same as one of the exercise set of this title.
    #[must_use]
    pub fn of_set(self, title: &str) -> Answered {
        Answered { set: clean(title, TEXT), ..self }
    }

    /// The same after so many hints.
    #[must_use]
    pub fn after_hints(self, hints: u32) -> Answered {
        Answered { hints, ..self }
    }

    /// Whether it was right without a hint.
    pub(super) const fn unaided(&self) -> bool {
        matches!(self.outcome, Outcome::Right) && self.hints == 0
    }
}

impl Record {
    /// The most that are kept: fifty a day for eleven years.
    pub const MOST: usize = 200_000;

    /// Adds one; false, and the record as it was, where it is full.
    #[must_use]
    pub fn keep(&mut self, answered: Answered) -> bool {
        let room = self.answered.len() < Record::MOST;
        if room {
            self.answered.push(answered);
        }
        room
    }

    /// All of them, as they were kept.
    #[must_use]
    pub fn answered(&self) -> &[Answered] {
        &self.answered
    }

    /// Those of the record that are wanted, with the name of who answered, to be handed in.
    #[must_use]
    pub fn handed_in(&self, learner: &str, wanted: impl Fn(&Answered) -> bool) -> Record {
        let named = |it: &Answered| {
            let learner =
                if learner.is_empty() { it.learner.clone() } else { clean(learner, TEXT) };
            Answered { learner, ..it.clone() }
        };
        Record { answered: self.answered.iter().filter(|it| wanted(it)).map(named).collect() }
    }

    /// All of them from the earliest: lines of two records may have been put together.
    pub(super) fn by_time(&self) -> Vec<&Answered> {
        let mut all: Vec<&Answered> = self.answered.iter().collect();
        all.sort_by_key(|it| it.when);
        all
    }
}
