//! The shore near a place, square by square, read from the coast where it is first asked for.
//!
//! Work along a section asks for the same shore thousands of times; this keeps what was read, and
//! never reads what nobody asks for, however long the lines are.

use std::cell::RefCell;
use std::collections::HashMap;
use std::ops::ControlFlow;
use std::rc::Rc;

use super::roll::Outline;
use super::scale::Scale;
use crate::coast::{Coast, LineId};
use crate::{Extent, Point};

/// A side of the shore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Side {
    pub(super) line: LineId,
    pub(super) side: u32,
    pub(super) ends: [Point; 2],
    /// What the disc's middle must not enter about it, seen in both directions.
    pub(super) outlines: [Outline; 2],
}

/// The sides in each square that was asked for.
type Squares = HashMap<(i64, i64), Rc<[Side]>>;

/// The shore in squares.
#[derive(Debug)]
pub(super) struct Near<'a> {
    coast: &'a Coast,
    scale: &'a Scale<'a>,
    /// The radius of the disc in ground metres; 0 where none rolls.
    radius: f64,
    /// How wide a square is, in grid metres.
    square: f64,
    squares: RefCell<Squares>,
}

impl<'a> Near<'a> {
    /// Squares about `reach` grid metres wide, which is how far one mostly asks; for a disc of a
    /// radius in ground metres.
    pub(super) fn new(coast: &'a Coast, scale: &'a Scale<'a>, reach: f64, radius: f64) -> Near<'a> {
        Near { coast, scale, radius, square: reach.max(20.0), squares: RefCell::default() }
    }

    /// Hands the sides that may come within `reach` of the straight piece from `a` to `b` to
    /// `with`, some of them more than once, until it breaks.
    pub(super) fn visit<T>(
        &self,
        [a, b]: [Point; 2],
        reach: f64,
        mut with: impl FnMut(&Side) -> ControlFlow<T>,
    ) -> ControlFlow<T> {
        let index = |v: f64| (v / self.square).floor() as i64;
        let low = Point { x: a.x.min(b.x) - reach, y: a.y.min(b.y) - reach };
        let high = Point { x: a.x.max(b.x) + reach, y: a.y.max(b.y) + reach };
        for y in index(low.y)..=index(high.y) {
            for x in index(low.x)..=index(high.x) {
                for side in self.sides((x, y)).iter() {
                    let [p, q] = side.ends;
                    let apart = p.x.max(q.x) < low.x
                        || p.x.min(q.x) > high.x
                        || p.y.max(q.y) < low.y
                        || p.y.min(q.y) > high.y;
                    if !apart {
                        with(side)?;
                    }
                }
            }
        }
        ControlFlow::Continue(())
    }

    fn sides(&self, square: (i64, i64)) -> Rc<[Side]> {
        self.squares.borrow_mut().entry(square).or_insert_with(|| self.read(square)).clone()
    }

    fn read(&self, (x, y): (i64, i64)) -> Rc<[Side]> {
        let corner = |x: i64, y: i64| Point { x: x as f64, y: y as f64 } * self.square;
        let square = Extent::new(corner(x, y), corner(x + 1, y + 1));
        let mut found = Vec::new();
        self.coast.for_runs_in(square, |run| {
            let sides = run.sides().filter(|(_, ends)| reaches(square, *ends));
            found.extend(sides.map(|(side, ends)| {
                let radii = ends.map(|end| self.radius * self.scale.at(end));
                let outline = Outline::new(ends, radii);
                Side { line: run.line, side, ends, outlines: [outline, outline.turned()] }
            }));
        });
        found.into()
    }
}

/// Whether a side reaches into a square.
fn reaches(square: Extent, [a, b]: [Point; 2]) -> bool {
    let (low, high) = (square.min(), square.max());
    if a.x.max(b.x) < low.x || a.x.min(b.x) > high.x {
        return false;
    }
    if a.y.max(b.y) < low.y || a.y.min(b.y) > high.y {
        return false;
    }
    // All corners on one hand of the side's line: it passes by. A corner within rounding of the
    // line counts as on both hands.
    let along = b - a;
    let room = 1e-6 * (along.x.abs() + along.y.abs());
    let corners = [low, Point { x: high.x, y: low.y }, high, Point { x: low.x, y: high.y }];
    let hand = corners.map(|c| along.x * (c.y - a.y) - along.y * (c.x - a.x));
    !(hand.iter().all(|h| *h > room) || hand.iter().all(|h| *h < -room))
}
