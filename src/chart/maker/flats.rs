//! Ground that dries, in pieces of one kind: flats at the heads of bays, ledges about points,
//! lone rocks. Where the shore is steep the strip is too narrow to draw and is left out.
//!
//! A piece's edge runs along the low water line, along the shore (exactly: it has the same
//! corners) and, where it ends on the way, along the sides of cells.

use std::collections::{BTreeMap, BTreeSet};

use super::contour::{self, Chord, Corner, Loop, Side};
use super::relief::{CELL, Relief};

/// The levels of high and of low water.
const HIGH: usize = 0;
const LOW: usize = 1;
/// A part of the strip with fewer cells than this is drawn whole.
const SMALL: usize = 70;
/// How far a flat is followed along the shore beyond its wide part, in cells.
const REACH: usize = 4;

/// A piece of ground that dries.
#[derive(Debug, Clone)]
pub(super) struct Flat {
    pub(super) edge: Loop,
    /// The nodes of the lattice within that dry.
    pub(super) nodes: Vec<usize>,
}

/// The drying ground of a relief, and the corners at which its pieces leave the lines of high
/// and low water.
pub(super) fn flats(relief: &Relief) -> (Vec<Flat>, BTreeSet<Corner>) {
    let strip = Strip::new(relief);
    let pieces = strip.pieces();
    let mut joints = BTreeSet::new();
    let mut found = Vec::new();
    for (number, cells) in pieces.cells.iter().enumerate() {
        let nodes: Vec<usize> = cells.iter().copied().filter(|n| dries(relief, *n)).collect();
        for edge in outline(relief, cells, number, &pieces.number, &mut joints) {
            if edge.double_area() > 2 * 500 {
                found.push(Flat { edge, nodes: nodes.clone() });
            }
        }
    }
    (found, joints)
}

fn dries(relief: &Relief, node: usize) -> bool {
    (relief.levels[LOW]..relief.high_water()).contains(&relief.heights[node])
}

/// The cells through which the strip between high and low water runs.
struct Strip<'a> {
    relief: &'a Relief,
    in_strip: Vec<bool>,
}

/// No piece.
const NONE: usize = usize::MAX;

/// Cells in pieces: the cells of each, and the piece of each cell.
struct Pieces {
    cells: Vec<Vec<usize>>,
    number: Vec<usize>,
}

impl<'a> Strip<'a> {
    fn new(relief: &'a Relief) -> Self {
        let mut in_strip = vec![false; relief.heights.len()];
        for row in 1..relief.rows - 2 {
            for column in 1..relief.columns - 2 {
                let node = relief.index(column, row);
                let up = node + relief.columns;
                let corners = [node, node + 1, up + 1, up].map(|n| relief.heights[n]);
                let top = corners.iter().fold(f64::MIN, |a, b| a.max(*b));
                let foot = corners.iter().fold(f64::MAX, |a, b| a.min(*b));
                in_strip[node] = top >= relief.levels[LOW] && foot < relief.high_water();
            }
        }
        Self { relief, in_strip }
    }

    /// Small parts whole; in large ones each wide place with the strip for some way beside it.
    fn pieces(&self) -> Pieces {
        let mut pieces = Pieces { cells: Vec::new(), number: vec![NONE; self.in_strip.len()] };
        let mut met = vec![false; self.in_strip.len()];
        for node in 0..self.in_strip.len() {
            if self.in_strip[node] && !met[node] {
                let part = self.spread(vec![node], &mut met, usize::MAX, |n| self.in_strip[n]);
                if part.len() < SMALL {
                    pieces.add(part);
                }
            }
        }
        let wide: Vec<bool> = (0..self.in_strip.len()).map(|n| self.is_wide(n)).collect();
        let mut met = vec![false; self.in_strip.len()];
        for node in 0..wide.len() {
            if wide[node] && pieces.number[node] == NONE && !met[node] {
                let core = self.spread(vec![node], &mut met, usize::MAX, |n| wide[n]);
                if core.len() >= 3 {
                    pieces.add(core);
                }
            }
        }
        let mut met: Vec<bool> = pieces.number.iter().map(|n| *n != NONE).collect();
        for number in 0..pieces.cells.len() {
            let core = std::mem::take(&mut pieces.cells[number]);
            let all = self.spread(core, &mut met, REACH, |n| self.in_strip[n]);
            all.iter().for_each(|n| pieces.number[*n] = number);
            pieces.cells[number] = all;
        }
        pieces
    }

    /// Whether the strip is so wide here that a whole cell and those about it dry.
    fn is_wide(&self, node: usize) -> bool {
        let relief = self.relief;
        if !self.in_strip[node] || !dries(relief, node) {
            return false;
        }
        let mut count = 0;
        relief.around(node, |n| count += usize::from(dries(relief, n)));
        count >= 6
    }

