//! Which mistake recurs in which skill.
//!
//! The last ten answers of a skill are looked at. A mistake recurs that was made three times or more in them and is at
//! least two thirds of what was wrong: who errs in one way makes the same mistake again, who is careless makes one here and
//! one there. Ten answers, so that a weakness is gone when it has not been seen for as long.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use jiff::Timestamp;

use super::{Answered, Outcome, Record};
use crate::{Kind, Mark, MistakeKind, Question, Reply, Skill};

/// How many answers of a skill are looked at.
const LAST: usize = 10;
/// How often a mistake is made that recurs.
const OFTEN: usize = 3;

/// A mistake that recurs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Weakness {
    /// In what.
    pub skill: Skill,
    /// Which mistake.
    pub mistake: MistakeKind,
    /// The kinds of exercise that it was made in.
    pub kinds: Vec<Kind>,
    /// How often it was made.
    pub times: usize,
    /// In how many answers, ten at most.
    pub answered: usize,
    /// When last.
    pub last: Timestamp,
}

/// The mistakes that recur, the most frequent first.
#[must_use]
pub fn weaknesses(record: &Record) -> Vec<Weakness> {
    recurring(&record.by_time())
}

/// The same of answers from the earliest.
pub(super) fn recurring(all: &[&Answered]) -> Vec<Weakness> {
    let mut found: Vec<Weakness> =
        Skill::ALL.iter().flat_map(|skill| of_skill(*skill, all)).collect();
    found.sort_by_key(|it| Reverse(it.times));
    found
}

impl Record {
    /// Marks an answer of the learner whose record this is: where several mistakes lead to it, it is told as the one that
    /// was made most often in the skill's last ten answers.
    #[must_use]
    pub fn mark(&self, question: &Question, reply: &Reply) -> Mark {
        let mut made: Vec<(MistakeKind, usize)> = Vec::new();
        let last = lately(question.kind.skill(), &self.by_time());
        for kind in last.iter().filter_map(|it| it.mistake) {
            match made.iter_mut().find(|it| it.0 == kind) {
                Some(it) => it.1 += 1,
                None => made.push((kind, 1)),
            }
        }
        made.sort_by_key(|it| Reverse(it.1));
        let made: Vec<MistakeKind> = made.into_iter().map(|it| it.0).collect();
        question.mark_knowing(reply, &made)
    }
}

/// The last ten answers of a skill, from the latest.
fn lately<'a>(skill: Skill, all: &[&'a Answered]) -> Vec<&'a Answered> {
    let of_skill = all.iter().rev().filter(|it| it.kind.skill() == skill);
    of_skill.filter(|it| it.outcome != Outcome::Passed).take(LAST).copied().collect()
}

fn of_skill(skill: Skill, all: &[&Answered]) -> Vec<Weakness> {
    let last = lately(skill, all);
    let wrong = last.iter().filter(|it| it.outcome == Outcome::Wrong).count();
    let mut made: BTreeMap<MistakeKind, Vec<&Answered>> = BTreeMap::new();
    for it in &last {
        if let Some(mistake) = it.mistake {
            made.entry(mistake).or_default().push(it);
        }
    }
    let recurs = made.into_iter().filter(|(_, of)| of.len() >= OFTEN && 3 * of.len() >= 2 * wrong);
    let weakness = |(mistake, of): (MistakeKind, Vec<&Answered>)| {
        let mut kinds: Vec<Kind> = of.iter().map(|it| it.kind).collect();
        kinds.sort();
        kinds.dedup();
        // From the latest: there are three or more.
        let latest = of.first()?.when;
        Some(Weakness {
            skill,
            mistake,
            kinds,
            times: of.len(),
            answered: last.len(),
            last: latest,
        })
    };
    recurs.filter_map(weakness).collect()
}
