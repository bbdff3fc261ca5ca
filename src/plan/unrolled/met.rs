//! The stream as a boat on its track meets it.

use nav::passage::SLACK;
use nav::triangle::Stream;
use nav::{Bearing, True};

/// A stream, and the track that it is met on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Met {
    /// The stream.
    pub stream: Stream,
    /// The direction of the leg.
    pub track: Bearing<True>,
}

/// How a stream runs, seen from a boat that goes along its track.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// Less than [`SLACK`], however it runs.
    Slack,
    /// More along the track than across it.
    With,
    /// More against the track than across it.
    Against,
    /// More across, to the left hand.
    ToPort,
    /// More across, to the right hand.
    ToStarboard,
}

impl Met {
    /// The part along the track in knots; negative where it runs against.
    pub fn with_knots(&self) -> f64 {
        self.stream.drift.as_knots() * self.angle().cos()
    }

    /// The part across the track in knots, positive to the right hand.
    pub fn across_knots(&self) -> f64 {
        self.stream.drift.as_knots() * self.angle().sin()
    }

    /// How it runs.
    pub fn way(&self) -> Way {
        let (with, across) = (self.with_knots(), self.across_knots());
        if self.stream.drift < SLACK {
            Way::Slack
        } else if with.abs() >= across.abs() {
            if with > 0.0 { Way::With } else { Way::Against }
        } else if across > 0.0 {
            Way::ToStarboard
        } else {
            Way::ToPort
        }
    }

    /// The set, counted clockwise from the track, in radians.
    fn angle(&self) -> f64 {
        (self.stream.set.as_degrees() - self.track.as_degrees()).to_radians()
    }
}
