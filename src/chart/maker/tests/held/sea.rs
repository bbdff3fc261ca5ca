//! Which water a boat reaches without leaving the chart, from the shores' lines alone.
//!
//! Dots are joined where the straight line between their middles meets no side of a shore, so
//! that every way over them is one that leads through water, however thin the land beside it is.

use crate::model::{Chart, Point};

/// How far the dots are apart, in metres: coarse ones first, fine ones where those find no way.
pub(super) const DOTS: [f64; 2] = [10.0, 4.0];
/// How far the first dot's middle is from the chart's south-west corner: between whole metres, so that
/// no corner of a shore lies on a line of dots, and no side with a plain slope on a dot.
const EDGE: Point = Point { x: 2.5, y: 2.271_828 };
/// The squares in which sides are looked up, in metres.
const SQUARE: f64 = 100.0;
/// How far from a dot a place may be that is reached from it, in metres.
const REACH: f64 = 100.0;

type Side = (Point, Point);

pub(super) struct Sea {
    dot: f64,
    low: Point,
    columns: usize,
    rows: usize,
    /// Whether a boat comes to each dot.
    reached: Vec<bool>,
    squares: Vec<Vec<Side>>,
    across: usize,
    /// Whether it comes to the chart's edge.
    pub(super) open: bool,
}

/// What bars the ways between dots.
struct Bars {
    land: Vec<bool>,
    /// Whether the way to the next dot east, and to the next one north, is barred.
    ways: Vec<[bool; 2]>,
}

impl Sea {
    /// The sea about a place, if there is any.
    pub(super) fn new(chart: &Chart, from: Point, dot: f64) -> Option<Self> {
        let (low, extent) = (chart.extent.min(), chart.extent);
        let count = |metres: f64| ((metres - EDGE.x) / dot) as usize;
        let (columns, rows) = (count(extent.width()), count(extent.height()));
        let across = (extent.width() / SQUARE) as usize + 1;
        let up = (extent.height() / SQUARE) as usize + 1;
        let (reached, squares) = (vec![false; columns * rows], vec![Vec::new(); across * up]);
        let mut sea = Self { dot, low, columns, rows, reached, squares, across, open: false };
        let rings = chart.land.iter().flat_map(|l| std::iter::once(&l.shore).chain(&l.lakes));
        let local = |p: Point| Point { x: p.x - low.x, y: p.y - low.y };
        let sides: Vec<Side> =
            rings.flat_map(|r| r.sides()).map(|(a, b)| (local(a), local(b))).collect();
        sides.iter().for_each(|side| sea.file(*side));
        let bars = sea.bars(&sides);
        // All dots that are reached straight, for the first may lie in a corner that only leads back to
        // the place by a way too narrow for dots.
        let starts = sea.near(from).filter(|dot| !bars.land[*dot] && sea.is_clear(*dot, from, 0.0));
        let starts: Vec<usize> = starts.collect();
        let found = !starts.is_empty();
        sea.flood(&bars, starts);
        found.then_some(sea)
    }

    fn file(&mut self, (a, b): Side) {
        let up = self.squares.len() / self.across;
        let range = |a: f64, b: f64, count: usize| {
            let low = (a.min(b) / SQUARE).floor().max(0.0) as usize;
            let high = (a.max(b) / SQUARE).floor();
            let end = if high < 0.0 { 0 } else { (high as usize + 1).min(count) };
            low..end
        };
        for row in range(a.y, b.y, up) {
            for column in range(a.x, b.x, self.across) {
                self.squares[row * self.across + column].push((a, b));
            }
        }
    }

    fn bars(&self, sides: &[Side]) -> Bars {
        let mut turns = vec![false; self.columns * self.rows];
        let mut ways = vec![[false; 2]; turns.len()];
        for (a, b) in sides {
            let from_first = |p: &Point| (*p - EDGE) / self.dot;
            let (a, b) = (from_first(a), from_first(b));
            lines_met(a, b, self.rows, |row, x| {
                // The crossing lies east of the dot before it, and turns all dots beyond.
                let before = x.floor();
                if before < 0.0 {
                    turns[row * self.columns] ^= true;
                } else if (before as usize) < self.columns {
                    let dot = row * self.columns + before as usize;
                    ways[dot][0] = true;
                    if before as usize + 1 < self.columns {
                        turns[dot + 1] ^= true;
                    }
                }
            });
            let turned = |p: Point| Point { x: p.y, y: p.x };
            lines_met(turned(a), turned(b), self.columns, |column, y| {
                let before = y.floor();
                if before >= 0.0 && (before as usize) < self.rows {
                    ways[before as usize * self.columns + column][1] = true;
                }
            });
        }
        for row in turns.chunks_mut(self.columns) {
            let mut land = false;
            for dot in row {
                land ^= *dot;
                *dot = land;
            }
        }
        Bars { land: turns, ways }
    }

