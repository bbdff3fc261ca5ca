//! The leg that is read, unrolled.

use std::sync::Arc;

use chart::water::RaceState;
use jiff::{SignedDuration, Timestamp};
use nav::{Length, Position};
use plan::Line;
use plan::unrolled::{Met, Unrolled};

/// What a leg unrolled was made of.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct MadeOf {
    pub(crate) begins: Position,
    pub(crate) ends: Position,
    /// Its line, if it is not straight.
    pub(crate) line: Option<Line>,
    /// What lies between its ends of its track on one heading.
    pub(crate) track: Vec<Position>,
}

/// A race on the leg, and what it does when the group is there.
#[derive(Debug, Clone, PartialEq)]
pub struct RacePassed {
    /// Its name.
    pub name: String,
    /// Where along the leg it begins.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
    /// The worst state that it is in meanwhile; nothing where that is not known.
    pub state: Option<RaceState>,
}

/// A gate on the leg, and whether it is open when the group is there.
#[derive(Debug, Clone, PartialEq)]
pub struct GatePassed {
    /// Its name.
    pub name: String,
    /// Where along the leg it is.
    pub along: Length,
    /// Whether it is open; nothing where that is not known.
    pub open: Option<bool>,
}

/// The leg that is read, unrolled, with when the group passes each place of it and how the stream
/// meets it then.
#[derive(Debug, Clone, PartialEq)]
pub struct UnrolledLeg {
    /// The waypoint that it begins at, from zero.
    pub from: usize,
    /// The waypoint that it ends at; without one it ends at the cursor.
    pub to: Option<usize>,
    /// What lies along it.
    pub line: Arc<Unrolled>,
    /// When each place is passed; nothing where the route has no departure.
    pub times: Vec<Option<Timestamp>>,
    /// How the stream meets the group at each place.
    pub met: Vec<Option<Met>>,
    /// The races that it lies in, in order.
    pub races: Vec<RacePassed>,
    /// The gates that it crosses, in order.
    pub gates: Vec<GatePassed>,
    pub(crate) made_of: MadeOf,
}

impl UnrolledLeg {
    /// What it is called.
    pub fn name(&self) -> String {
        match self.to {
            Some(to) => format!("Leg {to}"),
            None => "To cursor".to_owned(),
        }
    }

    /// How long it takes.
    pub fn time(&self) -> Option<SignedDuration> {
        let (first, last) = (self.times.first()?.as_ref()?, self.times.last()?.as_ref()?);
        Some(last.duration_since(*first))
    }
}
