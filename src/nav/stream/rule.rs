//! Stations of which no more is known than the greatest rate each way and the times of the turn.

use jiff::{SignedDuration, Timestamp};

use super::run::{Knot, Run, vector};
use crate::triangle::Stream;
use crate::{Bearing, True};

/// How a stream grows and falls between two turns: rules of thumb. Common practice, no published source.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rule {
    /// After each sixth of the time 50, 90, 100, 90, 50 hundredths of the greatest rate.
    FiftyNinety,
    /// After each sixth of the time 1, 2, 3, 2, 1 thirds of the greatest rate.
    Thirds,
}

impl Rule {
    /// The parts of the greatest rate after each sixth of the time.
    const fn sixths(self) -> [f64; 6] {
        match self {
            Rule::FiftyNinety => [0.0, 0.5, 0.9, 1.0, 0.9, 0.5],
            Rule::Thirds => [0.0, 1.0 / 3.0, 2.0 / 3.0, 1.0, 2.0 / 3.0, 1.0 / 3.0],
        }
    }
}

/// A station of which the greatest rates are known, and when it turns after high water at a port.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GreatestRates {
    /// The stream that begins first after high water, at its greatest.
    pub first: Stream,
    /// When it begins, after high water; before it negative.
    pub first_begins: SignedDuration,
    /// The other stream at its greatest.
    pub second: Stream,
    /// When it begins, after the same high water and after the first.
    pub second_begins: SignedDuration,
    /// How it grows between the turns.
    pub rule: Rule,
}

impl GreatestRates {
    /// Its stream from the first turn after the first of these high waters to the last turn that they
    /// tell of. Rates are those given, on every day: where springs and neaps differ, give the day's.
    pub fn run(&self, high_waters: &[Timestamp]) -> Run {
        let once: Vec<(Timestamp, f64)> = high_waters.iter().map(|&at| (at, 1.0)).collect();
        self.run_scaled(&once)
    }

    /// The same where each high water has so many times the greatest rates, a plain number.
    pub fn run_scaled(&self, high_waters: &[(Timestamp, f64)]) -> Run {
        let seconds = |at: Timestamp| at.as_duration().as_secs_f64();
        let mut turns: Vec<(f64, f64, Bearing<True>)> = Vec::new();
        for &(water, times) in high_waters {
            for (begins, stream) in
                [(self.first_begins, self.first), (self.second_begins, self.second)]
            {
                let at = seconds(water) + begins.as_secs_f64();
                // Times that run into the tide before are left out.
                if turns.last().is_none_or(|last| at > last.0) {
                    let greatest = stream.drift.as_metres_per_second() * times.max(0.0);
                    turns.push((at, greatest, stream.set));
                }
            }
        }
        let mut knots = Vec::new();
        for pair in turns.windows(2) {
            let ((from, greatest, set), (to, ..)) = (pair[0], pair[1]);
            for (sixth, part) in self.rule.sixths().into_iter().enumerate() {
                let at = from + (to - from) * sixth as f64 / 6.0;
                knots.push(Knot { at, flow: vector(set, greatest * part) });
            }
        }
        knots.extend(turns.last().map(|&(at, ..)| Knot { at, flow: (0.0, 0.0) }));
        Run::new(knots)
    }
}
