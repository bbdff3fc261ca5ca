//! Shores from GeoJSON: what is taken, and what is refused where.

mod bad;
mod endless;

use std::ops::ControlFlow;

use super::{BadRings, Import, ImportError, read};
use crate::check;
use nav::{Grid, Position};

fn grid() -> Grid {
    Grid::parse("UTM:33N").unwrap()
}

fn import(text: &str) -> Result<Import, ImportError> {
    read(text.as_bytes(), &grid(), BadRings::Refuse, |_| ControlFlow::Continue(()))
}

/// A square of 0.02 degrees about a place in zone 33, as a ring of positions.
fn square(lon: f64, lat: f64, half: f64) -> String {
    let (west, east, south, north) = (lon - half, lon + half, lat - half, lat + half);
    format!(
        "[[{west},{south}],[{east},{south}],[{east},{north}],[{west},{north}],[{west},{south}]]"
    )
}

fn feature(name: &str, geometry: &str) -> String {
    format!("{{\"type\":\"Feature\",\"properties\":{{\"name\":{name}}},\"geometry\":{geometry}}}")
}

fn collection(features: &[String]) -> String {
    format!("{{\"type\":\"FeatureCollection\",\"features\":[{}]}}", features.join(","))
}

fn geometry(kind: &str, coordinates: &str) -> String {
    format!("{{\"type\":\"{kind}\",\"coordinates\":{coordinates}}}")
}

#[test]
fn polygons_are_land_with_lakes_and_names() {
    let polygon = format!("[{},{}]", square(15.0, 68.0, 0.01), square(15.0, 68.0, 0.005));
    let text = collection(&[feature("\"Ytterøy\"", &geometry("Polygon", &polygon))]);
    let shore = import(&text).unwrap().shore;
    assert_eq!(shore.land.len(), 1);
    assert_eq!(shore.land[0].name, "Ytterøy");
    assert_eq!(shore.land[0].lakes.len(), 1);
    assert!(shore.lines.is_empty());
    let corner = shore.land[0].shore.0[0];
    let point = grid().forward(Position::from_degrees(67.99, 14.99).unwrap()).unwrap().point;
    // Half a centimetre each way.
    assert!((corner.x - point.easting.as_metres()).abs() <= 0.005);
    assert!((corner.y - point.northing.as_metres()).abs() <= 0.005);
}

#[test]
fn every_type_of_rfc_7946_is_known() {
    let ring = square(15.0, 68.0, 0.01);
    let line = "[[15,68],[15.1,68],[15.1,68.1,7.5]]";
    let polygons = format!("[[{ring}],[{}]]", square(15.5, 68.0, 0.01));
    for (geometry, land, lines, points) in [
        (geometry("Polygon", &format!("[{ring}]")), 1, 0, 0),
        (geometry("MultiPolygon", &polygons), 2, 0, 0),
        (geometry("LineString", line), 0, 1, 0),
        (geometry("MultiLineString", &format!("[{line},{line}]")), 0, 2, 0),
        (
            format!(
                "{{\"type\":\"GeometryCollection\",\"geometries\":[{},{},{},{{\"type\":\"GeometryCollection\",\"geometries\":[{}]}}]}}",
                geometry("Point", "[15,68]"),
                geometry("MultiPoint", "[[15,68],[16,68]]"),
                geometry("LineString", line),
                geometry("Polygon", &format!("[{ring}]")),
            ),
            1,
            1,
            3,
        ),
    ] {
        for text in
            [geometry.clone(), feature("null", &geometry), collection(&[feature("7", &geometry)])]
        {
            let Import { shore, left_out } = import(&text).unwrap();
            let found = (shore.land.len(), shore.lines.len(), left_out.points);
            assert_eq!(found, (land, lines, points), "{text}");
        }
    }
}

#[test]
fn members_may_come_in_any_order_and_others_are_left_out() {
    let ring = square(15.0, 68.0, 0.01);
    let text = format!(
        "{{\"features\":[{{\"geometry\":{{\"coordinates\":[{ring}],\"bbox\":[1,2,3,4],\"type\":\"Polygon\"}},\
         \"id\":{{\"a\":[1,{{}}]}},\"properties\":{{\"name\":{{\"x\":[1]}},\"NAME\":\"B\\u00f8\",\"z\":null}},\
         \"type\":\"Feature\"}},{{\"type\":\"Feature\",\"geometry\":null,\"properties\":null}}],\
         \"crs\":{{\"type\":\"name\",\"properties\":{{\"name\":\"urn:ogc:def:crs:OGC:1.3:CRS84\"}}}},\
         \"type\":\"FeatureCollection\"}}\n"
    );
    let shore = import(&text).unwrap().shore;
    assert_eq!(shore.land[0].name, "Bø");
}

#[test]
fn rings_are_turned_left_whichever_way_they_came() {
    let there = "[[[15,68],[15.1,68],[15.1,68.1],[15,68]]]";
    let back = "[[[15,68],[15.1,68.1],[15.1,68],[15,68]]]";
    let land = |ring| import(&geometry("Polygon", ring)).unwrap().shore.land;
    assert_eq!(land(there), land(back));
    assert!(land(there)[0].shore.doubled_area() > 0.0);
}

