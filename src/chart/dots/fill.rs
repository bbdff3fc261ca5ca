//! Areas as dots: a dot belongs to an area when its middle lies inside.

use super::mask::Mask;
use super::raster::Raster;
use super::shapes::{Area, Bounds};
use crate::Point;
use std::ops::Range;

/// Fills areas one after the other; keeps the room that it works in.
pub(super) struct Filler<'a> {
    raster: &'a Raster,
    inside: Mask,
}

impl<'a> Filler<'a> {
    pub(super) fn new(raster: &'a Raster) -> Filler<'a> {
        Filler { raster, inside: Mask::new(raster.width(), raster.height()) }
    }

    /// Hands the dots inside `area`, and the rows in which they are, to `with`.
    ///
    /// Every side marks, in each row of dots whose middle line it crosses, the first dot to the
    /// right of the crossing. A dot is inside when an odd number of marks lie up to it. Sides to
    /// the right of the drawing mark nothing; those to the left mark the first column.
    pub(super) fn fill(&mut self, area: &Area, with: impl FnOnce(&Mask, Range<usize>)) {
        let (first, last) = self.columns(&area.bounds);
        let rows = self.rows(area.bounds.south, area.bounds.north);
        if rows.is_empty() || first >= self.raster.width() || last == 0 {
            return;
        }
        for edge in &area.edges {
            for (bounds, points) in edge.runs() {
                self.run(bounds, points);
            }
        }
        self.inside.fill_between(rows.clone());
        with(&self.inside, rows.clone());
        self.inside.clear_rows(rows);
    }

    fn run(&mut self, bounds: &Bounds, points: &[Point]) {
        let (first, last) = self.columns(bounds);
        let hidden =
            first >= self.raster.width() || self.rows(bounds.south, bounds.north).is_empty();
        if hidden {
            return;
        }
        // When all crossings mark one column, only whether their number in a row is odd matters,
        // and for that the straight line from end to end does as well.
        if let (true, [start, .., end]) = (first == last, points) {
            self.side(*start, *end);
            return;
        }
        for pair in points.windows(2) {
            self.side(pair[0], pair[1]);
        }
    }

    /// Marks the crossings of one side.
    fn side(&mut self, a: Point, b: Point) {
        let (ax, ay) = self.raster.place(a);
        let (bx, by) = self.raster.place(b);
        let slope = (bx - ax) / (by - ay);
        for row in span(ay.min(by), ay.max(by), self.raster.height()) {
            let x = ax + (row as f64 + 0.5 - ay) * slope;
            let column = from_middle(x, self.raster.width());
            if column < self.raster.width() {
                self.inside.flip(column, row);
            }
        }
    }

    /// The rows of dots whose middles lie between two northings.
    fn rows(&self, south: f64, north: f64) -> Range<usize> {
        let (_, top) = self.raster.place(Point { x: 0.0, y: north });
        let (_, foot) = self.raster.place(Point { x: 0.0, y: south });
        span(top, foot, self.raster.height())
    }

    /// The columns that crossings at the west and the east end of `bounds` would mark.
    fn columns(&self, bounds: &Bounds) -> (usize, usize) {
        let column =
            |x: f64| from_middle(self.raster.place(Point { x, y: 0.0 }).0, self.raster.width());
        (column(bounds.west), column(bounds.east))
    }
}

/// The first dot whose middle lies at or after `place`, at most `count`.
fn from_middle(place: f64, count: usize) -> usize {
    // A cast to an integer holds what is out of its range to the nearest that is in it.
    ((place - 0.5).ceil() as usize).min(count)
}

/// The dots whose middles lie from `start` up to, not with, `end`, out of `count`.
fn span(start: f64, end: f64, count: usize) -> Range<usize> {
    from_middle(start, count)..from_middle(end, count)
}
