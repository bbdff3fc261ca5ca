//! Directions drawn about the middle of the chart, where a question has no places of its own.

use chart::Point;

use crate::{Ground, Shown};

/// A line from a point along a direction of so many degrees from the grid's north.
pub(super) fn ray(from: Point, degrees: f64, far: f64, label: String) -> Shown {
    let (east, north) = degrees.to_radians().sin_cos();
    Shown::Line { from, to: Point { x: from.x + east * far, y: from.y + north * far }, label }
}

/// A third of the chart's shorter side, in metres: as long as a line about its middle may well be.
pub(super) fn reach(ground: &Ground<'_>) -> f64 {
    let extent = ground.chart.extent;
    extent.width().min(extent.height()) / 3.0
}
