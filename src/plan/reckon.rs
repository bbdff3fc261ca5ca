//! The readings: what is reckoned from a route, never stored in it.
//!
//! A leg is a rhumb line on the ellipsoid, since a paddler holds one compass bearing. Its grid
//! and magnetic bearings take the convergence and the variation of its middle, so that the leg
//! turned round has exactly the back bearings. A traced leg is as long as its line, and is read in
//! a few main stretches that are reckoned as legs are. Times take the pace alone: neither stream nor
//! wind is in them.

mod leg;
mod stretch;
mod traced;
mod warning;

#[cfg(test)]
mod tests;

use jiff::{SignedDuration, ZonedDateTime};
use nav::magnetic::{DecimalYear, VariationSource};
use nav::{Grid, GridError, Length, OnGrid, Pace, Position, arrival};

pub(crate) use leg::middle;
pub use leg::{Bearings, LegReading};
pub use stretch::Stretch;
pub use traced::Traced;
pub use warning::Warning;

use crate::{Along, Route};

/// What a reading is taken with.
#[derive(Debug, Clone, Copy)]
pub struct Frame<'a> {
    /// The grid of grid bearings and references.
    pub grid: &'a Grid,
    /// Where the variation comes from.
    pub variation: VariationSource,
    /// The date of the variation; without one there are no magnetic bearings.
    pub date: Option<DecimalYear>,
    /// The pace of the group.
    pub pace: Pace,
}

impl<'a> Frame<'a> {
    /// The frame of a route: its own variation, pace, and date of departure.
    pub fn of(route: &Route, grid: &'a Grid) -> Frame<'a> {
        let date = route.departure.as_ref().map(|at| DecimalYear::from_date(at.moment().date()));
        Frame { grid, variation: route.variation, date, pace: route.pace }
    }
}

/// A point of a route with its place on the grid and on the clock.
#[derive(Debug, Clone, PartialEq)]
pub struct PointReading {
    /// Where it is.
    pub at: Position,
    /// Where that is on the grid, or why the grid does not reach there.
    pub on_grid: Result<OnGrid, GridError>,
    /// The time from the first point to here, stops on the way included.
    pub elapsed: Option<SignedDuration>,
    /// When the group gets here; at the first point, when it leaves.
    pub arrives: Option<ZonedDateTime>,
    /// How long it stays; nothing at the first and the last point, where the day begins and ends.
    pub stop: SignedDuration,
}

/// Everything reckoned from a route.
#[derive(Debug, Clone, PartialEq)]
pub struct Reckoning {
    /// The points in order.
    pub points: Vec<PointReading>,
    /// The legs between them, one fewer.
    pub legs: Vec<LegReading>,
    /// The sum of the legs.
    pub distance: Length,
    /// The time under way, the pace's rests included, stops not.
    pub under_way: Option<SignedDuration>,
    /// The stops on the way.
    pub stops: SignedDuration,
    /// The time from the first point to the last.
    pub elapsed: Option<SignedDuration>,
    /// What the reader should know, each once.
    pub warnings: Vec<Warning>,
}

/// The readings of a route on a grid.
pub fn reckon(route: &Route, grid: &Grid) -> Reckoning {
    reckon_in(route, &Frame::of(route, grid))
}

/// The readings of a route in a frame of the caller's, say with a date where the route has none.
pub fn reckon_in(route: &Route, frame: &Frame<'_>) -> Reckoning {
    let legs: Vec<LegReading> = route
        .points
        .windows(2)
        .filter_map(|pair| match pair {
            [from, to] => Some(LegReading::to(from.at, to.at, to.along.as_ref(), frame)),
            _ => None,
        })
        .collect();
    let points = points(route, &legs, frame.grid);
    let warnings = warning::of(route, &points, &legs, frame);
    Reckoning {
        distance: legs.iter().map(|leg| leg.distance).sum(),
        under_way: sum(legs.iter().map(|leg| leg.time)),
        stops: points.iter().fold(SignedDuration::ZERO, |all, point| all + point.stop),
        elapsed: points.last().map_or(Some(SignedDuration::ZERO), |point| point.elapsed),
        points,
        legs,
        warnings,
    }
}

impl Reckoning {
    /// When the group leaves the point from which leg `index` starts.
    pub fn departs(&self, index: usize) -> Option<ZonedDateTime> {
        let from = self.points.get(index)?;
        arrival(from.arrives.as_ref()?, from.stop)
    }
}

/// The leg under the pencil: from the last point of a route, or from any other place, to another.
/// Both ends are rounded as a waypoint's would be, so that the reading holds when the point is dropped.
pub fn lay(from: Position, to: Position, frame: &Frame<'_>) -> LegReading {
    LegReading::to(crate::rounded(from), crate::rounded(to), None, frame)
}

/// The traced leg under the pencil. The vertices of `along` are rounded already.
pub fn lay_along(from: Position, to: Position, along: &Along, frame: &Frame<'_>) -> LegReading {
    LegReading::to(crate::rounded(from), crate::rounded(to), Some(along), frame)
}

fn points(route: &Route, legs: &[LegReading], grid: &Grid) -> Vec<PointReading> {
    let departure = route.departure.as_ref().map(crate::Departure::moment);
    let last = route.points.len().saturating_sub(1);
    let mut leaves = Some(SignedDuration::ZERO);
    let mut points = Vec::with_capacity(route.points.len());
    for (index, point) in route.points.iter().enumerate() {
        let leg = index.checked_sub(1).and_then(|before| legs.get(before));
        let elapsed = leg.map_or(leaves, |leg| leaves?.checked_add(leg.time?));
        let on_the_way = index > 0 && index < last;
        let stop = if on_the_way { point.stop } else { SignedDuration::ZERO };
        leaves = elapsed.and_then(|elapsed| elapsed.checked_add(stop));
        points.push(PointReading {
            at: point.at,
            on_grid: grid.forward(point.at),
            elapsed,
            arrives: departure.and_then(|moment| arrival(moment, elapsed?)),
            stop,
        });
    }
    points
}

fn sum(mut times: impl Iterator<Item = Option<SignedDuration>>) -> Option<SignedDuration> {
    times.try_fold(SignedDuration::ZERO, |all, time| all.checked_add(time?))
}
