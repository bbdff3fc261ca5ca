//! Passages through a changing stream: one, and a fortnight of departures, of twenty legs in two hundred
//! stretches.
#![allow(clippy::unwrap_used, missing_docs, reason = "a bench")]

use divan::Bencher;
use divan::counter::ItemsCount;
use jiff::{SignedDuration, Timestamp};
use nav::passage::{Boat, Stretch, Table, one_heading, walk};
use nav::stream::{AxisStation, HighWater, HourlyRow, HourlyStation, Run, StreamHarmonic};
use nav::tide::{Constituent, PhaseLag};
use nav::triangle::Stream;
use nav::{Bearing, Length, Pace, Speed, True};

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
    let line: Vec<Stretch<'_>> =
        line(&runs)[..50].iter().cloned().map(|it| Stretch { track: degrees(120.0), ..it }).collect();
    let departs = departs() + SignedDuration::from_hours(9);
    bencher.bench_local(|| one_heading(divan::black_box(&line), boat(), departs).unwrap().arrives);
}
