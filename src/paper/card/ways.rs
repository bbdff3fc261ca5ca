//! The ways out: the landings nearest to the group by water, stage by stage.

use chart::seaway::Seaway;
use chart::{Extent, Point};
use nav::magnetic::DecimalYear;
use nav::{Bearing, Figures, GridPoint, Length, Position, True, rhumb, text};
use plan::unrolled::{Ground, in_sight};

use super::{Content, Plan};

/// A landing that is the nearest of a stage: of one leg, or of several on end.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WayOut {
    /// The numbers of the points at which the stage begins and ends: `2–5`.
    pub stage: String,
    /// Its name.
    pub name: String,
    /// Its reference.
    pub reference: String,
    /// The way to it from the stage's first point.
    pub from_first: Lies,
    /// How far off the stage's legs it is by water at the nearest, `0.4 km`; `no way` where none is found.
    pub off: String,
    /// The way to it from the stage's last point.
    pub from_last: Lies,
    /// Its ground and the tide at which it serves: `shingle, any tide`.
    pub serves: String,
}

/// The way by water from a point to a landing.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum Lies {
    /// The point is the landing.
    #[default]
    Here,
    /// No way was found.
    Nowhere,
    /// So one comes to it.
    Way {
        /// The first to steer, `066°M`; without a date from true north.
        bearing: String,
        /// By water, `1.2 km`.
        distance: String,
        /// Whether the way bends round land.
        round: bool,
    },
}

/// What stands over them.
pub(super) const HEADING: &str = "Ways out: the nearest landings by water, by stage";

/// What stands there where there are none.
pub(super) const NONE: &str = "Ways out: the chart has no landing.";

/// What stands where no way is found.
pub(super) const NO_WAY: &str = "no way";

impl Content {
    /// What the reader should know of the ways out: from where they are told, and what a star means.
    #[must_use]
    pub fn ways_legend(&self) -> String {
        let lies = || self.ways_out.iter().flat_map(|way| [&way.from_first, &way.from_last]);
        let from_true =
            |lies: &Lies| matches!(lies, Lies::Way { bearing, .. } if bearing.ends_with('T'));
        let north = if lies().any(from_true) { "°T" } else { "°M" };
        let mut said = format!(
            "By water, from the first and the last point of each stage, {north}; off: from its legs \
             at the nearest. Ground that dries counts as water."
        );
        if lies().any(|lies| matches!(lies, Lies::Way { round: true, .. })) {
            said.push_str(" * Round land, close along it: the first bearing to steer.");
        }
        let none = |way: &WayOut| way.off == NO_WAY;
        if lies().any(|lies| *lies == Lies::Nowhere) || self.ways_out.iter().any(none) {
            said.push_str(" No way: the point lies on land, or none was found by water.");
        }
        said
    }
}

impl Lies {
    /// `066°M 1.2 km*`: a star where the way goes round land; `here` at the landing itself.
    #[must_use]
    pub fn words(&self) -> String {
        match self {
            Lies::Here => "here".to_owned(),
            Lies::Nowhere => NO_WAY.to_owned(),
            Lies::Way { bearing, distance, round } => {
                format!("{bearing} {distance}{}", if *round { "*" } else { "" })
            }
        }
    }
}

/// So near to a landing a point is the landing, in metres.
const HERE: f64 = 50.0;
/// Of so many landings, those that are nearest by the straight line, the nearest by water is looked for.
const LOOKED_AT: usize = 12;
/// So far beyond the route ways are looked for, in metres.
const BEYOND: f64 = 10_000.0;
/// So far apart are the places of a leg from which a way may begin, in metres.
const SPACING: f64 = 100.0;

/// The landings of each stage; none where the chart has none, or its grid does not reach.
pub(super) fn of(plan: &Plan<'_>) -> Vec<WayOut> {
    let points = plan.route.points.iter().filter_map(|it| point(plan, it.at));
    let Some(extent) = around(points, plan.chart.extent) else { return Vec::new() };
    let mut ways = Ways { plan, water: Seaway::new(plan.coast, extent) };
    let count = plan.route.points.len().saturating_sub(1);
    let mut stages: Vec<Stage> = Vec::new();
    for leg in 0..count {
        let Some(beside) = ways.nearest(leg) else { continue };
        match stages.last_mut() {
            Some(stage) if stage.beside.landing == beside.landing && stage.last == leg => {
                stage.go_on(beside);
            }
            _ => stages.push(Stage { first: leg, last: leg + 1, beside }),
        }
    }
    stages.iter().filter_map(|stage| ways.way_out(stage)).collect()
}

