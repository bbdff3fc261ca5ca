//! Ground lengths of sides.

use crate::Point;
use nav::{GridPoint, Position, geodesic};

fn position(grid: &nav::Grid, point: Point) -> Option<Position> {
    let point = GridPoint::from_metres(point.x, point.y).ok()?;
    grid.inverse(point).ok().map(|found| found.position)
}

/// The length in metres of geodesics from point to point. Where the grid does not reach, which no
/// checked chart has, it is that on the plane.
pub(super) fn length(grid: &nav::Grid, points: &[Point]) -> f64 {
    let Some((first, rest)) = points.split_first() else { return 0.0 };
    let mut behind = (*first, position(grid, *first));
    let mut sum = 0.0;
    for point in rest {
        let ahead = (*point, position(grid, *point));
        sum += match (behind.1, ahead.1) {
            (Some(from), Some(to)) => geodesic::inverse(from, to).distance.as_metres(),
            _ => (ahead.0.x - behind.0.x).hypot(ahead.0.y - behind.0.y),
        };
        behind = ahead;
    }
    sum
}
