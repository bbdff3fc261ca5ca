//! Whether a coast is as rough as its character, as `measure::roughness` finds it.

use std::f64::consts::FRAC_1_SQRT_2;

use geo::Rect;

use super::coast::Coast;
use super::dice::Xy;
use super::finds::xy;
use super::sketch::distance;
use super::wishes::Character;
use crate::measure::{STEPS, longest};
use crate::model::Point;

/// On the ground the slope may differ from that on the plane by less than this makes, 0.003.
const LEEWAY: f64 = 1.02;

/// Whether the slope of the longest shore of a coast on a chart of this size lies within its character's band, or
/// is too short to have one.
pub(super) fn is_of(character: Character, coast: &Coast, size: Xy) -> bool {
    let point = |at: Xy| Point { x: at.0, y: at.1 };
    let extent = Rect::new(point((0.0, 0.0)), point(size));
    let lines = coast.shores.iter();
    let lines = lines.map(|line| (line.corners.iter().map(|c| point(xy(*c))).collect(), true));
    let Some((piece, closed)) = longest(&extent, lines) else { return true };
    let mut line: Vec<Xy> = piece.iter().map(|at| (at.x, at.y)).collect();
    if closed {
        line.push(line[0]);
    }
    let onwards = STEPS.map(|step| walked(&line, step));
    line.reverse();
    let back = STEPS.map(|step| walked(&line, step));
    let square = |step: usize| onwards[step] * back[step];
    // Each step is twice the one before, so that two to the power of ten least squares' slopes is the square of what
    // the widest finds for what the narrowest does, times what the last but one finds for what the second does: a
    // product, which is alike everywhere.
    let (ends, between) = (square(4) / square(0), square(3) / square(1));
    let shrinks = ends * between.sqrt();
    let (steepest, flattest) = character.twentieths();
    (power(steepest) * LEEWAY..=power(flattest) / LEEWAY).contains(&shrinks)
}

/// Two to the power of ten slopes of so many twentieths downwards.
fn power(twentieths: u32) -> f64 {
    (0..twentieths).fold(1.0, |power, _| power * FRAC_1_SQRT_2)
}

/// What dividers of a step find along a line on the plane.
fn walked(line: &[Xy], step: f64) -> f64 {
    let (mut from, mut last, mut found) = (line[0], line[0], 0.0);
    for corner in line {
        while distance(from, *corner) >= step {
            from = leaves(from, (last, *corner), step);
            last = from;
            found += step;
        }
        last = *corner;
    }
    found + distance(from, last)
}

/// Where a side that begins in the circle about a place leaves it.
fn leaves(about: Xy, (a, b): (Xy, Xy), radius: f64) -> Xy {
    let (way, off) = ((b.0 - a.0, b.1 - a.1), (a.0 - about.0, a.1 - about.1));
    let square = way.0 * way.0 + way.1 * way.1;
    let along = off.0 * way.0 + off.1 * way.1;
    let within = off.0 * off.0 + off.1 * off.1 - radius * radius;
    let t = ((along * along - square * within).max(0.0).sqrt() - along) / square;
    (a.0 + way.0 * t, a.1 + way.1 * t)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dividers_walk_a_line_and_a_corner() {
        let line = [(0.0, 0.0), (1_000.0, 0.0), (1_000.0, 1_000.0)];
        assert_eq!(walked(&line[..2], 300.0), 1_000.0);
        // Four steps along; the fifth cuts the corner from 200 m before it to where the circle meets the side.
        let past = (300.0_f64 * 300.0 - 100.0 * 100.0).sqrt();
        let found = walked(&line, 300.0);
        let rest = 1_000.0 - past;
        let expected = 300.0 * (4.0 + (rest / 300.0).floor()) + rest % 300.0;
        assert!((found - expected).abs() < 1e-9, "{found} {expected}");
    }

    #[test]
    fn a_power_is_of_ten_slopes() {
        for (twentieths, slope) in [(5, -0.25_f64), (8, -0.4), (1, -0.05)] {
            assert!((power(twentieths) - (10.0 * slope).exp2()).abs() < 1e-12);
        }
    }
}
