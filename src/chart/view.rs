//! The part of a chart that a rectangle of character cells shows.
//!
//! A character cell counts as one column wide and one row high, and a row as high as two columns
//! are wide, so that the eight dots of a braille cell are square. Cells are counted from the top
//! left corner of the drawing, fractions allowed: `(0.0, 0.0)` is the corner itself, and the
//! middle of the first cell is `(0.5, 0.5)`.

use crate::{Extent, Point};

/// How many columns wide a row is high.
pub const COLUMNS_PER_ROW: f64 = 2.0;

/// The size of a drawing, in character cells.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Cells {
    /// Its width.
    pub columns: u16,
    /// Its height.
    pub rows: u16,
}

/// What is looked at: where its middle lies and how much ground a column covers.
///
/// ```
/// use chart::{Cells, Point, View};
/// let cells = Cells { columns: 80, rows: 24 };
/// let view = View::new(Point { x: 5_000.0, y: 2_000.0 }, 100.0);
/// assert_eq!(view.point_at(cells, 40.0, 12.0), Point { x: 5_000.0, y: 2_000.0 });
/// assert_eq!(view.point_at(cells, 41.0, 13.0), Point { x: 5_100.0, y: 1_800.0 });
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct View {
    /// The point of the chart in the middle of the drawing.
    pub centre: Point,
    /// Metres of the grid across one column.
    pub metres_per_column: f64,
}

impl View {
    /// The closest view: a column covers half a metre.
    pub const CLOSEST: f64 = 0.5;
    /// The farthest view: a column covers four hundred kilometres, a hundred of them all longitudes.
    pub const FARTHEST: f64 = 400_000.0;

    /// A view of `centre`, its scale held between [`View::CLOSEST`] and [`View::FARTHEST`].
    #[must_use]
    pub fn new(centre: Point, metres_per_column: f64) -> View {
        let scale = if metres_per_column.is_finite() {
            metres_per_column.clamp(View::CLOSEST, View::FARTHEST)
        } else {
            View::FARTHEST
        };
        let finite = |v: f64| if v.is_finite() { v } else { 0.0 };
        let centre = Point { x: finite(centre.x), y: finite(centre.y) };
        View { centre, metres_per_column: scale }
    }

    /// The closest view that shows all of `extent`.
    #[must_use]
    pub fn fit(extent: Extent, cells: Cells) -> View {
        let across = extent.width() / f64::from(cells.columns.max(1));
        let up = extent.height() / (f64::from(cells.rows.max(1)) * COLUMNS_PER_ROW);
        View::new(extent.center(), across.max(up))
    }

    /// Metres of ground down one row.
    #[must_use]
    pub fn metres_per_row(&self) -> f64 {
        self.metres_per_column * COLUMNS_PER_ROW
    }

    /// The point of the chart at a place of the drawing, in cells from its top left corner.
    #[must_use]
    pub fn point_at(&self, cells: Cells, x: f64, y: f64) -> Point {
        let east = (x - f64::from(cells.columns) / 2.0) * self.metres_per_column;
        let north = (f64::from(cells.rows) / 2.0 - y) * self.metres_per_row();
        Point { x: self.centre.x + east, y: self.centre.y + north }
    }

    /// The place of the drawing at which a point of the chart lies, in cells from its top left
    /// corner; outside the drawing for a point that the view does not show.
    #[must_use]
    pub fn cells_of(&self, cells: Cells, point: Point) -> (f64, f64) {
        let east = (point.x - self.centre.x) / self.metres_per_column;
        let south = (self.centre.y - point.y) / self.metres_per_row();
        (f64::from(cells.columns) / 2.0 + east, f64::from(cells.rows) / 2.0 + south)
    }

    /// The part of the chart's grid that the drawing covers.
    #[must_use]
    pub fn extent(&self, cells: Cells) -> Extent {
        let (columns, rows) = (f64::from(cells.columns), f64::from(cells.rows));
        Extent::new(self.point_at(cells, 0.0, rows), self.point_at(cells, columns, 0.0))
    }

    /// The view after zooming in by `factor` (below one: out) while `fixed` keeps its place in the
    /// drawing. At a limit of the scale it zooms no further.
    #[must_use]
    pub fn zoomed(&self, factor: f64, fixed: Point) -> View {
        let factor = if factor.is_finite() && factor > 0.0 { factor } else { 1.0 };
        let next = View::new(self.centre, self.metres_per_column / factor);
        let ratio = next.metres_per_column / self.metres_per_column;
        let centre = Point {
            x: fixed.x + (self.centre.x - fixed.x) * ratio,
            y: fixed.y + (self.centre.y - fixed.y) * ratio,
        };
        View::new(centre, next.metres_per_column)
    }

