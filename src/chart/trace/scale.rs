//! The scale of a grid, asked for often.

use std::cell::{Cell, RefCell};
use std::collections::HashMap;

use nav::{Grid, GridPoint};

use crate::Point;

/// The scale is counted at the corners of squares of this many metres, and runs evenly between
/// them. On World Mercator at 80 degrees it is off by less than 1e-5 so.
const SQUARE: f64 = 5_000.0;

/// Grid metres to a ground metre, place by place; continuous.
#[derive(Debug)]
pub(super) struct Scale<'a> {
    grid: &'a Grid,
    corners: RefCell<HashMap<(i64, i64), f64>>,
    last: Cell<((i64, i64), [f64; 4])>,
}

impl<'a> Scale<'a> {
    pub(super) fn new(grid: &'a Grid) -> Scale<'a> {
        let last = Cell::new(((i64::MAX, i64::MAX), [1.0; 4]));
        Scale { grid, corners: RefCell::default(), last }
    }

    pub(super) fn at(&self, point: Point) -> f64 {
        let (x, y) = (point.x / SQUARE, point.y / SQUARE);
        let square = (x.floor() as i64, y.floor() as i64);
        let (last, mut corners) = self.last.get();
        if last != square {
            let at = |east, north| self.corner((square.0 + east, square.1 + north));
            corners = [at(0, 0), at(1, 0), at(0, 1), at(1, 1)];
            self.last.set((square, corners));
        }
        let [sw, se, nw, ne] = corners;
        let (x, y) = (x - x.floor(), y - y.floor());
        let (south, north) = (sw + (se - sw) * x, nw + (ne - nw) * x);
        south + (north - south) * y
    }

    fn corner(&self, index: (i64, i64)) -> f64 {
        *self.corners.borrow_mut().entry(index).or_insert_with(|| {
            let metres = |index: i64| index as f64 * SQUARE;
            GridPoint::from_metres(metres(index.0), metres(index.1))
                .ok()
                .and_then(|point| self.grid.inverse(point).ok())
                .map_or(1.0, |found| found.scale)
        })
    }
}
