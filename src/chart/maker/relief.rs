//! The relief: how high the ground stands at the nodes of a lattice, above and below the sea.

use super::bold::Bold;
use super::detail::Detail;
use super::dice::Xy;
use super::sketch::Sketch;
use super::wishes::TideRange;

/// The sides of the lattice's cells, in metres.
pub(super) const CELL: f64 = 40.0;
/// Where land leads off the chart, the lattice reaches so many cells beyond its edges: the shore is
/// closed out there.
const MARGIN: usize = 2;

/// How high high water stands above chart datum with the usual tide, in metres.
const HIGH_WATER: f64 = 4.6;

/// The heights at which lines are drawn, in metres above chart datum, from the top: the shore at high
/// water, low water, and three depths.
pub(super) type Levels = [f64; 5];

/// Heights above chart datum at the nodes of a lattice, in rows from the south-west.
#[derive(Debug, Clone)]
pub(super) struct Relief {
    pub(super) columns: usize,
    pub(super) rows: usize,
    pub(super) heights: Vec<f64>,
    /// The chart's sides, in metres.
    pub(super) size: Xy,
    pub(super) levels: Levels,
    /// A node on the chart's edge in the open sea.
    pub(super) sea: usize,
    /// How many cells it reaches beyond the chart on each side.
    margin: usize,
}

impl Relief {
    /// The relief of a sketch.
    pub(super) fn new(seed: u64, sketch: &Sketch, tide: TideRange) -> Self {
        let margin = if sketch.body.leads_off() { MARGIN } else { 0 };
        let columns = (sketch.size.0 / CELL) as usize + 1 + 2 * margin;
        let rows = (sketch.size.1 / CELL) as usize + 1 + 2 * margin;
        let levels = [HIGH_WATER * tide.share(), 0.0, -2.0, -6.0, -20.0];
        let heights = Vec::with_capacity(columns * rows);
        let mut relief = Self { columns, rows, heights, size: sketch.size, levels, sea: 0, margin };
        let bold = Bold::new(seed, sketch, &relief);
        let detail = Detail::new(seed, sketch, &relief);
        for row in 0..rows {
            for column in 0..columns {
                let at = relief.at(column, row);
                let height = levels[0] + detail.on(&bold.at(column, row), at);
                relief.heights.push(height);
            }
        }
        relief.sea = relief.node(sketch.body.open_sea());
        relief
    }

    /// The height of high water, where the shore is drawn, above chart datum.
    pub(super) fn high_water(&self) -> f64 {
        self.levels[0]
    }

    /// The index of a node.
    pub(super) fn index(&self, column: usize, row: usize) -> usize {
        row * self.columns + column
    }

    /// The place of a node.
    pub(super) fn place(&self, index: usize) -> Xy {
        self.at(index % self.columns, index / self.columns)
    }

    /// The place of a node by its column and row.
    pub(super) fn at(&self, column: usize, row: usize) -> Xy {
        let beyond = self.margin as f64 * CELL;
        (column as f64 * CELL - beyond, row as f64 * CELL - beyond)
    }

    /// The places of its south-west and beyond its north-east corner.
    pub(super) fn corners(&self) -> (Xy, Xy) {
        (self.at(0, 0), self.at(self.columns, self.rows))
    }

    /// How many cells it reaches beyond the chart on each side.
    pub(super) fn margin(&self) -> usize {
        self.margin
    }

    /// Whether a place lies so far within the chart's edges, in metres.
    pub(super) fn within(&self, at: Xy, far: f64) -> bool {
        (far..=self.size.0 - far).contains(&at.0) && (far..=self.size.1 - far).contains(&at.1)
    }

    /// Calls `each` with the up to eight nodes about a node.
    pub(super) fn around(&self, node: usize, mut each: impl FnMut(usize)) {
        let (column, row) = (node % self.columns, node / self.columns);
        for up in row.saturating_sub(1)..=(row + 1).min(self.rows - 1) {
            for across in column.saturating_sub(1)..=(column + 1).min(self.columns - 1) {
                if (across, up) != (column, row) {
                    each(self.index(across, up));
                }
            }
        }
    }

    /// The node nearest to a place.
    pub(super) fn node(&self, at: Xy) -> usize {
        let beyond = self.margin as f64 * CELL;
        // By way of a signed number, which is the quicker: this is asked millions of times.
        let nearest = |at: f64| (((at + beyond) / CELL + 0.5) as i64).max(0) as usize;
        let (column, row) = (nearest(at.0), nearest(at.1));
        self.index(column.min(self.columns - 1), row.min(self.rows - 1))
    }

    /// The height at the node nearest to a place.
    pub(super) fn height(&self, at: Xy) -> f64 {
        self.heights[self.node(at)]
    }
}
