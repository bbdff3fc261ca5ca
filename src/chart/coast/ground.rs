//! Ground lengths of sides.

use crate::Point;
use nav::GridPoint;
use nav::geodesic::Vertex;

fn vertex(grid: &nav::Grid, point: Point) -> Option<Vertex> {
    let point = GridPoint::from_metres(point.x, point.y).ok()?;
    grid.inverse(point).ok().map(|found| Vertex::new(found.position))
}

/// The length in metres of geodesics from point to point. Where the grid does not reach, which no
/// checked chart has, it is that on the plane.
pub(super) fn length(grid: &nav::Grid, points: &[Point]) -> f64 {
    let Some((first, rest)) = points.split_first() else { return 0.0 };
    let mut behind = (*first, vertex(grid, *first));
    let mut sum = 0.0;
    for point in rest {
        let ahead = (*point, vertex(grid, *point));
        sum += match (behind.1, ahead.1) {
            (Some(from), Some(to)) => from.distance(to).as_metres(),
            _ => (ahead.0.x - behind.0.x).hypot(ahead.0.y - behind.0.y),
        };
        behind = ahead;
    }
    sum
}
