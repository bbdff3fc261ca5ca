//! Natural Earth's Great Britain and the islands off it.

use std::ops::ControlFlow;

use super::*;
use crate::geojson::{self, BadRings};

const COAST: &str = include_str!("../../../../tests/data/coast/west_coast.geojson");
const RINGS: &str = include_str!("../../../../tests/data/coast/west_coast_expected.csv");
const WALKS: &str = include_str!("../../../../tests/data/coast/natural_earth_gb_walks.csv");

fn rows(table: &str) -> impl Iterator<Item = Vec<&str>> {
    let lines = table.lines().filter(|line| !line.starts_with('#')).skip(1);
    lines.map(|line| line.split(',').collect())
}

/// The rings as they stand in the file, not through any grid.
fn rings() -> Vec<Line> {
    let features: serde_json::Value = serde_json::from_str(COAST).unwrap();
    let ring = |feature: &serde_json::Value| {
        let corners = feature["geometry"]["coordinates"][0].as_array().unwrap();
        let position = |corner: &serde_json::Value| {
            at(corner[1].as_f64().unwrap(), corner[0].as_f64().unwrap())
        };
        Line::new(corners.iter().map(position), true)
    };
    features["features"].as_array().unwrap().iter().map(ring).collect()
}

/// The table's tolerance: 1e-9 of each.
#[test]
fn lengths_and_areas_of_islands_are_an_independent_librarys() {
    let rings = rings();
    assert_eq!(rings.len(), rows(RINGS).count());
    for (ring, row) in rings.iter().zip(rows(RINGS)) {
        let number = |column: usize| row[column].parse::<f64>().unwrap();
        assert_eq!(ring.vertices().to_string(), row[1]);
        let off = ring.length().as_metres() / number(2) - 1.0;
        assert!(off.abs() < 1e-9, "length of {row:?}: {off:e}");
        let off = ring.area().unwrap().as_square_metres() / number(3) - 1.0;
        assert!(off.abs() < 1e-9, "area of {row:?}: {off:e}");
    }
}

/// Step for step within the table's half of one percent.
#[test]
fn dividers_round_great_britain_find_an_independent_librarys_lengths() {
    let britain = &rings()[0];
    let mut compared = 0;
    for row in rows(WALKS) {
        let vertex = row[0].parse().unwrap();
        let step = metres(row[4].parse::<f64>().unwrap() * 1000.0);
        let walk = britain.walk(step, Start { vertex, way: Way::Onwards }).unwrap();
        let expected = metres(row[7].parse::<f64>().unwrap() * 1000.0);
        assert!((walk.length() / expected - 1.0).abs() < 0.005, "{row:?}: {walk:?}");
        compared += 1;
    }
    assert_eq!(compared, 72);
}

/// On the chart's plane a ring is the same line, but for the centimetre that a chart rounds to.
#[test]
fn a_chart_s_shore_measures_as_its_positions() {
    let grid = Grid::parse("EPSG:3395").unwrap();
    let import =
        geojson::read(COAST.as_bytes(), &grid, BadRings::Refuse, |_| ControlFlow::Continue(()));
    let chart = import.unwrap().into_chart(grid, "West coast", "Natural Earth, public domain");
    let shore = chart.land[1].shore.0.iter().copied();
    let line = Line::on_grid(&chart.grid, shore, true).unwrap();
    let off = (line.length() - rings()[1].length()).as_metres();
    assert!(off.abs() < 0.02 * line.vertices() as f64, "{off}");
    let beyond = [Point { x: 0.0, y: 1e9 }];
    assert!(Line::on_grid(&chart.grid, beyond, false).is_err());
}
