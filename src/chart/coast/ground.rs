//! Ground lengths of sides.

use super::{RUN, Rim};
use crate::Point;
use nav::{GridPoint, Position, geodesic};

fn position(grid: &nav::Grid, point: Point) -> Option<Position> {
    let point = GridPoint::from_metres(point.x, point.y).ok()?;
    grid.inverse(point).ok().map(|found| found.position)
}

/// The length in metres of geodesics from point to point of a run, without what closes a ring along
/// the edge of the plane. Where the grid does not reach,
/// which no checked chart has, it is that on the plane.
pub(super) fn length(grid: &nav::Grid, points: &[Point]) -> f64 {
    let closes = |rim: Rim| points.windows(2).position(|pair| rim.closes([pair[0], pair[1]]));
    match Rim::of(grid).and_then(closes) {
        Some(side) => whole(grid, &points[..=side]) + length(grid, &points[side + 1..]),
        None => whole(grid, points),
    }
}

/// The length of every side.
fn whole(grid: &nav::Grid, points: &[Point]) -> f64 {
    let on_ground = || {
        let mut positions = [position(grid, *points.first()?)?; RUN + 1];
        let positions = positions.get_mut(..points.len())?;
        for (at, point) in positions.iter_mut().zip(points).skip(1) {
            *at = position(grid, *point)?;
        }
        Some(geodesic::line_length(positions).as_metres())
    };
    let on_plane =
        || points.windows(2).map(|pair| (pair[1].x - pair[0].x).hypot(pair[1].y - pair[0].y)).sum();
    on_ground().unwrap_or_else(on_plane)
}
