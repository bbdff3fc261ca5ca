//! The plane in square cells, and which of them the shore comes into.

use super::CELL;
use crate::coast::Coast;
use crate::{Extent, Point};

/// The most cells that there are.
const MOST: f64 = 4_000_000.0;

/// What rounding may take off a side's way through a row, in cells.
const ROUNDING: f64 = 1e-6;

/// Square cells over an extent.
#[derive(Debug)]
pub(super) struct Cells {
    low: Point,
    pub(super) side: f64,
    pub(super) columns: i32,
    pub(super) rows: i32,
    shore: Vec<bool>,
}

/// A cell: its column and its row.
pub(super) type Cell = (i32, i32);

impl Cells {
    /// The cells over an extent, those marked that the shore comes into.
    pub(super) fn of(coast: &Coast, extent: Extent) -> Cells {
        let (low, high) = (extent.min(), extent.max());
        let (width, height) = (high.x - low.x, high.y - low.y);
        let side = CELL.max((width * height / MOST).sqrt());
        let count = |length: f64| ((length / side).ceil().max(1.0)) as i32;
        let (columns, rows) = (count(width), count(height));
        let shore = vec![false; columns as usize * rows as usize];
        let mut cells = Cells { low, side, columns, rows, shore };
        coast.for_runs_in(extent, |run| {
            for (_, [a, b]) in run.sides() {
                cells.mark(a, b);
            }
        });
        cells
    }

    /// A place in cells from the low corner.
    fn scaled(&self, at: Point) -> Point {
        (at - self.low) / self.side
    }

    /// Marks every cell that a side comes into.
    fn mark(&mut self, a: Point, b: Point) {
        let (a, b) = (self.scaled(a), self.scaled(b));
        let (low, high) = if a.y <= b.y { (a, b) } else { (b, a) };
        let whole = |at: f64, most: i32| (at.floor().max(0.0) as i32).min(most);
        if high.y < 0.0 || low.y >= f64::from(self.rows) {
            return;
        }
        for row in whole(low.y - ROUNDING, self.rows - 1)..=whole(high.y + ROUNDING, self.rows - 1)
        {
            let at = |y: f64| {
                let part = if high.y > low.y { (y - low.y) / (high.y - low.y) } else { 0.0 };
                low.x + (high.x - low.x) * part.clamp(0.0, 1.0)
            };
            let level = high.y - low.y <= ROUNDING;
            let (from, to) = if level {
                (low.x, high.x)
            } else {
                (at(f64::from(row) - ROUNDING), at(f64::from(row + 1) + ROUNDING))
            };
            let (from, to) = (from.min(to) - ROUNDING, from.max(to) + ROUNDING);
            if to < 0.0 || from >= f64::from(self.columns) {
                continue;
            }
            for column in whole(from, self.columns - 1)..=whole(to, self.columns - 1) {
                let index = self.index((column, row));
                self.shore[index] = true;
            }
        }
    }

    /// The cell that a place lies in, or would if there were more of them.
    pub(super) fn cell(&self, at: Point) -> Cell {
        let at = self.scaled(at);
        (at.x.floor() as i32, at.y.floor() as i32)
    }

    /// Whether there is such a cell.
    pub(super) fn has(&self, (column, row): Cell) -> bool {
        (0..self.columns).contains(&column) && (0..self.rows).contains(&row)
    }

    /// The number of a cell that there is.
    pub(super) fn index(&self, (column, row): Cell) -> usize {
        row as usize * self.columns as usize + column as usize
    }

    /// The cell of a number.
    pub(super) fn numbered(&self, index: usize) -> Cell {
        let columns = self.columns as usize;
        ((index % columns) as i32, (index / columns) as i32)
    }

    /// The middle of a cell.
    pub(super) fn middle(&self, (column, row): Cell) -> Point {
        let at = |v: i32| (f64::from(v) + 0.5) * self.side;
        Point { x: self.low.x + at(column), y: self.low.y + at(row) }
    }

    /// Whether the shore may come into a cell that there is.
    pub(super) fn is_marked(&self, cell: Cell) -> bool {
        self.shore[self.index(cell)]
    }

    /// How many cells there are.
    pub(super) fn len(&self) -> usize {
        self.shore.len()
    }
}
