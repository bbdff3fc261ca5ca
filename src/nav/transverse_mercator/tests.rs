//! The projection against published examples, an independent library and itself.

use proptest::prelude::*;

use super::*;
use crate::{Ellipsoid, Wgs84};

/// The datum of the examples in DMA TM 8358.2.
#[derive(Debug, Clone, Copy, PartialEq)]
enum International {}

impl Datum for International {
    const NAME: &'static str = "International 1924";
    const ELLIPSOID: Ellipsoid = Ellipsoid::INTERNATIONAL_1924;
}

fn utm<D: Datum>(central_meridian: f64, south: bool) -> TransverseMercator<D> {
    let false_origin = GridPoint::metres(500_000.0, if south { 1e7 } else { 0.0 });
    let lon0 = Longitude::from_degrees(central_meridian).unwrap();
    TransverseMercator::new(Latitude::from_degrees(0.0).unwrap(), lon0, 0.9996, false_origin)
        .unwrap()
}

/// tests/data/utm/dmatm8358_2.csv: DMA TM 8358.2 (1989), section 2-11, page 2-7.
#[test]
fn examples_of_dma_tm_8358_2() {
    let text = include_str!("../../../tests/data/utm/dmatm8358_2.csv");
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    let mut checked = 0;
    for row in reader.records() {
        let row = row.unwrap();
        let number = |column: usize| -> f64 { row[column].parse().unwrap() };
        let zone = utm::<International>(number(1) * 6.0 - 183.0, &row[2] == "yes");
        let position = Position::from_degrees(number(3), number(4)).unwrap();
        let printed = GridPoint::metres(number(5), number(6));
        let forward = zone.forward(position).unwrap();
        // Half of a printed 0.01 m, and of 0.001" on the ground.
        let leeway = Length::metres(0.005 + 0.0005 / 3600.0 * 111_320.0);
        assert!((forward.point.easting - printed.easting).abs() < leeway, "{row:?}: {forward:?}");
        assert!((forward.point.northing - printed.northing).abs() < leeway, "{row:?}: {forward:?}");
        if !row[7].is_empty() {
            assert!((forward.scale - number(7)).abs() < 5e-9, "{row:?}: {forward:?}");
        }
        if !row[8].is_empty() {
            // Printed to 0.01".
            let off = (forward.convergence.as_degrees_east() - number(8)).abs() * 3600.0;
            assert!(off < 0.0051, "{row:?}: {forward:?}");
        }
        let back = zone.inverse(printed).unwrap().position;
        // The same halves along each axis.
        assert!(apart(back, position) < leeway.as_metres() * 1.42, "{row:?}: {back:?}");
        checked += 1;
    }
    assert_eq!(checked, 5);
}

/// The quarter of the meridian of WGS 84, 10,001,965.729 m (NIMA TR 8350.2, table 3.5, as
/// recomputed; also Karney 2011), is the northing of the pole at scale 1.
#[test]
fn poles_are_points() {
    let equator = Latitude::from_degrees(0.0).unwrap();
    let greenwich = Longitude::from_degrees(0.0).unwrap();
    let plain =
        TransverseMercator::<Wgs84>::known(equator, greenwich, 1.0, GridPoint::metres(0.0, 0.0));
    for (lat, side) in [(90.0, 1.0), (-90.0, -1.0)] {
        for lon in [0.0, 45.0, 90.0, 135.0, 180.0, -180.0, -90.0] {
            let pole = plain.forward(Position::from_degrees(lat, lon).unwrap()).unwrap();
            assert!(pole.point.easting.as_metres().abs() < 1e-8, "{lat} {lon}: {pole:?}");
            let northing = pole.point.northing.as_metres();
            assert!((northing - side * 10_001_965.729_3).abs() < 1e-3, "{northing}");
            assert!((pole.scale - 1.0).abs() < 1e-12, "{}", pole.scale);
            let turned = pole.convergence.as_degrees_east() - side * lon;
            assert!(turned.rem_euclid(360.0).min((-turned).rem_euclid(360.0)) < 1e-9, "{pole:?}");
            let back = plain.inverse(pole.point).unwrap();
            assert!((back.position.lat.as_degrees() - lat).abs() < 1e-12);
            assert!((back.scale - 1.0).abs() < 1e-9, "{}", back.scale);
        }
    }
}

#[test]
fn too_far_is_said() {
    let zone = utm::<Wgs84>(-3.0, false);
    for (lat, lon) in [(0.0, 87.0), (0.0, 60.0), (10.0, -93.0), (0.0, -70.0)] {
        let error = zone.forward(Position::from_degrees(lat, lon).unwrap()).unwrap_err();
        assert_eq!(error, TooFarFromMeridian { central_meridian: -3.0 });
    }
    for (e, n) in [(7.1e6, 0.0), (-7e6, 6e6), (5e5, 2.1e7), (5e5, -1e300)] {
        assert!(zone.inverse(GridPoint::metres(e, n)).is_err(), "{e} {n}");
    }
    assert!(zone.forward(Position::from_degrees(0.0, 40.0).unwrap()).is_ok());
}

