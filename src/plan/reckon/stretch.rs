//! The main stretches of a line: what a card has room for.

use nav::magnetic::VariationAt;
use nav::{Convergence, GridError, Length, Position};

use super::leg::Held;
use super::{Bearings, Frame};
use crate::along::Part;

/// A main stretch of a traced leg: between its ends the line may bend, but not far.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch {
    /// Where it starts, a point of the line.
    pub from: Position,
    /// Where it ends, a point of the line.
    pub to: Position,
    /// The length of the line between the two.
    pub distance: Length,
    /// The bearings from the one end to the other; nothing where they are one point.
    pub bearings: Option<Bearings>,
    /// Grid north from true north at the middle between the ends, or why the grid does not reach there.
    pub convergence: Result<Convergence, GridError>,
    /// Magnetic north from true north there, where a date is known.
    pub variation: Option<VariationAt>,
    /// How far the line strays from the stretch, to about one part in a hundred.
    pub strays: Length,
}

impl Stretch {
    pub(super) fn new(part: &Part, frame: &Frame<'_>) -> Stretch {
        let Part { from, to, length, strays } = *part;
        let Held { distance: _, bearings, convergence, variation } = Held::new(from, to, frame);
        Stretch { from, to, distance: length, bearings, convergence, variation, strays }
    }
}
