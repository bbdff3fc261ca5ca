//! Published and independently computed values, row by row.

use super::*;
use crate::{Latitude, Longitude, Osgb36, TransverseMercator};

/// tests/data/utm/utm_mgrs.csv, computed with GeographicLib 2.1.2 and printed to 1 mm, 1e-11
/// degrees and 1e-13.
#[test]
fn utm_and_ups_rows() {
    let table = rows(include_str!("../../../../tests/data/utm/utm_mgrs.csv"));
    assert_eq!(table.len(), 115);
    for row in &table {
        let name = match row.text("zone_hemisphere") {
            "n" => "UPS:N".to_owned(),
            "s" => "UPS:S".to_owned(),
            zone => format!("UTM:{zone}"),
        };
        let grid = grid(&name);
        assert_eq!(Grid::Mgrs.at(place(row)), grid, "{}", row.text);
        let found = grid.forward(place(row)).unwrap();
        row.check_printed("easting_m", found.point.easting.as_metres());
        row.check_printed("northing_m", found.point.northing.as_metres());
        row.check("convergence_deg", found.convergence.as_degrees_east(), 2e-11);
        row.check("scale", found.scale, 2e-13);
        let back = grid.inverse(point(row)).unwrap().position;
        // Half a millimetre of the printed coordinates along each.
        assert!(ground(back, place(row)) < 0.000_8, "{}: {back:?}", row.text);
    }
}

/// The same table's references of 1 m and 100 m.
#[test]
fn mgrs_rows() {
    for row in &rows(include_str!("../../../../tests/data/utm/utm_mgrs.csv")) {
        for (figures, column) in [(Figures::Ten, "mgrs_1m"), (Figures::Six, "mgrs_100m")] {
            let written = Grid::Mgrs.reference_at(place(row), figures).unwrap();
            assert_eq!(written.replace(' ', ""), row.text(column), "{}", row.text);
            let found = Grid::Mgrs.find(row.text(column), None).unwrap();
            assert_eq!(found.square.side, figures.side());
            let point = found.grid.forward(place(row)).unwrap().point;
            assert!(found.square.contains(point), "{}: {found:?} {point:?}", row.text);
        }
    }
}

/// The projection of the British National Grid from OSGB36 itself.
fn national_projection() -> TransverseMercator<Osgb36> {
    TransverseMercator::new(
        Latitude::from_degrees(49.0).unwrap(),
        Longitude::from_degrees(-2.0).unwrap(),
        0.999_601_271_7,
        GridPoint::metres(400_000.0, -100_000.0),
    )
    .unwrap()
}

/// tests/data/osgb/worked_examples.csv: the agency's guide, annex C, and its example Framingham,
/// to 1 mm both ways.
#[test]
fn worked_examples_of_the_national_projection() {
    let projection = national_projection();
    for row in &rows(include_str!("../../../../tests/data/osgb/worked_examples.csv")) {
        let place = Position::from_degrees(row.number("lat_deg"), row.number("lon_deg")).unwrap();
        let found = projection.forward(place).unwrap();
        // Half of a printed millimetre, and of 0.0001" on the ground.
        let leeway = 0.000_5 + 0.000_05 / 3600.0 * 111_320.0;
        row.check("easting_m", found.point.easting.as_metres(), leeway);
        row.check("northing_m", found.point.northing.as_metres(), leeway);
        let back = projection.inverse(point(row)).unwrap().position;
        row.check("lat_deg", back.lat.as_degrees(), leeway / 111_000.0);
        row.check("lon_deg", back.lon.as_degrees(), leeway / 111_000.0 / 0.6);
        if row.maybe("scale").is_some() {
            row.check_printed("convergence_deg", found.convergence.as_degrees_east());
            row.check_printed("scale", found.scale);
        }
    }
}

/// tests/data/osgb/ostn15_forward.csv and ostn15_inverse.csv: the agency's test points, to the
/// printed millimetre both ways.
#[test]
fn ostn15_test_points() {
    let grid = grid("EPSG:27700");
    let forth = rows(include_str!("../../../../tests/data/osgb/ostn15_forward.csv"));
    assert_eq!(forth.len(), 20);
    for row in &forth {
        let found = grid.forward(place(row)).unwrap();
        // Half of the printed millimetre and the rounding of the shifts at four nodes.
        assert!(apart(found.point, point(row)) < 0.001_1, "{}: {found:?}", row.text);
        assert_eq!(found.accuracy, Accuracy::NationalShift);
    }
    let back = rows(include_str!("../../../../tests/data/osgb/ostn15_inverse.csv"));
    assert_eq!(back.len(), 20);
    for row in &back {
        let found = grid.inverse(point(row)).unwrap();
        // The agency's two files differ at TP31 themselves, by 3 mm east and 4 mm north.
        let leeway = 0.001_6 + if row.text("point") == "TP31" { 0.005 } else { 0.0 };
        assert!(ground(found.position, place(row)) < leeway, "{}: {found:?}", row.text);
        assert_eq!(found.accuracy, Accuracy::NationalShift);
    }
}

