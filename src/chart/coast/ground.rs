//! Ground lengths of sides.

use crate::Point;
use nav::{GridPoint, Position, geodesic};

fn position(grid: &nav::Grid, point: Point) -> Option<Position> {
    let point = GridPoint::from_metres(point.x, point.y).ok()?;
    grid.inverse(point).ok().map(|found| found.position)
}

/// The geodesic length of a side in metres. Where the grid does not reach, which no checked chart
/// has, it is the length on the plane.
pub(super) fn length(grid: &nav::Grid, [a, b]: [Point; 2]) -> f64 {
    match (position(grid, a), position(grid, b)) {
        (Some(from), Some(to)) => geodesic::inverse(from, to).distance.as_metres(),
        _ => (b.x - a.x).hypot(b.y - a.y),
    }
}
