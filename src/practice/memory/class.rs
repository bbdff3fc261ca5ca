//! What a class handed in: how each learner did, and what was hard for most.

use std::collections::{BTreeMap, HashSet};

use super::{Answered, Outcome, Record};
use crate::{Kind, Level, MistakeKind};

/// What a class handed in.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Class {
    /// The learners, by name.
    pub learners: Vec<Learner>,
    /// The questions, that which fewest answered rightly first.
    pub questions: Vec<Asked>,
}

/// How a learner did.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Learner {
    /// The name; empty where none is given.
    pub name: String,
    /// How many questions were put.
    pub put: usize,
    /// How many were answered rightly.
    pub right: usize,
    /// How many seconds the answers took.
    pub seconds: u64,
    /// The mistakes that were made, the most frequent first.
    pub mistakes: Vec<(MistakeKind, usize)>,
}

/// How a class did with a question.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Asked {
    /// Its kind.
    pub kind: Kind,
    /// How hard it was.
    pub level: Level,
    /// What it was thrown from.
    pub seed: u64,
    /// To how many learners it was put.
    pub put: usize,
    /// How many answered it rightly.
    pub right: usize,
    /// The mistakes that were made, the most frequent first.
    pub mistakes: Vec<(MistakeKind, usize)>,
}

/// How a class did, of results with the learners' names. Of a question that a learner answered more than once, the first answer
/// counts, so that nothing is gained by handing in twice.
#[must_use]
pub fn class(record: &Record) -> Class {
    let mut seen = HashSet::new();
    let mut all = record.by_time();
    all.retain(|it| {
        seen.insert((it.learner.as_str(), it.kind, it.level, it.seed, it.chart.as_str()))
    });
    let mut learners: BTreeMap<&str, Vec<&Answered>> = BTreeMap::new();
    let mut questions: BTreeMap<(Kind, Level, u64), Vec<&Answered>> = BTreeMap::new();
    for it in all {
        learners.entry(&it.learner).or_default().push(it);
        questions.entry((it.kind, it.level, it.seed)).or_default().push(it);
    }
    let learners = learners.into_iter().map(|(name, all)| Learner {
        name: name.to_owned(),
        put: all.len(),
        right: right(&all),
        seconds: all.iter().map(|it| u64::from(it.seconds)).sum(),
        mistakes: mistakes(&all),
    });
    let questions = questions.into_iter().map(|((kind, level, seed), all)| {
        let (put, right, mistakes) = (all.len(), right(&all), mistakes(&all));
        Asked { kind, level, seed, put, right, mistakes }
    });
    let mut class = Class { learners: learners.collect(), questions: questions.collect() };
    // Shares compared without a division.
    class.questions.sort_by_key(|it| it.put);
    class.questions.sort_by(|a, b| (a.right * b.put).cmp(&(b.right * a.put)));
    class
}

fn right(all: &[&Answered]) -> usize {
    all.iter().filter(|it| it.outcome == Outcome::Right).count()
}

/// The most frequent first, of as many the likelier to be learnt first.
fn mistakes(all: &[&Answered]) -> Vec<(MistakeKind, usize)> {
    let mut times: BTreeMap<MistakeKind, usize> = BTreeMap::new();
    for mistake in all.iter().filter_map(|it| it.mistake) {
        *times.entry(mistake).or_default() += 1;
    }
    let mut times: Vec<(MistakeKind, usize)> = times.into_iter().collect();
    times.sort_by_key(|(_, times)| std::cmp::Reverse(*times));
    times
}