    /// The view moved east and south by so many cells.
    #[must_use]
    pub fn panned(&self, columns: f64, rows: f64) -> View {
        let centre = Point {
            x: self.centre.x + columns * self.metres_per_column,
            y: self.centre.y - rows * self.metres_per_row(),
        };
        View::new(centre, self.metres_per_column)
    }

    /// The view moved so that its middle lies within `extent`.
    #[must_use]
    pub fn held_in(&self, extent: Extent) -> View {
        let centre = Point {
            x: self.centre.x.clamp(extent.min().x, extent.max().x),
            y: self.centre.y.clamp(extent.min().y, extent.max().y),
        };
        View::new(centre, self.metres_per_column)
    }

    /// The view moved by as little as shows `point` at least `margin` cells inside the drawing;
    /// unmoved if it is there already.
    #[must_use]
    pub fn showing(&self, cells: Cells, point: Point, margin: f64) -> View {
        let (x, y) = self.cells_of(cells, point);
        let (columns, rows) = (f64::from(cells.columns), f64::from(cells.rows));
        self.panned(overshoot(x, columns, margin), overshoot(y, rows, margin))
    }
}

/// How far `at` lies outside `margin..length - margin`, negative before it.
fn overshoot(at: f64, length: f64, margin: f64) -> f64 {
    let margin = margin.min(length / 2.0);
    (at - (length - margin)).max(0.0) + (at - margin).min(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const CELLS: Cells = Cells { columns: 120, rows: 40 };

    fn point(x: f64, y: f64) -> Point {
        Point { x, y }
    }

    #[test]
    fn a_row_is_as_high_as_two_columns_are_wide() {
        let view = View::new(point(0.0, 0.0), 50.0);
        let a = view.point_at(CELLS, 10.0, 10.0);
        let b = view.point_at(CELLS, 12.0, 11.0);
        assert_eq!((b.x - a.x, a.y - b.y), (100.0, 100.0));
    }

    #[test]
    fn fitting_shows_all_of_the_extent_and_touches_two_sides() {
        for (width, height) in [(30_000.0, 22_000.0), (400.0, 90_000.0), (90_000.0, 400.0)] {
            let extent = Extent::new(point(100.0, 200.0), point(100.0 + width, 200.0 + height));
            let shown = View::fit(extent, CELLS).extent(CELLS);
            assert!(shown.width() >= width - 1e-6 && shown.height() >= height - 1e-6);
            let touches = (shown.width() - width).abs().min((shown.height() - height).abs());
            assert!(touches < 1e-6, "{touches}");
        }
    }

    #[test]
    fn fitting_nothing_into_nothing_is_a_view() {
        let extent = Extent::new(point(5.0, 6.0), point(5.0, 6.0));
        let view = View::fit(extent, Cells::default());
        assert_eq!(view, View::new(point(5.0, 6.0), View::CLOSEST));
    }

    #[test]
    fn a_scale_that_is_no_number_is_held_to_a_limit() {
        let at = point(f64::NAN, 1.0);
        for scale in [f64::NAN, f64::INFINITY, -1.0, 0.0] {
            let view = View::new(at, scale);
            assert!(view.metres_per_column >= View::CLOSEST);
            assert!(view.centre.x.is_finite());
        }
    }

    #[test]
    fn showing_moves_only_when_needed() {
        let view = View::new(point(0.0, 0.0), 10.0);
        assert_eq!(view.showing(CELLS, point(100.0, 100.0), 4.0), view);
        let moved = view.showing(CELLS, point(5_000.0, 0.0), 4.0);
        let (x, y) = moved.cells_of(CELLS, point(5_000.0, 0.0));
        assert!((x - 116.0).abs() < 1e-9 && (y - 20.0).abs() < 1e-9);
    }

    proptest! {
        #[test]
        fn a_place_of_the_drawing_comes_back(x in -500.0..500.0, y in -500.0..500.0,
                                             scale in 0.5..20_000.0, e in -1e6..1e6, n in -1e6..1e6) {
            let view = View::new(point(e, n), scale);
            let (bx, by) = view.cells_of(CELLS, view.point_at(CELLS, x, y));
            prop_assert!((bx - x).abs() < 1e-6 && (by - y).abs() < 1e-6);
        }

        #[test]
        fn zooming_keeps_the_fixed_point_in_its_place(factor in 0.05..20.0, x in 0.0..120.0, y in 0.0..40.0) {
            let view = View::new(point(700.0, -300.0), 25.0);
            let fixed = view.point_at(CELLS, x, y);
            let (bx, by) = view.zoomed(factor, fixed).cells_of(CELLS, fixed);
            prop_assert!((bx - x).abs() < 1e-6 && (by - y).abs() < 1e-6);
        }
    }
}
