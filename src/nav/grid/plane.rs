//! What the grids have in common inside: a plane of coordinates, cut into squares of 100 km.

use super::{FromGrid, GridError, GridPoint, OnGrid, ReferenceError};
use crate::{Length, Position};

/// The side of the squares that letters name, in metres.
pub(super) const SQUARE: f64 = 100_000.0;

/// One of the squares of 100 km, by its place among them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(super) struct Cell {
    /// Hundreds of kilometres east of the false origin.
    pub(super) column: i64,
    /// Hundreds of kilometres north of the false origin.
    pub(super) row: i64,
}

impl Cell {
    /// The square that holds `point`.
    pub(super) fn of(point: GridPoint) -> Cell {
        let (column, row) = point.whole(SQUARE);
        Cell { column, row }
    }

    /// Its south-west corner.
    pub(super) fn corner(self) -> GridPoint {
        // Hundreds of kilometres on Earth are far within what f64 counts exactly.
        GridPoint::metres(self.column as f64 * SQUARE, self.row as f64 * SQUARE)
    }
}

impl Cell {
    /// Its middle.
    pub(super) fn centre(self) -> GridPoint {
        let GridPoint { easting, northing } = self.corner();
        let half = Length::metres(SQUARE / 2.0);
        GridPoint { easting: easting + half, northing: northing + half }
    }
}

/// One grid of one plane.
pub(super) trait Plane {
    /// The grid point of a position.
    fn forward(&self, position: Position) -> Result<OnGrid, GridError>;

    /// The grid points of many positions, appended in their order.
    fn forward_all(
        &self,
        positions: &[Position],
        points: &mut Vec<GridPoint>,
    ) -> Result<(), GridError> {
        for position in positions {
            points.push(self.forward(*position)?.point);
        }
        Ok(())
    }

    /// The position of a grid point.
    fn inverse(&self, point: GridPoint) -> Result<FromGrid, GridError>;

    /// Whether its squares have letters at all.
    fn has_letters(&self) -> bool {
        true
    }

    /// The letters of the square `cell` for a reference to `point` in it; nothing where it
    /// has none.
    fn letters(&self, cell: Cell, point: GridPoint) -> Option<String>;

    /// The square of these letters, which are capitals, after the digits of a zone if any.
    fn cell(&self, letters: &str, near: Option<GridPoint>) -> Result<Cell, ReferenceError>;

    /// Whether the grid's own area takes in the square.
    fn covers(&self, cell: Cell) -> bool;

    /// Whether full coordinates may name `point`.
    fn holds(&self, point: GridPoint) -> bool {
        self.inverse(point).is_ok()
    }

    /// That area in words, for messages.
    fn extent(&self) -> &'static str;
}
