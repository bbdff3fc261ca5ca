//! Chance that falls alike on every machine: integers mixed by fixed rules, and only
//! `+ - * /` and the square root, which IEEE 754 fixes to the last bit.

use crate::dice::{SplitMix64, scramble, seed_for};

/// A place, in metres east and north of the chart's south-west corner; or a direction.
pub(super) type Xy = (f64, f64);

/// A stream of chance numbers.
#[derive(Debug, Clone)]
pub(super) struct Dice(SplitMix64);

impl Dice {
    /// The stream of a seed for one purpose.
    pub(super) fn new(seed: u64, purpose: &str) -> Self {
        let mut stream = SplitMix64::new(seed_for(seed, purpose));
        // The first number is left out, as it was when the first charts were made: a seed keeps its chart.
        stream.draw();
        Self(stream)
    }

    /// From 0 up to, not including, 1.
    pub(super) fn unit(&mut self) -> f64 {
        // 53 bits: every value is exact.
        (self.0.draw() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// From `low` up to `high`.
    pub(super) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    /// From 0 up to, not including, `count`; 0 for a `count` of 0.
    pub(super) fn below(&mut self, count: usize) -> usize {
        ((self.unit() * count as f64) as usize).min(count.saturating_sub(1))
    }

    /// True with a probability.
    pub(super) fn chance(&mut self, probability: f64) -> bool {
        self.unit() < probability
    }

    /// One of `choices`, or the type's default if there is none.
    pub(super) fn pick<T: Copy + Default>(&mut self, choices: &[T]) -> T {
        choices.get(self.below(choices.len())).copied().unwrap_or_default()
    }
}

/// Smooth noise over the plane: no value repeats, none lies beyond about ±1.
#[derive(Debug, Clone, Copy)]
pub(super) struct Noise {
    seed: u64,
    wavelength: f64,
}

/// The sides of a diagonal of length 1.
const DIAGONAL: f64 = std::f64::consts::FRAC_1_SQRT_2;

/// Sixteen directions, 22.5 degrees apart, counter-clockwise from east.
pub(super) const DIRECTIONS: [Xy; 16] = [
    (1.0, 0.0),
    (0.923_879_5, 0.382_683_4),
    (DIAGONAL, DIAGONAL),
    (0.382_683_4, 0.923_879_5),
    (0.0, 1.0),
    (-0.382_683_4, 0.923_879_5),
    (-DIAGONAL, DIAGONAL),
    (-0.923_879_5, 0.382_683_4),
    (-1.0, 0.0),
    (-0.923_879_5, -0.382_683_4),
    (-DIAGONAL, -DIAGONAL),
    (-0.382_683_4, -0.923_879_5),
    (0.0, -1.0),
    (0.382_683_4, -0.923_879_5),
    (DIAGONAL, -DIAGONAL),
    (0.923_879_5, -0.382_683_4),
];

impl Noise {
    /// Noise whose hills lie about `wavelength` metres apart.
    pub(super) fn new(seed: u64, purpose: u64, wavelength: f64) -> Self {
        Self { seed: scramble(seed ^ scramble(purpose)), wavelength }
    }

    /// The noise at a place.
    pub(super) fn at(&self, at: Xy) -> f64 {
        let cell = Cell::new(at, self.wavelength);
        let (east, north) = (cell.column + 1, cell.row + 1);
        cell.between(
            [(cell.column, cell.row), (east, cell.row), (cell.column, north), (east, north)]
                .map(|(column, row)| self.slope(column, row)),
        )
    }

    fn slope(&self, column: i64, row: i64) -> u8 {
        let mixed =
            (column as u64).wrapping_mul(0xD6E8_FEB8_6659_FD93) ^ (row as u64).rotate_left(32);
        (scramble(mixed ^ self.seed) >> 60) as u8
    }
}

/// The cell of a noise's lattice about a place, and where in it that lies, 0 to 1 each way.
struct Cell {
    column: i64,
    row: i64,
    u: f64,
    v: f64,
}

impl Cell {
    fn new((x, y): Xy, wavelength: f64) -> Self {
        let (x, y) = (x / wavelength, y / wavelength);
        let (column, row) = (below(x), below(y));
        Self { column, row, u: x - column as f64, v: y - row as f64 }
    }

    /// The noise within slopes at the lower two corners and the upper two, each from west to east.
    fn between(&self, slopes: [u8; 4]) -> f64 {
        let (u, v) = (self.u, self.v);
        let corner = |slope: u8, du: f64, dv: f64| {
            let (sx, sy) = DIRECTIONS[slope as usize & 15];
            sx * (u - du) + sy * (v - dv)
        };
        let (fu, fv) = (fade(u), fade(v));
        let (west, east) = (corner(slopes[0], 0.0, 0.0), corner(slopes[1], 1.0, 0.0));
        let low = west + fu * (east - west);
        let (west, east) = (corner(slopes[2], 0.0, 1.0), corner(slopes[3], 1.0, 1.0));
        let high = west + fu * (east - west);
        1.5 * (low + fv * (high - low))
    }
}

/// Noise with the slopes of its lattice at hand: the same to the last bit, and quicker where many places
/// lie in each cell.
#[derive(Debug, Clone)]
pub(super) struct Sheet {
    noise: Noise,
    /// The lattice's first column and row, and how many columns are at hand.
    first: (i64, i64),
    columns: usize,
    slopes: Vec<u8>,
}

impl Sheet {
    /// The noise over the box between two places.
    pub(super) fn new(noise: Noise, low: Xy, high: Xy) -> Self {
        let cell = |at: Xy| (below(at.0 / noise.wavelength), below(at.1 / noise.wavelength));
        let (first, last) = (cell(low), cell(high));
        let columns = first.0..=last.0 + 1;
        let slopes = (first.1..=last.1 + 1)
            .flat_map(|row| columns.clone().map(move |column| noise.slope(column, row)))
            .collect();
        Self { noise, first, columns: (last.0 + 2 - first.0) as usize, slopes }
    }

    /// The noise at a place.
    pub(super) fn at(&self, at: Xy) -> f64 {
        let cell = Cell::new(at, self.noise.wavelength);
        self.slopes(&cell).map_or_else(|| self.noise.at(at), |slopes| cell.between(slopes))
    }

    /// The slopes at a cell's corners, where they are at hand.
    fn slopes(&self, cell: &Cell) -> Option<[u8; 4]> {
        let (column, row) = (cell.column - self.first.0, cell.row - self.first.1);
        if column < 0 || row < 0 || column as usize + 1 >= self.columns {
            return None;
        }
        let low = row as usize * self.columns + column as usize;
        let high = low + self.columns;
        let (low, high) = (self.slopes.get(low..low + 2)?, self.slopes.get(high..high + 2)?);
        Some([low[0], low[1], high[0], high[1]])
    }
}

/// The greatest whole number not above a number of a lattice's size; `floor` is a call into the
/// system's library on many machines, and this is asked millions of times.
fn below(x: f64) -> i64 {
    let toward_zero = x as i64;
    toward_zero - i64::from(toward_zero as f64 > x)
}

/// From 0 to 1 with level ends and level curvature there.
fn fade(t: f64) -> f64 {
    t * t * t * (t * (t * 6.0 - 15.0) + 10.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sheet_is_its_noise_within_its_box_and_beyond() {
        let noise = Noise::new(5, 3, 270.0);
        let sheet = Sheet::new(noise, (-900.0, 400.0), (3_000.0, 2_000.0));
        let mut dice = Dice::new(1, "places");
        for _ in 0..4_000 {
            let at = (dice.between(-3_000.0, 5_000.0), dice.between(-2_000.0, 4_000.0));
            assert_eq!(sheet.at(at).to_bits(), noise.at(at).to_bits(), "{at:?}");
        }
    }
}
