//! What holds everywhere: round trips and references.

use proptest::prelude::*;

use super::*;
use crate::Length;

fn config() -> ProptestConfig {
    ProptestConfig { failure_persistence: None, cases: 512, ..Default::default() }
}

/// A grid with its own area, as west, south, east and north in metres.
fn area() -> impl Strategy<Value = (Grid, [f64; 4])> {
    prop_oneof![
        Just((grid("EPSG:27700"), [0.0, 0.0, 7e5, 13e5])),
        Just((grid("EPSG:29903"), [0.0, 0.0, 5e5, 5e5])),
        Just((grid("EPSG:2157"), [4e5, 5e5, 9e5, 10e5])),
        (1u8..=60).prop_map(|zone| (grid(&format!("UTM:{zone}N")), [166e3, 0.0, 834e3, 93.2e5])),
        (1u8..=60).prop_map(|zone| (grid(&format!("UTM:{zone}S")), [166e3, 11.2e5, 834e3, 1e7])),
        Just((grid("UPS:N"), [13e5, 13e5, 27e5, 27e5])),
        Just((grid("UPS:S"), [8e5, 8e5, 32e5, 32e5])),
        Just((chart_grid(), [6e5, 3e5, 8e5, 5e5])),
    ]
}

/// A point of World Mercator, which has no squares of its own.
fn on_world_mercator() -> impl Strategy<Value = (Grid, GridPoint)> {
    (-2e7..2e7f64, -3e7..3e7f64)
        .prop_map(|(easting, northing)| (grid("EPSG:3395"), GridPoint::metres(easting, northing)))
}

fn on_a_grid() -> impl Strategy<Value = (Grid, GridPoint)> {
    (area(), 0.0..1.0f64, 0.0..1.0f64).prop_map(|((grid, [west, south, east, north]), u, v)| {
        let point = GridPoint::metres(west + u * (east - west), south + v * (north - south));
        (grid, point)
    })
}

fn figures() -> impl Strategy<Value = Figures> {
    proptest::sample::select(Figures::ALL.as_slice())
}

/// Near enough to the edge of OSTN15 that a point may lie on the other side of it by the
/// other change of datum.
fn at_the_edge_of_ostn15(grid: &Grid, point: GridPoint) -> bool {
    let (easting, northing) = (point.easting.as_metres(), point.northing.as_metres());
    let near = |metres: f64, edge: f64| (metres - edge).abs() < 150.0;
    matches!(grid, Grid::BritishNational(_))
        && (near(easting, 0.0)
            || near(easting, 7e5)
            || near(northing, 0.0)
            || near(northing, 12.5e5))
}

