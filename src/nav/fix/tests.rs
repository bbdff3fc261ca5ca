//! Fixes beside tables and beside the bearings that they were made of.

use proptest::prelude::*;

use super::*;
use crate::{ChartGrid, Grid, GridNorth, GridPoint, Lettering};

fn sight(mark: Position, bearing: f64) -> Sight {
    Sight { mark, bearing: Bearing::from_degrees(bearing).unwrap() }
}

fn at(lat: f64, lon: f64) -> Position {
    Position::from_degrees(lat, lon).unwrap()
}

/// The bearings of marks so far along these bearings, as they are seen from a place.
fn seen(from: Position, marks: &[(f64, f64)]) -> Vec<Sight> {
    let mark = |&(bearing, metres): &(f64, f64)| {
        let bearing = Bearing::from_degrees(bearing).unwrap();
        let line = geodesic::direct(from, bearing, Length::metres(metres));
        Sight { mark: line.position, bearing }
    };
    marks.iter().map(mark).collect()
}

const TABLE: &str = include_str!("../../../tests/data/fix/intersections.csv");

/// Intersections on the plane of a grid. They are laid on a transverse Mercator whose meridian runs through their midst: there a
/// straight line of the plane leaves the geodesic by at most 7.5e-6 of its length, up to 0.1 m, which a cut of 12° makes
/// 0.5 m.
#[test]
fn intersections_on_a_plane() {
    let grid = Grid::Chart(
        ChartGrid::new(
            "plane",
            at(55.0, -4.0),
            1.0,
            GridPoint::metres(250_000.0, 640_000.0),
            Lettering::NONE,
        )
        .unwrap(),
    );
    let mut rows = 0;
    for row in TABLE.lines().filter(|line| !line.starts_with('#')).skip(1) {
        let cells: Vec<f64> = row.split(',').map(|cell| cell.parse().unwrap()).collect();
        let laid_off = |east: f64, north: f64, bearing: f64| {
            let mark = grid.inverse(GridPoint::metres(east, north)).unwrap();
            let bearing = Bearing::<GridNorth>::from_degrees(bearing).unwrap();
            Sight { mark: mark.position, bearing: bearing.to_true(mark.convergence) }
        };
        let sights =
            [laid_off(cells[0], cells[1], cells[2]), laid_off(cells[3], cells[4], cells[5])];
        let found = grid.forward(fix(&sights).unwrap().position).unwrap().point;
        let off =
            (found.easting.as_metres() - cells[6]).hypot(found.northing.as_metres() - cells[7]);
        assert!(off < 0.5, "{row}: {off} m off");
        rows += 1;
    }
    assert!(rows > 15);
}

proptest! {
    /// From the bearings of a place the place comes back, taken from the boat or laid off from the marks.
    #[test]
    fn a_place_comes_back_from_its_bearings(
        lat in -75.0..75.0f64,
        lon in -180.0..180.0f64,
        first in 0.0..360.0f64,
        turn in 10.0..170.0f64,
        distances in prop::collection::vec(50.0..60_000.0f64, 4),
        count in 2usize..5,
        from_the_marks in any::<bool>(),
    ) {
        let place = at(lat, lon);
        let marks: Vec<(f64, f64)> = distances[..count]
            .iter()
            .enumerate()
            .map(|(index, metres)| (first + turn * index as f64, *metres))
            .collect();
        let mut sights = seen(place, &marks);
        if from_the_marks {
            for sight in &mut sights {
                sight.bearing = geodesic::inverse(sight.mark, place).bearing_at_start;
            }
        }
        let found = fix(&sights).unwrap();
        let off = geodesic::inverse(place, found.position).distance.as_metres();
        prop_assert!(off < 1e-3, "{off} m off");
        prop_assert!(found.error.as_metres() < 2e-3);
    }
}

/// Three lines that leave a triangle: a right one of 300 by 400 m, as on squared paper. Its corners lie round the fix, which is
/// nearer to the lines of the near marks.
#[test]
fn the_triangle_is_the_error() {
    let place = at(55.0, -3.0);
    let mut sights = seen(place, &[(0.0, 5000.0), (90.0, 5000.0), (225.0, 5000.0)]);
    let whole = fix(&sights).unwrap();
    assert!(whole.error.as_metres() < 1e-3);
    sights[0].bearing = Bearing::from_degrees(3.0).unwrap();
    let apart = fix(&sights).unwrap();
    // By hand: the line of the first mark is 262 m off the others' crossing, and leans by three degrees.
    let corners = [[0, 1], [0, 2], [1, 2]]
        .map(|[one, other]| fix(&[sights[one], sights[other]]).unwrap().position);
    let far = corners.map(|corner| geodesic::inverse(apart.position, corner).distance.as_metres());
    assert_eq!(apart.error.as_metres(), far.into_iter().fold(0.0, f64::max));
    assert!((180.0..262.0).contains(&apart.error.as_metres()), "{:?}", apart.error);
}

#[test]
fn what_makes_no_fix_is_said() {
    let place = at(55.0, -3.0);
    let said = |sights: &[Sight]| fix(sights).unwrap_err().to_string();
    assert_eq!(said(&[]), "0 bearings; a fix needs two or more");
    assert_eq!(said(&[sight(place, 10.0)]), "1 bearings; a fix needs two or more");
    let beside = at(55.0, -3.1);
    assert_eq!(
        said(&[sight(place, 10.0), sight(beside, 190.5)]),
        "the bearings cross at 0.50° at most; under 1° they make no fix"
    );
    assert_eq!(
        said(&[sight(place, 0.0), sight(at(55.0, 12.0), 358.0)]),
        "the bearings cross farther than 500 km from a mark, too far for a fix"
    );
    assert_eq!(
        said(&[sight(place, 10.0), sight(place, 70.0)]),
        "the bearings cross at a mark itself"
    );
}

/// Over the date line and near a pole, where longitudes say little.
#[test]
fn fixes_where_meridians_part_or_meet() {
    for place in [at(10.0, 179.999), at(89.5, 30.0), at(-89.9, -170.0), at(0.0, 0.0)] {
        let found = fix(&seen(place, &[(20.0, 9000.0), (130.0, 7000.0)])).unwrap();
        let off = geodesic::inverse(place, found.position).distance.as_metres();
        assert!(off < 1e-3, "{place:?}: {off}");
    }
}
