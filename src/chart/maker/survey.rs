//! Questions to a relief: how much land lies about a place, how far the water reaches from it,
//! how open to the sea it is.

use super::dice::{DIRECTIONS, Xy};
use super::relief::{CELL, Relief};
use super::water;

/// As far as a ray looks when it judges how open a place is, in metres.
const SIGHT: f64 = 4_000.0;

/// A step straight to the next node, and one aslant, in the units of [`distances`].
const STRAIGHT: f64 = 5.0;
const ASLANT: u16 = 7;
/// Distances in such steps overrate the straight line by up to 8 parts in a hundred.
const SURE: f64 = 0.92;

/// A settled relief with sums over it.
#[derive(Debug)]
pub(super) struct Survey<'a> {
    pub(super) relief: &'a Relief,
    /// Land nodes in the rectangle below and left of each node, one row and column of zeros first.
    sums: Vec<u32>,
    /// How far each node is from the nearest land node, see [`distances`].
    off: Vec<u16>,
    /// Within which distance of a node no land lies, in metres, for each number of such steps.
    metres: Vec<f64>,
    /// Whether a boat comes to each node from the open sea, through water wide enough for it.
    reached: Vec<bool>,
}

impl<'a> Survey<'a> {
    pub(super) fn new(relief: &'a Relief) -> Self {
        let (wide, high_water) = (relief.columns + 1, relief.high_water());
        let mut sums = vec![0; wide * (relief.rows + 1)];
        for row in 0..relief.rows {
            let mut in_row = 0;
            for column in 0..relief.columns {
                in_row += u32::from(relief.heights[relief.index(column, row)] >= high_water);
                sums[(row + 1) * wide + column + 1] = sums[row * wide + column + 1] + in_row;
            }
        }
        let off = distances(relief);
        let most = off.iter().copied().max().unwrap_or_default();
        let metres = (0..=most).map(|steps| f64::from(steps) * CELL / STRAIGHT * SURE).collect();
        Self { relief, sums, off, metres, reached: water::reached(relief) }
    }

    /// The share of land in the square that reaches `half` metres each way from a place.
    pub(super) fn land_share(&self, at: Xy, half: f64) -> f64 {
        let reach = (half / CELL) as usize;
        let node = self.relief.node(at);
        let (column, row) = (node % self.relief.columns, node / self.relief.columns);
        let (left, right) =
            (column.saturating_sub(reach), (column + reach + 1).min(self.relief.columns));
        let (low, high) = (row.saturating_sub(reach), (row + reach + 1).min(self.relief.rows));
        let sum = |column: usize, row: usize| self.sums[row * (self.relief.columns + 1) + column];
        let land = sum(right, high) + sum(left, low) - sum(left, high) - sum(right, low);
        f64::from(land) / ((right - left) * (high - low)) as f64
    }

    pub(super) fn is_sea(&self, at: Xy) -> bool {
        self.off[self.relief.node(at)] > 0
    }

    /// Whether a boat comes to a place from the open sea.
    pub(super) fn is_reached(&self, at: Xy) -> bool {
        self.reached[self.relief.node(at)]
    }

    /// Whether a boat comes to some place about a rock, 80 m off it.
    pub(super) fn is_passed(&self, rock: Xy) -> bool {
        DIRECTIONS.iter().any(|way| self.is_reached((rock.0 + way.0 * 80.0, rock.1 + way.1 * 80.0)))
    }

    /// How far the water reaches from a place in a direction, up to `most` metres.
    pub(super) fn fetch(&self, from: Xy, way: Xy, most: f64) -> f64 {
        let mut gone = 0.0;
        while gone < most {
            match self.leap(from, way, gone) {
                Some(next) => gone = next,
                None => return gone,
            }
        }
        most
    }

    /// How far a ray that has gone some way has gone with its next leap: without end beyond the lattice,
    /// and not at all where it has met land.
    fn leap(&self, from: Xy, way: Xy, gone: f64) -> Option<f64> {
        let at = (from.0 + way.0 * gone, from.1 + way.1 * gone);
        if at.0 < 0.0 || at.1 < 0.0 {
            return Some(f64::MAX);
        }
        let off = self.off_land(at);
        // No land lies within `off`, so that the ray may leap.
        (off > 0.0).then(|| gone + CELL.max(off - 2.0 * CELL))
    }

