//! Smoothing of a line that lies off the shore: by chords that keep its distance.

use std::ops::ControlFlow;

use super::near::{Near, Side};
use super::roll::foot;
use super::scale::Scale;
use super::taut::{chain, corners, cut, meets};
use super::{Hand, TraceError, Watch, Wishes};
use crate::Point;

/// The shortest chain of chords along a line that keeps the stand-off of `wishes` and has the land
/// on its left hand, none longer than the step, each of which keeps the stand-off too.
///
/// # Errors
/// [`TraceError::CalledOff`] by `watch`.
pub(super) fn smoothed(
    line: &[Point],
    wishes: Wishes,
    near: &Near<'_>,
    scale: &Scale<'_>,
    watch: Watch<'_>,
) -> Result<Vec<Point>, TraceError> {
    let mut points: Vec<Point> = line.first().copied().into_iter().collect();
    for pair in line.windows(2) {
        points.extend(cut([pair[0], pair[1]], scale));
        points.push(pair[1]);
    }
    let most = points.iter().map(|point| scale.at(*point)).fold(0.0, f64::max);
    let reach = wishes.stand_off * most * 1.01;
    let keeps = |i: usize, j: usize| {
        let chord = [points[i], points[j]];
        let comes_near = |side: &Side| {
            let least = wishes.stand_off * scale.at(side.ends[0]).max(scale.at(side.ends[1]));
            // The line itself keeps the stand-off but for rounding.
            if distance(chord, side.ends) < least - 1e-6 {
                ControlFlow::Break(())
            } else {
                ControlFlow::Continue(())
            }
        };
        near.visit(chord, reach, comes_near).is_continue()
    };
    let chain = chain(&points, wishes.step, scale, Hand::Left, keeps, watch)?;
    Ok(corners(&chain, &points, |_| false))
}

/// How far apart two straight pieces are.
fn distance([a, b]: [Point; 2], [p, q]: [Point; 2]) -> f64 {
    if meets([a, b], [p, q]) {
        return 0.0;
    }
    let apart = |point: Point, to: [Point; 2]| {
        let foot = foot(point, to);
        (point.x - foot.x).hypot(point.y - foot.y)
    };
    apart(a, [p, q]).min(apart(b, [p, q])).min(apart(p, [a, b])).min(apart(q, [a, b]))
}
