//! The starts of the demonstration, derived a second time by stepping finely along its legs.
//!
//! The second way shares the chart's streams, races and gates with the first and nothing else: neither
//! stretches nor tables nor roots. It takes the stream anew at every step, where the boat is to 25 m.

use chart::coast::Coast;
use chart::water::{Flows, RaceState, Shares, Tides};
use chart::{Chart, Point};
use jiff::civil::date;
use jiff::{SignedDuration, Timestamp};
use nav::triangle::{Steer, Stream, heading, made_good};
use nav::{Bearing, Length, Position, Speed, True, rhumb};
use plan::depart::{Days, Departures, Every, Kind, Start, Starts};
use plan::unrolled::Ground;
use plan::{Course, Limits, Route, Steering};

/// How long a step is, in seconds.
const STEP: f64 = 5.0;
/// How far along a leg the stream is taken for the same, in metres.
const FINE: f64 = 25.0;

struct Scene {
    route: Route,
    chart: Chart,
    coast: Coast,
    tides: Tides,
}

impl Scene {
    fn demonstration() -> Scene {
        let chart = chart::practice().unwrap();
        let (coast, tides) = (Coast::of(&chart), Tides::of(&chart).unwrap());
        Scene { route: plan::demonstration().unwrap(), chart, coast, tides }
    }

    fn ground(&self) -> Ground<'_> {
        Ground { chart: &self.chart, coast: &self.coast, tides: Some(&self.tides) }
    }

    fn point(&self, at: Position) -> Point {
        let at = self.chart.grid.forward(at).unwrap().point;
        Point { x: at.easting.as_metres(), y: at.northing.as_metres() }
    }
}

/// The starts of the day, every ten minutes.
fn day(course: &Course, scene: &Scene, limits: Limits) -> Starts {
    let zone = course.zone().clone();
    let days = Days { first: date(2026, 6, 14), count: 1, zone, every: Every::TEN_MINUTES };
    Departures::of(course, &scene.ground()).unwrap().days(&days, limits).unwrap().remove(0)
}

/// A leg, and what there is every 25 m of it.
struct Leg {
    track: Bearing<True>,
    length: f64,
    one_heading: bool,
    /// How long the group stays before it.
    stop: f64,
    water: Vec<Shares>,
    races: Vec<Vec<usize>>,
    gates: Vec<Option<usize>>,
}

fn legs(scene: &Scene) -> Vec<Leg> {
    let points = &scene.route.points;
    let leg = |index: usize| {
        let (from, to) = (&points[index], &points[index + 1]);
        let line = rhumb::inverse(from.at, to.at);
        let length = line.distance.as_metres();
        let at = |along: f64| {
            let along = along.min(length) * Length::METRE;
            scene.point(rhumb::direct(from.at, line.bearing, along).unwrap())
        };
        let pieces = 0..(length / FINE).ceil() as usize;
        let middle = |piece: usize| at((piece as f64 + 0.5) * FINE);
        let races = |piece: usize| {
            let races = scene.tides.races().iter().enumerate();
            races.filter(|(_, race)| race.edge().encloses(middle(piece))).map(|it| it.0).collect()
        };
        let gates = |piece: usize| {
            let (a, b) = (at(piece as f64 * FINE), at((piece + 1) as f64 * FINE));
            scene.tides.gates().iter().position(|gate| cross(gate.line(), (a, b)))
        };
        Leg {
            track: line.bearing,
            length,
            one_heading: to.steer == Steering::OneHeading,
            stop: if index == 0 { 0.0 } else { from.stop.as_secs_f64() },
            water: pieces
                .clone()
                .map(|piece| scene.tides.shares(&scene.coast, middle(piece)))
                .collect(),
            races: pieces.clone().map(races).collect(),
            gates: pieces.map(gates).collect(),
        }
    };
    (0..points.len() - 1).map(leg).collect()
}

/// Whether two lines cross: the ends of each lie on both sides of the other.
fn cross(one: (Point, Point), other: (Point, Point)) -> bool {
    let side = |line: (Point, Point), p: Point| {
        (line.1.x - line.0.x) * (p.y - line.0.y) - (line.1.y - line.0.y) * (p.x - line.0.x) < 0.0
    };
    side(one, other.0) != side(one, other.1) && side(other, one.0) != side(other, one.1)
}

/// What a stepped passage comes to.
#[derive(Debug, Default)]
struct Stepped {
    /// In seconds from the start; nothing where it is held.
    took: Option<f64>,
    worst: Option<RaceState>,
    /// Whether it comes to a gate that is shut when it would go on without a wait.
    shut: bool,
}

struct Stepper<'a> {
    scene: &'a Scene,
    legs: &'a [Leg],
    flows: &'a Flows,
    speed: Speed,
}

