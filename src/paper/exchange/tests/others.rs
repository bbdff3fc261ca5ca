//! What general tools write is read, and what this program writes is read by them: the same points.

use super::*;

const POINTS: &str = include_str!("../../../../tests/data/exchange/points.csv");
const BY_GPXPY: &str = include_str!("../../../../tests/data/exchange/gpxpy.gpx");
const BY_GDAL: [&str; 2] = [
    include_str!("../../../../tests/data/exchange/gdal.gpx"),
    include_str!("../../../../tests/data/exchange/gdal.geojson"),
];
const READ_BACK: &str = include_str!("../../../../tests/data/exchange/read_back.csv");

/// The last digit that is held, in degrees: 0.1 mm on the ground.
const TOLERANCE: f64 = 1e-9;

fn hold(points: &[ForeignPoint], table: &[(String, f64, f64)], whose: &str) {
    assert_eq!(points.len(), table.len(), "{whose}");
    for (point, (name, lat, lon)) in points.iter().zip(table) {
        assert_eq!(point.name, *name, "{whose}");
        let off = (point.at.lat.as_degrees() - lat).abs();
        assert!(off.max((point.at.lon.as_degrees() - lon).abs()) <= TOLERANCE, "{whose}: {name}");
    }
}

/// The points of the table by our own reader of CSV, their digits by Rust's.
fn table() -> Vec<(String, f64, f64)> {
    let rows = POINTS.lines().skip(1).map(|row| {
        let (row, _) = row.rsplit_once(',').unwrap();
        let (row, lon) = row.rsplit_once(',').unwrap();
        let (name, lat) = row.rsplit_once(',').unwrap();
        let name = name.strip_prefix('"').and_then(|name| name.strip_suffix('"')).unwrap_or(name);
        (name.replace("\"\"", "\""), lat.parse().unwrap(), lon.parse().unwrap())
    });
    rows.collect()
}

#[test]
fn what_gpxpy_and_gdal_write_is_read() {
    let table = table();
    let file = read(BY_GPXPY.as_bytes(), None, None).unwrap();
    hold(&file.waypoints, &table, "gpxpy's waypoints");
    assert!(file.waypoints.iter().all(|point| point.note == "c"));
    hold(&file.routes[0].points, &table, "gpxpy's route");
    assert_eq!(
        (file.title.as_str(), file.routes[0].note.as_str()),
        ("Written by gpxpy", "By gpxpy")
    );
    let fixes = file.tracks[0].fixes();
    assert_eq!(fixes[1].when().unwrap().to_string(), "2026-06-14T09:52:30Z");
    assert_eq!((fixes.len(), fixes[4].at), (5, file.waypoints[4].at));
    for (text, whose) in BY_GDAL.iter().zip(["GDAL's GPX", "GDAL's GeoJSON"]) {
        hold(&read(text.as_bytes(), None, None).unwrap().waypoints, &table, whose);
    }
    // The table itself has times: a track.
    let track = &read(POINTS.as_bytes(), None, None).unwrap().tracks[0];
    assert_eq!(
        track.fixes().iter().map(|fix| fix.at).collect::<Vec<_>>(),
        fixes.iter().map(|fix| fix.at).collect::<Vec<_>>()
    );
    assert_eq!(track.fixes()[1].when(), fixes[1].when());
}

/// A traced leg, a stop, and names of several scripts.
fn ours() -> Route {
    let mut route = along_a_bay();
    route.title = "Round the skerries".to_owned();
    for (point, (name, lat, lon)) in route.points.iter_mut().zip(table()) {
        point.name = name;
        if point.along.is_none() {
            point.at = plan::rounded(at(lat, lon));
        }
    }
    route.points[2].stop = jiff::SignedDuration::from_mins(20);
    route.points[2].note = "lunch & \"tea\"".to_owned();
    route.departure = Some("2026-06-14T09:30[-02:00]".parse().unwrap());
    route
}

#[test]
fn what_is_written_is_what_others_have_read() {
    let (route, chart) = (ours(), practice());
    let mut whole: Vec<(String, f64, f64)> = Vec::new();
    let mut own = Vec::new();
    for point in &route.points {
        let degrees =
            |name: &str, at: Position| (name.to_owned(), at.lat.as_degrees(), at.lon.as_degrees());
        let line = point.along.iter().flat_map(|along| along.line.iter());
        whole.extend(line.map(|&at| degrees("", at)));
        whole.push(degrees(&point.name, point.at));
        own.push(degrees(&point.name, point.at));
    }
    for (form, name) in [(Form::Gpx, "ours.gpx"), (Form::GeoJson, "ours.geojson")] {
        let text = Export { track: false, ..export(&route, &chart) }.write(form).text;
        let path = format!("{}/../../tests/data/exchange/{name}", env!("CARGO_MANIFEST_DIR"));
        if std::env::var_os("REWRITE").is_some() {
            std::fs::write(&path, &text).unwrap();
        }
        assert_eq!(
            text,
            std::fs::read_to_string(&path).unwrap(),
            "{name}: then run make.py beside it"
        );
    }
    let rows: Vec<Vec<&str>> =
        READ_BACK.lines().skip(2).map(|row| row.split(',').collect()).collect();
    for (by, file, wanted) in [
        ("gpxpy", "ours.gpx", &whole),
        ("gdal", "ours.gpx", &whole),
        ("gdal", "ours.geojson", &own),
        ("json", "ours.geojson", &own),
    ] {
        let rows = rows.iter().filter(|row| row[0] == by && row[1] == file);
        let points = rows.map(|row| ForeignPoint {
            name: row[2].to_owned(),
            ..ForeignPoint::new(at(row[3].parse().unwrap(), row[4].parse().unwrap()))
        });
        hold(&points.collect::<Vec<_>>(), wanted, by);
    }
}
