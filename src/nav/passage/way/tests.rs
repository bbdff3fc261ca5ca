//! The mean of the boat's own way, against sums.

use super::*;

#[test]
fn the_mean_is_that_of_many_middles() {
    for (from, to) in [
        (-1.0, 1.0),
        (0.3, 0.300_001),
        (0.0, 0.9),
        (-0.5, -0.499_999_9),
        (0.999, 1.0),
        (1.0, 0.2),
        (0.7, 0.7),
        (1.0, 1.0),
    ] {
        for boat in [1.0, 1.5] {
            // In x = sin θ, so that the sum is as good at the ends.
            let (low, high) = (f64::asin(from), f64::asin(to));
            let parts = 20_000;
            let part = (high - low) / f64::from(parts);
            let sum: f64 =
                (0..parts).map(|i| (low + part * (f64::from(i) + 0.5)).cos().powi(2) * part).sum();
            let mean = if from == to { low.cos() } else { sum / (to - from) };
            let found = mean_ahead(boat, boat * from, boat * to);
            assert!((found - boat * mean).abs() < 1e-8 * boat, "{from} {to}: {found} {mean}");
        }
    }
}
