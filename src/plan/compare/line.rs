//! The route's line on the plane, indexed along its way.

use std::ops::Range;

use nav::{Length, geodesic};

use super::plane::{Plane, Spot, metres};
use crate::Route;

/// No side of the line is longer, in metres: over it a geodesic and a line of one bearing are one to a
/// millimetre, but at the poles.
const LONGEST_SIDE: f64 = 100.0;
/// Sides to a leaf of the index.
const LEAF: usize = 8;

/// The line of a route.
#[derive(Debug)]
pub(super) struct Line {
    pub(super) vertices: Vec<Spot>,
    /// How far along the whole way each vertex lies, in metres on the ground.
    pub(super) along: Vec<f64>,
    /// The number of the vertex at each point of the route.
    pub(super) points: Vec<usize>,
    /// Boxes about the sides: a binary tree, the leaves last.
    boxes: Vec<Bounds>,
    leaves: usize,
}

/// The place on a line that is nearest to another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Nearest {
    /// In metres on the ground.
    pub(super) away: f64,
    /// The side, by the number of the vertex that begins it, and the part of it.
    pub(super) side: usize,
    pub(super) part: f64,
}

#[derive(Debug, Clone, Copy)]
struct Bounds {
    least: (f64, f64),
    most: (f64, f64),
}

impl Bounds {
    const NONE: Bounds = Bounds { least: (f64::MAX, f64::MAX), most: (f64::MIN, f64::MIN) };

    fn with(self, x: f64, y: f64) -> Bounds {
        Bounds {
            least: (self.least.0.min(x), self.least.1.min(y)),
            most: (self.most.0.max(x), self.most.1.max(y)),
        }
    }

    /// How far away it is, in metres on the ground at the place: no more than anything in it.
    fn away(&self, from: Spot) -> f64 {
        let dx = (self.least.0 - from.x).max(from.x - self.most.0).max(0.0);
        let dy = (self.least.1 - from.y).max(from.y - self.most.1).max(0.0);
        dx.hypot(dy) / from.scale
    }
}

impl Line {
    /// The line; nothing of a route within half a degree of a pole.
    pub(super) fn of(route: &Route, plane: &Plane) -> Option<Line> {
        let mut line = Line {
            vertices: vec![plane.spot(route.points.first()?.at)?],
            along: vec![0.0],
            points: vec![0],
            boxes: Vec::new(),
            leaves: 0,
        };
        for leg in 0..route.points.len().saturating_sub(1) {
            let traced = route.points.get(leg + 1)?.along.is_some();
            let mut before = route.points.get(leg)?.at;
            for next in route.line_of(leg)?.skip(1) {
                if traced {
                    let side = geodesic::inverse(before, next);
                    let pieces = (side.distance.as_metres() / LONGEST_SIDE).ceil();
                    for piece in 1..pieces as usize {
                        let so_far = side.distance * (piece as f64 / pieces);
                        let at = geodesic::direct(before, side.bearing_at_start, so_far).position;
                        line.add(plane.spot(at)?);
                    }
                    line.add(plane.spot(next)?);
                } else {
                    line.straight_to(plane.spot(next)?);
                }
                before = next;
            }
            line.points.push(line.vertices.len() - 1);
        }
        line.index();
        Some(line)
    }

    fn straight_to(&mut self, to: Spot) {
        let Some(&from) = self.vertices.last() else { return };
        let pieces = (from.away(to) / LONGEST_SIDE).ceil().max(1.0);
        for piece in 1..=pieces as usize {
            self.add(from.towards(to, piece as f64 / pieces));
        }
    }

    fn add(&mut self, vertex: Spot) {
        let side = self.vertices.last().map_or(0.0, |last| last.away(vertex));
        let before = self.along.last().copied().unwrap_or_default();
        self.along.push(before + side);
        self.vertices.push(vertex);
    }

    fn index(&mut self) {
        let sides = self.vertices.len().saturating_sub(1);
        self.leaves = sides.div_ceil(LEAF).next_power_of_two().max(1);
        self.boxes = vec![Bounds::NONE; 2 * self.leaves];
        for side in 0..sides {
            let bounds = &mut self.boxes[self.leaves + side / LEAF];
            for vertex in &self.vertices[side..=side + 1] {
                *bounds = bounds.with(vertex.x, vertex.y);
            }
        }
        for node in (1..self.leaves).rev() {
            let (a, b) = (self.boxes[2 * node], self.boxes[2 * node + 1]);
            self.boxes[node] = a.with(b.least.0, b.least.1).with(b.most.0, b.most.1);
        }
    }

    /// The number of legs.
    pub(super) fn legs(&self) -> usize {
        self.points.len().saturating_sub(1)
    }

    /// The leg that a side belongs to.
    pub(super) fn leg_of(&self, side: usize) -> usize {
        self.points.partition_point(|&point| point <= side).saturating_sub(1)
    }

    /// The sides of some legs.
    pub(super) fn sides_of(&self, legs: Range<usize>) -> Range<usize> {
        let at = |point: usize| self.points.get(point).or(self.points.last());
        at(legs.start).copied().unwrap_or(0)..at(legs.end).copied().unwrap_or(0)
    }

    /// The nearest place on some of the sides; of several as near, the first. Nothing where there are
    /// none.
    pub(super) fn nearest(&self, from: Spot, sides: Range<usize>) -> Option<Nearest> {
        let mut best = None;
        self.search(1, 0..self.leaves * LEAF, from, &sides, &mut best);
        best
    }

    fn search(
        &self,
        node: usize,
        holds: Range<usize>,
        from: Spot,
        sides: &Range<usize>,
        best: &mut Option<Nearest>,
    ) {
        let apart = holds.end <= sides.start || sides.end <= holds.start;
        // Scales differ between here and there by less than this.
        let farther = best.is_some_and(|best| self.boxes[node].away(from) * 0.98 > best.away);
        if apart || farther {
            return;
        }
        if node >= self.leaves {
            for side in holds.start.max(sides.start)..holds.end.min(sides.end) {
                let Some(&[a, b]) = self.vertices.get(side..side + 2) else { return };
                let (part, away) = from.near_side(a, b);
                if best.is_none_or(|best| away < best.away) {
                    *best = Some(Nearest { away, side, part });
                }
            }
            return;
        }
        let middle = usize::midpoint(holds.start, holds.end);
        let mut halves = [(2 * node, holds.start..middle), (2 * node + 1, middle..holds.end)];
        if self.boxes[2 * node + 1].away(from) < self.boxes[2 * node].away(from) {
            halves.swap(0, 1);
        }
        for (node, holds) in halves {
            self.search(node, holds, from, sides, best);
        }
    }

    /// How far along its leg a place on the line is.
    pub(super) fn along_leg(&self, near: Nearest) -> Length {
        let of = |vertex: usize| self.along.get(vertex).copied().unwrap_or_default();
        let begin = self.points.get(self.leg_of(near.side)).copied().unwrap_or_default();
        let on_side = (of(near.side + 1) - of(near.side)) * near.part;
        metres(of(near.side) - of(begin) + on_side)
    }

    /// Whether a place lies to the right of a side.
    pub(super) fn is_right(&self, side: usize, at: Spot) -> bool {
        let Some(&[a, b]) = self.vertices.get(side..side + 2) else { return false };
        (b.x - a.x) * (at.y - a.y) - (b.y - a.y) * (at.x - a.x) < 0.0
    }
}
