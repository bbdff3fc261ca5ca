//! Lines of equal height through a relief.
//!
//! A line passes through each side of a cell that has one end above the level and one end not,
//! at a whole metre of that side. Levels that cross the same side keep their order and at least
//! [`GAP`] metres between them and to the nodes. Within a cell, ends of different lines never
//! alternate round the cell, so lines do not cross or touch, whatever the relief.

use super::relief::{CELL, Levels, Relief};

/// A corner of a line: whole metres from the chart's south-west corner, east and north.
pub(super) type Corner = (i32, i32);

/// The least distance along a cell's side between lines, in metres.
const GAP: i32 = 2;

/// A closed line with the higher ground on its left.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Loop {
    /// Its corners, the first not repeated.
    pub(super) corners: Vec<Corner>,
}

impl Loop {
    /// Twice the area within, in square metres: negative if the lower ground is within.
    pub(super) fn double_area(&self) -> i64 {
        let next = self.corners.iter().cycle().skip(1);
        self.corners
            .iter()
            .zip(next)
            .map(|(a, b)| i64::from(a.0) * i64::from(b.1) - i64::from(b.0) * i64::from(a.1))
            .sum()
    }
}

/// A side of a cell, by its lower left node and whether it goes up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Side {
    pub(super) node: usize,
    pub(super) upward: bool,
}

impl Side {
    fn number(self) -> u32 {
        (self.node * 2) as u32 + u32::from(self.upward)
    }

    pub(super) fn ends(self, relief: &Relief) -> (usize, usize) {
        let step = if self.upward { relief.columns } else { 1 };
        (self.node, self.node + step)
    }
}

/// The four sides of the cell whose lower left node is `node`: bottom, right, top, left.
pub(super) fn sides_of(relief: &Relief, node: usize) -> [Side; 4] {
    [
        Side { node, upward: false },
        Side { node: node + 1, upward: true },
        Side { node: node + relief.columns, upward: false },
        Side { node, upward: true },
    ]
}

/// A piece of a line across a cell, from side to side of [`sides_of`], higher ground on its left.
pub(super) type Chord = (usize, usize);

/// The chords of a level across a cell: at most two.
pub(super) fn chords(above: [bool; 4]) -> ([Chord; 2], usize) {
    // Corners counter-clockwise from the lower left; side i joins corner i and corner i + 1.
    // Walking round, a line leaves the cell where the ground falls below and enters where it
    // rises: high ground keeps to its left if it enters at a fall and leaves at the rise before.
    let mut found = [(0, 0); 2];
    let mut count = 0;
    for fall in 0..4 {
        if above[fall] && !above[(fall + 1) % 4] {
            // Back over the high corners to the side where they begin.
            let mut rise = (fall + 3) % 4;
            while above[rise] {
                rise = (rise + 3) % 4;
            }
            found[count] = (fall, rise);
            count += 1;
        }
    }
    (found, count)
}

/// Which corners of a cell stand at or above a level.
pub(super) fn corners_above(relief: &Relief, node: usize, level: f64) -> [bool; 4] {
    let up = node + relief.columns;
    [node, node + 1, up + 1, up].map(|n| relief.heights[n] >= level)
}

/// Where the line of a level crosses a side.
pub(super) fn crossing(relief: &Relief, side: Side, level: usize) -> Corner {
    let (from, to) = side.ends(relief);
    let along = offset(&relief.levels, (relief.heights[from], relief.heights[to]), level);
    let (x, y) = relief.place(from);
    let (x, y) = (x as i32, y as i32);
    if side.upward { (x, y + along) } else { (x + along, y) }
}

/// How far from the first end of a side the line of a level crosses it.
fn offset(levels: &Levels, (first, last): (f64, f64), level: usize) -> i32 {
    let length = CELL as i32;
    let mut places = [0; 5];
    let crossed = |i: usize| (first >= levels[i]) != (last >= levels[i]);
    let rising = last > first;
    let order = |step: usize| if rising { levels.len() - 1 - step } else { step };
    let mut least = GAP;
    for i in (0..levels.len()).map(order).filter(|i| crossed(*i)) {
        let wanted = (levels[i] - first) / (last - first) * CELL;
        places[i] = ((wanted + 0.5) as i32).max(least);
        least = places[i] + GAP;
    }
    let mut most = length - GAP;
    for i in (0..levels.len()).rev().map(order).filter(|i| crossed(*i)) {
        places[i] = places[i].min(most);
        most = places[i] - GAP;
    }
    places[level]
}

/// The closed lines of each level, in an order that depends on the relief alone.
pub(super) fn lines(relief: &Relief) -> Vec<Vec<Loop>> {
    // How many of the levels, which fall, each node lies below: at one that it is not below, it is above
    // all the rest.
    let below = |height: &f64| relief.levels.iter().filter(|level| height < level).count() as u8;
    let below: Vec<u8> = relief.heights.iter().map(below).collect();
    let mut cells = Vec::new();
    for row in 0..relief.rows - 1 {
        for node in relief.index(0, row)..relief.index(relief.columns - 1, row) {
            let up = node + relief.columns;
            let corners = [node, node + 1, up + 1, up].map(|n| below[n]);
            if corners != [corners[0]; 4] {
                cells.push((node, corners));
            }
        }
    }
    let mut next = vec![NOWHERE; relief.heights.len() * 2];
    let levels = 0..relief.levels.len();
    levels.map(|level| closed(relief, level, &cells, &mut next)).collect()
}

/// No side of a cell.
const NOWHERE: u32 = u32::MAX;

/// The closed lines of a level through the cells whose corners lie below so many levels each. `next`
/// leads nowhere, before and after.
fn closed(
    relief: &Relief,
    level: usize,
    cells: &[(usize, [u8; 4])],
    next: &mut [u32],
) -> Vec<Loop> {
    let mut starts = Vec::new();
    for (node, below) in cells {
        let above = below.map(|count| usize::from(count) <= level);
        let sides = sides_of(relief, *node);
        let (pieces, count) = chords(above);
        for (from, to) in pieces.into_iter().take(count) {
            next[sides[from].number() as usize] = sides[to].number();
            starts.push(sides[from].number());
        }
    }
    let mut loops = Vec::new();
    for start in starts {
        let mut corners = Vec::new();
        let mut at = start;
        while next[at as usize] != NOWHERE {
            let side = Side { node: at as usize / 2, upward: at % 2 == 1 };
            corners.push(crossing(relief, side, level));
            at = std::mem::replace(&mut next[at as usize], NOWHERE);
        }
        if !corners.is_empty() {
            loops.push(Loop { corners });
        }
    }
    loops
}
