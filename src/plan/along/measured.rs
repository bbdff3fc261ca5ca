//! What a line comes to by itself: its length, and the main parts that a card has room for.

use std::cmp::Ordering;

use nav::{Length, Position, geodesic};

use super::flat::{Flat, beside};

/// The most parts that a line is read in.
const MOST: usize = 6;
/// The line may stray from its part by this much of its own extent.
const STRAYS: f64 = 1.0 / 40.0;
/// A degree of latitude, for how far a line strays: 1/90 of the meridian's quadrant, which is
/// 10,001.966 km on WGS 84.
const DEGREE_KM: f64 = 10_001.966 / 90.0;

/// The measures of a line between two ends.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Measured {
    /// The shortest line between the ends.
    pub(crate) straight: Length,
    /// The length of the line, whose sides are geodesics.
    pub(crate) length: Length,
    /// Its main parts, at least one.
    pub(crate) parts: Vec<Part>,
    /// The part that its middle falls in, by length.
    pub(crate) middle: usize,
}

/// A main part of a line, between two of its vertices.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Part {
    pub(crate) from: Position,
    pub(crate) to: Position,
    /// The length of the line between the two.
    pub(crate) length: Length,
    /// How far the line strays from the straight.
    pub(crate) strays: Length,
}

impl Measured {
    /// Of the line through these positions, both ends included.
    pub(super) fn new(line: impl DoubleEndedIterator<Item = Position> + Clone) -> Measured {
        // Like a straight leg, a line is reckoned from the same end whichever way it runs, so that
        // it and its reverse agree to the last bit.
        if !runs_second(line.clone()) {
            return Measured::forth(&line.collect::<Vec<_>>());
        }
        let mut measured = Measured::forth(&line.rev().collect::<Vec<_>>());
        measured.parts.reverse();
        for part in &mut measured.parts {
            std::mem::swap(&mut part.from, &mut part.to);
        }
        measured.middle = measured.parts.len().saturating_sub(measured.middle + 1);
        measured
    }

    fn forth(line: &[Position]) -> Measured {
        let parts: Vec<Part> =
            main_parts(line).iter().filter_map(|span| Part::of(line, span)).collect();
        let length: Length = parts.iter().map(|part| part.length).sum();
        let straight = match line {
            [from, .., to] => geodesic::inverse(*from, *to).distance,
            _ => Length::ZERO,
        };
        let mut past = Length::ZERO;
        let middle = parts.iter().position(|part| {
            past += part.length;
            past >= length / 2.0
        });
        Measured { straight, length, middle: middle.unwrap_or(0), parts }
    }
}

impl Part {
    fn of(line: &[Position], span: &Span) -> Option<Part> {
        let line = line.get(span.from..=span.to)?;
        Some(Part {
            from: *line.first()?,
            to: *line.last()?,
            length: geodesic::line_length(line),
            strays: span.square.sqrt() * DEGREE_KM * Length::KILOMETRE,
        })
    }
}

/// The vertices from one to another, and the one between that is farthest off the straight.
#[derive(Debug, Clone, Copy)]
struct Span {
    from: usize,
    to: usize,
    farthest: usize,
    /// The square of how far off it is, in degrees of latitude.
    square: f64,
}

impl Span {
    fn new(points: &[(f64, f64)], from: usize, to: usize) -> Span {
        let mut span = Span { from, to, farthest: from, square: 0.0 };
        let (Some(&start), Some(&end)) = (points.get(from), points.get(to)) else { return span };
        for (index, &point) in points.iter().enumerate().take(to).skip(from + 1) {
            let (_, square) = beside((start, end), point);
            if square > span.square {
                (span.farthest, span.square) = (index, square);
            }
        }
        span
    }
}

/// The main parts of a line: it is parted at the vertex that strays farthest, again and again
/// (Douglas and Peucker's rule, the worst part first), until it strays nowhere by more than a
/// fortieth of its own extent, or there are six.
fn main_parts(line: &[Position]) -> Vec<Span> {
    let flat = Flat::of(line.iter().copied());
    let points = flat.points();
    let tolerance = flat.extent() * STRAYS;
    let mut spans = vec![Span::new(points, 0, points.len().saturating_sub(1))];
    while spans.len() < MOST {
        let worst = spans.iter().enumerate().max_by(|a, b| a.1.square.total_cmp(&b.1.square));
        let Some((index, &Span { from, to, farthest, square })) = worst else { break };
        if square <= tolerance * tolerance {
            break;
        }
        let halves = [Span::new(points, from, farthest), Span::new(points, farthest, to)];
        spans.splice(index..=index, halves);
    }
    spans
}

/// Whether a line is reckoned from its other end: from the southern, then the western, and where
/// both ends are one point by the first vertices that differ.
fn runs_second(line: impl DoubleEndedIterator<Item = Position> + Clone) -> bool {
    let order = |at: Position| (at.lat.as_degrees(), at.lon.as_degrees());
    let forth = line.clone().map(order);
    forth.partial_cmp(line.rev().map(order)) == Some(Ordering::Greater)
}
