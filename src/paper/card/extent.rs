//! The part of a chart that a route lies on.

use chart::{Extent, Point};
use nav::Grid;
use plan::Route;

/// The least that is shown on every side of a route, in metres, and of a single point, which has no other extent.
const LEAST: f64 = 150.0;
const NEIGHBOURHOOD: f64 = 1000.0;

/// The extent of a route's points and lines; nothing where there is none, or none that the grid reaches.
#[must_use]
pub fn of(route: Option<&Route>, grid: &Grid) -> Option<Extent> {
    let route = route?;
    let legs = (0..route.points.len().saturating_sub(1)).filter_map(|leg| route.line_of(leg));
    let positions = route.points.iter().map(|point| point.at).chain(legs.flatten());
    let mut points = positions.filter_map(|at| {
        let there = grid.forward(at).ok()?.point;
        Some(Point { x: there.easting.as_metres(), y: there.northing.as_metres() })
    });
    let first = points.next()?;
    let (low, high) = points.fold((first, first), |(low, high), point| {
        let low = Point { x: low.x.min(point.x), y: low.y.min(point.y) };
        (low, Point { x: high.x.max(point.x), y: high.y.max(point.y) })
    });
    let more = if low == high { NEIGHBOURHOOD } else { LEAST };
    let more = Point { x: more, y: more };
    Some(Extent::new(low - more, high + more))
}
