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
            let round = way == Way::Longer && line.closing_side().is_none();
            return Section { line, from, to, forward: true, round, way };
        }
        let whole = line.length().as_metres();
        let between = line.length_to(&to).as_metres() - line.length_to(&from).as_metres();
        let forward = if ahead { between } else { between + whole };
        let shorter = forward <= whole - forward;
        let closing = line.closing_side();
        let forward = match closing {
            None => shorter == (way == Way::Shorter),
            // There is one way alone: what closes the ring along the edge of the plane is no shore.
            Some(side) => ahead != (from.side.min(to.side)..from.side.max(to.side)).contains(&side),
        };
        let way = if forward == shorter { Way::Shorter } else { Way::Longer };
        Section { line, from, to, forward, round: false, way }
    }

    /// The same from its end to its start.
    pub(super) fn turned(&self) -> Section<'a> {
        Section { from: self.to, to: self.from, forward: !self.forward, ..*self }
    }

    /// A part of it: `from` and `to` are on it in this order.
    pub(super) fn part(&self, from: ShorePoint, to: ShorePoint) -> Section<'a> {
        Section { from, to, round: false, ..*self }
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

    /// Its points in the order of travel, both ends included; a place at a vertex is that vertex.
    pub(super) fn points(&self) -> Vec<Point> {
        let (first, last) = self.ahead();
        let (sides, count) = (self.line.sides(), self.vertices());
        let mut points = Vec::with_capacity(count as usize + 2);
        points.push(first.at);
        points.extend((first.side + 1..=first.side + count).map(|index| {
            let wraps = index >= sides && self.line.is_closed();
            self.line.vertex(if wraps { index - sides } else { index })
        }));
        if last.part > 0.0 && (self.round || key(&first) != key(&last)) {
            points.push(last.at);
        }
        if !self.forward {
            points.reverse();
        }
        points
    }
}

/// A part of one side, from one end to the other in the order of travel.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stretch {
    pub(super) side: u32,
    pub(super) ends: [Point; 2],
}

impl Section<'_> {
    /// The parts of sides that it is made of, in the order of travel; none without length.
    pub(super) fn stretches(&self) -> Vec<Stretch> {
        let (first, last) = self.ahead();
        let mut from = first.at;
        let mut stretches = Vec::new();
        let count = self.vertices();
        for index in first.side..=first.side + count {
            let side = if index >= self.line.sides() { index - self.line.sides() } else { index };
            let end = if index == first.side + count { last.at } else { self.line.side(side)[1] };
            if end != from {
                stretches.push(Stretch { side, ends: [from, end] });
            }
            from = end;
        }
        if !self.forward {
            stretches.reverse();
            stretches.iter_mut().for_each(|stretch| stretch.ends.reverse());
        }
        stretches
    }
}

/// Places of one line in the order of its vertices.
pub(super) fn key(place: &ShorePoint) -> (u32, f64) {
    (place.side, place.part)
}
