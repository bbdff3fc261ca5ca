//! A route on a real coast beside an independent library's numbers.

use std::path::Path;

use assert_cmd::Command;
use serde_json::Value;

/// A row of `tests/data/coast/route.csv`; its header names the source and the tolerances.
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
    let table = include_str!("../data/coast/route.csv");
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

fn near(what: &str, row: &Row, ours: f64, theirs: f64, tolerance: f64) {
    let off = (ours - theirs).abs();
    assert!(off <= tolerance, "{what} at {}: {ours}, not {theirs}: {off:e} off", row.name);
}

fn strandline(arguments: &[&str]) -> Vec<u8> {
    let run = Command::cargo_bin("strandline").unwrap().args(arguments).assert().success();
    run.get_output().stdout.clone()
}

/// Lays the rows' points on a chart by keys, as somebody at the screen would.
fn laid(chart: &Path, rows: &[Row]) -> plan::Route {
    let drop = |row: &Row| {
        let at = format!("{} {}", row.lat, row.lon);
        format!("/ '{at}' Enter Enter r '{}' Enter ", row.name)
    };
    let shot = tui::Shot {
        chart: Some(chart.to_owned()),
        size: (200, 60),
        keys: rows.iter().map(drop).collect(),
        ..tui::Shot::default()
    };
    shot.driver().unwrap().state.document.route().clone()
}

/// The shore imported by the real command, a route laid on it by keys, and its numbers as the
/// real command prints them, beside an independent library's.
#[test]
fn a_route_on_a_real_coast_has_an_independent_librarys_numbers() {
    let folder = tempfile::tempdir().unwrap();
    let (chart, route) = (folder.path().join("coast.ron"), folder.path().join("route.ron"));
    let coast = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/coast/west_coast.geojson");
    strandline(&["chart", "import", coast, "--grid", "UTM:30N", "-o", chart.to_str().unwrap()]);
    let rows = rows();
    files::save_route(&route, &laid(&chart, &rows)).unwrap();
    let shown = ["route", "show", route.to_str().unwrap(), "--chart", chart.to_str().unwrap()];
    let shown: Value =
        serde_json::from_slice(&strandline(&[&shown[..], &["--json"]].concat())).unwrap();

    let number = |value: &Value| value.as_f64().unwrap();
    assert_eq!(shown["points"].as_array().unwrap().len(), rows.len());
    for (index, row) in rows.iter().enumerate() {
        let point = &shown["points"][index];
        assert_eq!(point["name"], row.name);
        near("easting", row, number(&point["easting_m"]), row.easting, 1e-4);
        near("northing", row, number(&point["northing_m"]), row.northing, 1e-4);
        let reference = point["text"]["reference"].as_str().unwrap();
        assert_eq!(reference.replace(' ', ""), row.mgrs, "at {}", row.name);
        let Some((distance, bearing)) = row.leg else { continue };
        let leg = &shown["legs"][index - 1];
        near("length of the leg", row, number(&leg["distance_m"]), distance, 1e-6);
        let ours = number(&leg["bearing_true_deg"]);
        near("bearing of the leg", row, ours, bearing.rem_euclid(360.0), 1e-9);
        // The grid turns evenly enough along a leg that at its middle it has turned by the mean.
        let mean = (rows[index - 1].convergence + row.convergence) / 2.0;
        near("convergence of the leg", row, number(&leg["convergence_deg"]), mean, 1e-4);
    }
    let whole: f64 = rows.iter().filter_map(|row| row.leg).map(|(distance, _)| distance).sum();
    let printed = shown["total"]["text"]["nautical_miles"].as_str().unwrap();
    assert_eq!(printed, format!("{:.1} NM", whole / 1852.0));
}