/// Where ways are looked for: about the points, on the chart.
fn around(points: impl Iterator<Item = Point>, chart: Extent) -> Option<Extent> {
    let own = points.map(|at| Extent::new(at, at)).reduce(|all, one| {
        let low = Point { x: all.min().x.min(one.min().x), y: all.min().y.min(one.min().y) };
        let high = Point { x: all.max().x.max(one.max().x), y: all.max().y.max(one.max().y) };
        Extent::new(low, high)
    })?;
    // A route may leave the chart.
    let low = |own: f64, chart: f64| own.min(chart.max(own - BEYOND));
    let high = |own: f64, chart: f64| own.max(chart.min(own + BEYOND));
    Some(Extent::new(
        Point { x: low(own.min().x, chart.min().x), y: low(own.min().y, chart.min().y) },
        Point { x: high(own.max().x, chart.max().x), y: high(own.max().y, chart.max().y) },
    ))
}

/// A landing beside a leg.
#[derive(Debug, Clone)]
struct Beside {
    landing: usize,
    /// How far it is by water, in metres of the grid; where no way is found, endlessly far.
    away: f64,
    /// The way from the leg to it.
    way: Vec<Point>,
}

/// Legs on end that have a landing as their nearest.
struct Stage {
    first: usize,
    /// The point at which it ends.
    last: usize,
    /// Where it is nearest.
    beside: Beside,
}

impl Stage {
    fn go_on(&mut self, beside: Beside) {
        self.last += 1;
        if beside.away < self.beside.away {
            self.beside = beside;
        }
    }
}

/// A way by water to a landing.
struct Found {
    /// From a place on the water to the landing.
    way: Vec<Point>,
    /// Whether it bends round land.
    bends: bool,
}

/// The water of a plan.
struct Ways<'a> {
    plan: &'a Plan<'a>,
    water: Seaway<'a>,
}

