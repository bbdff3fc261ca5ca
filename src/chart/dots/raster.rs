//! From metres on the grid to dots of a drawing.

use crate::{Cells, Point, View};

/// How a view is cut into dots. Dots are counted from the top left corner; the dot `(x, y)` covers
/// the square from `(x, y)` to `(x + 1, y + 1)`, and its middle decides what it shows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Raster {
    width: usize,
    height: usize,
    left: f64,
    top: f64,
    dots_per_metre: (f64, f64),
}

impl Raster {
    /// The raster of a view in `cells`, each cut into `across` by `down` dots (at least one).
    #[must_use]
    pub fn new(view: &View, cells: Cells, across: u8, down: u8) -> Raster {
        let (across, down) = (across.max(1), down.max(1));
        let corner = view.point_at(cells, 0.0, 0.0);
        Raster {
            width: usize::from(cells.columns) * usize::from(across),
            height: usize::from(cells.rows) * usize::from(down),
            left: corner.x,
            top: corner.y,
            dots_per_metre: (
                f64::from(across) / view.metres_per_column,
                f64::from(down) / view.metres_per_row(),
            ),
        }
    }

    /// How many dots it is wide.
    #[must_use]
    pub fn width(&self) -> usize {
        self.width
    }

    /// How many dots it is high.
    #[must_use]
    pub fn height(&self) -> usize {
        self.height
    }

    /// Where a point lies, in dots from the top left corner.
    #[must_use]
    pub fn place(&self, point: Point) -> (f64, f64) {
        (
            (point.x - self.left) * self.dots_per_metre.0,
            (self.top - point.y) * self.dots_per_metre.1,
        )
    }

    /// The point that lies so many dots from the top left corner.
    pub(super) fn point(&self, x: f64, y: f64) -> Point {
        Point { x: self.left + x / self.dots_per_metre.0, y: self.top - y / self.dots_per_metre.1 }
    }

    /// How many grid metres apart its dots are, across or down, whichever is less.
    #[must_use]
    pub fn metres_per_dot(&self) -> f64 {
        1.0 / self.dots_per_metre.0.max(self.dots_per_metre.1)
    }

    /// The raster of the same dots on a plane that is moved west by so many metres.
    pub(super) fn moved_west(&self, metres: f64) -> Raster {
        Raster { left: self.left + metres, ..*self }
    }

    /// The dot that covers a point, if the drawing shows it.
    #[must_use]
    pub fn dot(&self, point: Point) -> Option<(usize, usize)> {
        let (x, y) = self.place(point);
        let inside = x >= 0.0 && y >= 0.0 && x < self.width as f64 && y < self.height as f64;
        inside.then_some((x as usize, y as usize))
    }

    /// The number of the first dot when dots are counted from the grid's origin instead: adding it
    /// to a dot makes a pattern move with the ground when the view is panned.
    #[must_use]
    pub fn origin(&self) -> (i64, i64) {
        (
            (self.left * self.dots_per_metre.0).round() as i64,
            (-self.top * self.dots_per_metre.1).round() as i64,
        )
    }
}
