//! Which vertices lie near a place.

use std::ops::{ControlFlow, Range};

use crate::Point;
use crate::coast::points::ROOM;
use crate::coast::runs::{Arrays, Window};
use crate::coast::{Coast, flat};

/// The most vertices, and runs, that are looked through for one triangle; where there are more, it
/// is taken for full.
const MOST: usize = 4096;

/// How many vertices of the line that is being thinned are looked round at once.
const AHEAD: usize = 24;

/// The vertices of all lines, as a block of lines in which vertices go sees them: what goes in other
/// blocks meanwhile is still there for it.
///
/// Whatever is done at the same time, then, a triangle in which it finds no vertex has none: there
/// can only be fewer than it sees.
pub(super) struct Vertices<'a> {
    arrays: Arrays<'a>,
    /// Whether a line is left out.
    out: &'a [bool],
    /// The vertices of the block, counted over all lines.
    block: Range<usize>,
    points: Vec<Point>,
    /// Which of the block are still there.
    there: Vec<bool>,
    /// How far a window reaches beyond what is asked for, at the most.
    reach: f64,
    round: Round,
}

/// All vertices in a window.
struct Round {
    low: Point,
    high: Point,
    places: Vec<Point>,
    indices: Vec<u32>,
    /// There are too many to list.
    full: bool,
}

impl<'a> Vertices<'a> {
    /// As a block of some lines sees them. Windows reach about as far as `reach`.
    pub(super) fn new(
        coast: &'a Coast,
        out: &'a [bool],
        lines: Range<usize>,
        reach: f64,
    ) -> Vertices<'a> {
        let arrays = coast.arrays();
        let of = arrays.lines.get(lines).unwrap_or_default();
        let first = of.first().map_or(0, |line| line.first as usize);
        let end = of.last().map_or(first, |line| (line.first + line.sides) as usize + 1);
        let points: Vec<Point> = (first..end).map(|index| arrays.reader.at(index)).collect();
        let nowhere = Point { x: f64::NAN, y: f64::NAN };
        let (places, indices) = (Vec::new(), Vec::new());
        let round = Round { low: nowhere, high: nowhere, places, indices, full: false };
        let there = vec![true; points.len()];
        Vertices { arrays, out, block: first..end, points, there, reach, round }
    }

    /// A vertex of the block, by its number over all lines.
    pub(super) fn point(&self, index: usize) -> Point {
        self.points[index - self.block.start]
    }

    pub(super) fn take_out(&mut self, index: usize) {
        self.there[index - self.block.start] = false;
    }

    /// Which of the block's vertices are still there.
    pub(super) fn there(self) -> Vec<bool> {
        self.there
    }

    /// Whether no vertex lies in a triangle of three of the block or on its sides, but these. The
    /// line goes on to `end`, where it will be asked for next.
    pub(super) fn is_alone(&mut self, corners: [usize; 3], end: usize) -> bool {
        let triangle = corners.map(|index| self.point(index));
        let (low, high) = bounds(&triangle);
        if !self.round.holds(low, high) {
            self.look_round(low, high, corners[1]..end);
        }
        if self.round.full {
            return false;
        }
        let blocks = |index: usize, p: Point| {
            !corners.contains(&index) && self.is_there(index) && holds(triangle, p)
        };
        let mut round = self.round.places.iter().zip(&self.round.indices);
        !round.any(|(p, index)| {
            let in_reach = (p.x >= low.x) & (p.x <= high.x) & (p.y >= low.y) & (p.y <= high.y);
            in_reach && blocks(*index as usize, *p)
        })
    }

    fn is_there(&self, index: usize) -> bool {
        // Wrapped to far beyond the block where it lies before it.
        let in_block = index.wrapping_sub(self.block.start);
        self.there.get(in_block).is_none_or(|there| *there)
    }

    /// Lists what is in a rectangle, and around the vertices that come next on the line.
    fn look_round(&mut self, low: Point, high: Point, ahead: Range<usize>) {
        let (mut wide_low, mut wide_high) = (low, high);
        for index in ahead.take(AHEAD) {
            let p = self.point(index);
            let (next_low, next_high) = bounds(&[wide_low, wide_high, p]);
            let far = |next: f64, asked: f64| (next - asked).abs() > self.reach;
            let corners = [(next_low.x, low.x), (next_low.y, low.y)];
            let others = [(next_high.x, high.x), (next_high.y, high.y)];
            if corners.iter().chain(&others).any(|(next, asked)| far(*next, *asked)) {
                break;
            }
            (wide_low, wide_high) = (next_low, next_high);
        }
        self.list(wide_low, wide_high);
        if self.round.full {
            self.list(low, high);
        }
    }

    fn list(&mut self, low: Point, high: Point) {
        let Vertices { arrays, out, block, there, round, .. } = self;
        (round.low, round.high) = (low, high);
        round.places.clear();
        round.indices.clear();
        let window = Window::new(low, high);
        let (mut room, mut runs) = (ROOM, 0);
        let outcome = arrays.search.visit(
            |block| window.meets(block),
            |index| {
                let run = arrays.run(index, &mut room);
                if out[run.line.0 as usize] {
                    return ControlFlow::Continue(());
                }
                let line = &arrays.lines[run.line.0 as usize];
                let first = (line.first + run.first_side) as usize;
                for (index, p) in (first..).zip(run.points) {
                    let inside =
                        (p.x >= low.x) & (p.x <= high.x) & (p.y >= low.y) & (p.y <= high.y);
                    let own = index.wrapping_sub(block.start);
                    if inside && there.get(own).is_none_or(|there| *there) {
                        round.places.push(*p);
                        round.indices.push(index as u32);
                    }
                }
                // The last of a run is the next one's first, unless the line ends with it: there a
                // ring has its first vertex again, which is no other.
                let ends = run.first_side as usize + run.points.len() == line.sides as usize + 1;
                let last = first + run.points.len() - 1;
                if (!ends || line.is_closed()) && round.indices.last() == Some(&(last as u32)) {
                    round.indices.pop();
                    round.places.pop();
                }
                runs += 1;
                let full = runs > MOST || round.places.len() > MOST;
                if full { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
            },
        );
        round.full = outcome.is_break();
    }
}

impl Round {
    fn holds(&self, low: Point, high: Point) -> bool {
        low.x >= self.low.x && low.y >= self.low.y && high.x <= self.high.x && high.y <= self.high.y
    }
}

/// The south-west and north-east corners around three points.
fn bounds([a, b, c]: &[Point; 3]) -> (Point, Point) {
    (
        Point { x: a.x.min(b.x).min(c.x), y: a.y.min(b.y).min(c.y) },
        Point { x: a.x.max(b.x).max(c.x), y: a.y.max(b.y).max(c.y) },
    )
}

/// Whether a point lies in a triangle or on its sides.
fn holds([a, b, c]: [Point; 3], p: Point) -> bool {
    let hands = [flat::hand(a, b, p), flat::hand(b, c, p), flat::hand(c, a, p)];
    !(hands.contains(&1) && hands.contains(&-1))
}
