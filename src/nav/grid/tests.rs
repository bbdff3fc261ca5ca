//! Grids against published values, independent libraries and themselves.

mod properties;
mod published;
mod references;

use super::*;
use crate::published::{Row, rows};

fn position(lat: f64, lon: f64) -> Position {
    Position::from_degrees(lat, lon).unwrap()
}

/// The position in the columns `lat_deg` and `lon_deg`.
fn place(row: &Row) -> Position {
    position(row.number("lat_deg"), row.number("lon_deg"))
}

/// The grid point in the columns `easting_m` and `northing_m`.
fn point(row: &Row) -> GridPoint {
    GridPoint::metres(row.number("easting_m"), row.number("northing_m"))
}

fn grid(name: &str) -> Grid {
    Grid::parse(name).unwrap()
}

/// How far two points of a grid are apart, in metres along each axis at most.
fn apart(a: GridPoint, b: GridPoint) -> f64 {
    let east = (a.easting - b.easting).abs();
    east.max((a.northing - b.northing).abs()).as_metres()
}

/// How far two positions are apart in metres, near enough for differences far below a metre.
fn ground(a: Position, b: Position) -> f64 {
    let north = a.lat.as_degrees() - b.lat.as_degrees();
    let east = a.lon.degrees_east_of(b.lon) * a.lat.as_radians().cos();
    north.hypot(east) * 111_320.0
}

/// A chart's grid for tests: two by two lettered squares in mid-ocean.
fn chart_grid() -> Grid {
    let corner = GridPoint::metres(600_000.0, 300_000.0);
    let lettering = Lettering::rows(corner, &["PA QA", "PB QB"]).unwrap();
    let origin = position(47.3, -38.6);
    let false_origin = GridPoint::metres(700_000.0, 400_000.0);
    let grid = ChartGrid::new("Test grid", origin, 1.0, false_origin, lettering).unwrap();
    Grid::Chart(grid)
}