    fn flood(&mut self, bars: &Bars, starts: Vec<usize>) {
        starts.iter().for_each(|start| self.reached[*start] = true);
        let mut next = starts;
        while let Some(dot) = next.pop() {
            let (column, row) = (dot % self.columns, dot / self.columns);
            let (last, top) = (column + 1 == self.columns, row + 1 == self.rows);
            self.open |= column == 0 || row == 0 || last || top;
            let ways = [
                (!last && !bars.ways[dot][0]).then_some(dot + 1),
                (column > 0 && !bars.ways[dot.saturating_sub(1)][0]).then(|| dot.saturating_sub(1)),
                (!top && !bars.ways[dot][1]).then_some(dot + self.columns),
                (row > 0 && !bars.ways[dot.saturating_sub(self.columns)][1])
                    .then(|| dot.saturating_sub(self.columns)),
            ];
            for beside in ways.into_iter().flatten() {
                if !self.reached[beside] && !bars.land[beside] {
                    self.reached[beside] = true;
                    next.push(beside);
                }
            }
        }
    }

    fn middle(&self, dot: usize) -> Point {
        let (column, row) = (dot % self.columns, dot / self.columns);
        EDGE + Point { x: column as f64, y: row as f64 } * self.dot
    }

    /// The dots within reach of a place.
    fn near(&self, at: Point) -> impl Iterator<Item = usize> + use<> {
        let dot = self.dot;
        let range = |v: f64, count: usize| {
            let low = ((v - REACH) / dot).ceil().max(0.0) as usize;
            let high = ((v + REACH) / dot).floor().max(0.0) as usize + 1;
            low..high.min(count)
        };
        let at = at - self.low - EDGE;
        let (columns, rows) = (range(at.x, self.columns), range(at.y, self.rows));
        let wide = self.columns;
        rows.flat_map(move |row| columns.clone().map(move |column| row * wide + column))
    }

    /// Whether no shore lies on the straight line from a dot to a place, its last metres left out.
    fn is_clear(&self, dot: usize, at: Point, last: f64) -> bool {
        let (from, to) = (self.middle(dot), at - self.low);
        let long = super::apart(from, to);
        long <= last || !self.is_barred((from, from + (to - from) * ((long - last) / long)))
    }

    /// Whether a straight line meets a shore.
    fn is_barred(&self, (a, b): Side) -> bool {
        let square = |v: f64| (v / SQUARE).floor().max(0.0) as usize;
        let rows = square(a.y.min(b.y))..=square(a.y.max(b.y));
        rows.flat_map(|row| {
            (square(a.x.min(b.x))..=square(a.x.max(b.x))).map(move |column| (column, row))
        })
        .filter(|(column, _)| *column < self.across)
        .filter_map(|(column, row)| self.squares.get(row * self.across + column))
        .flatten()
        .any(|side| meets((a, b), *side))
    }

    /// Whether a line on the chart, from end to end, meets a shore.
    pub(super) fn meets_shore(&self, a: Point, b: Point) -> bool {
        self.is_barred((a - self.low, b - self.low))
    }

    /// Whether a boat comes to a place in the water.
    pub(super) fn reaches(&self, at: Point) -> bool {
        self.near(at).any(|dot| self.reached[dot] && self.is_clear(dot, at, 0.0))
    }

    /// Whether a boat comes within two metres of a place on the shore.
    pub(super) fn lands_at(&self, at: Point) -> bool {
        self.near(at).any(|dot| self.reached[dot] && self.is_clear(dot, at, 2.0))
    }
}

/// Calls `met` with each line of dots from west to east that a side crosses, and where; all in steps
/// from dot to dot.
fn lines_met(a: Point, b: Point, count: usize, mut met: impl FnMut(usize, f64)) {
    let line = |y: f64| y.ceil().max(0.0) as usize;
    for number in line(a.y.min(b.y))..line(a.y.max(b.y)).min(count) {
        met(number, a.x + (number as f64 - a.y) / (b.y - a.y) * (b.x - a.x));
    }
}

/// Twice the area of a triangle, exact for whole metres.
pub(super) fn turn(a: Point, b: Point, c: Point) -> f64 {
    (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)
}

/// Whether two sides cross or touch.
fn meets((a, b): Side, (c, d): Side) -> bool {
    let boxes = a.x.min(b.x) <= c.x.max(d.x)
        && c.x.min(d.x) <= a.x.max(b.x)
        && a.y.min(b.y) <= c.y.max(d.y)
        && c.y.min(d.y) <= a.y.max(b.y);
    boxes && turn(a, b, c) * turn(a, b, d) <= 0.0 && turn(c, d, a) * turn(c, d, b) <= 0.0
}
