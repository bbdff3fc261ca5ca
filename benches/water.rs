//! Tide, light and streams: what the departure table and the screen will ask for.
#![allow(clippy::unwrap_used, missing_docs, reason = "a bench")]

use divan::Bencher;
use jiff::{SignedDuration, Timestamp};
use nav::tide::{Constituent, Harmonic, Height, PhaseLag, Port};
use nav::{Length, Position, sun};

const CONSTANTS: &str = include_str!("../tests/data/tides/noaa_constants.csv");

fn main() {
    divan::main();
}

fn time(text: &str) -> Timestamp {
    text.parse().unwrap()
}

/// Seattle by NOAA's 37 constituents.
fn seattle() -> Port {
    let rows = CONSTANTS.lines().filter(|line| line.starts_with("9447130,"));
    let harmonic = |line: &str| {
        let cells: Vec<&str> = line.split(',').collect();
        Harmonic {
            constituent: Constituent::named(cells[3]).unwrap(),
            amplitude: Length::from_metres(cells[4].parse().unwrap()).unwrap(),
            phase: PhaseLag::from_degrees(cells[5].parse().unwrap()).unwrap(),
        }
    };
    let harmonics: Vec<_> = rows.map(harmonic).collect();
    assert_eq!(harmonics.len(), 37);
    Port::new("Seattle", Height::above_datum(2.024 * Length::METRE), harmonics).unwrap()
}

/// Target: under 20 ms. From the port's constants to the last of 8,760 heights.
#[divan::bench]
fn a_year_of_hourly_heights(bencher: Bencher<'_, '_>) {
    let port = seattle();
    let (from, to) = (time("2026-01-01T00Z"), time("2026-12-31T23Z"));
    bencher.bench_local(|| {
        let curve = port.curve(from, to).unwrap();
        curve.heights(SignedDuration::from_hours(1)).map(Height::as_metres).sum::<f64>()
    });
}

#[divan::bench]
fn a_year_of_high_and_low_waters(bencher: Bencher<'_, '_>) {
    let port = seattle();
    let (from, to) = (time("2026-01-01T00Z"), time("2026-12-31T23Z"));
    bencher.bench_local(|| port.curve(from, to).unwrap().turns().len());
}

#[divan::bench]
fn one_height(bencher: Bencher<'_, '_>) {
    let port = seattle();
    let at = time("2026-06-14T12:00Z");
    bencher.bench_local(|| port.height(divan::black_box(at)).unwrap());
}

#[divan::bench]
fn a_days_light(bencher: Bencher<'_, '_>) {
    let place = Position::from_degrees(57.155, -2.08).unwrap();
    let date = "2026-06-14".parse().unwrap();
    bencher.bench_local(|| sun::day(divan::black_box(place), date).unwrap());
}
