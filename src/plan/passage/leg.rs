//! A leg of a passage.

use std::sync::Arc;

use chart::water::RaceState;
use jiff::{SignedDuration, Timestamp};
use nav::passage::Sums;
use nav::{Bearing, Length, Magnetic, Speed, True};

use super::Mark;

/// A leg of a passage that is made.
#[derive(Debug, Clone, PartialEq)]
pub struct LegPassage {
    /// How long the group waits before it, after its stop.
    pub waited: SignedDuration,
    /// What for, if it waits.
    pub waited_for: Option<WaitFor>,
    /// When it sets out, stop and wait over.
    pub departs: Timestamp,
    /// When it gets to the leg's end.
    pub arrives: Timestamp,
    /// The length of the leg.
    pub distance: Length,
    /// What to steer; nothing on a leg without length.
    pub headings: Option<Headings>,
    /// The time with, against and across the stream, what is known of it, its mean, and its greatest
    /// rate.
    pub sums: Sums,
    /// The races that it goes through, in order.
    pub races: Vec<RaceMet>,
    /// The gates that it passes, in order.
    pub gates: Vec<GatePassed>,
    /// Where the group is, and when: from the leg's start to its end, on a crossing along the curve of
    /// its track.
    pub way: Vec<Mark>,
    /// The farthest that a crossing on one heading goes off its line, to the right of it, to the left
    /// negative; nothing of a leg that holds its line.
    pub off_line: Option<Length>,
}

impl LegPassage {
    /// The time under way.
    pub fn time(&self) -> SignedDuration {
        self.arrives.duration_since(self.departs)
    }

    /// The mean speed along the line; nothing of a leg that takes no time.
    pub fn ground_speed(&self) -> Option<Speed> {
        let seconds = self.time().as_secs_f64();
        Speed::from_metres_per_second(self.distance.as_metres() / seconds).ok()
    }
}

/// What is waited for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum WaitFor {
    /// A stream in which the boat makes way.
    Stream,
    /// A gate to open, by its name.
    Gate(Arc<str>),
}

/// A direction to steer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heading {
    /// From true north.
    pub from_true: Bearing<True>,
    /// From magnetic north, by the variation at the leg's middle.
    pub from_magnetic: Bearing<Magnetic>,
}

/// What to steer on a leg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Headings {
    /// The mean over the leg's time: the one heading of a crossing. None on a traced leg, whose line
    /// bends.
    pub mean: Option<Heading>,
    /// Where it sets out.
    pub first: Heading,
    /// Where it comes in.
    pub last: Heading,
}

/// A race on the way.
#[derive(Debug, Clone, PartialEq)]
pub struct RaceMet {
    /// Its name.
    pub name: Arc<str>,
    /// Its number among the chart's.
    pub race: usize,
    /// When the group comes into it.
    pub from: Timestamp,
    /// When it leaves it.
    pub to: Timestamp,
    /// The worst state that it is in meanwhile; nothing where the chart does not say when it runs.
    pub state: Option<RaceState>,
}

/// A gate on the way.
#[derive(Debug, Clone, PartialEq)]
pub struct GatePassed {
    /// Its name.
    pub name: Arc<str>,
    /// Its number among the chart's.
    pub gate: usize,
    /// When the group comes to it.
    pub at: Timestamp,
    /// Whether it is open then; nothing where that is not known.
    pub open: Option<bool>,
}
