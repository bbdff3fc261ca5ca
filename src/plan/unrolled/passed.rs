//! Landings that a leg passes.

use chart::Point;
use nav::{Length, geodesic};

use super::places::position;
use super::{Ground, Place};

/// How far off a leg a landing may lie to count as passed.
pub const REACH: Length = Length::NAUTICAL_MILE;

/// A landing lies on the shore or a little above it: so near to it, in metres, the line of sight
/// may touch land.
const ON_ITS_SHORE: f64 = 60.0;

/// A landing that a leg passes.
#[derive(Debug, Clone, PartialEq)]
pub struct Passed {
    /// Its number among the chart's landings.
    pub landing: usize,
    /// Where along the leg it is nearest.
    pub along: Length,
    /// How far away it is there.
    pub away: Length,
}

/// The landings that are passed, in the order in which they come abeam.
pub(super) fn landings(places: &[Place], ground: &Ground<'_>) -> Vec<Passed> {
    let landings = ground.chart.landings.iter().enumerate();
    let passed = landings.filter_map(|(landing, it)| {
        let (place, part, foot) = nearest(places, it.at)?;
        let away = geodesic::inverse(position(ground, foot)?, position(ground, it.at)?).distance;
        let near = away <= REACH && in_sight(ground, foot, it.at);
        let next = places.get(place + 1).map_or(places[place].along, |next| next.along);
        let along = places[place].along + (next - places[place].along) * part;
        near.then_some(Passed { landing, along, away })
    });
    let mut passed: Vec<Passed> = passed.collect();
    passed.sort_by(|a, b| a.along.as_metres().total_cmp(&b.along.as_metres()));
    passed
}

/// Where the line through the places comes nearest to a point: the place before, the part of the way
/// to the next one, and the point there.
fn nearest(places: &[Place], to: Point) -> Option<(usize, f64, Point)> {
    let mut best: Option<(f64, (usize, f64, Point))> = None;
    for (index, pair) in places.windows(2).enumerate() {
        let (Some(a), Some(b)) = (pair[0].on_grid, pair[1].on_grid) else { continue };
        let (way, from) = (b - a, to - a);
        let square = way.x * way.x + way.y * way.y;
        let part = if square > 0.0 { (from.x * way.x + from.y * way.y) / square } else { 0.0 };
        let part = part.clamp(0.0, 1.0);
        let foot = a + way * part;
        let away = (to.x - foot.x).hypot(to.y - foot.y);
        if best.is_none_or(|(least, _)| away < least) {
            best = Some((away, (index, part, foot)));
        }
    }
    best.map(|(_, found)| found)
}

/// Whether no land lies between a place on the water and a landing.
fn in_sight(ground: &Ground<'_>, from: Point, landing: Point) -> bool {
    let touches = ground.coast.crossings(from, landing).into_iter();
    let mut between = touches.map(|touch| touch.on.at);
    between.all(|at| (at.x - landing.x).hypot(at.y - landing.y) <= ON_ITS_SHORE)
}
