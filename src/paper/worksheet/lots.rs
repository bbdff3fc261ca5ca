//! Points that chance puts on the water: the same for the same seed on every machine, since places are whole numbers of
//! metres and what chance draws are whole numbers.

use chart::dice::SplitMix64;
use chart::{Extent, OffGrid, Point};
use nav::magnetic::VariationSource;
use nav::{GridPoint, Pace};
use plan::{Departure, Route, Waypoint};

use super::{Water, WorksheetError};
use crate::map::Scale;

/// What a sheet of chance is made from.
#[derive(Debug, Clone, PartialEq)]
pub struct Lots {
    /// What chance begins with.
    pub seed: u64,
    /// How many legs there are to be. Where there is no water for so many there are fewer.
    pub legs: usize,
    /// The middle of the part of the chart; somewhere by chance if none is given, about a landing if there is one.
    pub around: Option<Point>,
    /// The pace of the questions.
    pub pace: Pace,
    /// When the first point is left, and the date of the variation.
    pub departure: Option<Departure>,
    /// Where the variation comes from.
    pub variation: VariationSource,
}

impl Lots {
    /// The most legs: more are no practice.
    pub const MOST_LEGS: usize = 25;

    /// A route of as many points, all in the middle of the chart.
    pub(super) fn anywhere(&self, water: Water<'_>) -> Result<Route, OffGrid> {
        let middle = water.chart.extent.center();
        self.route(water, &vec![middle; self.legs + 1])
    }

    fn route(&self, water: Water<'_>, points: &[Point]) -> Result<Route, OffGrid> {
        let mut route = Route::new(&water.chart.title);
        for point in points {
            let there = water.chart.grid.inverse(GridPoint::from_metres(point.x, point.y)?)?;
            route.points.push(Waypoint::new(there.position));
        }
        route.pace = self.pace;
        route.departure.clone_from(&self.departure);
        route.variation = self.variation;
        Ok(route)
    }
}

/// Whole numbers by chance.
struct Chance(SplitMix64);

impl Chance {
    /// From 0 up to, not including, `count`.
    fn below(&mut self, count: u64) -> u64 {
        self.0.draw() % count.max(1)
    }

    /// A place in a hundred metre square of the extent, well within it, so that its six figures are not in doubt.
    fn place(&mut self, extent: Extent) -> Point {
        const SQUARE: f64 = 100.0;
        let mut one = |low: f64, high: f64| {
            let first = (low / SQUARE).ceil();
            let count = ((high / SQUARE).floor() - first).max(1.0) as u64;
            let within = 30 + 10 * self.below(5);
            (first + self.below(count) as f64) * SQUARE + within as f64
        };
        let (low, high) = (extent.min(), extent.max());
        Point { x: one(low.x, high.x), y: one(low.y, high.y) }
    }
}

/// Millimetres of paper from a point to the shore, to the next point, and along a leg.
const OFF_SHORE: f64 = 1.5;
const APART: f64 = 15.0;
const LEG: (f64, f64) = (22.0, 110.0);

/// How often a place for the next point, and for the middle of the sheet, is looked for.
const TRIES: usize = 300;
const MIDDLES: usize = 40;

/// Points on the water of a part of the chart as wide and high as `size`, in grid metres.
pub(super) fn route(
    water: Water<'_>,
    lots: &Lots,
    scale: Scale,
    size: (f64, f64),
) -> Result<Route, WorksheetError> {
    let mut chance = Chance(SplitMix64::new(lots.seed));
    let mut best: Vec<Point> = Vec::new();
    for _ in 0..if lots.around.is_some() { 4 } else { MIDDLES } {
        let middle = lots.around.unwrap_or_else(|| middle(water, &mut chance));
        let part = part(water.chart.extent, middle, size);
        let found = Search { water, millimetre: f64::from(scale.one_to()) / 1000.0, part };
        let points = found.points(lots.legs + 1, &mut chance);
        if points.len() > best.len() {
            best = points;
        }
        if best.len() > lots.legs {
            break;
        }
    }
    if best.len() < 2 {
        return Err(WorksheetError::NoWater(scale));
    }
    Ok(lots.route(water, &best)?)
}

/// A landing, or, on a chart without any, a place anywhere.
fn middle(water: Water<'_>, chance: &mut Chance) -> Point {
    let landings = &water.chart.landings;
    let index = chance.below(landings.len() as u64) as usize;
    landings.get(index).map_or_else(|| chance.place(water.chart.extent), |landing| landing.at)
}

/// The part of the chart about a point, moved so that it lies on the chart.
fn part(chart: Extent, middle: Point, (width, height): (f64, f64)) -> Extent {
    let one = |middle: f64, size: f64, low: f64, high: f64| {
        let half = size.min(high - low) / 2.0;
        let middle = middle.clamp(low + half, high - half);
        (middle - half, middle + half)
    };
    let (low, high) = (chart.min(), chart.max());
    let (left, right) = one(middle.x, width, low.x, high.x);
    let (below, above) = one(middle.y, height, low.y, high.y);
    Extent::new(Point { x: left, y: below }, Point { x: right, y: above })
}

struct Search<'a> {
    water: Water<'a>,
    /// Metres of ground in one of paper.
    millimetre: f64,
    part: Extent,
}

impl Search<'_> {
    /// So many points one after the other, or as many as are found.
    fn points(&self, count: usize, chance: &mut Chance) -> Vec<Point> {
        let mut points: Vec<Point> = Vec::with_capacity(count);
        for _ in 0..count * TRIES {
            if points.len() == count {
                break;
            }
            let next = chance.place(self.part);
            if self.follows(&points, next) {
                points.push(next);
            }
        }
        points
    }

    fn follows(&self, points: &[Point], next: Point) -> bool {
        let far = |other: &Point| (next - *other).x.hypot((next - *other).y) / self.millimetre;
        if !points.iter().all(|other| far(other) >= APART) || !self.on_water(next) {
            return false;
        }
        points.last().is_none_or(|last| {
            (LEG.0..=LEG.1).contains(&far(last)) && !self.water.coast.touches(*last, next)
        })
    }

    fn on_water(&self, at: Point) -> bool {
        let Water { chart, coast } = self.water;
        !coast.on_land(at)
            && !chart.drying.iter().any(|drying| drying.edge.encloses(at))
            && coast.nearest(at, OFF_SHORE * self.millimetre).is_none()
    }
}
