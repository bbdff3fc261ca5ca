//! What every line must hold, found by other means than those by which it was laid: by the
//! coast's own queries, and by looking at every pair of stretches.

use crate::Point;
use crate::coast::Coast;

/// How far an end of a stretch is moved inwards before it is asked whether it touches the shore:
/// it lies on it.
const INSET: f64 = 1e-3;

/// Whether every stretch, but for its ends on the shore, runs over water: off the shore, or along
/// a side of it.
pub(super) fn afloat(coast: &Coast, points: &[Point]) -> Result<(), String> {
    for pair in points.windows(2) {
        let [a, b] = [pair[0], pair[1]];
        let length = (b.x - a.x).hypot(b.y - a.y);
        if length < 4.0 * INSET {
            continue;
        }
        let inset = (b - a) * (INSET / length);
        let (from, to) = (a + inset, b - inset);
        let middle = a + (b - a) / 2.0;
        let along_shore = [from, middle, to].iter().all(|p| coast.nearest(*p, 1e-6).is_some());
        if !along_shore && (coast.touches(from, to) || coast.on_land(middle)) {
            return Err(format!("over land from {a:?} to {b:?}"));
        }
    }
    Ok(())
}

/// Whether no two stretches meet but where they follow each other.
pub(super) fn simple(points: &[Point]) -> Result<(), String> {
    let mut order: Vec<usize> = (0..points.len().saturating_sub(1)).collect();
    let low = |i: usize| points[i].x.min(points[i + 1].x);
    let high = |i: usize| points[i].x.max(points[i + 1].x);
    order.sort_by(|a, b| low(*a).total_cmp(&low(*b)));
    for (rank, &i) in order.iter().enumerate() {
        for &j in order[rank + 1..].iter().take_while(|j| low(**j) <= high(i)) {
            let (i, j) = (i.min(j), i.max(j));
            if j > i + 1 && !(i == 0 && points[0] == points[j + 1]) && cross(points, i, j) {
                return Err(format!("over itself: stretches {i} and {j} of {points:?}"));
            }
        }
    }
    Ok(())
}

fn cross(points: &[Point], i: usize, j: usize) -> bool {
    let hand = |a: Point, b: Point, p: Point| (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
    let ([a, b], [p, q]) = ([points[i], points[i + 1]], [points[j], points[j + 1]]);
    hand(a, b, p) * hand(a, b, q) < 0.0 && hand(p, q, a) * hand(p, q, b) < 0.0
}

/// The least distance of the line from any shore, in grid metres, looked at every `every` metres.
pub(super) fn least_distance(coast: &Coast, points: &[Point], every: f64) -> f64 {
    let mut least = f64::INFINITY;
    for pair in points.windows(2) {
        let [a, b] = [pair[0], pair[1]];
        let parts = ((b.x - a.x).hypot(b.y - a.y) / every).ceil().max(1.0) as u32;
        for part in 0..=parts {
            let point = a + (b - a) * (f64::from(part) / f64::from(parts));
            let near = coast.nearest(point, least).map_or(least, |near| near.distance);
            least = least.min(near);
        }
    }
    least
}