/// Where a leg ends, how far to the right of its line, and what was met.
struct Made {
    seconds: f64,
    off: f64,
    worst: Option<RaceState>,
    shut: bool,
}

impl Stepper<'_> {
    fn stream(&self, shares: &Shares, at: Timestamp) -> Stream {
        let still = Stream { set: Bearing::NORTH, drift: Speed::from_knots(0.0).unwrap() };
        self.flows.at(shares, at).unwrap_or(still)
    }

    /// Speeds along and to the right of a leg, in metres per second; nothing where no way is made.
    fn speeds(&self, leg: &Leg, bow: Option<Bearing<True>>, water: Stream) -> Option<(f64, f64)> {
        let least = nav::passage::LEAST_WAY.as_metres_per_second();
        let (along, off) = match bow {
            None => match heading(leg.track, self.speed, water) {
                Steer::MakesWay { ground_speed, .. } => (ground_speed.as_metres_per_second(), 0.0),
                _ => return None,
            },
            Some(bow) => {
                let made = made_good(bow, self.speed, water);
                let angle = made.track.map_or(0.0, |track| {
                    (track.as_degrees() - leg.track.as_degrees()).to_radians()
                });
                let over_ground = made.ground_speed.as_metres_per_second();
                (over_ground * angle.cos(), over_ground * angle.sin())
            }
        };
        (along > least).then_some((along, off))
    }

    /// A leg from its start at an instant, with the bow in one direction or on its line.
    fn leg(&self, leg: &Leg, departs: Timestamp, bow: Option<Bearing<True>>) -> Option<Made> {
        let mut made = Made { seconds: 0.0, off: 0.0, worst: None, shut: false };
        let (mut along, mut last) = (0.0, usize::MAX);
        while along < leg.length {
            let piece = ((along / FINE) as usize).min(leg.water.len() - 1);
            let at = departs + SignedDuration::from_secs_f64(made.seconds);
            let water = self.stream(&leg.water[piece], at);
            let (ahead, aside) = self.speeds(leg, bow, water)?;
            for race in &leg.races[piece] {
                made.worst = made.worst.max(self.race(*race, at));
            }
            if piece != last {
                made.shut |= leg.gates[piece].is_some_and(|gate| !self.is_open(gate, at));
                last = piece;
            }
            let step = STEP.min((leg.length - along) / ahead);
            made.seconds += step;
            along += ahead * step;
            made.off += aside * step;
            if leg.length - along < 1e-6 {
                break;
            }
        }
        Some(made)
    }

    /// The heading that comes out at the leg's end, by halving between 70° to either side.
    fn crossing(&self, leg: &Leg, departs: Timestamp) -> Option<Made> {
        let bow = |off: f64| {
            Bearing::from_degrees((leg.track.as_degrees() + off).rem_euclid(360.0)).unwrap()
        };
        let (mut left, mut right) = (-70.0, 70.0);
        for _ in 0..24 {
            let middle = f64::midpoint(left, right);
            match self.leg(leg, departs, Some(bow(middle))) {
                Some(made) if made.off > 0.0 => right = middle,
                Some(_) => left = middle,
                // Too far to one side to make way: back towards the line.
                None if middle > 0.0 => right = middle,
                None => left = middle,
            }
        }
        self.leg(leg, departs, Some(bow(f64::midpoint(left, right))))
    }

    fn race(&self, race: usize, at: Timestamp) -> Option<RaceState> {
        let conditions = self.scene.tides.races()[race].conditions()?;
        Some(conditions.state(self.flows.at(&Tides::only(conditions.station), at)?))
    }

    fn is_open(&self, gate: usize, at: Timestamp) -> bool {
        let gate = &self.scene.tides.gates()[gate];
        let slow = self.flows.at(&Tides::only(gate.station()), at).unwrap().drift < gate.limit();
        let deep = gate.sill().is_none_or(|(gauge, least)| {
            self.scene.tides.gauges()[gauge].height(at).unwrap().unwrap() >= least
        });
        slow && deep
    }

    /// The whole passage, waiting before a leg by the half minute, for an hour at most in all.
    fn passage(&self, departs: Timestamp) -> Stepped {
        let (mut seconds, mut waited) = (0.0, 0.0);
        let mut stepped = Stepped::default();
        for leg in self.legs {
            seconds += leg.stop;
            let made = loop {
                let at = departs + SignedDuration::from_secs_f64(seconds);
                let made =
                    if leg.one_heading { self.crossing(leg, at) } else { self.leg(leg, at, None) };
                stepped.shut |= made.as_ref().is_some_and(|made| made.shut);
                match made.filter(|made| !made.shut) {
                    Some(made) => break made,
                    None if waited >= 3600.0 => return stepped,
                    None => (seconds, waited) = (seconds + 30.0, waited + 30.0),
                }
            };
            seconds += made.seconds;
            stepped.worst = stepped.worst.max(made.worst);
        }
        stepped.took = Some(seconds);
        stepped
    }
}

