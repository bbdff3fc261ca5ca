//! The place that fits three or more lines best.

use super::corner::Corner;
use super::lean::{Lean, Sums, moved};
use super::{FixError, Sight};
use crate::{Length, Position};

/// To how many ends the least sum is looked for: with bearings far off there are places that fit best only among those near by.
const MOST_ENDS: usize = 6;

const MOST_STEPS: usize = 100;
const SETTLED: Length = Length::metres(1e-6);

/// How far one step may go, as a part of the way to the nearest mark: past a mark its bearing turns about.
const STRIDE: f64 = 0.5;

/// A place, how the lines lie about it, and the sum of the squares of how far they are off.
struct Tried {
    at: Position,
    leans: Vec<Lean>,
    squares: f64,
}

/// The place of the least squares of the angles, looked for from the corners, those first that fit best. At a mark itself the bearing
/// of it is whatever one likes, and the sum may be the lowest: what ends there is none.
///
/// # Errors
/// [`FixError`] where all corners, or all ways from them, are too far from a mark or lead to one.
pub(super) fn place(sights: &[Sight], corners: &[Corner]) -> Result<Position, FixError> {
    let (mut starts, mut why) = (Vec::new(), FixError::TooFar);
    for corner in corners {
        match tried(sights, corner.at) {
            Ok(start) => starts.push(start),
            Err(error) => why = error,
        }
    }
    starts.sort_by(|a, b| a.squares.total_cmp(&b.squares));
    let mut ends = Vec::new();
    for start in starts {
        match descend(sights, start) {
            Ok(end) => ends.push(end),
            Err(error) => why = error,
        }
        if ends.len() == MOST_ENDS {
            break;
        }
    }
    let best = ends.into_iter().min_by(|a, b| a.squares.total_cmp(&b.squares));
    best.map(|best| best.at).ok_or(why)
}

fn tried(sights: &[Sight], at: Position) -> Result<Tried, FixError> {
    let leans = sights.iter().map(|sight| Lean::of(sight, at)).collect::<Result<Vec<_>, _>>()?;
    let squares = leans.iter().map(|lean| lean.off * lean.off).sum();
    Ok(Tried { at, leans, squares })
}

/// Goes down to where no step leads lower.
fn descend(sights: &[Sight], start: Tried) -> Result<Tried, FixError> {
    let mut here = start;
    for _ in 0..MOST_STEPS {
        let (mut east, mut north) = step(&here.leans);
        loop {
            let (at, step) = moved(here.at, (east, north));
            if step < SETTLED {
                return Ok(here);
            }
            let there = tried(sights, at)?;
            if there.squares < here.squares {
                here = there;
                break;
            }
            (east, north) = (east / 2.0, north / 2.0);
        }
    }
    Err(FixError::TooFar)
}

/// Newton's step where the sum is a bowl, Gauss's elsewhere, no longer than a stride.
fn step(leans: &[Lean]) -> (f64, f64) {
    let (mut gauss, mut newton) = (Sums::default(), Sums::default());
    for lean in leans {
        gauss.add(*lean);
        newton.add(*lean);
        newton.bend(*lean);
    }
    let (east, north) = if newton.is_a_bowl() { newton.solve() } else { gauss.solve() };
    let nearest = leans.iter().map(|lean| lean.metres()).fold(f64::INFINITY, f64::min);
    let shorter = (STRIDE * nearest / east.hypot(north)).min(1.0);
    (east * shorter, north * shorter)
}
