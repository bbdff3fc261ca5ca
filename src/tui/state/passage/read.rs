//! Which leg is read.

use crate::state::{Chosen, Hand, State};

/// A leg that is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Of {
    /// The one that the pencil would draw from this waypoint to the cursor.
    Pencil(usize),
    /// This one of the route.
    Leg(usize),
}

impl State {
    /// The leg that is read: with the pencil in hand the one that it would draw; else the one chosen,
    /// or the one to the cursor from the waypoint chosen or the last. While the cursor is still on
    /// the waypoint that the leg would begin at, the leg that ends there is read.
    pub fn read_leg(&self) -> Option<Of> {
        let points = &self.document.route().points;
        let legs = points.len().checked_sub(1)?;
        if let Some(carried) = self.hand.carried() {
            return (legs > 0).then(|| Of::Leg(carried.saturating_sub(1).min(legs - 1)));
        }
        if let (Hand::Look, Some(Chosen::Leg(index))) = (self.hand, self.chosen)
            && index < legs
        {
            return Some(Of::Leg(index));
        }
        let from = self.pencil_from()?;
        let begins = points.get(from)?.at;
        let still_there = self.position().is_none_or(|at| plan::rounded(at) == begins);
        match from.checked_sub(1) {
            Some(leg) if still_there => Some(Of::Leg(leg)),
            None if still_there => None,
            _ => Some(Of::Pencil(from)),
        }
    }
}
