//! Where a ring meets itself.
//!
//! The sides are bounded by boxes in a balanced tree over runs of sides as they follow each other
//! round the ring: a shore is coherent, so that the boxes of distant runs seldom overlap, and
//! only sides whose boxes do are compared. A hundred thousand sides take some tens of
//! milliseconds. The comparison itself uses exact orientation predicates, so that collinear and
//! touching sides are decided, not guessed.

use std::ops::{ControlFlow, Range};

use geo::Line;
use geo::line_intersection::{LineIntersection, line_intersection};

use crate::Point;

/// How many sides a leaf of the tree holds.
const LEAF: usize = 8;

/// A place where two sides of a ring meet that should not.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Meeting {
    /// Where they meet, or the middle of the stretch in which they overlap.
    pub(crate) at: Point,
    /// The earlier side, counted from 0; side 0 joins the first two points.
    pub(crate) first: usize,
    /// The later side.
    pub(crate) second: usize,
    /// Whether they go through each other (otherwise one ends on the other, or they overlap).
    pub(crate) crosses: bool,
}

/// Calls `found` with every meeting of a ring with itself, until it breaks.
pub(crate) fn meetings(ring: &[Point], found: &mut impl FnMut(Meeting) -> ControlFlow<()>) {
    let sides: Vec<Line> =
        ring.iter().zip(ring.iter().cycle().skip(1)).map(|(a, b)| Line::new(*a, *b)).collect();
    let tree = Tree::new(&sides);
    // Whether the walk was broken off is the caller's affair.
    let _ = tree.within(tree.root(), found);
}

/// An axis-parallel box.
#[derive(Clone, Copy)]
struct Bounds {
    low: Point,
    high: Point,
}

impl Bounds {
    const EMPTY: Bounds = Bounds {
        low: Point { x: f64::INFINITY, y: f64::INFINITY },
        high: Point { x: f64::NEG_INFINITY, y: f64::NEG_INFINITY },
    };

    fn with(self, point: Point) -> Bounds {
        Bounds {
            low: Point { x: self.low.x.min(point.x), y: self.low.y.min(point.y) },
            high: Point { x: self.high.x.max(point.x), y: self.high.y.max(point.y) },
        }
    }

    fn meets(&self, other: &Bounds) -> bool {
        self.low.x <= other.high.x
            && other.low.x <= self.high.x
            && self.low.y <= other.high.y
            && other.low.y <= self.high.y
    }
}

/// A run of sides and the number of its box.
#[derive(Clone)]
struct Node {
    number: usize,
    sides: Range<usize>,
}

impl Node {
    fn is_leaf(&self) -> bool {
        self.sides.len() <= LEAF
    }

    fn halves(&self) -> [Node; 2] {
        let middle = self.sides.start + self.sides.len() / 2;
        [
            Node { number: 2 * self.number + 1, sides: self.sides.start..middle },
            Node { number: 2 * self.number + 2, sides: middle..self.sides.end },
        ]
    }
}

/// The sides and the boxes of their runs, numbered as in a binary heap.
struct Tree<'a> {
    sides: &'a [Line],
    boxes: Vec<Bounds>,
}

impl<'a> Tree<'a> {
    fn new(sides: &'a [Line]) -> Tree<'a> {
        let mut tree = Tree { sides, boxes: Vec::new() };
        tree.fill(tree.root());
        tree
    }

    fn root(&self) -> Node {
        Node { number: 0, sides: 0..self.sides.len() }
    }

    fn fill(&mut self, node: Node) -> Bounds {
        let bounds = if node.is_leaf() {
            let sides = self.sides.get(node.sides.clone()).unwrap_or_default();
            sides.iter().fold(Bounds::EMPTY, |bounds, side| bounds.with(side.start).with(side.end))
        } else {
            let [a, b] = node.halves().map(|half| self.fill(half));
            a.with(b.low).with(b.high)
        };
        if self.boxes.len() <= node.number {
            self.boxes.resize(node.number + 1, Bounds::EMPTY);
        }
        self.boxes[node.number] = bounds;
        bounds
    }

    /// Meetings among the sides of one run.
    fn within(
        &self,
        node: Node,
        found: &mut impl FnMut(Meeting) -> ControlFlow<()>,
    ) -> ControlFlow<()> {
        if node.is_leaf() {
            for first in node.sides.clone() {
                for second in first + 1..node.sides.end {
                    self.pair(first, second, found)?;
                }
            }
            return ControlFlow::Continue(());
        }
        let [a, b] = node.halves();
        self.within(a.clone(), found)?;
        self.within(b.clone(), found)?;
        self.between(a, b, found)
    }

    /// Meetings of the sides of an earlier run with those of a later one.
    fn between(
        &self,
        a: Node,
        b: Node,
        found: &mut impl FnMut(Meeting) -> ControlFlow<()>,
    ) -> ControlFlow<()> {
        if !self.boxes[a.number].meets(&self.boxes[b.number]) {
            return ControlFlow::Continue(());
        }
        if a.is_leaf() && b.is_leaf() {
            for first in a.sides {
                for second in b.sides.clone() {
                    self.pair(first, second, found)?;
                }
            }
        } else if b.is_leaf() || (!a.is_leaf() && a.sides.len() >= b.sides.len()) {
            for half in a.halves() {
                self.between(half, b.clone(), found)?;
            }
        } else {
            for half in b.halves() {
                self.between(a.clone(), half, found)?;
            }
        }
        ControlFlow::Continue(())
    }

    fn pair(
        &self,
        first: usize,
        second: usize,
        found: &mut impl FnMut(Meeting) -> ControlFlow<()>,
    ) -> ControlFlow<()> {
        let (a, b) = (self.sides[first], self.sides[second]);
        let box_of = |line: Line| Bounds::EMPTY.with(line.start).with(line.end);
        if !box_of(a).meets(&box_of(b)) {
            return ControlFlow::Continue(());
        }
        let follows = second == first + 1;
        let closes = first == 0 && second + 1 == self.sides.len();
        let (at, crosses) = match line_intersection(a, b) {
            None => return ControlFlow::Continue(()),
            // Neighbours share the point between them, and only that.
            Some(LineIntersection::SinglePoint { .. }) if follows || closes => {
                return ControlFlow::Continue(());
            }
            Some(LineIntersection::SinglePoint { intersection, is_proper }) => {
                (intersection, is_proper)
            }
            Some(LineIntersection::Collinear { intersection }) => {
                ((intersection.start + intersection.end) / 2.0, false)
            }
        };
        found(Meeting { at, first, second, crosses })
    }
}
