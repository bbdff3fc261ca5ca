//! A route by straight lines.

use nav::Grid;
use plan::{Route, Steering, Waypoint, reckon};

/// The route with each leg along a shore parted in its main stretches: what a ruler can draw.
pub(super) fn straight(route: &Route, grid: &Grid) -> Route {
    let reckoning = reckon(route, grid);
    let mut points = Vec::with_capacity(route.points.len());
    for (index, waypoint) in route.points.iter().enumerate() {
        let leg = index.checked_sub(1).and_then(|before| reckoning.legs.get(before));
        let stretches = leg.and_then(|leg| leg.along.as_ref()).map(|along| &along.stretches[..]);
        let between = stretches.unwrap_or_default().iter().map(|stretch| stretch.to);
        let count = stretches.map_or(0, |stretches| stretches.len().saturating_sub(1));
        points.extend(between.take(count).map(Waypoint::new));
        points.push(Waypoint { along: None, steer: Steering::Line, ..waypoint.clone() });
    }
    Route { points, ..route.clone() }
}
