//! The ways out: the landings nearest to the group, stage by stage.
//!
//! Nearest is meant as the line runs straight. Where that line crosses land it is said, and the nearest landing that
//! is in sight is told beside it: how far it is by water is not worked out here.

use chart::Point;
use nav::magnetic::DecimalYear;
use nav::{Figures, GridPoint, Position, geodesic, rhumb, text};
use plan::unrolled::{Ground, REACH, in_sight};

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
    /// How it lies from the stage's first point.
    pub from_first: Lies,
    /// How far off the stage's legs it is at the nearest, `0.4 km`.
    pub off: String,
    /// How it lies from the stage's last point.
    pub from_last: Lies,
    /// Its ground and the tide at which it serves: `shingle, any tide`.
    pub serves: String,
}

/// How a landing lies from a point.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Lies {
    /// `066°M`, without a date from true north; empty where the point is the landing.
    pub bearing: String,
    /// `1.2 km`; empty where the point is the landing.
    pub distance: String,
    /// Whether the straight line crosses land.
    pub over_land: bool,
}

/// What stands over them.
pub(super) const HEADING: &str = "Ways out: the nearest landings by stage";

/// What stands there where there are none.
pub(super) const NONE: &str = "Ways out: the chart has no landing.";

impl Content {
    /// What the reader should know of the ways out: from where they are told, and what a star means.
    #[must_use]
    pub fn ways_legend(&self) -> String {
        let lies = || self.ways_out.iter().flat_map(|way| [&way.from_first, &way.from_last]);
        let north = if lies().any(|lies| lies.bearing.ends_with('T')) { "°T" } else { "°M" };
        let mut said = format!(
            "From the first and the last point of each stage, {north}; off: from its legs at the \
             nearest. All straight, not by water."
        );
        if lies().any(|lies| lies.over_land) {
            said.push_str(" * Over land: the nearest in sight, if any, follows.");
        }
        said
    }
}

impl Lies {
    /// `066°M 1.2 km*`: a star where the line crosses land; `here` at the landing itself.
    #[must_use]
    pub fn words(&self) -> String {
        if self.distance.is_empty() {
            return "here".to_owned();
        }
        let star = if self.over_land { "*" } else { "" };
        format!("{} {}{star}", self.bearing, self.distance)
    }
}

/// So near to a landing a point is the landing, in metres.
const HERE: f64 = 50.0;
/// Of so many landings, the nearest, the first that is in sight is looked for.
const LOOKED_AT: usize = 12;

/// A landing beside a leg.
#[derive(Debug, Clone, Copy)]
struct Beside {
    landing: usize,
    /// The place of the leg that is nearest to it.
    foot: Point,
    /// How far apart they are, in metres of the grid.
    away: f64,
}

/// The landings of each stage; none where the chart has none, or its grid does not reach.
pub(super) fn of(plan: &Plan<'_>) -> Vec<WayOut> {
    let count = plan.route.points.len().saturating_sub(1);
    let mut stages: Vec<Stage> = Vec::new();
    for leg in 0..count {
        for beside in nearest(plan, leg) {
            let goes_on =
                |stage: &&mut Stage| stage.beside.landing == beside.landing && stage.last == leg;
            match stages.iter_mut().find(goes_on) {
                Some(stage) => stage.go_on(beside),
                None => stages.push(Stage { first: leg, last: leg + 1, beside }),
            }
        }
    }
    stages.iter().filter_map(|stage| way(plan, stage)).collect()
}

/// Legs on end that have a landing as one of their nearest.
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

/// The landing nearest to a leg, and where that is not in sight the nearest that is; if it is near, it alone.
fn nearest(plan: &Plan<'_>, leg: usize) -> Vec<Beside> {
    let line: Vec<Point> =
        plan.route.line_of(leg).into_iter().flatten().filter_map(|at| point(plan, at)).collect();
    let landings = plan.chart.landings.iter().enumerate();
    let mut all: Vec<Beside> = landings
        .filter_map(|(landing, it)| {
            let (foot, away) = foot(&line, it.at)?;
            Some(Beside { landing, foot, away })
        })
        .collect();
    all.sort_by(|a, b| a.away.total_cmp(&b.away));
    let seen = all.iter().take(LOOKED_AT).find(|beside| sees(plan, beside.foot, beside.landing));
    match (all.first().copied(), seen.copied()) {
        (Some(first), Some(seen)) if first.landing == seen.landing => vec![seen],
        (Some(_), Some(seen)) if seen.away <= REACH.as_metres() => vec![seen],
        (first, seen) => first.into_iter().chain(seen).collect(),
    }
}

fn ground<'a>(plan: &Plan<'a>) -> Ground<'a> {
    Ground { chart: plan.chart, coast: plan.coast, tides: None }
}

fn sees(plan: &Plan<'_>, from: Point, landing: usize) -> bool {
    let landing = plan.chart.landings.get(landing);
    landing.is_some_and(|landing| in_sight(&ground(plan), from, landing.at))
}

fn point(plan: &Plan<'_>, at: Position) -> Option<Point> {
    let there = plan.chart.grid.forward(at).ok()?.point;
    Some(Point { x: there.easting.as_metres(), y: there.northing.as_metres() })
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

fn way(plan: &Plan<'_>, stage: &Stage) -> Option<WayOut> {
    let Stage { first, last, beside } = *stage;
    let landing = plan.chart.landings.get(beside.landing)?;
    let at = GridPoint::from_metres(landing.at.x, landing.at.y).ok()?;
    let there = plan.chart.position(landing.at).ok()?;
    let off = geodesic::inverse(plan.chart.position(beside.foot).ok()?, there).distance;
    Some(WayOut {
        stage: format!("{}–{}", first + 1, last + 1),
        name: landing.name.clone(),
        reference: plan.chart.grid.reference(at, Figures::Six).unwrap_or_default(),
        from_first: lies(plan, first, there, beside.landing)?,
        off: text::kilometres(off),
        from_last: lies(plan, last, there, beside.landing)?,
        serves: format!("{}, {}", landing.ground, landing.serves),
    })
}

/// How a landing lies from a point of the route.
fn lies(plan: &Plan<'_>, index: usize, there: Position, landing: usize) -> Option<Lies> {
    let from = plan.route.points.get(index)?.at;
    let line = rhumb::inverse(from, there);
    if line.distance.as_metres() < HERE {
        return Some(Lies::default());
    }
    let bearing = match &plan.route.departure {
        Some(departure) => {
            let date = DecimalYear::from_date(departure.moment().date());
            let variation = plan.route.variation.at(from, date).variation;
            line.bearing.to_magnetic(variation).to_string()
        }
        None => line.bearing.to_string(),
    };
    Some(Lies {
        bearing,
        distance: text::kilometres(line.distance),
        over_land: !sees(plan, point(plan, from)?, landing),
    })
}
