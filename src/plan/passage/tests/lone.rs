//! A chart with one station alone, and no land: what it says is so everywhere within its reach.

use chart::Chart;
use chart::coast::Coast;
use chart::model::{Constituent, Gate, Race, Runs, Stream, StreamRates, StreamRow};
use chart::water::Tides;
use chart::{Point, Ring};
use jiff::{SignedDuration, Timestamp};
use nav::Position;

use super::practice::PRACTICE;
use crate::unrolled::Ground;
use crate::{Course, Passage, Route, Waypoint};

/// Where the station is.
const MIDDLE: Point = Point { x: 675_000.0, y: 351_000.0 };

pub(super) struct Lone {
    pub(super) chart: Chart,
    pub(super) coast: Coast,
    pub(super) tides: Tides,
}

impl Lone {
    fn of(rates: StreamRates, change: impl FnOnce(&mut Chart)) -> Lone {
        let mut chart = PRACTICE.chart.clone();
        chart.land.clear();
        chart.races.clear();
        chart.gates.clear();
        chart.streams = vec![Stream { name: "Lone".to_owned(), at: MIDDLE, rates }];
        change(&mut chart);
        let (coast, tides) = (Coast::of(&chart), Tides::of(&chart).unwrap());
        Lone { chart, coast, tides }
    }

    /// A stream that never changes.
    pub(super) fn steady(set_deg: f64, knots: f64) -> Lone {
        let row = StreamRow { set_deg, springs_kn: knots, neaps_kn: knots };
        let rates =
            StreamRates::Hourly { port: PRACTICE.chart.ports[0].name.clone(), rows: vec![row; 13] };
        Lone::of(rates, |_| {})
    }

    /// A stream of M2 alone, to and fro along an axis.
    pub(super) fn tidal(flood_deg: f64, knots: f64) -> Lone {
        Lone::tidal_with(flood_deg, knots, |_| {})
    }

    /// The same on a chart with something more.
    pub(super) fn tidal_with(flood_deg: f64, knots: f64, change: impl FnOnce(&mut Chart)) -> Lone {
        let m2 = Constituent { name: "M2".to_owned(), amplitude: knots, phase_deg: 40.0 };
        Lone::of(
            StreamRates::Axis { flood_deg, constituents: vec![m2], across: Vec::new() },
            change,
        )
    }

    /// A place so many metres east and north of the station on the grid.
    pub(super) fn at(&self, (east, north): (f64, f64)) -> Position {
        let point = Point { x: MIDDLE.x + east, y: MIDDLE.y + north };
        crate::rounded(self.chart.position(point).unwrap())
    }

    pub(super) fn route(&self, points: &[(f64, f64)], pace: &str) -> Route {
        let points = points.iter().map(|at| Waypoint::new(self.at(*at))).collect();
        Route { points, pace: pace.parse().unwrap(), ..Route::new(&self.chart.title) }
    }

    pub(super) fn course(&self, route: &Route) -> Course {
        let (chart, coast) = (&self.chart, &self.coast);
        Course::new(route, &Ground { chart, coast, tides: Some(&self.tides) })
    }

    pub(super) fn passage(&self, route: &Route, departs: Timestamp, minutes: i64) -> Passage {
        let wait = SignedDuration::from_mins(minutes);
        self.course(route).passage(Some(&self.tides), departs, wait).unwrap()
    }
}

/// A gate across the middle, open under so many knots.
pub(super) fn gate(limit_kn: f64) -> Gate {
    let [south, north] = [-900.0, 900.0].map(|y| Point { x: MIDDLE.x, y: MIDDLE.y + y });
    Gate {
        name: "The Narrows".to_owned(),
        line: (south, north),
        station: "Lone".to_owned(),
        limit_kn,
        sill: None,
        note: String::new(),
    }
}

/// A race between so many metres east of the middle, at its worst over so many knots.
pub(super) fn race(from: f64, to: f64, worst_over_kn: f64) -> Race {
    let corner = |x: f64, y: f64| Point { x: MIDDLE.x + x, y: MIDDLE.y + y };
    let edge = [corner(from, -500.0), corner(to, -500.0), corner(to, 500.0), corner(from, 500.0)];
    let sets_deg = Vec::new();
    let runs = Runs { station: "Lone".to_owned(), quiet_under_kn: 0.5, worst_over_kn, sets_deg };
    Race {
        name: "The Race".to_owned(),
        edge: Ring(edge.to_vec()),
        runs: Some(runs),
        note: String::new(),
    }
}