impl Ways<'_> {
    /// The landing nearest to a leg by water; where there is no way to any, that which is nearest straight.
    fn nearest(&mut self, leg: usize) -> Option<Beside> {
        let line = self.plan.route.line_of(leg).into_iter().flatten();
        let line: Vec<Point> = line.filter_map(|at| point(self.plan, at)).collect();
        let landings = self.plan.chart.landings.iter().enumerate();
        let mut straight: Vec<(usize, Point, f64)> = landings
            .filter_map(|(landing, it)| {
                let (foot, away) = foot(&line, it.at)?;
                Some((landing, foot, away))
            })
            .collect();
        straight.sort_by(|a, b| a.2.total_cmp(&b.2));
        let mut best =
            Beside { landing: straight.first()?.0, away: f64::INFINITY, way: Vec::new() };
        let mut places = None;
        for (landing, foot, away) in straight.into_iter().take(LOOKED_AT) {
            // No way is shorter than the straight one.
            if away >= best.away {
                break;
            }
            if let Some(way) = self.straight(foot, landing) {
                return Some(Beside { landing, away, way });
            }
            let places = places.get_or_insert_with(|| self.places(&line));
            let Some(Found { way, .. }) = self.round(places, landing, best.away) else { continue };
            let away = length(&way);
            if away < best.away {
                best = Beside { landing, away, way };
            }
        }
        Some(best)
    }

    /// Places of a leg that lie on the water.
    fn places(&self, line: &[Point]) -> Vec<Point> {
        let ends = [line.first(), line.last()].into_iter().flatten();
        let ends = ends.filter_map(|end| self.water.afloat(*end));
        let inner = line.windows(2).flat_map(|side| {
            let (from, way) = (side[0], side[1] - side[0]);
            let count = (way.x.hypot(way.y) / SPACING).ceil().max(1.0);
            (1..=count as u32).map(move |part| from + way * (f64::from(part) / count))
        });
        ends.chain(inner.filter(|at| !self.plan.coast.on_land(*at))).collect()
    }

    /// The straight way to a landing, if it is one by water.
    fn straight(&self, from: Point, landing: usize) -> Option<Vec<Point>> {
        let plan = self.plan;
        let to = plan.chart.landings.get(landing)?.at;
        let ground = Ground { chart: plan.chart, coast: plan.coast, tides: None };
        let clear = in_sight(&ground, from, to) && self.water.afloat(from).is_some();
        clear.then(|| vec![from, to])
    }

    /// The way to a landing from the nearest of some places on the water.
    fn round(&mut self, from: &[Point], landing: usize, most: f64) -> Option<Found> {
        let to = self.plan.chart.landings.get(landing)?.at;
        let afloat = self.water.afloat(to)?;
        let mut way = self.water.way(from, afloat, most)?;
        let bends = way.len() > 2;
        // A landing lies a little above its shore.
        if afloat != to {
            way.push(to);
        }
        Some(Found { way, bends })
    }

    fn way_out(&mut self, stage: &Stage) -> Option<WayOut> {
        let Stage { first, last, ref beside } = *stage;
        let plan = self.plan;
        let landing = plan.chart.landings.get(beside.landing)?;
        let at = GridPoint::from_metres(landing.at.x, landing.at.y).ok()?;
        let off = if beside.way.is_empty() {
            NO_WAY.to_owned()
        } else {
            text::kilometres(self.on_ground(&beside.way)?)
        };
        Some(WayOut {
            stage: format!("{}–{}", first + 1, last + 1),
            name: landing.name.clone(),
            reference: plan.chart.grid.reference(at, Figures::Six).unwrap_or_default(),
            from_first: self.lies(first, beside.landing)?,
            off,
            from_last: self.lies(last, beside.landing)?,
            serves: format!("{}, {}", landing.ground, landing.serves),
        })
    }

    /// How long a way is on the ground.
    fn on_ground(&self, way: &[Point]) -> Option<Length> {
        let positions: Option<Vec<Position>> =
            way.iter().map(|at| self.plan.chart.position(*at).ok()).collect();
        let sides = positions?;
        let lengths = sides.windows(2).map(|side| rhumb::inverse(side[0], side[1]).distance);
        Some(lengths.fold(Length::ZERO, |sum, length| sum + length))
    }

    /// The way from a point of the route to a landing.
    fn lies(&mut self, index: usize, landing: usize) -> Option<Lies> {
        let plan = self.plan;
        let from = plan.route.points.get(index)?.at;
        let to = plan.chart.landings.get(landing)?.at;
        let straight = rhumb::inverse(from, plan.chart.position(to).ok()?);
        if straight.distance.as_metres() < HERE {
            return Some(Lies::Here);
        }
        let start = point(plan, from)?;
        if self.straight(start, landing).is_some() {
            let distance = text::kilometres(straight.distance);
            let bearing = self.bearing(from, straight.bearing);
            return Some(Lies::Way { bearing, distance, round: false });
        }
        let Some(afloat) = self.water.afloat(start) else { return Some(Lies::Nowhere) };
        let Some(Found { way, bends }) = self.round(&[afloat], landing, f64::INFINITY) else {
            return Some(Lies::Nowhere);
        };
        let next = plan.chart.position(*way.get(1)?).ok()?;
        let first = rhumb::inverse(plan.chart.position(afloat).ok()?, next).bearing;
        // A start on a beach is as far off its water as it lies above it.
        let beach = if afloat == start { Length::ZERO } else { self.on_ground(&[start, afloat])? };
        Some(Lies::Way {
            bearing: self.bearing(from, first),
            distance: text::kilometres(beach + self.on_ground(&way)?),
            round: bends,
        })
    }

    /// A bearing as it is told at a place.
    fn bearing(&self, at: Position, bearing: Bearing<True>) -> String {
        let Some(departure) = &self.plan.route.departure else { return bearing.to_string() };
        let date = DecimalYear::from_date(departure.moment().date());
        bearing.to_magnetic(self.plan.route.variation.at(at, date).variation).to_string()
    }
}

fn point(plan: &Plan<'_>, at: Position) -> Option<Point> {
    let there = plan.chart.grid.forward(at).ok()?.point;
    Some(Point { x: there.easting.as_metres(), y: there.northing.as_metres() })
}

/// How long a way is on the plane.
fn length(way: &[Point]) -> f64 {
    way.windows(2).map(|side| (side[1].x - side[0].x).hypot(side[1].y - side[0].y)).sum()
}

/// The place of a line that is nearest to a point, and how far away it is.
fn foot(line: &[Point], to: Point) -> Option<(Point, f64)> {
    let sides = line.windows(2).map(|side| {
        let (way, from) = (side[1] - side[0], to - side[0]);
        let square = way.x * way.x + way.y * way.y;
        let part = if square > 0.0 { (from.x * way.x + from.y * way.y) / square } else { 0.0 };
        let foot = side[0] + way * part.clamp(0.0, 1.0);
        (foot, (to.x - foot.x).hypot(to.y - foot.y))
    });
    sides.min_by(|a, b| a.1.total_cmp(&b.1))
}
