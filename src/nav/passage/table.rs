//! Many departures of one line: its ground speeds in a table, made once.

use std::ops::Range;

use jiff::Timestamp;

use super::Stretch;
use super::boat::Boat;
use super::hold::{Halt, walk};
use super::sums::Times;
use crate::Speed;

/// The speeds along each stretch of a line over a stretch of time, for many departures.
#[derive(Debug, Clone)]
pub struct Table<'a> {
    stretches: Vec<Stretch<'a>>,
    boat: Boat,
}

/// A passage as the table has it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Swift {
    /// When it arrives.
    pub arrives: Timestamp,
    /// The time by what the stream did.
    pub times: Times,
    /// The fastest that the stream ran.
    pub greatest: Speed,
}

impl<'a> Table<'a> {
    /// The table of a line for passages that begin and end between two instants. Those that go on
    /// beyond are walked.
    pub fn new(
        stretches: Vec<Stretch<'a>>,
        boat: Boat,
        _from: Timestamp,
        _to: Timestamp,
    ) -> Table<'a> {
        Table { stretches, boat }
    }

    /// The passage along the stretches of a range, counted from 0, that leaves at an instant.
    ///
    /// # Errors
    /// [`Halt`] where the boat makes no way, its stretch counted from the beginning of the whole line.
    pub fn walk(&self, range: Range<usize>, departs: Timestamp) -> Result<Swift, Halt> {
        let first = range.start;
        let part = self.stretches.get(range).unwrap_or_default();
        let walk = walk(part, self.boat, departs);
        match walk.halt {
            Some(halt) => Err(Halt { stretch: first + halt.stretch, ..halt }),
            None => {
                let sums = walk.sums();
                Ok(Swift {
                    arrives: walk.arrives().unwrap_or(departs),
                    times: sums.times,
                    greatest: sums
                        .greatest
                        .map_or(Speed::metres_per_second(0.0), |greatest| greatest.stream.drift),
                })
            }
        }
    }
}
