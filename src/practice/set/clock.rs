//! A timed set: how long it took, and what came after the time.

use super::Set;
use crate::memory::{Answered, Outcome};

/// How long the answers of a timed set took.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Clocked {
    /// How many minutes are allowed.
    pub allowed: u16,
    /// How many seconds all answers took; breaks between them are not counted.
    pub seconds: u32,
    /// How many answers came after the time.
    pub late: usize,
    /// How many of these were right.
    pub late_right: usize,
}

impl Clocked {
    /// The time of these answers, in the order in which they were given; nothing of a set without a limit.
    #[must_use]
    pub fn of(set: &Set, answered: &[Answered]) -> Option<Clocked> {
        let allowed = set.minutes?;
        let mut clocked = Clocked { allowed, seconds: 0, late: 0, late_right: 0 };
        for it in answered {
            clocked.seconds = clocked.seconds.saturating_add(it.seconds);
            let late = clocked.seconds > 60 * u32::from(allowed) && it.outcome != Outcome::Passed;
            clocked.late += usize::from(late);
            clocked.late_right += usize::from(late && it.outcome == Outcome::Right);
        }
        Some(clocked)
    }

    /// In sentences: `It took 43:10 min, and 40 min are allowed. 3 answers came after the time, 2 of them right.`
    #[must_use]
    pub fn told(&self) -> String {
        let (minutes, seconds, allowed) = (self.seconds / 60, self.seconds % 60, self.allowed);
        if self.seconds <= 60 * u32::from(allowed) {
            return format!("It took {minutes}:{seconds:02} of {allowed} min.");
        }
        let late = match (self.late, self.late_right) {
            (0, _) => "No answer came after the time.".to_owned(),
            (1, 0) => "1 answer came after the time; it was not right.".to_owned(),
            (1, _) => "1 answer came after the time; it was right.".to_owned(),
            (late, right) => format!("{late} answers came after the time, {right} of them right."),
        };
        format!("It took {minutes}:{seconds:02} min, and {allowed} min are allowed. {late}")
    }
}
