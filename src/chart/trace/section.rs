//! The part of a line of shore that leads from one place on it to another.

use super::{Hand, Way};
use crate::Point;
use crate::coast::{Line, LineKind, ShorePoint};

/// From one place on a line of shore to another.
#[derive(Debug, Clone, Copy)]
pub(super) struct Section<'a> {
    pub(super) line: Line<'a>,
    pub(super) from: ShorePoint,
    pub(super) to: ShorePoint,
    /// Whether it follows the order of the vertices.
    pub(super) forward: bool,
    /// Whether it leads once round, back to where it began.
    pub(super) round: bool,
    /// The way that it takes.
    pub(super) way: Way,
}

impl<'a> Section<'a> {
    /// Both places are on `line`.
    pub(super) fn new(line: Line<'a>, from: ShorePoint, to: ShorePoint, way: Way) -> Section<'a> {
        let ahead = key(&from) <= key(&to);
        if !line.is_closed() {
            return Section { line, from, to, forward: ahead, round: false, way: Way::Shorter };
        }
        if key(&from) == key(&to) {
            let round = way == Way::Longer;
            return Section { line, from, to, forward: true, round, way };
        }
        let whole = line.length().as_metres();
        let between = line.length_to(&to).as_metres() - line.length_to(&from).as_metres();
        let forward = if ahead { between } else { between + whole };
        let shorter = forward <= whole - forward;
        let forward = shorter == (way == Way::Shorter);
        Section { line, from, to, forward, round: false, way }
    }

    /// The hand on which the land lies.
    pub(super) fn land(&self) -> Hand {
        let left_ahead = self.line.kind() != LineKind::Lake;
        if left_ahead == self.forward { Hand::Left } else { Hand::Right }
    }

    /// Its first and last place in the order of the vertices.
    pub(super) fn ahead(&self) -> (ShorePoint, ShorePoint) {
        if self.forward { (self.from, self.to) } else { (self.to, self.from) }
    }

    /// How many vertices it passes after its first place in the order of the vertices, one at its
    /// last place counted.
    pub(super) fn vertices(&self) -> u32 {
        let (first, last) = self.ahead();
        let wraps = self.round || key(&last) < key(&first);
        let turn = if wraps { self.line.sides() } else { 0 };
        (last.side + turn).saturating_sub(first.side)
    }

    /// Appends its points to `points`, in the order of travel, both ends included; a place at a
    /// vertex is that vertex.
    pub(super) fn append(&self, points: &mut Vec<Point>) {
        let start = points.len();
        let (first, last) = self.ahead();
        let sides = self.line.sides();
        points.push(first.at);
        points.extend((first.side + 1..=first.side + self.vertices()).map(|index| {
            self.line.vertex(if index >= sides && self.line.is_closed() {
                index - sides
            } else {
                index
            })
        }));
        if last.part > 0.0 && (self.round || key(&first) != key(&last)) {
            points.push(last.at);
        }
        if !self.forward
            && let Some(new) = points.get_mut(start..)
        {
            new.reverse();
        }
    }
}

/// Places of one line in the order of its vertices.
pub(super) fn key(place: &ShorePoint) -> (u32, f64) {
    (place.side, place.part)
}