    /// `seeds` and the cells that hang together with them, side by side, for a number of steps.
    fn spread(
        &self,
        seeds: Vec<usize>,
        met: &mut [bool],
        steps: usize,
        takes: impl Fn(usize) -> bool,
    ) -> Vec<usize> {
        let mut found = seeds;
        found.iter().for_each(|n| met[*n] = true);
        let mut next = 0;
        let mut step = 0;
        while next < found.len() && step < steps {
            let ring = found.len();
            while next < ring {
                for beside in beside(self.relief, found[next]) {
                    if takes(beside) && !met[beside] {
                        met[beside] = true;
                        found.push(beside);
                    }
                }
                next += 1;
            }
            step += 1;
        }
        found
    }
}

impl Pieces {
    fn add(&mut self, cells: Vec<usize>) {
        let number = self.cells.len();
        cells.iter().for_each(|n| self.number[*n] = number);
        self.cells.push(cells);
    }
}

/// The cells that share a side with a cell: below, right, above, left. The strip never reaches
/// the frame, so they exist.
fn beside(relief: &Relief, cell: usize) -> [usize; 4] {
    [cell - relief.columns, cell + 1, cell + relief.columns, cell - 1]
}

/// The outer edges of a piece.
fn outline(
    relief: &Relief,
    cells: &[usize],
    number: usize,
    numbers: &[usize],
    joints: &mut BTreeSet<Corner>,
) -> Vec<Loop> {
    let mut steps: BTreeMap<Corner, Vec<Corner>> = BTreeMap::new();
    let mut step = |from: Corner, to: Corner| steps.entry(from).or_default().push(to);
    for cell in cells {
        let sides = contour::sides_of(relief, *cell);
        let mut chord = |level: usize, reversed: bool| {
            let above = contour::corners_above(relief, *cell, relief.levels[level]);
            let (chords, count) = contour::chords(above);
            for (from, to) in chords.into_iter().take(count) {
                let (from, to): Chord = if reversed { (to, from) } else { (from, to) };
                let at = |side: usize| contour::crossing(relief, sides[side], level);
                step(at(from), at(to));
            }
        };
        chord(LOW, false);
        chord(HIGH, true);
        for (i, other) in beside(relief, *cell).into_iter().enumerate() {
            if numbers[other] != number
                && let Some((from, to)) = dry_part(relief, sides[i], joints)
            {
                if i < 2 { step(from, to) } else { step(to, from) }
            }
        }
    }
    chain(steps)
}

/// The part of a cell's side that dries, from its first end on.
fn dry_part(
    relief: &Relief,
    side: Side,
    joints: &mut BTreeSet<Corner>,
) -> Option<(Corner, Corner)> {
    let (a, b) = side.ends(relief);
    let ends = [a, b].map(|n| relief.heights[n]);
    let at = |node: usize, height: f64, other: f64| -> Option<Corner> {
        if dries(relief, node) {
            let (x, y) = relief.place(node);
            return Some((x as i32, y as i32));
        }
        let level = if height >= relief.high_water() { HIGH } else { LOW };
        let reaches =
            if level == HIGH { other < relief.high_water() } else { other >= relief.levels[LOW] };
        reaches.then(|| contour::crossing(relief, side, level))
    };
    let (from, to) = (at(a, ends[0], ends[1])?, at(b, ends[1], ends[0])?);
    joints.extend([from, to]);
    Some((from, to))
}

/// Joins steps to closed lines. Where a line comes back to a place it is parted there, so that
/// none touches itself.
fn chain(mut steps: BTreeMap<Corner, Vec<Corner>>) -> Vec<Loop> {
    let mut loops = Vec::new();
    while let Some((start, _)) = steps.first_key_value() {
        let mut at = *start;
        let mut corners: Vec<Corner> = Vec::new();
        while let Some(mut ways) = steps.remove(&at) {
            corners.push(at);
            let Some(to) = ways.pop() else { break };
            if !ways.is_empty() {
                steps.insert(at, ways);
            }
            at = to;
            // Only nodes of the lattice are passed twice; the first corner closes the line.
            let is_node = at.0 % CELL as i32 == 0 && at.1 % CELL as i32 == 0;
            if is_node || corners.first() == Some(&at) {
                let again = corners.iter().position(|c| *c == at);
                if let Some(first) = again {
                    loops.push(Loop { corners: corners.split_off(first) });
                }
            }
        }
    }
    loops.retain(|l| l.corners.len() > 2);
    loops
}