/// The seven-parameter change at the same points, against the recomputed column and its
/// distance from the truth, which is never over the 5 m that it says.
#[test]
fn seven_parameters_at_the_test_points() {
    let projection = national_projection();
    let change = crate::SevenParameter::WGS84_TO_OSGB36;
    for row in &rows(include_str!("../../../../tests/data/osgb/ostn15_forward.csv")) {
        let found = projection.forward(change.apply(place(row))).unwrap().point;
        // The column was computed at the point's height, which shifts it by a millimetre per
        // ten metres at most, and printed to a millimetre.
        let leeway = 0.001 + row.number("etrs89_height_m").abs() * 1e-4;
        row.check("seven_easting_m_recomputed", found.easting.as_metres(), leeway);
        row.check("seven_northing_m_recomputed", found.northing.as_metres(), leeway);
        let truth = point(row);
        let (east, north) = (found.easting - truth.easting, found.northing - truth.northing);
        assert!(east.hypot(north) < change.error(), "{}: {found:?}", row.text);
    }
}

/// Convergence and scale on WGS 84 are those that the grid's own datum gives, but for the
/// few seconds and the millionth that the docs say.
#[test]
fn convergence_and_scale_of_the_two_datums() {
    let grid = grid("EPSG:27700");
    for column in 0..=7 {
        for row in 0..=12 {
            let point = GridPoint::metres(f64::from(column) * 99_000.0, f64::from(row) * 99_000.0);
            let ours = grid.inverse(point).unwrap();
            let theirs = national_projection().inverse(point).unwrap();
            let turn = (ours.convergence - theirs.convergence).as_degrees_east().abs();
            assert!(turn * 3600.0 < 10.0, "{point:?}: {ours:?} {theirs:?}");
            assert!((ours.scale - theirs.scale).abs() < 1e-6, "{point:?}: {ours:?} {theirs:?}");
        }
    }
}

/// On either side of the edge of OSTN15 a point comes back by the way it went.
#[test]
fn the_edge_of_ostn15() {
    let etrs = TransverseMercator::<crate::Etrs89>::new(
        Latitude::from_degrees(49.0).unwrap(),
        Longitude::from_degrees(-2.0).unwrap(),
        0.999_601_271_7,
        GridPoint::metres(400_000.0, -100_000.0),
    )
    .unwrap();
    let grid = grid("EPSG:27700");
    for (e, n) in [(0.0, 6e5), (7e5, 6e5), (3e5, 0.0), (3e5, 12.5e5), (7e5, 12.5e5), (0.0, 0.0)] {
        for (east, north) in [(-6.0, -6.0), (-6.0, 6.0), (6.0, -6.0), (6.0, 6.0)] {
            let there = etrs.inverse(GridPoint::metres(e + east, n + north)).unwrap().position;
            let place = Position::new(there.lat, there.lon);
            let on_grid = grid.forward(place).unwrap();
            let back = grid.inverse(on_grid.point).unwrap();
            assert_eq!(back.accuracy, on_grid.accuracy, "{e} {n} {east} {north}");
            assert!(ground(back.position, place) < 1e-6, "{back:?} {place:?}");
        }
    }
}

/// Beyond the nodes of OSTN15 the result says that it went by seven parameters, and how far off
/// that may be.
#[test]
fn beyond_ostn15_is_said() {
    let grid = grid("EPSG:27700");
    for (lat, lon) in [(56.0, -9.9), (61.9, -1.0), (49.0, -6.5), (52.0, 3.5)] {
        let there = grid.forward(position(lat, lon)).unwrap();
        let Accuracy::SevenParameter { error } = there.accuracy else {
            panic!("{lat} {lon}: {there:?}");
        };
        assert_eq!(error.as_metres(), 5.0);
        assert_eq!(
            there.accuracy.to_string(),
            "to about 5 m: by a seven-parameter change of datum"
        );
        let back = grid.inverse(there.point).unwrap();
        assert_eq!(back.accuracy, there.accuracy);
        assert!(ground(back.position, position(lat, lon)) < 1e-6);
    }
    let far = grid.forward(position(40.0, -2.0)).unwrap_err();
    assert!(far.to_string().contains("outside the grid"), "{far}");
}

