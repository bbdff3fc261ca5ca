//! A real coast imported by the real command; see `tests/data/coast` for its source and for the
//! independent library behind the expected values.

use assert_cmd::Command;

fn strandline(arguments: &[&str]) -> Vec<u8> {
    let run = Command::cargo_bin("strandline").unwrap().args(arguments).assert().success();
    run.get_output().stdout.clone()
}

/// The sums of the columns of the expected values.
fn expected() -> (f64, f64, f64) {
    let table = include_str!("../data/coast/west_coast_expected.csv");
    let rows = table.lines().filter(|line| !line.starts_with('#')).skip(1);
    rows.map(|row| {
        let cells: Vec<f64> = row.split(',').map(|cell| cell.parse().unwrap()).collect();
        (cells[1], cells[2], cells[3])
    })
    .fold((0.0, 0.0, 0.0), |sum, row| (sum.0 + row.0, sum.1 + row.1, sum.2 + row.2))
}

#[test]
fn a_real_coast_is_imported_and_measures_what_an_independent_library_says() {
    let folder = tempfile::tempdir().unwrap();
    let chart = folder.path().join("coast.ron");
    let chart = chart.to_str().unwrap();
    let coast = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/coast/west_coast.geojson");
    strandline(&["chart", "import", coast, "--grid", "UTM:30N", "-o", chart]);
    assert_eq!(strandline(&["chart", "check", chart]), b"nothing found\n");
    let json = strandline(&["chart", "describe", chart, "--json"]);
    let json: serde_json::Value = serde_json::from_slice(&json).unwrap();
    let number = |name: &str| json[name].as_f64().unwrap();
    let (vertices, perimeter, area) = expected();
    assert_eq!(number("shore_vertices"), vertices);
    // Each vertex is rounded to 1 cm; the tolerances are those of the table's header.
    let off = number("shore_length_km") * 1e3 - perimeter;
    assert!(off.abs() <= 0.02 * vertices, "{off} m");
    let off = number("land_area_km2") * 1e6 - area;
    assert!(off.abs() <= 0.02 * perimeter, "{off} m²");
}
