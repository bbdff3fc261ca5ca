//! What a leg passes: landings, races, gates.

use chart::Point;
use chart::seaway::BEACH;
use nav::{Length, geodesic};

use super::places::position;
use super::{Ground, Place};

/// How far off a leg a landing may lie to count as passed.
pub const REACH: Length = Length::NAUTICAL_MILE;

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

/// A part of a leg that lies in a race.
#[derive(Debug, Clone, PartialEq)]
pub struct RaceAlong {
    /// The number of the race, among those of the chart's [`Tides`](chart::water::Tides).
    pub race: usize,
    /// Where along the leg it begins.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
}

/// A gate that a leg crosses.
#[derive(Debug, Clone, PartialEq)]
pub struct GateAcross {
    /// The number of the gate, among those of the chart's [`Tides`](chart::water::Tides).
    pub gate: usize,
    /// Where along the leg it is crossed.
    pub along: Length,
}

/// The parts of the leg that lie in races, in order; parts that touch are one.
pub(super) fn races(places: &[Place], ground: &Ground<'_>) -> Vec<RaceAlong> {
    let Some(tides) = ground.tides else { return Vec::new() };
    let mut found: Vec<RaceAlong> = Vec::new();
    for (pair, (a, b)) in sides(places) {
        for (race, (from, to)) in tides.races_along(a, b) {
            let (from, to) = (between(pair, from), between(pair, to));
            let goes_on = |it: &&mut RaceAlong| it.race == race && from - it.to < TOUCHING;
            match found.iter_mut().rev().find(goes_on) {
                Some(before) => before.to = to,
                None => found.push(RaceAlong { race, from, to }),
            }
        }
    }
    found.sort_by(|a, b| a.from.as_metres().total_cmp(&b.from.as_metres()));
    found
}

/// Parts of a race nearer to each other than this are one.
const TOUCHING: Length = Length::METRE;

/// The gates that the leg crosses, in order.
pub(super) fn gates(places: &[Place], ground: &Ground<'_>) -> Vec<GateAcross> {
    let Some(tides) = ground.tides else { return Vec::new() };
    let crossed = sides(places).flat_map(|(pair, (a, b))| {
        let across = tides.gates_along(a, b).into_iter();
        across.map(move |(gate, part)| GateAcross { gate, along: between(pair, part) })
    });
    let mut gates: Vec<GateAcross> = crossed.collect();
    // One that is crossed at a place is met by the sides on both hands of it.
    gates.dedup_by(|next, kept| next.gate == kept.gate && next.along - kept.along < TOUCHING);
    gates
}

/// The straight sides from place to place, as far as the grid reaches.
fn sides(places: &[Place]) -> impl Iterator<Item = ([&Place; 2], (Point, Point))> {
    places.windows(2).filter_map(|pair| {
        let [from, to] = pair else { return None };
        Some(([from, to], (from.on_grid?, to.on_grid?)))
    })
}

/// So far along the leg as a part of the way from one place to the next is.
fn between([from, to]: [&Place; 2], part: f64) -> Length {
    from.along + (to.along - from.along) * part
}

/// The landings that are passed, in the order in which they come abeam.
pub(super) fn landings(places: &[Place], ground: &Ground<'_>) -> Vec<Passed> {
    let landings = ground.chart.landings.iter().enumerate();
    let passed = landings.filter_map(|(landing, it)| {
        let (along, foot) = nearest(places, it.at)?;
        let away = geodesic::inverse(position(ground, foot)?, position(ground, it.at)?).distance;
        let near = away <= REACH && in_sight(ground, foot, it.at);
        near.then_some(Passed { landing, along, away })
    });
    let mut passed: Vec<Passed> = passed.collect();
    passed.sort_by(|a, b| a.along.as_metres().total_cmp(&b.along.as_metres()));
    passed
}

/// Where along the leg, and at which point, the line through the places comes nearest to a point.
fn nearest(places: &[Place], to: Point) -> Option<(Length, Point)> {
    let mut best: Option<(f64, (Length, Point))> = None;
    for ([begins, ends], (a, b)) in sides(places) {
        let (way, from) = (b - a, to - a);
        let square = way.x * way.x + way.y * way.y;
        let part = if square > 0.0 { (from.x * way.x + from.y * way.y) / square } else { 0.0 };
        let part = part.clamp(0.0, 1.0);
        let foot = a + way * part;
        let away = (to.x - foot.x).hypot(to.y - foot.y);
        if best.is_none_or(|(least, _)| away < least) {
            best = Some((away, (between([begins, ends], part), foot)));
        }
    }
    best.map(|(_, found)| found)
}

/// Whether no land lies between a place on the water and a landing, both on the chart's grid. A landing lies on the shore or
/// a little above it: so near to it as a [`BEACH`] is wide the line of sight may touch land.
#[must_use]
pub fn in_sight(ground: &Ground<'_>, from: Point, landing: Point) -> bool {
    let touches = ground.coast.crossings(from, landing).into_iter();
    let mut between = touches.map(|touch| touch.on.at);
    between.all(|at| (at.x - landing.x).hypot(at.y - landing.y) <= BEACH)
}
