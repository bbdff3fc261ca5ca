//! The field against the model's official test values, its report and an independent library.

use jiff::civil::date;
use proptest::prelude::*;

use super::model::Gauss;
use super::*;
use crate::published::{Row, rows};
use crate::{Position, Variation};

const TEST_VALUES: &str = include_str!("../../../tests/data/wmm/wmm2025_testvalues.csv");
const NORTH: &str = include_str!("../../../tests/data/wmm/wmm2025_north_computed.csv");
const REPORT: &str = include_str!("../../../tests/data/wmm/wmm2025_report_table.csv");
const COMPUTED: &str = include_str!("../../../tests/data/wmm/wmm2025_computed.csv");
const COF: &str = include_str!("../../../tests/data/wmm/WMM2025.COF");

fn field(lat: f64, lon: f64, km: f64, year: f64) -> Field {
    let place = Position::new(
        crate::Latitude::from_degrees(lat).unwrap(),
        crate::Longitude::wrapping(lon).unwrap(),
    );
    let height = EllipsoidHeight::from_kilometres(km).unwrap();
    FieldModel::wmm2025().at(place, height, DecimalYear::new(year).unwrap())
}

fn field_of(row: &Row) -> Field {
    field(
        row.number("lat_deg"),
        row.number("lon_deg"),
        row.number("altitude_km"),
        row.number("decimal_year"),
    )
}

/// Every element and rate of a row of the model's tables, to the printed digit; or, for those
/// with the north component in them, to `north` where that is more.
fn check_all(row: &Row, north: f64) {
    let (field, rates) = (field_of(row), field_of(row).rates);
    let with_north = |column: &str, value: f64| {
        row.check(column, value, north.max(row.half_digit(column)));
    };
    row.check_printed("D_deg", field.variation.as_degrees_east());
    row.check_printed("I_deg", field.dip.as_degrees());
    with_north("H_nT", field.horizontal.as_nanotesla());
    with_north("X_nT", field.north.as_nanotesla());
    row.check_printed("Y_nT", field.east.as_nanotesla());
    // A 296th part of the sphere's north component at most is the ellipsoid's down.
    row.check("Z_nT", field.down.as_nanotesla(), north / 296.0 + row.half_digit("Z_nT"));
    with_north("F_nT", field.total.as_nanotesla());
    row.check_printed("Ddot_deg_yr", rates.variation.0.as_degrees_east());
    row.check_printed("Idot_deg_yr", rates.dip.0.as_degrees());
    with_north("Hdot_nT_yr", rates.horizontal.0.as_nanotesla());
    with_north("Xdot_nT_yr", rates.north.0.as_nanotesla());
    row.check_printed("Ydot_nT_yr", rates.east.0.as_nanotesla());
    row.check_printed("Zdot_nT_yr", rates.down.0.as_nanotesla());
    with_north("Fdot_nT_yr", rates.total.0.as_nanotesla());
}

#[test]
fn official_test_values_to_the_printed_digit() {
    // The file prints six decimals of a nanotesla; its north component carries an error of
    // 1e-8 of itself, see the next test.
    rows(TEST_VALUES).iter().for_each(|row| check_all(row, 6e-4));
}

#[test]
fn the_north_component_in_forty_digits() {
    for row in rows(NORTH) {
        let field = field_of(&row);
        // Printed to 1e-9 nT, where a double's rounding errors begin to show.
        row.check("X_nT", field.north.as_nanotesla(), 2e-9);
        row.check("Z_nT", field.down.as_nanotesla(), 2e-9);
        row.check("H_nT", field.horizontal.as_nanotesla(), 2e-9);
        row.check("F_nT", field.total.as_nanotesla(), 2e-9);
    }
}

#[test]
fn the_reports_examples_to_the_printed_digit() {
    rows(REPORT).iter().for_each(|row| check_all(row, 0.0));
}

#[test]
fn variation_and_its_error_about_north_west_europe() {
    for row in rows(COMPUTED) {
        let field = field_of(&row);
        row.check_printed("D_deg", field.variation.as_degrees_east());
        row.check_printed("I_deg", field.dip.as_degrees());
        row.check_printed("H_nT", field.horizontal.as_nanotesla());
        row.check_printed("F_nT", field.total.as_nanotesla());
        row.check_printed("Ddot_deg_yr", field.rates.variation.0.as_degrees_east());
        row.check_printed("sigma_D_deg", field.variation_error.as_degrees());
    }
}

