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
    pub(super) fn at(&self, (x, y): Xy) -> f64 {
        let (x, y) = (x / self.wavelength, y / self.wavelength);
        let (column, row) = (below(x), below(y));
        let (u, v) = (x - column as f64, y - row as f64);
        let corner = |dx: i64, dy: i64| {
            let (sx, sy) = self.slope(column + dx, row + dy);
            sx * (u - dx as f64) + sy * (v - dy as f64)
        };
        let (fu, fv) = (fade(u), fade(v));
        let low = corner(0, 0) + fu * (corner(1, 0) - corner(0, 0));
        let high = corner(0, 1) + fu * (corner(1, 1) - corner(0, 1));
        1.5 * (low + fv * (high - low))
    }

    fn slope(&self, column: i64, row: i64) -> Xy {
        let mixed =
            (column as u64).wrapping_mul(0xD6E8_FEB8_6659_FD93) ^ (row as u64).rotate_left(32);
        let index = scramble(mixed ^ self.seed) >> 60;
        DIRECTIONS[index as usize & 15]
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
