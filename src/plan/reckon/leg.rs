//! One leg.

use jiff::SignedDuration;
use nav::magnetic::VariationAt;
use nav::{
    Bearing, Convergence, Grid, GridError, GridNorth, Length, Magnetic, Position, True, Variation,
    geodesic, rhumb,
};

use super::{Frame, Traced};
use crate::Along;

/// The readings of a leg.
#[derive(Debug, Clone, PartialEq)]
pub struct LegReading {
    /// Where it starts.
    pub from: Position,
    /// Where it ends.
    pub to: Position,
    /// Its length on the WGS 84 ellipsoid: along the rhumb line, or along the line of a traced leg,
    /// each side of it a geodesic.
    pub distance: Length,
    /// Its bearings; nothing where the two ends are one point, nor for a traced leg, which holds no
    /// one bearing: its stretches have theirs.
    pub bearings: Option<Bearings>,
    /// Grid north from true north at its middle, on a traced leg that of its middle stretch, or why the grid does not reach there.
    pub convergence: Result<Convergence, GridError>,
    /// Magnetic north from true north there, where a date is known.
    pub variation: Option<VariationAt>,
    /// The time that it takes at the frame's pace, its rests included.
    pub time: Option<SignedDuration>,
    /// What else is read of a traced leg; nothing of a straight one.
    pub along: Option<Traced>,
}

/// One direction counted from each north.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bearings {
    /// From true north.
    pub from_true: Bearing<True>,
    /// From the grid's north, where the grid reaches.
    pub from_grid: Option<Bearing<GridNorth>>,
    /// From magnetic north, where the variation is known.
    pub from_magnetic: Option<Bearing<Magnetic>>,
}

impl Bearings {
    fn new(
        from_true: Bearing<True>,
        convergence: Option<Convergence>,
        variation: Option<Variation>,
    ) -> Bearings {
        Bearings {
            from_true,
            from_grid: convergence.map(|angle| from_true.to_grid(angle)),
            from_magnetic: variation.map(|angle| from_true.to_magnetic(angle)),
        }
    }

    /// The bearings back.
    #[must_use]
    pub fn back(self) -> Bearings {
        Bearings {
            from_true: self.from_true.back(),
            from_grid: self.from_grid.map(Bearing::back),
            from_magnetic: self.from_magnetic.map(Bearing::back),
        }
    }
}

/// What holding one bearing from one point to another comes to.
pub(super) struct Held {
    pub(super) distance: Length,
    pub(super) bearings: Option<Bearings>,
    pub(super) convergence: Result<Convergence, GridError>,
    pub(super) variation: Option<VariationAt>,
}

impl Held {
    pub(super) fn new(from: Position, to: Position, frame: &Frame<'_>) -> Held {
        // A line and its reverse are reckoned from the same end, so that they agree to the last bit.
        if starts_second(from, to) {
            let there = Held::forth(to, from, frame);
            return Held { bearings: there.bearings.map(Bearings::back), ..there };
        }
        Held::forth(from, to, frame)
    }

    fn forth(from: Position, to: Position, frame: &Frame<'_>) -> Held {
        let line @ rhumb::Line { distance, bearing } = rhumb::inverse(from, to);
        let middle = halfway(from, line);
        let convergence = convergence(frame.grid, middle);
        let variation = frame.date.map(|date| frame.variation.at(middle, date));
        let known = (convergence.clone().ok(), variation.as_ref().map(|at| at.variation));
        let bearings = (distance > Length::ZERO).then(|| Bearings::new(bearing, known.0, known.1));
        Held { distance, bearings, convergence, variation }
    }
}

impl LegReading {
    /// The leg that runs so.
    pub(super) fn to(
        from: Position,
        to: Position,
        along: Option<&Along>,
        frame: &Frame<'_>,
    ) -> LegReading {
        match along {
            Some(along) => LegReading::traced(from, to, along, frame),
            None => LegReading::straight(from, to, frame),
        }
    }

    fn straight(from: Position, to: Position, frame: &Frame<'_>) -> LegReading {
        let Held { distance, bearings, convergence, variation } = Held::new(from, to, frame);
        let time = frame.pace.time_for(distance);
        LegReading { from, to, distance, bearings, convergence, variation, time, along: None }
    }

    fn traced(from: Position, to: Position, along: &Along, frame: &Frame<'_>) -> LegReading {
        let measured = along.measured(from, to);
        let traced = Traced::new(&measured, frame);
        let middle = traced.stretches.get(measured.middle);
        LegReading {
            from,
            to,
            distance: measured.length,
            bearings: None,
            convergence: match middle {
                Some(middle) => middle.convergence.clone(),
                None => convergence(frame.grid, from),
            },
            variation: middle.and_then(|middle| middle.variation.clone()),
            time: frame.pace.time_for(measured.length),
            along: Some(traced),
        }
    }

    /// How many times longer a traced leg is than the shortest line between its ends: its
    /// indentation. Nothing for a straight leg, nor where the ends are one point.
    #[must_use]
    pub fn times_longer(&self) -> Option<f64> {
        let straight = self.along.as_ref()?.straight;
        (straight > Length::ZERO).then(|| self.distance / straight)
    }

    /// The shortest line between the ends, for comparison: its bearing changes on the way.
    #[must_use]
    pub fn geodesic(&self) -> geodesic::Inverse {
        geodesic::inverse(self.from, self.to)
    }
}

/// The middle of a straight leg, the same whichever way it runs: where its variation is taken.
pub(crate) fn middle(from: Position, to: Position) -> Position {
    let (from, to) = if starts_second(from, to) { (to, from) } else { (from, to) };
    halfway(from, rhumb::inverse(from, to))
}

fn halfway(from: Position, rhumb::Line { distance, bearing }: rhumb::Line) -> Position {
    // Half of a line that does not leave the Earth ends on it.
    rhumb::direct(from, bearing, distance / 2.0).unwrap_or(from)
}

fn convergence(grid: &Grid, at: Position) -> Result<Convergence, GridError> {
    grid.forward(at).map(|there| there.convergence)
}

/// Whether the leg is reckoned from its other end: from the southern, then the western.
fn starts_second(from: Position, to: Position) -> bool {
    let order = |at: Position| (at.lat.as_degrees(), at.lon.as_degrees());
    order(to) < order(from)
}
