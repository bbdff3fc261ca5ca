//! GeoJSON and CSV as others write them, and what they should not have.

use rstest::rstest;

use super::*;

fn json(text: &str) -> Result<Foreign, Fault> {
    read(text.as_bytes(), Some(Form::GeoJson), None)
}

fn csv(text: &str) -> Result<Foreign, Fault> {
    read(text.as_bytes(), Some(Form::Csv), None)
}

#[test]
fn every_geometry_of_points_and_lines_is_read() {
    let file = json(
        r#"{"type": "FeatureCollection", "name": "Day", "features": [
          {"geometry": {"coordinates": [-27.1, 52.2, 5], "type": "Point"}, "type": "Feature",
           "properties": {"title": "Slip", "desc": "a\nb", "other": 1}},
          {"type": "Feature", "properties": null, "geometry": {"type": "MultiPoint", "coordinates": [[1, 2], [3, 4]]}},
          {"type": "Feature", "properties": {"name": "L"}, "geometry": {"type": "LineString", "coordinates": [[1, 2], [3, 4]]}},
          {"type": "Feature", "properties": {}, "geometry": {"type": "MultiLineString",
            "coordinates": [[[179, 2], [180, 2.5]], [[-180, 2.5], [-179, 3]]]}},
          {"type": "Feature", "properties": {}, "geometry": {"type": "GeometryCollection", "geometries": [
            {"type": "Point", "coordinates": [5, 6]}, {"type": "Polygon", "coordinates": [[[0, 0], [1, 0], [1, 1], [0, 0]]]}]}},
          {"type": "Feature", "properties": {}, "geometry": null}]}"#,
    )
    .unwrap();
    assert_eq!(file.title, "Day");
    assert_eq!(file.waypoints.len(), 4);
    assert_eq!((file.waypoints[0].name.as_str(), file.waypoints[0].note.as_str()), ("Slip", "a b"));
    assert_eq!(file.waypoints[3].at, at(6.0, 5.0));
    assert_eq!(file.routes[0].name, "L");
    // The cut along the 180th meridian is gone.
    assert_eq!(file.routes[1].points.len(), 2);
    assert_eq!(
        file.left_out,
        [
            "heights are left out (1)",
            "areas and features without a place are left out (2)",
            "further columns or properties are left out (1)"
        ]
    );
    assert_eq!(json(r#"{"type": "Point", "coordinates": [5, 6]}"#).unwrap().waypoints.len(), 1);
}

#[rstest]
#[case(
    r#"{"type": "Point", "coordinates": [52, -127]}"#,
    "1:43: not GeoJSON (RFC 7946): latitude -127 is not within -90 to 90 degrees; in GeoJSON a position is [longitude, latitude]"
)]
#[case(
    "{\"type\": \"Point\",\n\"coordinates\": [\"æ\", 5]}",
    "2:19: not GeoJSON (RFC 7946): invalid type: string \"æ\", expected numbers in nested lists"
)]
#[case(
    r#"{"type": "Point", "coordinates": [5]}"#,
    "1:36: not GeoJSON (RFC 7946): a position of one number; [longitude, latitude] is right"
)]
#[case(
    r#"{"type": "LineString", "coordinates": [5, 6]}"#,
    "1:1: not GeoJSON (RFC 7946): the coordinates of a LineString are nested otherwise"
)]
#[case(
    r#"{"type": "Point", "coordinates": [1e999, 5]}"#,
    "1:39: not GeoJSON (RFC 7946): number out of range"
)]
#[case(r#"{"type": "Topology"}"#, "1:1: not GeoJSON (RFC 7946): “Topology” is none of its types")]
#[case(
    r#"{"type": "Point", "coordinates": [5, 6]"#,
    "1:39: the file ends in the middle; it was cut off, or not written to its end"
)]
#[case(r#"{"type": "Point"} x"#, "1:19: not GeoJSON (RFC 7946): trailing characters")]
#[case(
    r#"{"crs": {"properties": {"name": "EPSG:3857"}}, "type": "FeatureCollection"}"#,
    "1:45: the file is in the coordinate system “EPSG:3857”; RFC 7946 wants WGS 84 longitude and latitude: convert it first"
)]
fn bad_geojson_is_told_where_it_is(#[case] text: &str, #[case] said: &str) {
    assert_eq!(json(text).unwrap_err().to_string(), said);
}

#[test]
fn geojson_has_bounds() {
    let deep = format!("{{\"type\": \"Point\", \"coordinates\": {}", "[".repeat(1000));
    assert!(json(&deep).unwrap_err().to_string().contains("recursion limit exceeded"));
    let large = std::io::repeat(b' ');
    let said = read(large, Some(Form::GeoJson), None).unwrap_err().to_string();
    assert_eq!(said, "1:1: the file is larger than 64 MB, the most that is read of GeoJSON");
    let bytes = b"{\"type\":\n \"\xFF\"}";
    let said = read(&bytes[..], Some(Form::GeoJson), None).unwrap_err().to_string();
    assert_eq!(said, "2:3: the byte 0xFF is not part of UTF-8 text; save the file as UTF-8");
}

