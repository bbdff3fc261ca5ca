//! Rhumb lines against computed lines, the geodesic and themselves.

use super::*;
use crate::published::{Row, rows};
use crate::{Latitude, Longitude, geodesic};

const RHUMBS: &str = include_str!("../../../tests/data/geodesic/rhumb.csv");

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
fn apart(one: Bearing<True>, other: Bearing<True>) -> f64 {
    one.turn_to(other).as_degrees().abs()
}

fn gap(one: Position, other: Position) -> f64 {
    geodesic::inverse(one, other).distance.as_metres()
}

#[test]
fn rhumbsolve_rows_inverse() {
    for row in rows(RHUMBS) {
        let line = inverse(end(&row, "1"), end(&row, "2"));
        row.check("distance_m", line.distance.as_metres(), 5.1e-7);
        let sideways = (20e-9 / line.distance.as_metres()).to_degrees();
        let off = apart(line.bearing, bearing(row.number("course_deg")));
        assert!(off < 5e-12 + sideways, "{off} degrees off in {}", row.text);
    }
}

#[test]
fn rhumbsolve_rows_direct() {
    for row in rows(RHUMBS) {
        let (from, to) = (end(&row, "1"), end(&row, "2"));
        let course = bearing(row.number("course_deg"));
        let there = direct(from, course, Length::metres(row.number("distance_m"))).unwrap();
        // Half a digit of the course, sideways, and half a digit of the distance, along; on
        // the line that passes a pole at 11 km, the former turns into longitude.
        let tolerance = 5e-12_f64.to_radians() * row.number("distance_m") * 10.0 + 5.1e-7;
        assert!(gap(there, to) < tolerance, "{} m off in {}", gap(there, to), row.text);
    }
}

#[test]
fn the_meridian_and_the_parallel() {
    // The quadrant, 10,001,965.729 m on WGS 84 (NGA.STND.0036, table 3.6: 10001965.7293 m).
    let quadrant = inverse(at(0.0, 7.0), at(90.0, -33.0));
    assert!((quadrant.distance.as_metres() - 10_001_965.729_3).abs() < 5e-5);
    assert_eq!(quadrant.bearing, Bearing::NORTH);
    // A parallel is a circle of radius a cos φ / √(1 - e² sin² φ).
    let phi = 57.155_f64.to_radians();
    let e2 = 2.0 / 298.257_223_563 - 1.0 / 298.257_223_563_f64.powi(2);
    let radius = 6_378_137.0 * phi.cos() / (1.0 - e2 * phi.sin().powi(2)).sqrt();
    let parallel = inverse(at(57.155, -2.0), at(57.155, 1.5));
    assert!((parallel.distance.as_metres() - radius * 3.5_f64.to_radians()).abs() < 2e-9);
    assert_eq!(parallel.bearing, bearing(90.0));
}

#[test]
fn a_line_off_the_parallel_by_a_hair_is_as_long_as_the_parallel() {
    let from = at(57.155, -2.08);
    let along = inverse(from, at(57.155, -2.07)).distance.as_metres();
    for hair in [1e-14, 1e-13, 1e-12, 1e-11, 1e-10, 1e-9] {
        let near = inverse(from, at(57.155 + hair, -2.07)).distance.as_metres();
        assert!((near - along).abs() < 1e-6 * hair / 1e-9 + 1e-9, "{hair}: {near} and {along}");
    }
}

#[test]
fn degenerate_lines() {
    let nowhere = inverse(at(57.0, -2.0), at(57.0, -2.0));
    assert_eq!(nowhere, Line { distance: Length::ZERO, bearing: Bearing::NORTH });
    assert_eq!(inverse(at(0.0, 2.0), at(-0.0, 2.0)).distance, Length::ZERO);
    assert_eq!(inverse(at(10.0, 180.0), at(10.0, -180.0)).distance, Length::ZERO);
    assert_eq!(inverse(at(90.0, 0.0), at(90.0, 77.0)).distance, Length::ZERO);
    // From the north pole every way is south.
    assert_eq!(inverse(at(90.0, 0.0), at(50.0, 77.0)).bearing, bearing(180.0));
    assert_eq!(inverse(at(-90.0, 0.0), at(90.0, 77.0)).bearing, Bearing::NORTH);
    // Across the 180th meridian the shorter way.
    let across = inverse(at(50.0, 179.5), at(50.0, -179.5));
    assert_eq!(across.bearing, bearing(90.0));
    assert!(across.distance < 72.0 * Length::KILOMETRE);
    // Opposite meridians: a line and its reverse are one.
    let half = inverse(at(0.0, 0.0), at(0.0, 180.0));
    assert_eq!(half.bearing, bearing(90.0));
    assert_eq!(inverse(at(0.0, 180.0), at(0.0, 0.0)).bearing, bearing(270.0));
}