/// √(0.26² + (5417/H)²), from the technical report's error model; two worked values of it.
#[test]
fn the_models_own_error() {
    for (horizontal, degrees) in [(33_875.366, 0.3052), (2_164.285_547, 2.5164)] {
        let error = VariationError::of_wmm2025(horizontal).as_degrees();
        assert!((error - degrees).abs() < 0.5e-4, "{error}");
    }
    assert_eq!(VariationError::of_wmm2025(0.0).as_degrees(), 180.0);
}

#[test]
fn the_table_is_the_published_file() {
    let coefficients = COF.lines().filter_map(|line| {
        let fields: Vec<f64> = line.split_whitespace().filter_map(|f| f.parse().ok()).collect();
        let [n, m, g, h, dg, dh] = fields[..] else { return None };
        Some(Gauss::of(n as usize, m as usize, [g, h, dg, dh]))
    });
    assert_eq!(coefficients.collect::<Vec<_>>(), wmm2025::COEFFICIENTS);
}

#[test]
fn poles_are_places() {
    for (lat, lon) in [(90.0, 0.0), (90.0, 77.0), (-90.0, 0.0), (-90.0, -120.0)] {
        let pole = field(lat, lon, 0.0, 2026.0);
        let near = field(lat - f64::copysign(1e-7, lat), lon, 0.0, 2026.0);
        let off = pole.variation.as_degrees_east() - near.variation.as_degrees_east();
        assert!(off.abs() < 1e-4, "{lat} {lon}: {off}");
        assert!((pole.total.as_nanotesla() - near.total.as_nanotesla()).abs() < 1e-3);
    }
    // The pole named by another meridian has its variation counted from that one.
    let turned = field(90.0, 0.0, 0.0, 2026.0).variation.as_degrees_east()
        - field(90.0, 77.0, 0.0, 2026.0).variation.as_degrees_east();
    assert!((turned.rem_euclid(360.0) - (360.0 - 77.0)).abs() < 1e-9, "{turned}");
    // One meridian, two names.
    assert_eq!(field(10.0, 180.0, 0.0, 2026.0), field(10.0, -180.0, 0.0, 2026.0));
}

#[test]
fn zones_of_the_compass() {
    let zone = |nanotesla| CompassZone::of(FluxDensity::nanotesla(nanotesla));
    assert_eq!(zone(1999.9), CompassZone::Blackout);
    assert_eq!(zone(2000.0), CompassZone::Caution);
    assert_eq!(zone(5999.9), CompassZone::Caution);
    assert_eq!(zone(6000.0), CompassZone::Usual);
    assert_eq!(field(57.0, -2.0, 0.0, 2026.9).zone, CompassZone::Usual);
    assert_eq!(field(82.0, 87.0, 54.0, 2025.0).zone, CompassZone::Caution);
    assert_eq!(field(89.0, -121.0, 28.0, 2025.0).zone, CompassZone::Blackout);
}

#[test]
fn warnings_say_what_and_where() {
    let said = |field: Field| -> Vec<String> {
        field.warnings().iter().map(ToString::to_string).collect()
    };
    assert_eq!(said(field(57.0, -2.0, 0.0, 2025.0)), [""; 0]);
    assert_eq!(said(field(57.0, -2.0, 850.0, 2030.0)), [""; 0]);
    assert_eq!(
        said(field(57.0, -2.0, 900.0, 2030.1)),
        [
            "2030.1 is outside the years of the magnetic model, 2025.0 to 2030.0: the variation \
             is extrapolated",
            "a height of 900 km is outside those of the magnetic model, -1 km to 850 km"
        ]
    );
    assert_eq!(said(field(57.0, -2.0, -1.5, 2024.9)).len(), 2);
    assert_eq!(
        said(field(89.0, -121.0, 28.0, 2025.0)),
        [
            "blackout zone: the horizontal field of 1504 nT is under 2000 nT and a compass is not to \
          be relied on"
        ]
    );
}

