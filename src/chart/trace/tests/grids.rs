//! Where grids are at their ends: across the 180th meridian, near a pole, and where a metre of the
//! grid is far from one on the ground.

use nav::Position;

use super::super::{Anchor, Laid, Way, Wishes, lay, patient};
use super::held::{afloat, least_distance, simple};
use super::library::length;
use super::off::{main_points, offing};
use crate::Point;
use crate::coast::{Builder, Coast, LineId, LineKind};

fn position(latitude: f64, longitude: f64) -> Position {
    let longitude = if longitude > 180.0 { longitude - 360.0 } else { longitude };
    Position::from_degrees(latitude, longitude).unwrap()
}

/// A ring about a place, of a size in degrees, with a notch in each of its eight bends.
fn island(grid: &str, [latitude, longitude]: [f64; 2], [north, east]: [f64; 2]) -> Coast {
    let grid = nav::Grid::parse(grid).unwrap();
    let ring = (0..240).map(|index| {
        let turn = f64::from(index) / 240.0 * std::f64::consts::TAU;
        let size = 1.0 + 0.2 * (turn * 8.0).sin() + 0.05 * (turn * 40.0).cos();
        let at =
            position(latitude + north * size * turn.sin(), longitude + east * size * turn.cos());
        let point = grid.forward(at).unwrap().point;
        Point { x: point.easting.as_metres(), y: point.northing.as_metres() }
    });
    let mut builder = Builder::new(grid.clone());
    builder.line(LineKind::Land, 0, "", ring);
    builder.finish()
}

fn scale(coast: &Coast, at: Point) -> f64 {
    coast.grid().inverse(nav::GridPoint::from_metres(at.x, at.y).unwrap()).unwrap().scale
}

/// Half round, round, at a stand-off and smoothed.
fn check(coast: &Coast) {
    let line = coast.line(LineId(0)).unwrap();
    let ends = [line.place(230, 0.25), line.place(80, 0.5)].map(Anchor::Shore);
    let laid = |ends: [Anchor; 2], way, wishes| -> Laid {
        lay(coast, &ends.map(|end| (end, way)), wishes, &patient).unwrap()
    };
    let [a, b] = ends;
    let shore = Wishes::default();
    let (one, other) = (laid(ends, Way::Shorter, shore), laid(ends, Way::Longer, shore));
    let round = laid([a, a], Way::Longer, shore);
    assert_eq!((one.points.len(), other.points.len(), round.points.len()), (92, 152, 242));
    let sum = length(&one.points) + length(&other.points);
    assert!((sum - length(&round.points)).abs() < 1e-6 * sum);
    assert!(length(&laid([b, a], Way::Shorter, shore).points) - length(&one.points) < 1e-6);
    for wishes in [
        Wishes { stand_off: 300.0, step: 0.0 },
        Wishes { stand_off: 300.0, step: 2000.0 },
        Wishes { stand_off: 0.0, step: 2000.0 },
    ] {
        for laid in [laid(ends, Way::Shorter, wishes), laid([b, b], Way::Longer, wishes)] {
            let points = main_points(&laid);
            assert_eq!(simple(&points), Ok(()));
            assert_eq!(afloat(coast, &laid.points), Ok(()));
            assert!(!offing(&laid).narrow && !offing(&laid).others);
            if wishes.stand_off > 0.0 {
                held(coast, &points, wishes.stand_off);
            }
        }
    }
}

/// Every part of the line, by the scale at its own place.
fn held(coast: &Coast, points: &[Point], stand_off: f64) {
    let mut least = f64::INFINITY;
    for pair in points.windows(2) {
        let scale = scale(coast, pair[0]);
        let ground = least_distance(coast, pair, 100.0 * scale) / scale;
        assert!(ground >= stand_off * 0.9997, "{ground} of {stand_off} at {:?}", pair[0]);
        least = least.min(ground);
    }
    assert!(least < stand_off * 1.0101, "{least}");
}

#[test]
fn across_the_180th_meridian_on_zones_1_and_60() {
    for grid in ["UTM:1N", "UTM:60N", "UTM:1S", "UTM:60S"] {
        let south = grid.ends_with('S');
        check(&island(grid, [if south { -52.0 } else { 52.0 }, 180.0], [0.1, 0.16]));
    }
}

#[test]
fn near_and_round_a_pole() {
    check(&island("UPS:N", [89.0, 40.0], [0.1, 5.0]));
    check(&island("UPS:S", [-85.0, 180.0], [0.1, 1.2]));
}

#[test]
fn where_a_metre_of_the_grid_is_a_third_of_one_on_the_ground() {
    // Over three degrees of latitude the scale changes by a third.
    check(&island("EPSG:3395", [70.0, 20.0], [1.5, 4.0]));
    check(&island("EPSG:3395", [10.0, 20.0], [0.1, 0.1]));
}