#[test]
fn tables_are_read_in_any_order_of_columns() {
    let text = "\u{feff}Longitude,depth,\"Name\",LAT\r\n-27.1,4,\"a, \"\"b\"\"\nc\",52.2\r\n\r\n-27.2,,x,52.3";
    let file = csv(text).unwrap();
    let points = &file.routes[0].points;
    assert_eq!((points.len(), points[0].name.as_str()), (2, "a, \"b\" c"));
    assert_eq!(points[1].at, at(52.3, -27.2));
    assert_eq!(file.left_out, ["further columns or properties are left out (1)"]);
    let track = &csv("time,lat,lon\n2026-06-14 09:30:00,1,2\n,1,2\n").unwrap().tracks[0];
    assert_eq!(track.fixes()[0].when().unwrap().to_string(), "2026-06-14T09:30:00Z");
    assert_eq!(track.fixes()[1].when(), None);
}

#[test]
fn things_that_went_out_with_a_route_are_none_of_its_points() {
    let file = csv("name,lat,lon,kind\nA,1,2,point\nB,1,2,landing\nC,1,2,\n").unwrap();
    let names =
        |points: &[ForeignPoint]| points.iter().map(|it| it.name.clone()).collect::<String>();
    assert_eq!((names(&file.routes[0].points), names(&file.waypoints)), ("AC".into(), "B".into()));
}

#[test]
fn references_are_read_on_the_chart_that_is_named() {
    let grid = nav::Grid::parse("EPSG:27700").unwrap();
    let file =
        read("name,reference\nX,SU 387 148\n".as_bytes(), Some(Form::Csv), Some(&grid)).unwrap();
    let on = grid.forward(file.routes[0].points[0].at).unwrap().point;
    // The middle of the square of 100 m.
    assert!((on.easting.as_metres() - 438_750.0).abs() < 0.01, "{on:?}");
    assert!((on.northing.as_metres() - 114_850.0).abs() < 0.01, "{on:?}");
    assert_eq!(
        csv("reference\nSU 387 148\n").unwrap_err().to_string(),
        "1:1: references are read on the grid of a chart; name its file with --chart"
    );
}

#[rstest]
#[case(
    "",
    "1:1: the first row names the columns: lat and lon, or reference, and beside them any of name, note, stop_min, time"
)]
#[case(
    "a,b\n1,2\n",
    "1:1: the first row names the columns: lat and lon, or reference, and beside them any of name, note, stop_min, time"
)]
#[case(
    "lat,lon,latitude\n",
    "1:9: the column “latitude” is there twice, or another that means the same"
)]
#[case("lat,lon\n1\n", "2:2: cells in this row: 1, in the header: 2")]
#[case("lat,lon\n1,181\n", "2:3: longitude 181 is not within -180 to 180 degrees")]
#[case(
    "name,lat,lon\nø,x,1\n",
    "2:3: the latitude “x” is not a number; write degrees with a point, such as 52.2412"
)]
#[case("lat,lon,time\n1,2,noon\n", "2:5: “noon” is not a time; write, say, 2026-06-14T09:30:00Z")]
#[case("lat,lon,stop\n1,2,-5\n", "2:5: a stop of “-5” is not within 0 and 10080 whole minutes")]
#[case("lat,lon\n\"1,2\n", "2:1: this quote is never closed")]
fn bad_tables_are_told_where_they_are(#[case] text: &str, #[case] said: &str) {
    assert_eq!(csv(text).unwrap_err().to_string(), said);
}

#[test]
fn nothing_that_steers_a_terminal_comes_out_of_them() {
    let steers = "a\u{1b}[2J\u{202e}b";
    let quoted = serde_json::to_string(steers).unwrap();
    let file = json(&format!(
        r#"{{"type":"Feature","title":{quoted},"properties":{{"name":{quoted},"note":{quoted}}},"geometry":{{"type":"Point","coordinates":[1,2]}}}}"#
    ))
    .unwrap();
    assert_eq!((file.title.as_str(), file.waypoints[0].name.as_str()), ("a�[2J�b", "a�[2J�b"));
    assert_eq!(
        csv(&format!("name,lat,lon\n{steers},1,2\n")).unwrap().routes[0].points[0].name,
        "a�[2J�b"
    );
    for said in [
        json(&format!(r#"{{"type":{quoted}}}"#)).unwrap_err().to_string(),
        json(&format!(r#"{{"type":"Point","coordinates":[{quoted}]}}"#)).unwrap_err().to_string(),
        json(&format!(r#"{{"type":"Point","crs":{{"properties":{{"name":{quoted}}}}}}}"#))
            .unwrap_err()
            .to_string(),
        json(&format!(r#"{{"type":"Feature","strandline":{{"point":{quoted}}}}}"#))
            .unwrap_err()
            .to_string(),
        json(&format!(r#"{{"type":"FeatureCollection","strandline":{quoted}}}"#))
            .unwrap_err()
            .to_string(),
        csv(&format!("lat,lon\n{steers},2\n")).unwrap_err().to_string(),
        csv(&format!("lat,lon,time\n1,2,{steers}\n")).unwrap_err().to_string(),
    ] {
        assert!(!said.contains(['\u{1b}', '\u{202e}']), "{said:?}");
    }
}
