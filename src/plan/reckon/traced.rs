//! What is read of a traced leg.

use std::cmp::Ordering;

use nav::{Length, Position, geodesic};

use super::leg::Held;
use super::stretch::{Part, parts};
use super::{Bearings, Frame, Stretch};
use crate::along::Flat;

/// A degree of latitude, for how far a line strays: 1/90 of the mean quadrant of the meridian,
/// 10,001.966 km on WGS 84.
const DEGREE: f64 = 10_001.966 / 90.0;

/// What is read of a leg along a shore, besides its length and time.
#[derive(Debug, Clone, PartialEq)]
pub struct Traced {
    /// The shortest line between its ends.
    pub straight: Length,
    /// The few stretches that it comes down to, one at least, six at most: the line is parted where
    /// it strays farthest from its stretch, until it strays nowhere by more than a fortieth of its
    /// own extent: of the diagonal of the box that holds it.
    /// The first and the last of them are its first and last stretch.
    pub stretches: Vec<Stretch>,
    /// The sum of the stretches, taken in the one order in which a line and its reverse are reckoned.
    pub(super) length: Length,
    /// The stretch that the middle of the line falls in, by length.
    middle: usize,
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

    pub(super) fn new(
        line: impl DoubleEndedIterator<Item = Position> + Clone,
        frame: &Frame<'_>,
    ) -> Traced {
        // Like a straight leg, a line is reckoned from the same end whichever way it runs.
        if runs_second(line.clone()) {
            let mut traced = Traced::forth(&line.rev().collect::<Vec<_>>(), frame);
            traced.stretches.reverse();
            traced.middle = traced.stretches.len().saturating_sub(traced.middle + 1);
            for stretch in &mut traced.stretches {
                std::mem::swap(&mut stretch.from, &mut stretch.to);
                stretch.bearings = stretch.bearings.map(Bearings::back);
            }
            return traced;
        }
        Traced::forth(&line.collect::<Vec<_>>(), frame)
    }

    fn forth(line: &[Position], frame: &Frame<'_>) -> Traced {
        let parts = parts(&Flat::of(line.iter().copied()));
        let straight = match line {
            [from, .., to] => geodesic::inverse(*from, *to).distance,
            _ => Length::ZERO,
        };
        let stretches: Vec<Stretch> =
            parts.iter().filter_map(|part| stretch(line, part, frame)).collect();
        let length: Length = stretches.iter().map(|stretch| stretch.distance).sum();
        let mut past = Length::ZERO;
        let middle = stretches.iter().position(|stretch| {
            past += stretch.distance;
            past >= length / 2.0
        });
        Traced { straight, stretches, length, middle: middle.unwrap_or(0) }
    }

    pub(super) fn middle(&self) -> Option<&Stretch> {
        self.stretches.get(self.middle)
    }
}

fn stretch(line: &[Position], part: &Part, frame: &Frame<'_>) -> Option<Stretch> {
    let line = line.get(part.from..=part.to)?;
    let (&from, &to) = (line.first()?, line.last()?);
    let Held { distance: _, bearings, convergence, variation } = Held::new(from, to, frame);
    let strays = part.strays() * DEGREE * Length::KILOMETRE;
    let distance = geodesic::line_length(line);
    Some(Stretch { from, to, distance, bearings, convergence, variation, strays })
}

/// Whether a line is reckoned from its other end: from the southern, then the western, and where
/// both ends are one point by the first vertices that differ.
fn runs_second(line: impl DoubleEndedIterator<Item = Position> + Clone) -> bool {
    let order = |at: Position| (at.lat.as_degrees(), at.lon.as_degrees());
    let forth = line.clone().map(order);
    forth.partial_cmp(line.rev().map(order)) == Some(Ordering::Greater)
}
