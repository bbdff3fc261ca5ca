//! Passages through a changing stream: one, and a fortnight of departures, of twenty legs in two hundred
//! stretches.
#![allow(clippy::unwrap_used, missing_docs, reason = "a bench")]

use chart::coast::Coast;
use chart::water::Tides;
use divan::Bencher;
use divan::counter::ItemsCount;
use jiff::{SignedDuration, Timestamp};
use nav::passage::{Boat, Stretch, Table, one_heading, walk};
use nav::stream::{AxisStation, HighWater, HourlyRow, HourlyStation, Run, StreamHarmonic};
use nav::tide::{Constituent, PhaseLag};
use nav::triangle::Stream;
use nav::{Bearing, Length, Pace, Speed, True, rhumb};
use plan::depart::{Days, Departures, Every};
use plan::unrolled::Ground;
use plan::{Course, Limits, Route, Steering, Waypoint};

fn main() {
    divan::main();
}

fn degrees(degrees: f64) -> Bearing<True> {
    Bearing::from_degrees(degrees).unwrap()
}

fn knots(knots: f64) -> Speed {
    Speed::from_knots(knots).unwrap()
}

fn departs() -> Timestamp {
    "2026-06-14T00:00Z".parse().unwrap()
}

/// A fortnight, and a day for the last passage.
fn until() -> Timestamp {
    departs() + SignedDuration::from_hours(15 * 24)
}

/// Of every other station the harmonic constants are known, of the rest hourly rows; the streams set
/// along one sound, at up to two knots, and turn later the further in they are.
fn stations() -> Vec<Run> {
    let station = |index: u32| {
        let (axis, greatest, later) = (
            degrees(60.0 + 9.0 * f64::from(index)),
            1.2 + 0.1 * f64::from(index),
            f64::from(index) * 0.3,
        );
        if index.is_multiple_of(2) {
            let harmonic = |name, part: f64, phase: f64| StreamHarmonic {
                constituent: Constituent::named(name).unwrap(),
                rate: knots(greatest * part),
                phase: PhaseLag::from_degrees(phase + 29.0 * later).unwrap(),
            };
            let along = [harmonic("M2", 0.75, 40.0), harmonic("S2", 0.25, 70.0)];
            let still = Stream { set: axis, drift: knots(0.0) };
            let station = AxisStation::new("station", axis, &along, &[], still).unwrap();
            return station.run(departs(), until()).unwrap();
        }
        let row = |hour: i8| {
            let rate = (std::f64::consts::TAU * (f64::from(hour) - later) / 12.4).sin();
            HourlyRow {
                set: if rate < 0.0 { axis.back() } else { axis },
                springs: knots(greatest * rate.abs()),
                neaps: knots(0.5 * greatest * rate.abs()),
            }
        };
        let rows: Vec<_> = (-6..=6).map(|hour| (hour, row(hour))).collect();
        let waters = (-1..31).map(|tide| HighWater {
            at: departs() + SignedDuration::from_secs(44_712) * tide,
            factor: f64::from(tide % 28) / 28.0,
        });
        HourlyStation::new(&rows).unwrap().run(&waters.collect::<Vec<_>>())
    };
    (0..8).map(station).collect()
}

/// Twenty legs of 2 km, out along the sound and back, in stretches of 200 m, each with the streams of
/// three stations.
fn line(runs: &[Run]) -> Vec<Stretch<'_>> {
    let stretch = |index: usize| {
        let leg = index / 10;
        let near = if leg < 10 { leg } else { 19 - leg };
        let out = 60.0 + 6.0 * near as f64 + if leg.is_multiple_of(2) { 25.0 } else { -25.0 };
        let parts = [(0.5, 0), (0.3, 1), (0.2, 3)];
        Stretch {
            track: if leg < 10 { degrees(out) } else { degrees(out).back() },
            length: 200.0 * Length::METRE,
            water: parts.map(|(part, from)| (part, &runs[(near + from) % runs.len()])).to_vec(),
        }
    };
    (0..200).map(stretch).collect()
}

