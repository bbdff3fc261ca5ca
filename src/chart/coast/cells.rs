//! Where there is land and where not, away from the shore: a cell without shore is one or the
//! other, and most points of the plane lie in one.

use super::crew::{self, Crew};
use super::points::ROOM;
use super::{Ashore, Coast, Slab};
use crate::Point;
use bytemuck::{Pod, Zeroable};
use std::ops::Range;

/// Where the cells lie.
#[derive(Debug, Clone, Copy, PartialEq, Default, Pod, Zeroable)]
#[repr(C)]
pub(crate) struct Frame {
    west: f64,
    south: f64,
    /// Cells in a metre east and north.
    across: f64,
    up: f64,
    columns: u32,
    rows: u32,
}

/// Cells in a word of [`Cells::states`], at two bits each.
const PER_WORD: u64 = 32;

/// How many cells there are: so many for each vertex, but within limits. At eight, of the points of
/// a coast of 150,000 vertices one in thirty lies in a cell with shore.
const PER_VERTEX: usize = 8;
const FEWEST: usize = 1 << 12;
const MOST: usize = 1 << 24;

/// How far beyond a side, in cells, cells count as its own: far more than places are rounded by.
const MARGIN: f64 = 1e-3;

/// What is known of a cell. 0 is a cell that nobody has looked at.
const WATER: u64 = 1;
const LAND: u64 = 2;
/// It has shore in it, or near it: the sides decide.
const SHORE: u64 = 3;

/// The cells of a coast.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Cells {
    pub(super) frame: Frame,
    pub(super) states: Slab<u64>,
}

impl Frame {
    /// How many words hold the cells.
    pub(crate) fn words(&self) -> u64 {
        self.cells().div_ceil(PER_WORD)
    }

    fn cells(&self) -> u64 {
        u64::from(self.columns) * u64::from(self.rows)
    }

    /// About so many cells over a rectangle.
    fn over([west, south, east, north]: [f64; 4], count: usize) -> Frame {
        let (width, height) = ((east - west).max(1.0), (north - south).max(1.0));
        let side = (width * height / count as f64).sqrt();
        let cells = |length: f64| ((length / side).ceil()).clamp(1.0, count as f64);
        let (columns, rows) = (cells(width), cells(height));
        let (across, up) = (columns / width, rows / height);
        Frame { west, south, across, up, columns: columns as u32, rows: rows as u32 }
    }

    /// A place in cells from the south-west corner.
    fn place(&self, p: Point) -> [f64; 2] {
        [(p.x - self.west) * self.across, (p.y - self.south) * self.up]
    }

    /// The number of the cell that holds a place, if one does.
    fn cell(&self, [x, y]: [f64; 2]) -> Option<u64> {
        let within =
            x >= 0.0 && y >= 0.0 && x < f64::from(self.columns) && y < f64::from(self.rows);
        within.then(|| u64::from(y as u32) * u64::from(self.columns) + u64::from(x as u32))
    }

    /// The middle of a cell.
    fn middle(&self, column: u32, row: u32) -> Point {
        Point {
            x: self.west + (f64::from(column) + 0.5) / self.across,
            y: self.south + (f64::from(row) + 0.5) / self.up,
        }
    }
}

impl Cells {
    /// Whether a point is on land, where the cells know.
    pub(super) fn at(&self, point: Point) -> Option<bool> {
        let cell = self.frame.cell(self.frame.place(point))?;
        let word = self.states.get((cell / PER_WORD) as usize)?;
        match (word >> (2 * (cell % PER_WORD))) & 3 {
            WATER => Some(false),
            LAND => Some(true),
            _ => None,
        }
    }

    /// The cells of a coast that has none yet; nothing where `crew` breaks it off.
    pub(super) fn of(coast: &Coast, crew: &mut dyn Crew) -> Option<Cells> {
        let Some(root) = coast.levels.root().and_then(|root| coast.tree.get(root)) else {
            return Some(Cells::default());
        };
        let count = (coast.points.len() * PER_VERTEX).clamp(FEWEST, MOST);
        let frame = Frame::over(root.bounds().map(f64::from), count);
        let arrays = coast.arrays();
        // Each part marks cells of its own, which are then laid over each other.
        let part = arrays.runs.len().div_ceil(PARTS).max(FEWEST_RUNS);
        let marked = crew::each(crew, arrays.runs.len().div_ceil(part), |number| {
            let mut maker = Maker::over(frame, 0..frame.cells());
            let mut room = ROOM;
            for run in number * part..arrays.runs.len().min((number + 1) * part) {
                arrays.run(run, &mut room).sides().for_each(|(_, ends)| maker.mark(ends));
            }
            maker
        })?;
        let mut marks = Maker::over(frame, 0..frame.cells());
        marked.iter().for_each(|part| marks.lay(part));
        // Bands of rows, each for itself: what is known of a cell does not hang on where one began.
        let rows = frame.rows.div_ceil(PARTS as u32);
        let filled = crew::each(crew, frame.rows.div_ceil(rows) as usize, |number| {
            let first = number as u32 * rows;
            marks.band(first..frame.rows.min(first + rows), coast)
        })?;
        filled.iter().for_each(|band| marks.lay(band));
        Some(Cells { frame, states: marks.words.into() })
    }
}

