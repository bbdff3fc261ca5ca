//! A line laid along the shore by anchors.
//!
//! Two anchors on one line of shore are joined along it; everything else is joined straight. What
//! lies along the shore may be smoothed, as a paddler goes from headland to headland, and may keep
//! a distance off. [`lay`] lays a whole line at once; a [`Trace`] keeps what it has laid and lays
//! only what a change concerns, for a line that follows the cursor.
//!
//! **Smoothing.** The line is the shortest chain of chords from place to place of the shore, in
//! order, none longer than the step and none over land: inlets narrower than the step are cut
//! across, headlands are kept. The sides of the shore are always allowed, so a step of 0 is the
//! shore itself, and a longer step never makes a longer line.
//!
//! **Stand-off.** The line is the way of the middle of a disc that rolls along the shore. It is
//! never nearer to any shore than the stand-off, and lies at most [`SLACK`] farther off than it
//! could. It passes what the disc cannot enter: inlets, and straits between islands, round whose
//! outside it goes. Where an anchor lies in a place that the disc cannot reach, a harbour with a
//! narrow mouth, the line keeps to the shore until it is out, and says so ([`Offing::narrow`]).
//! The line begins and ends on the beach: see [`Kind::Stub`].
//!
//! Lengths asked for are **ground metres**. They are turned into the metres of the coast's plane
//! by the scale of its grid at the place.

mod along;
mod berth;
mod keep;
mod legs;
mod near;
mod offing;
mod roll;
mod scale;
mod section;
mod straight;
mod taut;
mod untangle;

#[cfg(test)]
mod tests;

use std::ops::{ControlFlow, Range};

use crate::Point;
use crate::coast::{Coast, LineId, ShorePoint, Touch};

pub use legs::Trace;

/// The shortest stand-off that is one, in ground metres.
pub const LEAST_STAND_OFF: f64 = 1.0;

/// The longest stand-off, in ground metres.
pub const MOST_STAND_OFF: f64 = 2_000.0;

/// The longest smoothing step, in ground metres.
pub const MOST_STEP: f64 = 20_000.0;

/// How much farther off than asked a line at a stand-off may lie, as a part of the stand-off.
pub const SLACK: f64 = 0.01;

/// A place that the line is laid through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Anchor {
    /// A place on the shore.
    Shore(ShorePoint),
    /// A place anywhere.
    Free(Point),
}

impl Anchor {
    /// Where it lies.
    #[must_use]
    pub fn at(&self) -> Point {
        match self {
            Anchor::Shore(place) => place.at,
            Anchor::Free(point) => *point,
        }
    }
}

/// Which way round a line of shore leads from one anchor to the next.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Way {
    /// The way that is shorter on the ground, along the shore.
    #[default]
    Shorter,
    /// The other one. From a place to itself it is once round. A line that is open at its ends
    /// has no other way.
    Longer,
}

impl Way {
    /// The other way.
    #[must_use]
    pub fn other(self) -> Way {
        match self {
            Way::Shorter => Way::Longer,
            Way::Longer => Way::Shorter,
        }
    }
}

/// A hand, as one travels.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hand {
    /// The left hand.
    Left,
    /// The right hand.
    Right,
}

/// How a line along the shore is wished for.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Wishes {
    /// How far off the line keeps, in ground metres: [`LEAST_STAND_OFF`] to [`MOST_STAND_OFF`], or
    /// 0, which is the shore.
    pub stand_off: f64,
    /// The longest chord of the smoothed line, in ground metres, 0 to [`MOST_STEP`]; 0 is every
    /// vertex.
    pub step: f64,
}

impl Wishes {
    /// # Errors
    /// [`TraceError`] when a length is out of its bounds, or no number.
    fn check(&self) -> Result<(), TraceError> {
        let off = self.stand_off;
        if off != 0.0 && !(LEAST_STAND_OFF..=MOST_STAND_OFF).contains(&off) {
            return Err(TraceError::StandOff(self.stand_off));
        }
        if !(0.0..=MOST_STEP).contains(&self.step) {
            return Err(TraceError::Step(self.step));
        }
        Ok(())
    }
}

/// A line that was laid.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Laid {
    /// Its points, on the plane of the coast's grid.
    pub points: Vec<Point>,
    /// What it is made of, in order.
    pub pieces: Vec<Piece>,
}

/// A piece of a line.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// Its points, both ends included: the last of one piece is the first of the next.
    pub range: Range<usize>,
    /// The number of the anchor that it leads to; of the stub at the start, 0.
    pub anchor: usize,
    /// What it is.
    pub kind: Kind,
}

/// What a piece of a line is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Kind {
    /// Along the shore.
    Along {
        /// The line of shore.
        line: LineId,
        /// The way that was taken: which of the two lengths it has.
        way: Way,
        /// The hand on which the shore's land lies. An open line is taken to have its land on the
        /// left hand as its vertices follow each other, as rings have it.
        land: Hand,
        /// Whether it leads once round and back to where it began.
        round: bool,
        /// How the stand-off was kept; nothing without one.
        off: Option<Offing>,
    },
    /// A straight piece.
    Straight {
        /// Where it first touches land, other than at an anchor that lies on the shore.
        touch: Option<Touch>,
        /// Whether any of it lies on land.
        ashore: bool,
    },
    /// Between the anchor on the shore at which the line begins or ends, and the place off it
    /// where the line keeps its distance.
    Stub,
}

/// How a piece at a stand-off lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Offing {
    /// Whether some of it is nearer to the shore than the stand-off, because there is no room: it
    /// keeps to the shore there.
    pub narrow: bool,
    /// Whether it goes round land that is not of its own line.
    pub others: bool,
}

/// Why no line was laid.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum TraceError {
    /// The stand-off is out of bounds.
    #[error("a stand-off of {0} m; it is 0, or {LEAST_STAND_OFF} to {MOST_STAND_OFF} m")]
    StandOff(f64),
    /// The smoothing step is out of bounds.
    #[error("a smoothing step of {0} m; it is 0 to {MOST_STEP} m")]
    Step(f64),
    /// An anchor is on a line that the coast does not have.
    #[error("line {0} of a shore that has {1} lines")]
    NoSuchLine(u32, usize),
    /// An anchor is no point.
    #[error("an anchor at {0}, {1}, which is no point")]
    NoPoint(f64, f64),
    /// There is no anchor of that number.
    #[error("anchor {0} of a line that has {1} anchors")]
    NoSuchAnchor(usize, usize),
    /// The work was called off.
    #[error("called off")]
    CalledOff,
}

/// Asked now and then during long work; it calls the work off by [`ControlFlow::Break`].
pub type Watch<'a> = &'a dyn Fn() -> ControlFlow<()>;

/// A watch that never calls the work off.
pub fn patient() -> ControlFlow<()> {
    ControlFlow::Continue(())
}

/// Lays a line by anchors; each [`Way`] is that of the piece which ends at its anchor, that of the
/// first anchor means nothing.
///
/// # Errors
/// [`TraceError`] when a wish or an anchor is out of bounds, or `watch` called the work off.
pub fn lay(
    coast: &Coast,
    anchors: &[(Anchor, Way)],
    wishes: Wishes,
    watch: Watch<'_>,
) -> Result<Laid, TraceError> {
    let mut trace = Trace::new(wishes)?;
    for (anchor, way) in anchors {
        trace.push(coast, *anchor, *way, watch)?;
    }
    Ok(trace.into_laid())
}
