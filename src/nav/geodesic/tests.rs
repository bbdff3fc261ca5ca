//! Geodesics against published lines, and their round trips.

use super::*;
use crate::OutOfRange;
use crate::published::{Row, rows};
use crate::{Latitude, Longitude};

const GEODTEST: &str = include_str!("../../../tests/data/geodesic/geodtest.csv");
const SUITE: &str = include_str!("../../../tests/data/geodesic/geographiclib_testsuite.csv");
const EDGES: &str = include_str!("../../../tests/data/geodesic/geodesic_edge_cases.csv");
const VINCENTY: &str = include_str!("../../../tests/data/geodesic/vincenty_1975.csv");

/// Twenty nanometres.
const NANOMETRES: f64 = 20e-9;

fn at(lat: f64, lon: f64) -> Position {
    Position::new(Latitude::from_degrees(lat).unwrap(), Longitude::wrapping(lon).unwrap())
}

fn end(row: &Row, which: &str) -> Position {
    at(row.number(&format!("lat{which}_deg")), row.number(&format!("lon{which}_deg")))
}

fn bearing(degrees: f64) -> Bearing<True> {
    Bearing::from_degrees(degrees).unwrap()
}

/// Degrees from one bearing to the other, without sign.
fn apart(one: Bearing<True>, other: f64) -> f64 {
    one.turn_to(bearing(other)).as_degrees().abs()
}

/// How far apart two nearby positions are, in metres, without a geodesic.
fn gap(one: Position, other: Position) -> f64 {
    let north = (one.lat.as_degrees() - other.lat.as_degrees()).to_radians() * 6.4e6;
    let east = one.lon.degrees_east_of(other.lon).to_radians() * 6.4e6;
    north.hypot(east * one.lat.as_radians().cos())
}

#[test]
fn geodtest_inverse_distances_are_within_20_nm() {
    for row in rows(GEODTEST) {
        let line = inverse(end(&row, "1"), end(&row, "2"));
        row.check("s12_m", line.distance.as_metres(), NANOMETRES);
    }
}

#[test]
fn geodtest_inverse_bearings_lead_there() {
    // Bearings hang on the last digits of the positions in some categories; so each
    // line found must lead within 20 nm of the position, and in the categories
    // where that settles the bearing it must be the printed one.
    for row in rows(GEODTEST) {
        let (from, to) = (end(&row, "1"), end(&row, "2"));
        let line = inverse(from, to);
        let there = direct(from, line.bearing_at_start, line.distance);
        let miss = gap(there.position, to);
        assert!(miss <= NANOMETRES, "missed by {miss} m in {}", row.text);
        if row.text("category") == "random" {
            assert!(apart(line.bearing_at_start, row.number("azi1_deg")) < 1e-12, "{}", row.text);
            assert!(apart(line.bearing_at_end, row.number("azi2_deg")) < 1e-12, "{}", row.text);
        }
    }
}

#[test]
fn geodtest_direct_positions_are_within_20_nm() {
    for row in rows(GEODTEST) {
        let distance = Length::metres(row.number("s12_m"));
        let there = direct(end(&row, "1"), bearing(row.number("azi1_deg")), distance);
        let miss = gap(there.position, end(&row, "2"));
        assert!(miss <= NANOMETRES, "missed by {miss} m in {}", row.text);
    }
}

#[test]
fn the_test_suite_of_geographiclib() {
    for row in rows(SUITE) {
        let (from, to) = (end(&row, "1"), end(&row, "2"));
        let line = inverse(from, to);
        row.check("s12_m", line.distance.as_metres(), 1e-8);
        assert!(apart(line.bearing_at_start, row.number("azi1_deg")) < 1e-13, "{}", row.text);
        assert!(apart(line.bearing_at_end, row.number("azi2_deg")) < 1e-13, "{}", row.text);
        let there = direct(from, bearing(row.number("azi1_deg")), line.distance);
        assert!(gap(there.position, to) < 1e-8, "{}", row.text);
        assert!(apart(there.bearing_at_end, row.number("azi2_deg")) < 1e-13, "{}", row.text);
    }
}