#[test]
fn the_date_line_is_no_edge() {
    let zone = utm::<Wgs84>(177.0, false);
    let west = zone.forward(Position::from_degrees(52.0, 180.0).unwrap()).unwrap();
    let east = zone.forward(Position::from_degrees(52.0, -180.0).unwrap()).unwrap();
    assert_eq!(west, east);
    let beyond = zone.forward(Position::from_degrees(52.0, -179.5).unwrap()).unwrap();
    assert!(beyond.point.easting > east.point.easting);
    let back = zone.inverse(beyond.point).unwrap().position;
    assert!((back.lon.as_degrees() + 179.5).abs() < 1e-12);
}

/// Metres between two positions, near enough for differences far below a metre.
fn apart<D: Datum>(a: Position<D>, b: Position<D>) -> f64 {
    let north = (a.lat.as_degrees() - b.lat.as_degrees()) * 111_320.0;
    let east = a.lon.degrees_east_of(b.lon) * 111_320.0 * a.lat.as_radians().cos();
    north.hypot(east)
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..Default::default() })]

    /// Forth and back is the same place, over the whole range and across the poles.
    #[test]
    fn round_trip(lat in -90.0..=90.0, lon in -180.0..=180.0) {
        let zone = utm::<Wgs84>(-3.0, false);
        let position = Position::from_degrees(lat, lon).unwrap();
        if let Ok(on_grid) = zone.forward(position) {
            let back = zone.inverse(on_grid.point).unwrap();
            // A hundredth of the 0.1 mm promised near the meridian.
            prop_assert!(apart(back.position, position) < 1e-6, "{:?}", back);
            prop_assert!((back.scale / on_grid.scale - 1.0).abs() < 1e-9);
            let turn = back.convergence.as_degrees_east() - on_grid.convergence.as_degrees_east();
            // Convergence is ill-conditioned at the pole itself, like longitude.
            let leeway = 1e-9 / lat.to_radians().cos().max(1e-9);
            prop_assert!(turn.abs() < leeway || (turn.abs() - 360.0).abs() < leeway, "{}", turn);
        } else {
            let from_meridian = Longitude::wrapped(lon + 3.0).as_degrees().abs();
            prop_assert!(lat.abs() < 50.0 && (40.0..140.0).contains(&from_meridian));
        }
    }

    /// Within 6 degrees of the meridian an independent implementation agrees to far less than 0.1 mm.
    #[test]
    fn agrees_with_an_independent_library(lat in -84.0..84.0f64, lon in -6.0..6.0f64) {
        let text = "+proj=tmerc +lat_0=0 +lon_0=0 +k=0.9996 +x_0=500000 +y_0=0 +ellps=intl";
        let to = proj4rs::Proj::from_proj_string(text).unwrap();
        let from = proj4rs::Proj::from_proj_string("+proj=longlat +ellps=intl").unwrap();
        let mut theirs = (lon.to_radians(), lat.to_radians(), 0.0);
        proj4rs::transform::transform(&from, &to, &mut theirs).unwrap();
        let zone = utm::<International>(0.0, false);
        let ours = zone.forward(Position::from_degrees(lat, lon).unwrap()).unwrap().point;
        prop_assert!((ours.easting.as_metres() - theirs.0).abs() < 1e-6, "{:?} {:?}", ours, theirs);
        prop_assert!((ours.northing.as_metres() - theirs.1).abs() < 1e-6, "{:?} {:?}", ours, theirs);
    }

    /// Scale and convergence are what the ground says: a step along the meridian.
    #[test]
    fn scale_and_convergence_are_the_projections_own(lat in -80.0..80.0f64, lon in -30.0..30.0f64) {
        let zone = utm::<Wgs84>(0.0, false);
        let at = |lat: f64| zone.forward(Position::from_degrees(lat, lon).unwrap()).unwrap();
        let (here, south, north) = (at(lat), at(lat - 1e-3), at(lat + 1e-3));
        let east = (north.point.easting - south.point.easting).as_metres();
        let up = (north.point.northing - south.point.northing).as_metres();
        let sin2 = Wgs84::ELLIPSOID.eccentricity_squared() * lat.to_radians().sin().powi(2);
        let e2 = Wgs84::ELLIPSOID.eccentricity_squared();
        let meridian_radius = 6_378_137.0 * (1.0 - e2) / (1.0 - sin2).powf(1.5);
        let scale = east.hypot(up) / (meridian_radius * 2e-3f64.to_radians());
        prop_assert!((scale / here.scale - 1.0).abs() < 1e-7, "{} {}", scale, here.scale);
        // True north leans to the west of grid north by the convergence.
        let convergence = -east.atan2(up).to_degrees();
        prop_assert!((convergence - here.convergence.as_degrees_east()).abs() < 1e-6);
    }
}