#[test]
fn a_line_ends_at_the_pole() {
    let start = at(89.0, 20.0);
    let to_pole = inverse(start, at(90.0, 0.0)).distance;
    let pole = direct(start, Bearing::NORTH, to_pole).unwrap();
    assert!((pole.lat.as_degrees() - 90.0).abs() < 1e-13);
    let past = direct(start, Bearing::NORTH, to_pole + Length::METRE).unwrap_err();
    assert!((past.to_pole - to_pole).abs().as_metres() < 1e-7);
    assert_eq!(
        past.to_string(),
        "111695 m along this rhumb line is past the pole, which it reaches after 111694 m"
    );
    // At 60 degrees to the meridian the way is twice as long.
    let slanting = direct(start, bearing(60.0), 3.0 * to_pole).unwrap_err();
    assert!((slanting.to_pole - 2.0 * to_pole).abs().as_metres() < 1e-6);
    // From the pole: along any meridian, but on no spiral.
    let pole = at(90.0, 20.0);
    assert_eq!(direct(pole, bearing(180.0), to_pole).unwrap().lon.as_degrees(), 20.0);
    assert_eq!(direct(pole, bearing(120.0), to_pole).unwrap_err().to_pole, Length::ZERO);
    assert_eq!(direct(pole, bearing(120.0), Length::ZERO), Ok(pole));
    assert_eq!(direct(pole, Bearing::NORTH, to_pole).unwrap_err().to_pole.as_metres().round(), 0.0);
    // Backwards is another way of saying the opposite bearing.
    let back = direct(at(57.0, -2.0), bearing(30.0), -1.0 * Length::KILOMETRE).unwrap();
    let forth = direct(at(57.0, -2.0), bearing(210.0), Length::KILOMETRE).unwrap();
    assert!(gap(back, forth) < 1e-8);
}

/// The rectifying latitude by quadrature of the meridian's radius of curvature.
#[test]
fn the_series_agree_with_the_integral() {
    let e2: f64 = 2.0 / 298.257_223_563 - 1.0 / 298.257_223_563_f64.powi(2);
    let curvature = |phi: f64| 6_378_137.0 * (1.0 - e2) / (1.0 - e2 * phi.sin().powi(2)).powf(1.5);
    let steps = 2000; // Simpson's rule: error of order (π/2 / 2000)^4
    for degrees in [1.0_f64, 10.0, 45.0, 57.155, 80.0, 90.0] {
        let h = degrees.to_radians() / f64::from(steps);
        let sum: f64 = (0..=steps)
            .map(|i| {
                let weight = if i == 0 || i == steps { 1.0 } else { f64::from(2 + 2 * (i % 2)) };
                weight * curvature(h * f64::from(i))
            })
            .sum();
        let series = inverse(at(0.0, 0.0), at(degrees, 0.0)).distance.as_metres();
        assert!((series - sum * h / 3.0).abs() < 2e-8, "{degrees}: {series} {}", sum * h / 3.0);
    }
}

mod properties {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn direct_leads_where_inverse_says(
            (lat1, lon1) in (-89.9..89.9, -180.0..=180.0), (lat2, lon2) in (-89.9..89.9, -180.0..=180.0)
        ) {
            let (from, to) = (at(lat1, lon1), at(lat2, lon2));
            let line = inverse(from, to);
            let there = direct(from, line.bearing, line.distance).unwrap();
            prop_assert!(gap(there, to) < 1e-6, "{} m", gap(there, to));
        }

        #[test]
        fn a_days_legs_come_back_to_the_nanometre(
            lat in -75.0..75.0, lon in -180.0..=180.0, degrees in 0.0..360.0, metres in 0.01..50e3
        ) {
            let from = at(lat, lon);
            let there = direct(from, bearing(degrees), Length::metres(metres)).unwrap();
            let line = inverse(from, there);
            prop_assert!((line.distance.as_metres() - metres).abs() < 2e-8);
            prop_assert!(apart(line.bearing, bearing(degrees)) < (2e-8 / metres).to_degrees() + 1e-12);
        }

        #[test]
        fn the_way_back_is_the_same_line(
            (lat1, lon1) in (-90.0..=90.0, -180.0..=180.0), (lat2, lon2) in (-90.0..=90.0, -180.0..=180.0)
        ) {
            let (there, back) = (inverse(at(lat1, lon1), at(lat2, lon2)), inverse(at(lat2, lon2), at(lat1, lon1)));
            prop_assert!((there.distance - back.distance).abs().as_metres() < 2e-8);
            prop_assert!(apart(there.bearing.back(), back.bearing) < 1e-12);
        }

        #[test]
        fn never_shorter_than_the_geodesic(
            (lat1, lon1) in (-90.0..=90.0, -180.0..=180.0), (lat2, lon2) in (-90.0..=90.0, -180.0..=180.0)
        ) {
            let (one, other) = (at(lat1, lon1), at(lat2, lon2));
            prop_assert!(inverse(one, other).distance.as_metres() > gap(one, other) - 3e-8);
        }
    }
}
