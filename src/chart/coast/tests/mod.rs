//! Queries on small coasts, by hand.

use super::*;
use crate::Point;

fn p(x: f64, y: f64) -> Point {
    Point { x: 500_000.0 + x, y: 6_300_000.0 + y }
}

fn points(pairs: &[(f64, f64)]) -> Vec<Point> {
    pairs.iter().map(|&(x, y)| p(x, y)).collect()
}

/// A square island of 100 m with a lake of 20 m, a triangle beside it, and an open shore.
fn coast() -> Coast {
    let mut builder = Builder::new(nav::Grid::parse("UTM:30N").unwrap());
    let square = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)];
    builder.line(LineKind::Land, 0, "Square", points(&square));
    let lake = [(40.0, 40.0), (60.0, 40.0), (60.0, 60.0), (40.0, 60.0)];
    builder.line(LineKind::Lake, 0, "", points(&lake));
    builder.line(LineKind::Land, 1, "Peak", points(&[(200.0, 0.0), (220.0, 0.0), (210.0, 20.0)]));
    builder.line(LineKind::Open, 0, "", points(&[(0.0, 300.0), (50.0, 310.0), (100.0, 300.0)]));
    builder.finish()
}

#[test]
fn lines_and_their_lengths() {
    let coast = coast();
    assert_eq!((coast.lines().len(), coast.vertices()), (4, 4 + 4 + 3 + 3));
    let square = coast.lines().find(|line| line.name() == "Square").unwrap();
    assert_eq!((square.sides(), square.vertices(), square.is_closed()), (4, 4, true));
    assert_eq!(square.side(3), [p(0.0, 100.0), p(0.0, 0.0)]);
    // The grid's scale on the central meridian is 0.9996.
    let ground = |metres: f64| metres / 0.9996;
    assert!((square.length().as_metres() - ground(400.0)).abs() < 1e-3);
    let along = square.length_to(&square.place(2, 0.25)).as_metres();
    assert!((along - ground(225.0)).abs() < 1e-3, "{along}");
    assert_eq!(square.place(3, 1.0), square.place(0, 0.0), "a vertex has one name");
}

#[test]
fn the_nearest_shore() {
    let coast = coast();
    let near = coast.nearest(p(-30.0, 50.0), f64::INFINITY).unwrap();
    assert_eq!((near.distance, near.on.at, near.on.side), (30.0, p(0.0, 50.0), 3));
    let corner = coast.nearest(p(-3.0, -4.0), 5.0).unwrap();
    assert_eq!((corner.distance, corner.on.side, corner.on.part), (5.0, 0, 0.0));
    assert_eq!(coast.nearest(p(-3.0, -4.0), 4.9), None);
    assert_eq!(coast.nearest(p(f64::NAN, 0.0), f64::INFINITY), None);
}

#[test]
fn legs_and_the_shore() {
    let coast = coast();
    let (a, b) = (p(-50.0, 50.0), p(150.0, 50.0));
    let xs: Vec<f64> = coast.crossings(a, b).iter().map(|t| t.on.at.x - 500_000.0).collect();
    assert_eq!(xs, [0.0, 40.0, 60.0, 100.0]);
    assert_eq!(coast.first_touch(a, b).unwrap().fraction, 0.25);
    assert!(!coast.touches(p(-50.0, -1.0), p(150.0, -1.0)));
    let close = coast.clearance(p(-50.0, -10.0), p(150.0, -10.0), 50.0).unwrap();
    assert_eq!((close.distance, close.on.at), (10.0, p(0.0, 0.0)));
    assert_eq!(coast.clearance(p(-50.0, -60.0), p(150.0, -60.0), 50.0), None);
    let bent = [p(-50.0, -5.0), p(150.0, -5.0), p(150.0, 50.0), p(50.0, 50.0)];
    let touch = coast.first_touch_along(&bent).unwrap();
    assert_eq!((touch.stretch, touch.fraction, touch.on.at), (2, 0.5, p(100.0, 50.0)));
}

#[test]
fn what_is_land() {
    let coast = coast();
    let square = coast.lines().find(|line| line.name() == "Square").unwrap().id();
    assert_eq!(coast.ashore(p(10.0, 10.0)), Ashore::Land(square));
    assert_eq!(coast.ashore(p(50.0, 50.0)), Ashore::Water, "a lake");
    assert_eq!(coast.ashore(p(100.0, 50.0)), Ashore::Shore(square));
    assert_eq!(coast.ashore(p(-10.0, 0.0)), Ashore::Water);
    assert!(!coast.on_land(p(50.0, 305.0)), "an open shore encloses nothing");
}

mod cases;
mod parts;
mod plain;
mod properties;
