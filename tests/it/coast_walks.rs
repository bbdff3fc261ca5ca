//! Dividers walked round Great Britain on data that are fetched and not kept here: see
//! `benches/fetch_world.py` and, for the expected values, the headers of their tables.

use std::path::Path;

use chart::measure::{Line, Slope, Start, Walk, Way, slope};
use nav::{Length, Position};

const ROUND: &str = include_str!("../data/coast/gshhg_gb_walks.csv");
const WEST: &str = include_str!("../data/coast/gshhg_west_coast_walks.csv");

fn rows(table: &str) -> impl Iterator<Item = Vec<&str>> {
    let lines = table.lines().filter(|line| !line.starts_with('#')).skip(1);
    lines.map(|line| line.split(',').collect())
}

fn kilometres(cell: &str) -> Length {
    Length::from_kilometres(cell.parse().unwrap()).unwrap()
}

/// Great Britain at full resolution, without its repeated first position.
fn britain() -> Vec<Position> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("target/coast/gb.csv");
    let text = std::fs::read_to_string(path).expect("python3 benches/fetch_world.py writes it");
    let position = |line: &str| {
        let (lon, lat) = line.split_once(',').unwrap();
        Position::from_degrees(lat.parse().unwrap(), lon.parse().unwrap()).unwrap()
    };
    let mut ring: Vec<Position> = text.lines().skip(1).map(position).collect();
    assert_eq!(ring.pop(), ring.first().copied());
    ring
}

/// Within a hundredth of the half percent that is asked for: the walks are the same, step for step.
fn compare(walk: Walk, length: &str, row: &[&str]) {
    let off = walk.length() / kilometres(length) - 1.0;
    assert!(off.abs() < 0.000_05, "{row:?}: {walk:?}");
}

#[test]
#[ignore = "needs target/coast/gb.csv, which python3 benches/fetch_world.py fetches"]
fn dividers_round_great_britain_at_full_resolution() {
    let ring = britain();
    assert_eq!(ring.len(), 49_152);
    let line = Line::new(ring, true);
    // As printed, in kilometres: the perimeter by GeographicLib.
    assert!((line.length().as_kilometres() - 10_150.31).abs() < 5e-3, "{:?}", line.length());
    for row in rows(ROUND) {
        let start = Start { vertex: row[1].parse().unwrap(), way: Way::Onwards };
        compare(line.walk(kilometres(row[5]), start).unwrap(), row[8], &row);
    }
}

#[test]
#[ignore = "needs target/coast/gb.csv, which python3 benches/fetch_world.py fetches"]
fn the_slope_of_the_west_coast_beside_the_published_one() {
    let ring = britain();
    let nearest = |lat: f64, lon: f64| {
        let place = Position::from_degrees(lat, lon).unwrap();
        let off = |at: &Position| nav::geodesic::inverse(*at, place).distance.as_metres();
        (0..ring.len()).min_by(|a, b| off(&ring[*a]).total_cmp(&off(&ring[*b]))).unwrap()
    };
    let (south, north) = (nearest(50.06414, -5.71586), nearest(58.64545, -3.02672));
    let west: Vec<Position> = ring[south..=north].to_vec();
    assert_eq!(west.len(), 28_275);
    let line = Line::new(west, false);
    assert!((line.length().as_kilometres() - 5_774.36).abs() < 5e-3, "{:?}", line.length());
    assert!((line.straight().unwrap().as_kilometres() - 970.86).abs() < 5e-3);
    let walks: Vec<Walk> = rows(WEST)
        .map(|row| {
            let start = if row[1] == "S-N" { Start::FIRST } else { Start::LAST };
            let walk = line.walk(kilometres(row[2]), start).unwrap();
            compare(walk, row[5], &row);
            walk
        })
        .collect();
    let Slope { slope, narrowest, widest } = slope(&walks).unwrap();
    assert!((slope - -0.3174).abs() < 0.0005, "{slope} over {narrowest:?} to {widest:?}");
    // Richardson's map was coarser than this outline, which steepens the slope; an indented coast
    // of this kind all the same.
    assert!((-0.35..=-0.25).contains(&slope));
}