/// The flows of the day and of what comes after.
fn flows(scene: &Scene, day: &Starts) -> Flows {
    let hours = SignedDuration::from_hours;
    scene.tides.flows(day.from - hours(1), day.to + hours(48)).unwrap()
}

fn took(start: &Start) -> f64 {
    start.landing.unwrap().took.as_secs_f64()
}

/// Whether both neighbours are as this one is, so that it lies on no edge.
fn inner(day: &Starts, index: usize, is: impl Fn(&Start) -> bool) -> bool {
    index > 0 && day.starts[index - 1..].iter().take(3).filter(|start| is(start)).count() == 3
}

#[test]
fn the_table_is_what_fine_stepping_finds() {
    let scene = Scene::demonstration();
    let course = Course::new(&scene.route, &scene.ground());
    let day = day(&course, &scene, Limits::default());
    let (legs, flows) = (legs(&scene), flows(&scene, &day));
    let speed = scene.route.pace.speed();
    let stepper = Stepper { scene: &scene, legs: &legs, flows: &flows, speed };
    let meets_the_worst =
        |start: &Start| start.reasons.first().is_some_and(|reason| reason.kind() == Kind::Race);
    let lands = |start: &Start| start.verdict.is_acceptable() && start.waited().is_zero();
    let (mut refused, mut landed, mut furthest) = (0, 0, 0.0_f64);
    for (index, start) in day.starts.iter().enumerate() {
        // A start that meets the race at its worst is refused, and none other for it.
        if inner(&day, index, meets_the_worst) {
            let stepped = stepper.passage(start.at);
            assert_eq!(stepped.worst, Some(RaceState::Worst), "{}", start.at);
            refused += 1;
        }
        if inner(&day, index, lands) {
            let stepped = stepper.passage(start.at);
            assert!(stepped.worst < Some(RaceState::Worst) && !stepped.shut, "{}", start.at);
            let off = stepped.took.unwrap() - took(start);
            furthest = furthest.max(off.abs());
            landed += 1;
        }
    }
    assert!(refused >= 10 && landed >= 10, "{refused} {landed}");
    // Stretches of up to 250 m beside pieces of 25 m, over some four hours.
    assert!(furthest < 60.0, "{furthest} s");
    // The best start is at least a quarter quicker than the slowest that gets there.
    let (best, slowest) = (day.best().unwrap(), day.slowest().unwrap());
    assert!(took(best) <= 0.75 * took(slowest));
    let [best, slowest] = [best, slowest].map(|start| stepper.passage(start.at).took.unwrap());
    assert!(best <= 0.75 * slowest, "{best} {slowest}");
}

#[test]
fn the_table_is_within_five_seconds_of_passages_walked_one_by_one() {
    let scene = Scene::demonstration();
    let course = Course::new(&scene.route, &scene.ground());
    let limits = Limits::default();
    let day = day(&course, &scene, limits);
    let mut landed = 0;
    for (index, start) in day.starts.iter().enumerate() {
        let walked = course.passage(Some(&scene.tides), start.at, limits.longest_wait).unwrap();
        let lands = |start: &Start| start.landing.is_some();
        match (lands(start), walked.time()) {
            (true, Some(time)) => {
                // When a wait for the stream is over hangs on the last tenth of a knot.
                let most = if start.waited().is_zero() { 5.0 } else { 60.0 };
                let off = took(start) - time.as_secs_f64();
                assert!(off.abs() < most, "{off} s, {}", start.at);
                landed += 1;
            }
            (false, None) => {}
            // A second may decide whether a wait is too long, but only where the starts change.
            (now, _) => assert!(!inner(&day, index, |start| lands(start) == now), "{}", start.at),
        }
    }
    assert!(landed > 40, "{landed}");
}

#[test]
fn best_and_latest_are_the_ends_of_what_is_acceptable() {
    let scene = Scene::demonstration();
    let course = Course::new(&scene.route, &scene.ground());
    let day = day(&course, &scene, Limits::default());
    let (best, latest) = (day.best().unwrap(), day.latest().unwrap());
    assert!(best.at <= latest.at && latest.verdict.is_acceptable());
    let after = day.starts.iter().filter(|start| start.at > latest.at);
    assert!(after.clone().count() > 0 && after.clone().all(|start| !start.verdict.is_acceptable()));
    for start in day.starts.iter().filter(|start| start.verdict.is_acceptable()) {
        assert!(took(best) < took(start) + 30.0, "{}", start.at);
        let landing = start.landing.unwrap();
        assert!(landing.height.is_some());
    }
}
