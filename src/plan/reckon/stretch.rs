//! The main stretches of a line: what a card has room for.

use nav::magnetic::VariationAt;
use nav::{Convergence, GridError, Length, Position};

use super::Bearings;
use crate::along::{Flat, beside};

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

/// The most stretches that a leg is read in.
const MOST: usize = 6;
/// The line may stray from a stretch by this part of its own extent.
const STRAYS: f64 = 1.0 / 40.0;

/// A part of a line between two of its vertices, and the vertex between that is farthest off.
#[derive(Debug, Clone, Copy)]
pub(super) struct Part {
    pub(super) from: usize,
    pub(super) to: usize,
    farthest: usize,
    /// The square of how far off it is, in degrees of latitude.
    square: f64,
}

impl Part {
    fn new(points: &[(f64, f64)], from: usize, to: usize) -> Part {
        let mut part = Part { from, to, farthest: from, square: 0.0 };
        let (Some(&start), Some(&end)) = (points.get(from), points.get(to)) else { return part };
        for (index, &point) in points.iter().enumerate().take(to).skip(from + 1) {
            let (_, square) = beside((start, end), point);
            if square > part.square {
                (part.farthest, part.square) = (index, square);
            }
        }
        part
    }

    /// How far the line strays from this part, in degrees of latitude.
    pub(super) fn strays(&self) -> f64 {
        self.square.sqrt()
    }
}

/// The main parts of a line: it is parted at the vertex that strays farthest, again and again
/// (Douglas and Peucker's rule, the worst part first), until it strays nowhere by more than a
/// fortieth of its own extent, or there are six.
pub(super) fn parts(flat: &Flat) -> Vec<Part> {
    let points = flat.points();
    let tolerance = flat.extent() * STRAYS;
    let mut parts = vec![Part::new(points, 0, points.len().saturating_sub(1))];
    while parts.len() < MOST {
        let worst = parts.iter().enumerate().max_by(|a, b| a.1.square.total_cmp(&b.1.square));
        let Some((index, &Part { from, to, farthest, square })) = worst else { break };
        if square <= tolerance * tolerance {
            break;
        }
        let halves = [Part::new(points, from, farthest), Part::new(points, farthest, to)];
        parts.splice(index..=index, halves);
    }
    parts
}