proptest! {
    #![proptest_config(config())]

    /// From the grid to latitude and longitude and back is the same point to a micrometre, by the
    /// same change of datum, with the same convergence and scale.
    #[test]
    fn there_and_back((grid, point) in prop_oneof![9 => on_a_grid(), 1 => on_world_mercator()]) {
        prop_assume!(!at_the_edge_of_ostn15(&grid, point));
        let there = grid.inverse(point).unwrap();
        let back = grid.forward(there.position).unwrap();
        prop_assert!(apart(back.point, point) < 1e-6, "{:?} {:?}", there, back);
        prop_assert_eq!(back.accuracy, there.accuracy);
        prop_assert!((back.scale - there.scale).abs() < 1e-9);
        let turn = (back.convergence - there.convergence).as_degrees_east().abs();
        // Ill-conditioned like longitude at the pole itself.
        let leeway = 1e-9 / there.position.lat.as_radians().cos().max(1e-9);
        prop_assert!(turn < leeway, "{} {:?}", turn, there);
    }

    /// Many at once are the same points to the last bit, near the meridian and far from it.
    #[test]
    fn many_at_once((grid, point) in on_a_grid(), steps in proptest::collection::vec((-2.0..2.0f64, -9.0..9.0f64), 0..40)) {
        let middle = grid.inverse(point).unwrap().position;
        let around = |&(north, east): &(f64, f64)| {
            Position::computed(middle.lat.as_degrees() + north, middle.lon.as_degrees() + east)
        };
        let places: Vec<Position> = steps.iter().map(around).collect();
        let single: Result<Vec<_>, _> =
            places.iter().map(|place| Ok(grid.forward(*place)?.point)).collect();
        let mut points = vec![point];
        let all = grid.forward_all(&places, &mut points);
        match single {
            Ok(single) => {
                prop_assert_eq!(all, Ok(()));
                prop_assert_eq!(&points[1..], single.as_slice());
            }
            Err(error) => prop_assert_eq!(all, Err::<(), GridError>(error)),
        }
    }

    /// Every place on Earth has a reference of every length on MGRS, which finds a square that
    /// holds it.
    #[test]
    fn mgrs_everywhere(lat in -90.0..=90.0f64, lon in -180.0..=180.0f64, figures in figures()) {
        let place = position(lat, lon);
        let written = Grid::Mgrs.reference_at(place, figures).unwrap();
        let found = Grid::Mgrs.find(&written, None).unwrap();
        prop_assert_eq!(&found.grid, &Grid::Mgrs.at(place));
        prop_assert_eq!(found.square.side, figures.side());
        let point = found.grid.forward(place).unwrap().point;
        prop_assert!(found.square.contains(point), "{} {:?} {:?}", written, found, point);
    }

    /// An independent library writes the same.
    #[test]
    fn mgrs_agrees_with_an_independent_library(lat in -90.0..=90.0f64, lon in -180.0..180.0f64) {
        let place = position(lat, lon);
        let grid = Grid::Mgrs.at(place);
        let point = grid.forward(place).unwrap().point;
        // On a line of 1 m, to the noise of either, both squares are right.
        let off_line = |length: Length| {
            let part = length.as_metres().rem_euclid(1.0);
            (0.000_2..0.999_8).contains(&part)
        };
        prop_assume!(off_line(point.easting) && off_line(point.northing));
        // And so are both bands on the edge of two.
        prop_assume!((lat / 8.0 - (lat / 8.0).round()).abs() > 1e-9);
        let theirs = geoconvert::LatLon::create(lat, lon).unwrap().to_mgrs(5);
        let ours = Grid::Mgrs.reference_at(place, Figures::Ten).unwrap();
        prop_assert_eq!(ours.replace(' ', ""), theirs.to_string());
    }

    /// What is written is read as a square that holds the point, with letters and near it
    /// without; and the square's corner is written as the same reference.
    #[test]
    fn written_and_read((grid, point) in on_a_grid(), figures in figures()) {
        // The corners of a zone's and a pole's rectangle may lie outside its latitudes.
        let Ok(written) = grid.reference(point, figures) else {
            prop_assert!(matches!(grid, Grid::Utm(_) | Grid::Ups(_)));
            return Ok(());
        };
        let square = grid.parse_reference(&written, None).unwrap();
        prop_assert!(square.contains(point), "{} {:?} {:?}", written, square, point);
        let lower = written.to_lowercase();
        prop_assert_eq!(grid.parse_reference(&lower, None).unwrap(), square);
        if !matches!(grid, Grid::IrishTransverseMercator(_)) {
            let together = written.replace(' ', "");
            prop_assert_eq!(grid.parse_reference(&together, None).unwrap(), square);
            let width = 2 * figures.each();
            let alone = &together[together.len() - width..];
            prop_assert_eq!(grid.parse_reference(alone, Some(point)).unwrap(), square);
        }
        // Its corner, through latitude and longitude, names it again, though on MGRS the
        // corner may lie in the band before.
        let corner = grid.inverse(square.south_west).unwrap();
        prop_assume!(!at_the_edge_of_ostn15(&grid, square.south_west));
        let again = grid.forward(corner.position).unwrap().point;
        prop_assert!(square.contains(again), "{} {:?} {:?}", written, square, again);
        let again = grid.reference(again, figures);
        if !matches!(grid, Grid::Utm(_) | Grid::Ups(_)) {
            prop_assert_eq!(again.unwrap(), written);
        } else if let Ok(again) = again {
            prop_assert_eq!(grid.parse_reference(&again, None).unwrap(), square);
        }
    }

    /// Full coordinates are read as they stand.
    #[test]
    fn full_coordinates((grid, point) in on_a_grid()) {
        let (e, n) = (point.easting.as_metres(), point.northing.as_metres());
        let square = grid.parse_reference(&format!("{e:.3}, {n:.3}"), None).unwrap();
        prop_assert!(apart(square.south_west, point) < 0.000_51);
    }

    /// Any text at all is a reference or an error.
    #[test]
    fn any_text(text in "\\PC{0,20}", (grid, point) in on_a_grid()) {
        let _ = grid.parse_reference(&text, Some(point));
        let _ = grid.find(&text, Some(position(50.0, 3.0)));
        let _ = Grid::parse(&text);
    }

    /// And so is any text of the signs that references are made of.
    #[test]
    fn any_likely_text(text in "[0-9]{0,3}[A-Za-z]{0,3} ?[0-9,. +-]{0,14}", place in -80.0..80.0f64) {
        let _ = Grid::Mgrs.find(&text, Some(position(place, 2.0 * place)));
        let _ = grid("EPSG:27700").find(&text, Some(position(place, -3.0)));
    }
}