fn boat() -> Boat {
    let pace: Pace = "3 kn".parse().unwrap();
    Boat::at_pace(pace.with_rest_per_hour(SignedDuration::from_mins(5)).unwrap())
}

#[divan::bench]
fn one_passage_of_twenty_legs(bencher: Bencher<'_, '_>) {
    let runs = stations();
    let line = line(&runs);
    let departs = departs() + SignedDuration::from_hours(9);
    bencher.bench_local(|| walk(divan::black_box(&line), boat(), departs).arrives().unwrap());
}

/// Target: under 50 ms. The table is made, and every five minutes a passage leaves.
#[divan::bench]
fn a_fortnight_of_departures_of_twenty_legs(bencher: Bencher<'_, '_>) {
    let runs = stations();
    let line = line(&runs);
    bencher.counter(ItemsCount::new(14_usize * 288)).bench_local(|| {
        let table = Table::new(divan::black_box(line.clone()), boat(), departs(), until());
        let start = |index| departs() + SignedDuration::from_mins(5) * index;
        let whole = 0..line.len();
        (0..14 * 288).filter(|index| table.walk(whole.clone(), start(*index)).is_ok()).count()
    });
}

#[divan::bench]
fn the_table_alone(bencher: Bencher<'_, '_>) {
    let runs = stations();
    let line = line(&runs);
    bencher.bench_local(|| Table::new(line.clone(), boat(), departs(), until()));
}

/// A leg of 10 km on one heading.
#[divan::bench]
fn one_crossing_on_one_heading(bencher: Bencher<'_, '_>) {
    let runs = stations();
    let line: Vec<Stretch<'_>> = line(&runs)[..50]
        .iter()
        .cloned()
        .map(|it| Stretch { track: degrees(120.0), ..it })
        .collect();
    let departs = departs() + SignedDuration::from_hours(9);
    bencher.bench_local(|| one_heading(divan::black_box(&line), boat(), departs).unwrap().arrives);
}

/// The demonstration on the practice chart, its longest legs halved until there are twenty.
fn demonstration(crossings: bool) -> Route {
    let mut route = plan::demonstration().unwrap();
    if !crossings {
        route.points.iter_mut().for_each(|point| point.steer = Steering::Line);
    }
    while route.points.len() < 21 {
        let line = |index: &usize| {
            let pair = &route.points[*index..*index + 2];
            rhumb::inverse(pair[0].at, pair[1].at)
        };
        let held = |index: &usize| route.points[index + 1].steer == Steering::Line;
        let length = |index: &usize| line(index).distance.as_metres();
        let legs = (0..route.points.len() - 1).filter(held);
        let longest = legs.max_by(|a, b| length(a).total_cmp(&length(b))).unwrap();
        let half = line(&longest).distance / 2.0;
        let middle = rhumb::direct(route.points[longest].at, line(&longest).bearing, half).unwrap();
        route.points.insert(longest + 1, Waypoint::new(middle));
    }
    route
}

/// Every start of a fortnight, judged: streams, light, tide, table and all. Target: under 50 ms where
/// every leg is held on its line. `crossing` has one of 4 km on one heading, which is sought for each
/// start.
#[divan::bench(args = ["lines", "crossing"])]
fn depart(bencher: Bencher<'_, '_>, legs: &str) {
    let route = demonstration(legs == "crossing");
    let chart = chart::practice().unwrap();
    let (coast, tides) = (Coast::of(&chart), Tides::of(&chart).unwrap());
    let ground = Ground { chart: &chart, coast: &coast, tides: Some(&tides) };
    let course = Course::new(&route, &ground);
    let departures = Departures::of(&course, &ground).unwrap();
    let first = "2026-06-14".parse().unwrap();
    let every = Every::minutes(5).unwrap();
    let days = Days { first, count: 14, zone: course.zone().clone(), every };
    bencher
        .counter(ItemsCount::new(14_usize * 288))
        .bench_local(|| departures.days(divan::black_box(&days), Limits::default()).unwrap());
}
