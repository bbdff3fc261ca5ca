//! A series of questions: kinds by turns, none asked twice while there are others.

use std::collections::HashSet;

use crate::{Ground, Kind, Level, Question, ask, kind_of, seed_of};

/// How many questions are thrown for each that is wanted: a chart may have no other, or not this one.
const TRIES: usize = 4;

/// What a series follows from, beside the chart.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Series<'a> {
    pub(crate) kinds: &'a [Kind],
    pub(crate) level: Level,
    pub(crate) seed: u64,
    pub(crate) count: usize,
}

impl Series<'_> {
    /// Its first so many questions, fewer where the chart has no more; the kinds that it has not are left out. Those whose words were
    /// asked before come last, and only where there are too few others. What is asked here counts as asked.
    pub(crate) fn first(
        &self,
        many: usize,
        ground: &Ground<'_>,
        asked: &mut HashSet<String>,
    ) -> Vec<Question> {
        let many = many.min(self.count);
        let (mut fresh, mut again) = (Vec::new(), Vec::new());
        for number in 0..self.count * TRIES + Kind::ALL.len() {
            if fresh.len() == many {
                break;
            }
            let seed = seed_of(self.seed, number as u64);
            let thrown = kind_of(self.kinds, self.seed, number)
                .and_then(|kind| ask(kind, ground, seed, self.level));
            let Some(question) = thrown else { continue };
            let is_new = asked.insert(question.text.clone());
            if is_new { &mut fresh } else { &mut again }.push(question);
        }
        let missing = many - fresh.len();
        fresh.extend(again.into_iter().take(missing));
        fresh
    }
}
