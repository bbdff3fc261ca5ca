//! Areas as dots: a dot belongs to an area when its middle lies inside.

use super::mask::{Block, Mask};
use super::raster::Raster;
use super::shapes::{Area, Bounds};
use crate::Point;
use std::ops::Range;

/// Fills areas one after the other in the room that it is given.
pub(super) struct Filler<'a> {
    raster: &'a Raster,
    inside: &'a mut Mask,
}

impl<'a> Filler<'a> {
    pub(super) fn new(raster: &'a Raster, room: &'a mut Mask) -> Filler<'a> {
        room.reset(raster.width(), raster.height());
        Filler { raster, inside: room }
    }

    /// Hands the dots inside `area`, and the block in which they are, to `with`.
    ///
    /// Every side marks, in each row of dots whose middle line it crosses, the first dot to the
    /// right of the crossing. A dot is inside when an odd number of marks lie up to it. Sides to
    /// the right of the drawing mark nothing; those to the left mark the first column.
    pub(super) fn fill(&mut self, area: &Area, with: impl FnOnce(&Mask, &Block)) {
        let (first, last) = self.columns(&area.edge.bounds);
        let rows = self.rows(area.edge.bounds.south, area.edge.bounds.north);
        if rows.is_empty() || first >= self.raster.width() || last == 0 {
            return;
        }
        for (bounds, points) in area.edge.runs() {
            self.run(bounds, points);
        }
        let block = self.inside.block(rows, first..=last);
        self.inside.fill_between(&block);
        with(self.inside, &block);
        self.inside.clear(&block);
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
            self.sides(&[*start, *end]);
        } else {
            self.sides(points);
        }
    }

    /// Marks the crossings of the sides between points.
    fn sides(&mut self, points: &[Point]) {
        let height = self.raster.height();
        let mut places = points.iter().map(|p| self.raster.place(*p));
        let Some(mut from) = places.next() else { return };
        let mut from_row = from_middle(from.1, height);
        for to in places {
            // Most sides of a far view lie between two middle lines and cross none.
            let to_row = from_middle(to.1, height);
            if from_row != to_row {
                let rows = from_row.min(to_row)..from_row.max(to_row);
                crossings(self.inside, from, to, rows);
            }
            (from, from_row) = (to, to_row);
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

/// Marks where a side crosses the middle lines of rows.
fn crossings(inside: &mut Mask, a: (f64, f64), b: (f64, f64), rows: Range<usize>) {
    let slope = (b.0 - a.0) / (b.1 - a.1);
    let width = inside.width();
    for row in rows {
        let column = from_middle(a.0 + (row as f64 + 0.5 - a.1) * slope, width);
        if column < width {
            inside.flip(column, row);
        }
    }
}

/// The first dot whose middle lies at or after `place`, at most `count`.
pub(super) fn from_middle(place: f64, count: usize) -> usize {
    // A cast to an integer holds what is out of its range to the nearest that is in it.
    ((place - 0.5).ceil() as usize).min(count)
}

/// The dots whose middles lie from `start` up to, not with, `end`, out of `count`.
fn span(start: f64, end: f64, count: usize) -> Range<usize> {
    from_middle(start, count)..from_middle(end, count)
}
