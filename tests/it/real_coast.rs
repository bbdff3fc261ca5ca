//! A route on a real coast beside an independent library's numbers.

use nav::{Grid, Position, text};
use plan::{Route, Waypoint, reckon};

/// A row of `tests/data/real_route.csv`; its header names the source and the tolerances.
struct Row {
    name: String,
    lat: f64,
    lon: f64,
    /// The length and bearing of the leg that ends here.
    leg: Option<(f64, f64)>,
    easting: f64,
    northing: f64,
    convergence: f64,
    mgrs: String,
}

fn rows() -> Vec<Row> {
    let table = include_str!("../data/real_route.csv");
    let lines = table.lines().filter(|line| !line.starts_with('#')).skip(1);
    lines
        .map(|line| {
            let cells: Vec<&str> = line.split(',').collect();
            let number = |index: usize| cells[index].parse::<f64>();
            Row {
                name: cells[0].to_owned(),
                lat: number(1).unwrap(),
                lon: number(2).unwrap(),
                leg: number(3).ok().zip(number(4).ok()),
                easting: number(6).unwrap(),
                northing: number(7).unwrap(),
                convergence: number(8).unwrap(),
                mgrs: cells[9].to_owned(),
            }
        })
        .collect()
}

fn route(rows: &[Row]) -> Route {
    let mut route = Route::new("A real coast");
    route.points = rows
        .iter()
        .map(|row| {
            Waypoint::new(Position::from_degrees(row.lat, row.lon).unwrap()).named(&row.name)
        })
        .collect();
    route
}

fn near(what: &str, row: &Row, ours: f64, theirs: f64, tolerance: f64) {
    let off = (ours - theirs).abs();
    assert!(off <= tolerance, "{what} at {}: {ours}, not {theirs}: {off:e} off", row.name);
}

#[test]
fn a_route_on_a_real_coast_has_an_independent_librarys_numbers() {
    let rows = rows();
    let grid = Grid::parse("UTM:30N").unwrap();
    let reckoning = reckon(&route(&rows), &grid);
    assert_eq!(reckoning.points.len(), rows.len());
    for (index, row) in rows.iter().enumerate() {
        let on_grid = reckoning.points[index].on_grid.as_ref().unwrap();
        near("easting", row, on_grid.point.easting.as_metres(), row.easting, 1e-4);
        near("northing", row, on_grid.point.northing.as_metres(), row.northing, 1e-4);
        near("convergence", row, on_grid.convergence.as_degrees_east(), row.convergence, 1e-9);
        let reference = grid.reference(on_grid.point, nav::Figures::Six).unwrap();
        assert_eq!(reference.replace(' ', ""), row.mgrs, "at {}", row.name);
        let Some((distance, bearing)) = row.leg else { continue };
        let leg = &reckoning.legs[index - 1];
        near("length of the leg", row, leg.distance.as_metres(), distance, 1e-6);
        let ours = leg.bearings.unwrap().from_true.as_degrees();
        near("bearing of the leg", row, ours, bearing.rem_euclid(360.0), 1e-9);
    }
    let whole: f64 = rows.iter().filter_map(|row| row.leg).map(|(distance, _)| distance).sum();
    assert_eq!(text::nautical_miles(reckoning.distance), format!("{:.1} NM", whole / 1852.0));
}
