//! Horizons beside the published table.

use super::*;
use crate::published;

const TABLE: &str = include_str!("../../../tests/data/sailings/bowditch2024_table12.csv");

fn seen(eye: f64, target: f64) -> Range {
    range(eye * FOOT, target * FOOT).unwrap()
}

#[test]
fn the_table() {
    let mut rows = 0;
    for row in published::rows(TABLE) {
        let found = seen(row.number("height_ft"), 0.0);
        let misprint = row.text("flag").starts_with("misprint");
        let tolerance = if misprint { 0.11 } else { 0.051 };
        row.check("distance_nm", found.horizon.as_nautical_miles(), tolerance);
        assert_eq!(found.horizon, found.target);
        rows += 1;
    }
    assert_eq!(rows, 63);
}

/// The check of the geographic range by the same table: 10 ft and 100 ft are 15.4 NM.
#[test]
fn a_geographic_range() {
    assert!((seen(10.0, 100.0).target.as_nautical_miles() - 15.4).abs() < 0.05);
    assert_eq!(seen(100.0, 10.0).target, seen(10.0, 100.0).target);
}

/// What the module says of refraction: the straight line touches a sphere of 6371 km at the root of 2 R h.
#[test]
fn a_tenth_farther_than_the_straight_line() {
    let straight = (2.0 * 6_371_000.0 * 9.0_f64).sqrt();
    let found = range(9.0 * Length::METRE, Length::ZERO).unwrap().horizon.as_metres();
    assert!((found / straight - 1.1).abs() < 0.005, "{}", found / straight);
}

#[test]
fn what_cannot_be_is_named() {
    let said = |eye, target| {
        range(Length::from_metres(eye).unwrap(), Length::from_metres(target).unwrap()).unwrap_err()
    };
    assert_eq!(
        said(-1.0, -1.0).to_string(),
        "height of eye in metres -1 is not within 0 to 10,000 m"
    );
    assert!(matches!(said(1.0, 10_001.0), HorizonError::Target(_)));
    assert_eq!(range(Length::ZERO, Length::ZERO).unwrap().target, Length::ZERO);
}
