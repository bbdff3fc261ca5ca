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

/// The same file without import, as a shore alone on World Mercator, measured by the real command.
#[test]
fn a_real_coast_is_measured_as_an_independent_library_has_it() {
    let coast = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/coast/west_coast.geojson");
    // What is kept for the next time is kept here.
    let home = tempfile::tempdir().unwrap();
    let mut command = Command::cargo_bin("strandline").unwrap();
    let homes = ["HOME", "XDG_CACHE_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CONFIG_HOME"];
    command.envs(homes.map(|name| (name, home.path()))).args(["coast", coast, "--json"]);
    let run = command.assert().success();
    let json: serde_json::Value = serde_json::from_slice(&run.get_output().stdout).unwrap();
    let number = |value: &serde_json::Value| value.as_f64().unwrap();
    let (vertices, perimeter, area) = expected();
    assert_eq!(number(&json["total"]["vertices"]), vertices);
    assert_eq!(json["shores"][0]["name"], "Great Britain");
    // A vertex is rounded to a centimetre of the grid, half of that on the ground.
    let off = number(&json["total"]["length_m"]) - perimeter;
    assert!(off.abs() <= 0.02 * vertices, "{off} m");
    let off = number(&json["total"]["land_area_m2"]) - area;
    assert!(off.abs() <= 0.02 * perimeter, "{off} m²");
    // Metres of World Mercator are not metres on the ground: nearly twice as many here.
    let stretched = number(&json["total"]["grid_length_m"]) / perimeter;
    assert!((1.6..1.95).contains(&stretched), "{stretched}");
}
