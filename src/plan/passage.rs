//! A passage: a course in time, leg by leg through the stream as it is while the group is there.
//!
//! The group holds the line of each leg, or steers one heading on a crossing; it rests as its pace has
//! it, drifting; it stays at its points, and waits at a point if it cannot make the leg from there on:
//! for the stream, or for a gate on the leg. It never waits on the way.

mod halt;
mod leg;
mod place;
mod walk;
mod warning;

#[cfg(test)]
pub(crate) mod tests;

pub use halt::{HaltWhy, Halted};
pub use leg::{GatePassed, Heading, Headings, LegPassage, RaceMet, WaitFor};
pub use place::Mark;
pub use warning::PassageWarning;

use jiff::{SignedDuration, Timestamp};
use nav::passage::Sums;

/// A passage as far as it can be made.
#[derive(Debug, Clone, PartialEq)]
pub struct Passage {
    /// When the group leaves the first point, waits there not counted: those come after.
    pub departs: Timestamp,
    /// The legs that are made, in order.
    pub legs: Vec<LegPassage>,
    /// Where it comes to nothing; nothing of one that arrives. What comes after it is not known.
    pub halt: Option<Halted>,
    /// What the reader should know.
    pub warnings: Vec<PassageWarning>,
}

impl Passage {
    /// When it arrives; nothing of one that halts.
    pub fn arrives(&self) -> Option<Timestamp> {
        self.halt.is_none().then(|| self.ends())
    }

    /// When the last leg that is made ends.
    pub fn ends(&self) -> Timestamp {
        self.legs.last().map_or(self.departs, |leg| leg.arrives)
    }

    /// The time from first to last, stops and waits included; nothing of one that halts.
    pub fn time(&self) -> Option<SignedDuration> {
        Some(self.arrives()?.duration_since(self.departs))
    }

    /// The time under way, stops and waits not included.
    pub fn under_way(&self) -> SignedDuration {
        self.legs.iter().fold(SignedDuration::ZERO, |all, leg| all + leg.time())
    }

    /// All waits together.
    pub fn waited(&self) -> SignedDuration {
        self.legs.iter().fold(SignedDuration::ZERO, |all, leg| all + leg.waited)
    }

    /// What there was on all legs that are made.
    pub fn sums(&self) -> Sums {
        self.legs.iter().map(|leg| leg.sums).sum()
    }
}
