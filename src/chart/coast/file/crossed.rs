//! Rings that cross themselves.

use std::ops::ControlFlow;

use super::super::{AGAIN, Coast};
use crate::Point;
use crate::check::meetings;

/// Rings of a coast that cross themselves; they are measured as they are given.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crossed {
    /// How many rings do.
    pub rings: usize,
    /// Where the first of them first does, in metres on the plane.
    pub first: Point,
}

/// The rings that cross themselves, if there are any. A hundred thousand sides take some tens of
/// milliseconds.
#[must_use]
pub fn crossed(coast: &Coast) -> Option<Crossed> {
    let mut found: Option<Crossed> = None;
    let rings = coast.lines().filter(|line| line.is_closed() && line.feature() != AGAIN);
    for line in rings {
        let mut ring: Vec<Point> = line.points().collect();
        // A position that is repeated meets itself, and crosses nothing.
        ring.dedup();
        ring.pop();
        let mut at = None;
        meetings(&ring, &mut |meeting| {
            at = meeting.crosses.then_some(meeting.at);
            if meeting.crosses { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
        });
        if let Some(at) = at {
            let before = found.unwrap_or(Crossed { rings: 0, first: at });
            found = Some(Crossed { rings: before.rings + 1, ..before });
        }
    }
    found
}