/// tests/data/osgb/irish_computed.csv: PROJ 9, the projection steps alone, to the printed 0.1 mm.
#[test]
fn irish_rows() {
    let table = rows(include_str!("../../../../tests/data/osgb/irish_computed.csv"));
    assert_eq!(table.len(), 10);
    let itm = grid("EPSG:2157");
    let irish = TransverseMercator::<crate::Ireland1975>::new(
        Latitude::from_degrees(53.5).unwrap(),
        Longitude::from_degrees(-8.0).unwrap(),
        1.000_035,
        GridPoint::metres(200_000.0, 250_000.0),
    )
    .unwrap();
    for row in &table {
        let on_itm = itm.forward(place(row)).unwrap();
        assert_eq!(on_itm.accuracy, Accuracy::Projection);
        row.check_printed("itm_easting_m", on_itm.point.easting.as_metres());
        row.check_printed("itm_northing_m", on_itm.point.northing.as_metres());
        let (lat, lon) = (row.number("lat_deg"), row.number("lon_deg"));
        let on_irish = irish.forward(Position::from_degrees(lat, lon).unwrap()).unwrap().point;
        row.check_printed("irish_easting_m", on_irish.easting.as_metres());
        row.check_printed("irish_northing_m", on_irish.northing.as_metres());
    }
}

/// The Irish Grid with its change of datum, against an independent library given EPSG's parameters.
#[test]
fn irish_grid_agrees_with_an_independent_library() {
    let grid = grid("EPSG:29903");
    let to = proj4rs::Proj::from_proj_string(
        "+proj=tmerc +lat_0=53.5 +lon_0=-8 +k=1.000035 +x_0=200000 +y_0=250000 +a=6377340.189 +rf=299.3249646 \
         +towgs84=482.5,-130.6,564.6,-1.042,-0.214,-0.631,8.15",
    )
    .unwrap();
    let from = proj4rs::Proj::from_proj_string("+proj=longlat +datum=WGS84").unwrap();
    for (lat, lon) in [(53.35, -6.26), (51.5, -10.2), (55.3, -7.2), (54.6, -5.9), (52.1, -9.5)] {
        let mut theirs = (f64::to_radians(lon), f64::to_radians(lat), 0.0);
        proj4rs::transform::transform(&from, &to, &mut theirs).unwrap();
        let ours = grid.forward(position(lat, lon)).unwrap();
        assert_eq!(ours.accuracy.error().as_metres(), 1.0);
        // Reversed, they keep the height that the change of ellipsoid left: a centimetre.
        let theirs = GridPoint::metres(theirs.0, theirs.1);
        assert!(apart(ours.point, theirs) < 0.01, "{ours:?} {theirs:?}");
    }
}

#[test]
fn zones_and_their_borders() {
    for (lat, lon, zone) in [
        (0.0, -180.0, "01N"),
        (0.0, 180.0, "01N"),
        (-0.000_1, -174.0, "02S"),
        (52.0, -0.000_001, "30N"),
        (52.0, 0.0, "31N"),
        // South-west Norway: 31V ends at 3 degrees east.
        (60.0, 2.999_999, "31N"),
        (60.0, 3.0, "32N"),
        (55.999_999, 3.0, "31N"),
        (56.0, 3.0, "32N"),
        (63.999_999, 3.0, "32N"),
        (64.0, 3.0, "31N"),
        // Svalbard: 31X, 33X, 35X and 37X.
        (71.999_999, 8.0, "32N"),
        (72.0, 8.999_999, "31N"),
        (72.0, 9.0, "33N"),
        (78.0, 20.999_999, "33N"),
        (78.0, 21.0, "35N"),
        (78.0, 32.999_999, "35N"),
        (78.0, 33.0, "37N"),
        (78.0, 41.999_999, "37N"),
        (78.0, 42.0, "38N"),
        (83.999_999, 0.0, "31N"),
        (-80.0, 0.0, "31S"),
    ] {
        let found = UtmZone::of(position(lat, lon)).map(|zone| zone.to_string());
        assert_eq!(found.as_deref(), Some(zone), "{lat} {lon}");
    }
    assert_eq!(UtmZone::of(position(84.0, 0.0)), None);
    assert_eq!(UtmZone::of(position(-80.000_001, 0.0)), None);
}

#[test]
fn names_go_round() {
    let names =
        ["EPSG:27700", "EPSG:29903", "EPSG:2157", "UTM:30N", "UTM:07S", "UPS:N", "UPS:S", "MGRS"];
    for name in names {
        assert_eq!(grid(name).name(), name);
    }
    for (alias, name) in [
        ("utm:7s", "UTM:07S"),
        ("EPSG:32633", "UTM:33N"),
        ("epsg:32760", "UTM:60S"),
        ("EPSG:29902", "EPSG:29903"),
        (" mgrs ", "MGRS"),
    ] {
        assert_eq!(grid(alias).name(), name);
    }
    for name in
        ["", "EPSG:4326", "EPSG:32600", "EPSG:32661", "UTM:0N", "UTM:61N", "UTM:30", "UTM:30É"]
    {
        let error = Grid::parse(name).unwrap_err();
        assert!(error.to_string().starts_with(&format!("{name:?} names no grid")), "{error}");
    }
}
