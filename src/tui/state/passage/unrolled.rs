//! The leg that is read, unrolled.

use std::sync::Arc;

use jiff::{SignedDuration, Timestamp};
use nav::Position;
use plan::Line;
use plan::unrolled::{Met, Unrolled};

/// What a leg unrolled was made of: its two ends, and its line if it is not straight.
pub(crate) type MadeOf = (Position, Position, Option<Line>);

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
    /// Why no stream is known at any of them.
    pub no_stream: &'static str,
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
