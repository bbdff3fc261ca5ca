//! What is read of a traced leg.

use nav::Length;

use super::{Frame, Stretch};
use crate::along::Measured;

/// What is read of a leg along a shore, besides its length and time.
#[derive(Debug, Clone, PartialEq)]
pub struct Traced {
    /// The shortest line between its ends.
    pub straight: Length,
    /// The few stretches that it comes down to, one at least, six at most: the line is parted where
    /// it strays farthest from its stretch, until it strays nowhere by more than a fortieth of its
    /// own extent, the diagonal of the box that holds it.
    pub stretches: Vec<Stretch>,
}

impl Traced {
    /// The stretch that it sets out on.
    pub fn first(&self) -> Option<&Stretch> {
        self.stretches.first()
    }

    /// The stretch that it comes in on.
    pub fn last(&self) -> Option<&Stretch> {
        self.stretches.last()
    }

    pub(super) fn new(measured: &Measured, frame: &Frame<'_>) -> Traced {
        let stretches = measured.parts.iter().map(|part| Stretch::new(part, frame));
        Traced { straight: measured.straight, stretches: stretches.collect() }
    }
}