/// In how many parts the cells are made, and how many runs are worth a part of their own: any in
/// tests.
const PARTS: usize = 8;
const FEWEST_RUNS: usize = if cfg!(test) { 1 } else { 1 << 10 };

/// Makes the cells, or some of them.
struct Maker {
    frame: Frame,
    /// The word of the first of them.
    first: usize,
    words: Vec<u64>,
}

impl Maker {
    /// Cells of which nothing is known.
    fn over(frame: Frame, cells: Range<u64>) -> Maker {
        let first = (cells.start / PER_WORD) as usize;
        let end = cells.end.div_ceil(PER_WORD) as usize;
        Maker { frame, first, words: vec![0; end - first] }
    }

    /// Takes over what another knows of some of them.
    fn lay(&mut self, other: &Maker) {
        for (word, more) in self.words[other.first - self.first..].iter_mut().zip(&other.words) {
            *word |= more;
        }
    }

    fn get(&self, cell: u64) -> u64 {
        (self.words[(cell / PER_WORD) as usize - self.first] >> (2 * (cell % PER_WORD))) & 3
    }

    fn set(&mut self, cell: u64, state: u64) {
        let shift = 2 * (cell % PER_WORD);
        let word = &mut self.words[(cell / PER_WORD) as usize - self.first];
        *word = (*word & !(3 << shift)) | (state << shift);
    }

    /// Marks every cell that a side comes into or near.
    fn mark(&mut self, [a, b]: [Point; 2]) {
        let (a, b) = (self.frame.place(a), self.frame.place(b));
        let (low, high) = if a[1] <= b[1] { (a, b) } else { (b, a) };
        let slope = (high[0] - low[0]) / (high[1] - low[1]);
        let (columns, rows) = (self.frame.columns, self.frame.rows);
        for row in cells_between(low[1], high[1], rows) {
            let mut ends = [low[0], high[0]];
            if slope.is_finite() {
                let (foot, top) = (f64::from(row) - MARGIN, f64::from(row) + 1.0 + MARGIN);
                let at = |y: f64| low[0] + (y.clamp(low[1], high[1]) - low[1]) * slope;
                ends = [at(foot), at(top)];
            }
            let [west, east] = [ends[0].min(ends[1]), ends[0].max(ends[1])];
            for column in cells_between(west, east, columns) {
                self.set(u64::from(row) * u64::from(columns) + u64::from(column), SHORE);
            }
        }
    }

    /// Tells of rows what every cell is that is not marked: what its neighbour is that is not
    /// marked either, since nothing lies between them; and if there is none, what its middle is.
    fn band(&self, rows: Range<u32>, coast: &Coast) -> Maker {
        let columns = u64::from(self.frame.columns);
        let start = u64::from(rows.start) * columns;
        let mut band = Maker::over(self.frame, start..u64::from(rows.end) * columns);
        let known = |state: u64| state == WATER || state == LAND;
        for row in rows {
            let mut west = SHORE;
            for column in 0..self.frame.columns {
                let cell = u64::from(row) * columns + u64::from(column);
                let state = if self.get(cell) == SHORE {
                    SHORE
                } else {
                    let south =
                        if cell >= start + columns { band.get(cell - columns) } else { SHORE };
                    match (known(west), known(south)) {
                        (true, _) => west,
                        (_, true) => south,
                        _ => self.ask(coast, column, row),
                    }
                };
                band.set(cell, state);
                west = state;
            }
        }
        band
    }

    fn ask(&self, coast: &Coast, column: u32, row: u32) -> u64 {
        match coast.ashore(self.frame.middle(column, row)) {
            Ashore::Water => WATER,
            Ashore::Land(_) => LAND,
            Ashore::Shore(_) => SHORE,
        }
    }
}

/// The numbers of the cells of `count` between two places, and of those near them.
fn cells_between(from: f64, to: f64, count: u32) -> std::ops::RangeInclusive<u32> {
    // A cast to an integer holds what is out of its range to the nearest that is in it.
    let cell = |place: f64| (place.floor() as u32).min(count - 1);
    cell(from - MARGIN)..=cell(to + MARGIN)
}