#[test]
fn a_name_stands_on_the_largest_piece() {
    let pieces = [square(15.0, 68.0, 0.01), square(15.5, 68.0, 0.03), square(16.0, 68.0, 0.02)];
    let polygons = pieces.map(|ring| format!("[{ring}]")).join(",");
    let text = feature("\"Skerries\"", &geometry("MultiPolygon", &format!("[{polygons}]")));
    let names: Vec<_> = import(&text).unwrap().shore.land.into_iter().map(|l| l.name).collect();
    assert_eq!(names, ["", "Skerries", ""]);
}

#[test]
fn names_are_cleaned() {
    let name = "\"\\u001b[31mred\\u202e\\u0007\"";
    let text = feature(name, &geometry("Polygon", &format!("[{}]", square(15.0, 68.0, 0.01))));
    assert_eq!(import(&text).unwrap().shore.land[0].name, "�[31mred��");
}

#[test]
fn closed_lines_enclose_nothing_but_are_counted() {
    let text = geometry("LineString", &square(15.0, 68.0, 0.01));
    let Import { shore, left_out } = import(&text).unwrap();
    assert_eq!((shore.land.len(), shore.lines.len()), (0, 1));
    assert_eq!(left_out.closed_lines, 1);
}

#[test]
fn rings_cut_at_the_antimeridian_are_joined_again() {
    let east = "[[[179,60],[180,60],[180,61],[179,61],[179,60]],[[179.2,60.2],[179.2,60.4],[179.4,60.4],[179.2,60.2]]]";
    let west = |north: f64| format!("[[[-180,60],[-179,60],[-179,61],[-180,{north}],[-180,60]]]");
    let grid = Grid::parse("UTM:60N").unwrap();
    let read = |text: String| {
        read(text.as_bytes(), &grid, BadRings::Refuse, |_| ControlFlow::Continue(())).unwrap().shore
    };
    let shore = read(geometry("MultiPolygon", &format!("[{east},{}]", west(61.0))));
    let [island] = &shore.land[..] else { panic!("one island: {shore:?}") };
    // The four corners and the two places where the meridian crosses its shore.
    assert_eq!((island.shore.0.len(), island.lakes.len()), (6, 1));
    // 2 by 1 degrees at 60 degrees north: about 55 by 111 kilometres each.
    let area = island.shore.doubled_area() / 2e6;
    assert!((12_000.0..12_300.0).contains(&area), "{area}");
    // A piece that does not match stays cut.
    let shore = read(geometry("MultiPolygon", &format!("[{east},{}]", west(60.9))));
    assert_eq!(shore.land.len(), 2);
}

#[test]
fn a_lake_across_the_antimeridian_is_a_lake_again() {
    // The lake is a notch in both halves.
    let east =
        "[[[179,60],[180,60],[180,60.4],[179.5,60.5],[180,60.6],[180,61],[179,61],[179,60]]]";
    let west = "[[[-180,60],[-179,60],[-179,61],[-180,61],[-180,60.6],[-179.5,60.5],[-180,60.4],[-180,60]]]";
    let text = geometry("MultiPolygon", &format!("[{east},{west}]"));
    let grid = Grid::parse("UTM:60N").unwrap();
    let import =
        read(text.as_bytes(), &grid, BadRings::Refuse, |_| ControlFlow::Continue(())).unwrap();
    let [island] = &import.shore.land[..] else { panic!("one island: {import:?}") };
    assert_eq!((island.shore.0.len(), island.lakes.len()), (6, 1));
    assert_eq!(island.lakes[0].0.len(), 4);
}

#[test]
fn bad_rings_can_be_left_out() {
    let text = collection(&[
        feature("\"eight\"", &geometry("Polygon", "[[[15,68],[16,69],[16,68],[15,69],[15,68]]]")),
        feature("\"open\"", &geometry("Polygon", "[[[15,68],[16,69],[16,68]]]")),
        feature("\"good\"", &geometry("Polygon", &format!("[{}]", square(15.0, 68.0, 0.01)))),
    ]);
    let import =
        read(text.as_bytes(), &grid(), BadRings::LeaveOut, |_| ControlFlow::Continue(())).unwrap();
    assert_eq!(import.left_out.bad, 2);
    assert_eq!(import.left_out.to_string(), "2 bad rings");
    assert_eq!(import.shore.land.len(), 1);
    assert_eq!(import.shore.land[0].name, "good");
}

#[test]
fn an_import_makes_a_chart_without_fault() {
    let polygon = format!("[{},{}]", square(15.0, 68.0, 0.01), square(15.0, 68.0, 0.005));
    let import = import(&geometry("Polygon", &polygon)).unwrap();
    let chart = import.into_chart(grid(), "A \u{1b}title", "Somebody, 2026");
    assert_eq!(check::faults(&chart), []);
    assert_eq!(chart.title, "A �title");
    let (low, high) = (chart.extent.min(), chart.extent.max());
    assert!(low.x % 1000.0 == 0.0 && high.y % 1000.0 == 0.0);
    for point in &chart.land[0].shore.0 {
        assert!(low.x + 500.0 <= point.x && point.x + 500.0 <= high.x);
        assert!(low.y + 500.0 <= point.y && point.y + 500.0 <= high.y);
    }
}