#[test]
fn years_and_heights_have_bounds() {
    assert!(DecimalYear::new(f64::NAN).is_err());
    assert!(DecimalYear::new(1e5).is_err());
    assert!(EllipsoidHeight::from_kilometres(-6371.0).is_err());
    assert_eq!(DecimalYear::from_date(date(2025, 1, 1)).as_years(), 2025.0);
    assert_eq!(DecimalYear::from_date(date(2024, 7, 2)).as_years(), 2024.5);
    assert_eq!(DecimalYear::from_date(date(2026, 12, 31)).as_years(), 2026.0 + 364.0 / 365.0);
}

#[test]
fn sources_of_a_plans_variation() {
    let here = Position::from_degrees(57.155, -2.08).unwrap();
    let now = DecimalYear::from_date(date(2026, 6, 14));
    let model = VariationSource::default().at(here, now);
    assert!(model.error.is_some() && model.warnings.is_empty());
    let later = VariationSource::Model.at(here, DecimalYear::new(2031.0).unwrap());
    assert_eq!(later.warnings.len(), 1);
    let printed = VariationSource::Printed(PrintedVariation {
        variation: Variation::from_degrees_east(179.5).unwrap(),
        year: DecimalYear::new(2016.0).unwrap(),
        change_per_year: PerYear::from_degrees_east(0.1).unwrap(),
    });
    // Through 180 degrees.
    let at = printed.at(here, DecimalYear::new(2026.0).unwrap());
    assert!((at.variation.as_degrees_east() + 179.5).abs() < 1e-9);
    assert_eq!(at.error, None);
}

proptest! {
    #[test]
    fn an_independent_library_agrees(
        lat in -89.0..89.0, lon in -180.0..180.0, day in 0_u16..1825
    ) {
        use world_magnetic_model::time::{Date, Duration, Month};
        use world_magnetic_model::uom::si::angle::degree;
        use world_magnetic_model::uom::si::f32::{Angle, Length};
        use world_magnetic_model::uom::si::length::meter;

        // What the other computes in single precision is compared at that precision's places.
        let (lat, lon) = (f64::from(lat as f32), f64::from(lon as f32));
        let first = Date::from_calendar_date(2025, Month::January, 1).unwrap();
        let other = world_magnetic_model::GeomagneticField::new(
            Length::new::<meter>(0.0),
            Angle::new::<degree>(lat as f32),
            Angle::new::<degree>(lon as f32),
            first + Duration::days(day.into()),
        ).unwrap();
        let day = date(2025, 1, 1).checked_add(jiff::Span::new().days(i64::from(day))).unwrap();
        let ours = field(lat, lon, 0.0, DecimalYear::from_date(day).as_years());
        let theirs = f64::from(other.declination().get::<degree>());
        let off = (ours.variation.as_degrees_east() - theirs).rem_euclid(360.0);
        // Five thousandths of a degree where the compass works; the error grows as the
        // horizontal field goes.
        let tolerance = 0.005 * (1.0 + 10_000.0 / ours.horizontal.as_nanotesla());
        prop_assert!(off.min(360.0 - off) < tolerance, "{off}");
    }

    #[test]
    fn the_rates_are_the_derivatives(
        lat in -90.0..=90.0, lon in -180.0..=180.0, year in 2025.0..2030.0
    ) {
        let step = 1e-3;
        let (before, after) = (field(lat, lon, 0.0, year - step), field(lat, lon, 0.0, year + step));
        let now = field(lat, lon, 0.0, year);
        let slope = |part: fn(&Field) -> f64| (part(&after) - part(&before)) / (2.0 * step);
        let total = slope(|field| field.total.as_nanotesla());
        prop_assert!((total - now.rates.total.0.as_nanotesla()).abs() < 1e-5);
        let dip = slope(|field| field.dip.as_degrees());
        prop_assert!((dip - now.rates.dip.0.as_degrees()).abs() < 1e-6);
        if now.zone == CompassZone::Usual {
            let turn = slope(|field| field.variation.as_degrees_east());
            let off = (turn - now.rates.variation.0.as_degrees_east()).abs();
            // But across 180 degrees.
            prop_assert!(!(1e-6..1e5).contains(&off), "{off}");
        }
    }
}
