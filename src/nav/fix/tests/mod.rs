//! Fixes beside tables and beside the bearings that they were made of.

use proptest::prelude::*;

use super::*;
use crate::{ChartGrid, Grid, GridNorth, GridPoint, Lettering, Turn};

mod least;

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

const TABLE: &str = include_str!("../../../../tests/data/fix/intersections.csv");

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
        // Half a printed digit, and by how much the meridians of two marks within 12 km lean apart: 0.16° at 57°.
        assert!((cut(&sights).as_degrees() - cells[8]).abs() < 0.005 + 0.16, "{row}");
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

/// A mark close by and one at the edge of what is seen, as met by chance: the plane about the first leaves the near one's lines
/// by many times the way to it.
#[test]
fn near_and_far_marks_together() {
    let place = at(61.064_040_673_699_63, 0.0);
    let mut sights = seen(place, &[(0.0, 50.0), (10.0, 50.0), (20.0, 58_081.9)]);
    for order in 0..3 {
        sights.rotate_left(1);
        for sight in &mut sights {
            sight.bearing = geodesic::inverse(sight.mark, place).bearing_at_start;
        }
        let found = fix(&sights).unwrap();
        let off = geodesic::inverse(place, found.position).distance.as_metres();
        assert!(off < 1e-3, "{order}: {off} m off");
    }
}

/// A line of position through a point some metres east and north of a place: a bearing of a mark five kilometres along it, as it is
/// seen from that point.
fn through(place: Position, (east, north): (f64, f64), bearing: f64) -> Sight {
    let way = Bearing::from_degrees(east.atan2(north).to_degrees().rem_euclid(360.0)).unwrap();
    let from = geodesic::direct(place, way, Length::metres(east.hypot(north))).position;
    seen(from, &[(bearing, 5000.0)])[0]
}

/// The error of three lines that are as far from their marks, by hand on squared paper: of equal weight, so that the fix has the least
/// sum of squares of the distances from them. Half a metre is what 5 km make of a line's turning about its mark.
fn error_of(lines: [((f64, f64), f64); 3], left_out: usize) -> f64 {
    let place = at(55.0, -3.0);
    let sights = lines.map(|(point, bearing)| through(place, point, bearing));
    let fix = fix(&sights).unwrap();
    assert_eq!(fix.left_out, left_out);
    fix.error.as_metres()
}

/// North, east, and 100 m off to the north-east a line to the south-east: the corners are (0, 0), (0, 141.4) and (141.4, 0), and the fix
/// is at (35.4, 35.4): 50, 111.8 and 111.8 m from them.
#[test]
fn a_triangle_by_hand() {
    let off = 50.0 * 2_f64.sqrt();
    let error = error_of([((0.0, 0.0), 0.0), ((0.0, 0.0), 90.0), ((off, off), 135.0)], 0);
    assert!((error - 50.0 * 5_f64.sqrt()).abs() < 1.5, "{error}");
    let none = error_of([((0.0, 0.0), 0.0), ((0.0, 0.0), 90.0), ((0.0, 0.0), 135.0)], 0);
    assert!(none < 1e-3, "{none}");
}

/// Two lines that cut at 2° and lie 50 m apart, and one across them: the corner of the two is 50 m / tan 2° = 1432 m off, and the others
/// are 25 m from the fix between them.
#[test]
fn a_corner_of_lines_side_by_side_says_nothing_by_hand() {
    let error = error_of([((0.0, 0.0), 0.0), ((0.0, 0.0), 90.0), ((50.0, 0.0), 2.0)], 1);
    assert!((error - 25.0).abs() < 0.5, "{error}");
}

/// Three lines at 12° from one another, the middle one 20 m beside the crossing of the others: the fix is 20 m / (2 cos² 12° + 1) =
/// 6.9 m from that crossing, and the far corners 20 m × (4.7046² + 0.6568²)^½ = 95.0 m off. None cuts well, and so all of them count.
#[test]
fn where_no_cut_is_good_the_widest_count_by_hand() {
    let aside = 12_f64.to_radians();
    let middle = (20.0 * aside.cos(), -20.0 * aside.sin());
    let error = error_of([((0.0, 0.0), 0.0), (middle, 12.0), ((0.0, 0.0), 24.0)], 0);
    assert!((error - 95.0).abs() < 2.0, "{error}");
}

/// The farthest that a fix goes, beside every fix of bearings that are off by as much, one way or the other.
fn farthest_of_all(sights: &[Sight], at: Position, degrees: f64) -> f64 {
    let ways = 0..1_u32 << sights.len();
    let moved = ways.map(|ways| {
        let off = |(index, sight): (usize, &Sight)| {
            let sign = if ways >> index & 1 == 1 { degrees } else { -degrees };
            Sight { bearing: sight.bearing.turned(Turn::from_degrees(sign).unwrap()), ..*sight }
        };
        let sights: Vec<Sight> = sights.iter().enumerate().map(off).collect();
        geodesic::inverse(at, fix(&sights).unwrap().position).distance.as_metres()
    });
    moved.fold(0.0, f64::max)
}

#[test]
fn how_far_errors_lead_by_hand() {
    let three = Turn::from_degrees(3.0).unwrap();
    // A narrow cut of 30°, marks 2 km off: each line 105 m aside, the long diagonal of the rhomboid 105 / sin 15°.
    let here = at(57.0, -2.0);
    let narrow = reach(&seen(here, &[(0.0, 2000.0), (30.0, 2000.0)]), here, three).unwrap();
    let aside = 2000.0 * 3_f64.to_radians();
    assert!((narrow.by.as_metres() - aside / 15_f64.to_radians().sin()).abs() < 0.5);
    // The long diagonal lies along the middle of the bearings.
    let along = narrow.along.as_degrees().rem_euclid(180.0);
    assert!((along - 15.0).abs() < 0.1, "{along}");
    // A third mark does not make it worse, and nothing off leads nowhere.
    let third = seen(here, &[(0.0, 2000.0), (30.0, 2000.0), (105.0, 2000.0)]);
    assert!(reach(&third, here, three).unwrap().by < narrow.by);
    let none = Turn::from_degrees(0.0).unwrap();
    assert_eq!(reach(&third, here, none).unwrap().by, Length::ZERO);
    assert_eq!(reach(&third[..1], here, three), Err(FixError::TooFew(1)));
    assert!(matches!(reach(&[third[0]; 2], here, three), Err(FixError::Parallel(_))));
}

proptest! {
    /// A tenth of a degree, where lines are straight to a thousandth or so, beside the fixes themselves.
    #[test]
    fn no_error_leads_farther(
        first in 0.0..360.0f64,
        turns in prop::collection::vec(30.0..75.0f64, 4),
        distances in prop::collection::vec(300.0..8_000.0f64, 4),
        count in 2usize..5,
    ) {
        let place = at(57.0, -2.0);
        let bearings = turns.iter().scan(first, |bearing, turn| {
            *bearing += turn;
            Some(*bearing)
        });
        let marks: Vec<(f64, f64)> = bearings.zip(distances).take(count).collect();
        let sights = seen(place, &marks);
        let said = reach(&sights, place, Turn::from_degrees(0.1).unwrap()).unwrap().by.as_metres();
        let found = farthest_of_all(&sights, place, 0.1);
        prop_assert!((said / found - 1.0).abs() < 0.02, "{said} {found}");
    }
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