    /// How far the chart's frame is from a place in a direction.
    pub(super) fn to_frame(&self, from: Xy, way: Xy) -> f64 {
        let size = self.relief.size;
        let side = |at: f64, way: f64, size: f64| match way {
            w if w > 0.0 => (size - at) / w,
            w if w < 0.0 => -at / w,
            _ => f64::MAX,
        };
        side(from.0, way.0, size.0).min(side(from.1, way.1, size.1))
    }

    /// A distance within which no land lies: 0 on land.
    fn off_land(&self, at: Xy) -> f64 {
        self.metres[usize::from(self.off[self.relief.node(at)])]
    }

    /// How far the nearest shore is, up to `most` metres, to a cell's width.
    pub(super) fn clearance(&self, at: Xy, most: f64) -> f64 {
        self.off_land(at).min(most)
    }

    /// How open to the sea a place is: 0 ringed by land, 1 none within 4 km.
    pub(super) fn openness(&self, at: Xy) -> f64 {
        // All rays leap by turns: a leap waits for the one before it, but not for those of the others.
        let mut reach = [0.0; DIRECTIONS.len()];
        let mut going: [usize; DIRECTIONS.len()] = std::array::from_fn(|ray| ray);
        let mut count = going.len();
        while count > 0 {
            let mut left = 0;
            for slot in 0..count {
                let ray = going[slot];
                if let Some(next) = self.leap(at, DIRECTIONS[ray], reach[ray]) {
                    reach[ray] = next.min(SIGHT);
                    going[left] = ray;
                    left += usize::from(next < SIGHT);
                }
            }
            count = left;
        }
        reach.iter().sum::<f64>() / (SIGHT * DIRECTIONS.len() as f64)
    }

    /// The direction along which the water about a place reaches farthest both ways.
    pub(super) fn axis(&self, at: Xy) -> Xy {
        let (west_to_east, _) = DIRECTIONS.split_at(DIRECTIONS.len() / 2);
        let reach = |way: &Xy| {
            let ahead = self.fetch(at, *way, SIGHT);
            ahead + self.fetch(at, (-way.0, -way.1), SIGHT)
        };
        let longest = west_to_east.iter().map(|way| (reach(way), *way));
        longest.fold((0.0, (0.0, 1.0)), |best, next| if next.0 > best.0 { next } else { best }).1
    }

    /// The shortest way across the water at a place, up to `most` metres, and its direction.
    pub(super) fn width(&self, at: Xy, most: f64) -> (f64, Xy) {
        let (half, _) = DIRECTIONS.split_at(DIRECTIONS.len() / 2);
        half.iter().fold((most, (1.0, 0.0)), |least, way| {
            let ahead = self.fetch(at, *way, least.0);
            let width = ahead + self.fetch(at, (-way.0, -way.1), least.0);
            if width < least.0 { (width, *way) } else { least }
        })
    }
}

/// How far each node is from land: the least sum of steps of 5 straight and 7 aslant, which is
/// near five times the distance in cells (Borgefors 1986).
fn distances(relief: &Relief) -> Vec<u16> {
    let far = u16::MAX / 2;
    let (high_water, heights) = (relief.high_water(), relief.heights.iter());
    let mut off: Vec<u16> = heights.map(|h| if *h >= high_water { 0 } else { far }).collect();
    let (columns, rows) = (relief.columns, relief.rows);
    let straight = STRAIGHT as u16;
    // The nodes of the frame are open sea; they and what they lend stay far.
    for row in 1..rows - 1 {
        for node in row * columns + 1..(row + 1) * columns - 1 {
            let below = node - columns;
            let steps = (off[node - 1].min(off[below]) + straight)
                .min(off[below - 1].min(off[below + 1]) + ASLANT);
            off[node] = off[node].min(steps);
        }
    }
    for row in (1..rows - 1).rev() {
        for node in (row * columns + 1..(row + 1) * columns - 1).rev() {
            let above = node + columns;
            let steps = (off[node + 1].min(off[above]) + straight)
                .min(off[above - 1].min(off[above + 1]) + ASLANT);
            off[node] = off[node].min(steps);
        }
    }
    off
}
