//! Places evenly spaced along a line, and what the ground is at each.

use chart::Point;
use chart::coast::Walker;
use nav::{Bearing, GridPoint, Length, Position, True, geodesic, rhumb};

use super::{Ground, Place};

/// A place on a line, before the ground is looked at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Spot {
    pub(super) along: Length,
    pub(super) at: Position,
    pub(super) track: Option<Bearing<True>>,
}

/// So many places along a line, at least two.
pub(super) fn along(line: impl Iterator<Item = Position>, places: usize) -> Option<Vec<Spot>> {
    let line: Vec<Position> = line.collect();
    let last = places.max(2) - 1;
    match line.as_slice() {
        [] | [_] => None,
        [from, to] => Some(straight(*from, *to, last)),
        vertices => Some(traced(vertices, last)),
    }
}

fn straight(from: Position, to: Position, last: usize) -> Vec<Spot> {
    let rhumb::Line { distance, bearing } = rhumb::inverse(from, to);
    let track = (distance > Length::ZERO).then_some(bearing);
    let spot = |index: usize| {
        let along = distance * (index as f64 / last as f64);
        // A part of a line that does not leave the Earth ends on it.
        let at = rhumb::direct(from, bearing, along).unwrap_or(from);
        Spot { along, at: if index == last { to } else { at }, track }
    };
    (0..=last).map(spot).collect()
}

/// A side of a traced line: where it begins, how far along the line that is, what leads on.
struct Side {
    from: Position,
    begins: Length,
    length: Length,
    track: Bearing<True>,
}

fn traced(vertices: &[Position], last: usize) -> Vec<Spot> {
    let mut length = Length::ZERO;
    let mut sides = Vec::with_capacity(vertices.len());
    for pair in vertices.windows(2) {
        let line = geodesic::inverse(pair[0], pair[1]);
        if line.distance > Length::ZERO {
            let track = line.bearing_at_start;
            sides.push(Side { from: pair[0], begins: length, length: line.distance, track });
            length += line.distance;
        }
    }
    let spot = |index: usize| {
        let along = length * (index as f64 / last as f64);
        let side = sides.partition_point(|side| side.begins <= along).checked_sub(1);
        let Some(side) = side.and_then(|side| sides.get(side)) else {
            return Spot { along, at: vertices[0], track: None };
        };
        let on = along - side.begins;
        let on = if on > side.length { side.length } else { on };
        let at = geodesic::direct(side.from, side.track, on).position;
        Spot { along, at, track: Some(side.track) }
    };
    (0..=last).map(spot).collect()
}

impl Place {
    /// What the ground is at a place; `walker` was at the one before.
    pub(super) fn of(spot: Spot, ground: &Ground<'_>, walker: &mut Walker<'_>) -> Place {
        let Spot { along, at, track } = spot;
        let on_grid = on_grid(ground, at);
        let ashore = on_grid.is_some_and(|point| ground.coast.on_land(point));
        let off = on_grid.and_then(|point| match ashore {
            true => Some(Length::ZERO),
            false => off(ground, at, walker.nearest(point, f64::INFINITY)?.on.at),
        });
        let shares = match (ground.tides, on_grid) {
            (Some(tides), Some(point)) => tides.shares(ground.coast, point),
            _ => Default::default(),
        };
        Place { along, at, on_grid, track, off, ashore, shares }
    }
}

fn off(ground: &Ground<'_>, at: Position, shore: Point) -> Option<Length> {
    Some(geodesic::inverse(at, position(ground, shore)?).distance)
}

fn on_grid(ground: &Ground<'_>, at: Position) -> Option<Point> {
    let GridPoint { easting, northing } = ground.chart.grid.forward(at).ok()?.point;
    Some(Point { x: easting.as_metres(), y: northing.as_metres() })
}

pub(super) fn position(ground: &Ground<'_>, point: Point) -> Option<Position> {
    let on_grid = GridPoint::from_metres(point.x, point.y).ok()?;
    Some(ground.chart.grid.inverse(on_grid).ok()?.position)
}
