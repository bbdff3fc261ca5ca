//! A disc that rolls along the shore, with the land on its left hand.
//!
//! Its middle goes along the edge of everything that is nearer to the shore than its radius: past
//! sides in straight lines, round vertices in arcs. Where it meets other shore on its way it rolls
//! on along that. Each step looks only at the shore within reach of the disc, so that the work
//! grows with the way and not with the coast.
//!
//! The radius may change from vertex to vertex, as a grid's scale does: a side and the land next to
//! it is then kept off by the outline round two discs of different sizes, one at each end.

mod outline;
mod step;

use super::near::Near;
use super::scale::Scale;
use crate::Point;
use crate::coast::LineId;

pub(super) use outline::{Outline, clearance, foot};
pub(super) use step::norm;

/// Lengths below this are rounding, in grid metres: places on the plane are good to 1e-8.
const TINY: f64 = 1e-6;

/// The disc and the shore that it rolls along.
#[derive(Debug)]
pub(super) struct Disc<'a> {
    pub(super) near: &'a Near<'a>,
    pub(super) scale: &'a Scale<'a>,
    /// In ground metres.
    pub(super) radius: f64,
}

/// What the disc rolls past.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Past {
    /// A side, from one end to the other with the land on the left hand.
    Side([Point; 2]),
    /// A vertex.
    Vertex(Point),
}

/// A place of the disc: it touches what it rolls past, and nothing is nearer to its middle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Spot {
    pub(super) past: Past,
    /// The line that it touches.
    pub(super) line: LineId,
    /// Its middle.
    pub(super) at: Point,
}

/// A stretch of its way, past one side or vertex.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stretch {
    pub(super) from: Spot,
    pub(super) to: Point,
    /// By how much it turns to the left round a vertex, in radians.
    pub(super) turn: f64,
}

impl Disc<'_> {
    /// Its radius near a point, in grid metres.
    pub(super) fn radius_at(&self, point: Point) -> f64 {
        self.radius * self.scale.at(point)
    }

    /// The outline that it keeps off a side, from one end to the other.
    pub(super) fn outline(&self, ends: [Point; 2]) -> Outline {
        Outline::new(ends, ends.map(|end| self.radius_at(end)))
    }

    /// How far from its middle shore can lie that matters, with room for the scale to change.
    pub(super) fn reach(&self, point: Point) -> f64 {
        self.radius_at(point) * 1.01 + TINY
    }
}

impl Stretch {
    /// Its length.
    pub(super) fn length(&self) -> f64 {
        let at = self.from.at;
        match self.from.past {
            Past::Side(_) => (self.to.x - at.x).hypot(self.to.y - at.y),
            Past::Vertex(v) => (at.x - v.x).hypot(at.y - v.y) * self.turn,
        }
    }

    /// Whether it leads through a spot, and then how far along, in radians or metres.
    pub(super) fn passes(&self, spot: &Spot) -> Option<f64> {
        let from = self.from.at;
        match (self.from.past, spot.past) {
            (Past::Side(a), Past::Side(b)) if a == b => {
                let (whole, part) = (self.to - from, spot.at - from);
                let length = whole.x.hypot(whole.y);
                let along = if length > 0.0 {
                    (whole.x * part.x + whole.y * part.y) / length
                } else {
                    part.x.hypot(part.y)
                };
                (-TINY..=length + TINY).contains(&along).then_some(along.max(0.0))
            }
            (Past::Vertex(a), Past::Vertex(b)) if a == b => {
                let radius = (from.x - a.x).hypot(from.y - a.y);
                let along = norm(angle(spot.at - a) - angle(from - a), TINY / radius);
                (along <= self.turn + TINY / radius).then_some(along)
            }
            _ => None,
        }
    }

    /// The part of it up to a spot that it passes `along`.
    pub(super) fn until(&self, spot: &Spot, along: f64) -> Stretch {
        let turn = if matches!(self.from.past, Past::Vertex(_)) { along } else { 0.0 };
        Stretch { from: self.from, to: spot.at, turn }
    }
}

pub(super) fn angle(v: Point) -> f64 {
    v.y.atan2(v.x)
}
