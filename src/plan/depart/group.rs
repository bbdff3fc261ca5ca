//! Starts that follow one another and are refused, slow or held up alike.

use jiff::Timestamp;

use super::{Reason, Start, Verdict};

/// A run of starts of one verdict with reasons that are alike.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// The first start.
    pub from: Timestamp,
    /// The last.
    pub to: Timestamp,
    /// How many there are.
    pub count: usize,
    /// What is said of all of them.
    pub verdict: Verdict,
    /// Why, each reason with the worst figures of all.
    pub reasons: Vec<Reason>,
}

impl Group {
    /// The runs of a day, in order.
    pub(super) fn all(starts: &[Start]) -> Vec<Group> {
        let mut groups: Vec<Group> = Vec::new();
        for start in starts {
            match groups.last_mut() {
                Some(last) if last.takes(start) => last.add(start),
                _ => groups.push(Group {
                    from: start.at,
                    to: start.at,
                    count: 1,
                    verdict: start.verdict,
                    reasons: start.reasons.clone(),
                }),
            }
        }
        groups
    }

    fn takes(&self, start: &Start) -> bool {
        let alike = |(one, other): (&Reason, &Reason)| one.is_like(other);
        self.verdict == start.verdict
            && self.reasons.len() == start.reasons.len()
            && self.reasons.iter().zip(&start.reasons).all(alike)
    }

    fn add(&mut self, start: &Start) {
        self.to = start.at;
        self.count += 1;
        for (mine, other) in self.reasons.iter_mut().zip(&start.reasons) {
            *mine = mine.clone().worse(other.clone());
        }
    }

    /// Why, in words: with clock times of one start alone, with the worst figures of many.
    pub fn words(&self, zone: &jiff::tz::TimeZone) -> String {
        let words = |reason: &Reason| match self.count {
            1 => reason.words(zone),
            _ => reason.at_worst(),
        };
        self.reasons.iter().map(words).collect::<Vec<_>>().join("; ")
    }
}