#[test]
fn edge_cases_at_their_tolerances() {
    for row in rows(EDGES) {
        let from = at(row.number("lat1"), row.number("lon1"));
        let (lat, lon, metres, start, onward);
        if row.text("kind") == "direct" {
            start = bearing(row.number("azi1"));
            metres = row.number("s12");
            let there = direct(from, start, Length::metres(metres));
            (lat, lon) = (there.position.lat.as_degrees(), there.position.lon.as_degrees());
            onward = there.bearing_at_end;
        } else {
            (lat, lon) = (row.number("lat2"), row.number("lon2"));
            let line = inverse(from, at(lat, lon));
            metres = line.distance.as_metres();
            (start, onward) = (line.bearing_at_start, line.bearing_at_end);
        }
        let tolerance = row.number("tolerance");
        match row.text("quantity") {
            "s12" => row.check("value", metres, tolerance),
            "lat2" => row.check("value", lat, tolerance),
            "lon2" => row.check("value", lon, tolerance),
            "azi1" => assert!(apart(start, row.number("value")) <= tolerance, "{}", row.text),
            "azi2" => assert!(apart(onward, row.number("value")) <= tolerance, "{}", row.text),
            other => panic!("no quantity {other}"),
        }
    }
}

#[test]
fn vincentys_lines_on_older_ellipsoids() {
    for row in rows(VINCENTY) {
        let ellipsoid = Geodesic::new(row.number("a_m"), 1.0 / row.number("inverse_flattening"));
        let line = inverse_on(&ellipsoid, end(&row, "1"), end(&row, "2"));
        row.check("s12_m", line.distance.as_metres(), 0.8e-3);
        let seconds = 0.003 / 3600.0;
        assert!(apart(line.bearing_at_start, row.number("azi1_deg")) < seconds, "{}", row.text);
        assert!(apart(line.bearing_at_end, row.number("azi2_deg")) < seconds, "{}", row.text);
    }
}

/// Perimeters from the tests Planimeter0 of GeographicLib 2.1 (MIT), at its tolerance of 1e-4 m.
#[test]
fn round_the_pole_and_round_the_origin() {
    let round = |corners: [(f64, f64); 4]| -> f64 {
        let corners = corners.map(|(lat, lon)| at(lat, lon));
        (0..4).map(|i| inverse(corners[i], corners[(i + 1) % 4]).distance.as_metres()).sum()
    };
    let pole = round([(89.0, 0.0), (89.0, 90.0), (89.0, 180.0), (89.0, 270.0)]);
    assert!((pole - 631_819.874_5).abs() < 1e-4, "{pole}");
    let origin = round([(0.0, -1.0), (-1.0, 0.0), (0.0, 1.0), (1.0, 0.0)]);
    assert!((origin - 627_598.273_1).abs() < 1e-4, "{origin}");
}

#[test]
fn lines_between_special_places() -> Result<(), OutOfRange> {
    let north = at(90.0, 0.0);
    for (from, to) in [
        (at(57.0, -2.0), at(57.0, -2.0)),
        (north, at(90.0, 123.0)),
        (at(10.0, 180.0), at(10.0, -180.0)),
        (at(0.0, 5.0), at(-0.0, 5.0)),
    ] {
        let line = inverse(from, to);
        assert_eq!(line.distance, Length::ZERO, "{from:?} {to:?}");
    }
    // Pole to pole: the meridian, twice the quadrant of 10,001,965.729 m.
    let meridian = inverse(at(-90.0, 0.0), north).distance.as_metres();
    assert!((meridian - 2.0 * 10_001_965.729_312).abs() < 1e-5, "{meridian}");
    // Across the 180th meridian the short way: a fiftieth of a degree on the equator.
    let line = inverse(at(0.0, 179.99), at(0.0, -179.99));
    assert!((line.distance.as_metres() - 0.02_f64.to_radians() * 6_378_137.0).abs() < 1e-8);
    assert_eq!(line.bearing_at_start, Bearing::from_degrees(90.0)?);
    Ok(())
}

mod properties {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn direct_leads_where_inverse_came_from(
            lat in -90.0..=90.0, lon in -180.0..=180.0, degrees in 0.0..360.0, metres in 0.0..19.9e6
        ) {
            let from = at(lat, lon);
            let there = direct(from, bearing(degrees), Length::metres(metres));
            let line = inverse(from, there.position);
            prop_assert!((line.distance.as_metres() - metres).abs() < 2.0 * NANOMETRES);
            let again = direct(from, line.bearing_at_start, line.distance);
            prop_assert!(gap(again.position, there.position) < 2.0 * NANOMETRES);
        }

        #[test]
        fn there_is_as_far_as_back(
            (lat1, lon1) in (-90.0..=90.0, -180.0..=180.0), (lat2, lon2) in (-90.0..=90.0, -180.0..=180.0)
        ) {
            let (one, other) = (at(lat1, lon1), at(lat2, lon2));
            let (there, back) = (inverse(one, other), inverse(other, one));
            prop_assert!((there.distance - back.distance).abs().as_metres() < NANOMETRES);
            let reversed = back.bearing_at_end.back();
            prop_assert!(apart(there.bearing_at_start, reversed.as_degrees()) < 1e-9);
        }
    }
}
