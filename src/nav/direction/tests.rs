//! Directions against published conversions, and their properties.

use proptest::prelude::*;

use super::*;
use crate::published::rows;

const CONVERSIONS: &str = include_str!("../../../tests/data/sailings/bearing_conversions.csv");

fn bearing<N: North>(degrees: f64) -> Bearing<N> {
    Bearing::from_degrees(degrees).unwrap()
}

#[test]
fn published_conversions_between_the_norths() {
    for row in rows(CONVERSIONS) {
        let chart: Bearing<True> = bearing(row.number("true_deg"));
        let variation =
            Variation::from_degrees_east(row.number("variation_deg_east_positive")).unwrap();
        let convergence = Convergence::from_degrees_east(
            row.number("grid_convergence_deg_grid_minus_true_east_positive"),
        )
        .unwrap();
        let compass = chart.to_magnetic(variation);
        let map = chart.to_grid(convergence);
        row.check_printed("back_bearing_true", chart.back().as_degrees());
        row.check_printed("grid_deg", map.as_degrees());
        row.check_printed("magnetic_deg", compass.as_degrees());
        assert!(compass.to_true(variation).turn_to(chart).as_degrees().abs() < 1e-12);
        assert!(map.to_true(convergence).turn_to(chart).as_degrees().abs() < 1e-12);
    }
}

#[test]
fn full_turns_and_zeros() {
    assert_eq!(bearing::<True>(360.0), Bearing::NORTH);
    assert_eq!(bearing::<True>(-0.0).as_degrees(), 0.0);
    assert_eq!(bearing::<True>(-1e-20), Bearing::NORTH);
    assert_eq!(bearing::<True>(359.6).to_string(), "000°T");
    assert_eq!(bearing::<Magnetic>(-90.0).to_string(), "270°M");
    assert!(Bearing::<Grid>::from_degrees(f64::NAN).is_err());
    assert!(Bearing::<Grid>::from_degrees(f64::INFINITY).is_err());
    assert_eq!(bearing::<True>(10.0).turn_to(bearing(350.0)).as_degrees(), -20.0);
    assert_eq!(bearing::<True>(0.0).turn_to(bearing(180.0)).as_degrees(), 180.0);
}

proptest! {
    #[test]
    fn the_back_of_the_back_is_the_bearing(degrees in -1e4..1e4) {
        let one: Bearing<True> = bearing(degrees);
        prop_assert!((0.0..360.0).contains(&one.as_degrees()));
        prop_assert!(one.back().back().turn_to(one).as_degrees().abs() < 1e-13);
        prop_assert!((one.turn_to(one.back()).as_degrees().abs() - 180.0).abs() < 1e-13);
    }

    #[test]
    fn a_turn_leads_to_the_other_bearing(from in 0.0..360.0, to in 0.0..360.0) {
        let (from, to): (Bearing<True>, Bearing<True>) = (bearing(from), bearing(to));
        prop_assert!(from.turned(from.turn_to(to)).turn_to(to).as_degrees().abs() < 1e-12);
    }
}
