//! Cases that go wrong first: shared vertices, collinear runs, ends on the shore, repeated points,
//! sides of no length.

use super::*;
use rstest::rstest;

/// A square of 10 whose south side has a repeated vertex and two collinear ones; a triangle that
/// shares its corner (10, 10); an open line that runs along the square's north side and beyond; a
/// single rock.
fn coast() -> Coast {
    let mut builder = Builder::new(nav::Grid::parse("UTM:30N").unwrap());
    let square =
        [(0.0, 0.0), (4.0, 0.0), (4.0, 0.0), (6.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)];
    builder.line(LineKind::Land, 0, "square", points(&square));
    builder.line(
        LineKind::Land,
        1,
        "triangle",
        points(&[(10.0, 10.0), (20.0, 10.0), (20.0, 20.0)]),
    );
    builder.line(LineKind::Open, 0, "open", points(&[(2.0, 10.0), (5.0, 10.0), (5.0, 14.0)]));
    builder.line(LineKind::Land, 2, "rock", points(&[(30.0, 0.0)]));
    builder.finish()
}

#[rstest]
#[case("beside everything", (-5.0, -1.0), (40.0, -1.0), &[])]
#[case("through two sides", (-5.0, 5.0), (15.0, 5.0), &[(0.0, 5.0), (10.0, 5.0)])]
#[case("from inside", (5.0, 5.0), (15.0, 5.0), &[(10.0, 5.0)])]
#[case("all inside", (1.0, 1.0), (9.0, 9.0), &[])]
#[case("ends on a side", (5.0, -5.0), (5.0, 0.0), &[(5.0, 0.0)])]
#[case("starts on a side and leaves", (5.0, 0.0), (5.0, -5.0), &[(5.0, 0.0)])]
#[case("ends short of a side", (5.0, -5.0), (5.0, -1e-9), &[])]
#[case("through a repeated vertex", (4.0, -5.0), (4.0, 5.0), &[(4.0, 0.0)])]
#[case("touches a corner", (-5.0, 5.0), (5.0, -5.0), &[(0.0, 0.0)])]
#[case("through the shared corner", (9.0, 11.0), (11.0, 9.0), &[(10.0, 10.0)])]
#[case("along the south side", (-5.0, 0.0), (15.0, 0.0),
    &[(0.0, 0.0), (4.0, 0.0), (6.0, 0.0), (10.0, 0.0)])]
#[case("along part of it", (1.0, 0.0), (2.0, 0.0), &[(1.0, 0.0), (2.0, 0.0)])]
#[case("along it backwards", (5.0, 0.0), (2.0, 0.0), &[(5.0, 0.0), (4.0, 0.0), (2.0, 0.0)])]
#[case("past the rock", (30.0, -5.0), (30.0, 5.0), &[(30.0, 0.0)])]
#[case("a point on the shore", (0.0, 7.0), (0.0, 7.0), &[(0.0, 7.0)])]
#[case("a point at sea", (-1.0, 7.0), (-1.0, 7.0), &[])]
#[case("a point on the rock", (30.0, 0.0), (30.0, 0.0), &[(30.0, 0.0)])]
fn legs(
    #[case] what: &str,
    #[case] from: (f64, f64),
    #[case] to: (f64, f64),
    #[case] wanted: &[(f64, f64)],
) {
    let coast = coast();
    let (a, b) = (p(from.0, from.1), p(to.0, to.1));
    let mut places: Vec<Point> = coast.crossings(a, b).iter().map(|touch| touch.on.at).collect();
    // Two lines that meet there both say so.
    places.dedup();
    assert_eq!(places, points(wanted), "{what}");
    assert_eq!(coast.touches(a, b), !wanted.is_empty(), "{what}");
    assert_eq!(coast.first_touch(a, b).map(|touch| touch.on.at), places.first().copied(), "{what}");
    let clearance = coast.clearance(a, b, f64::INFINITY).unwrap();
    assert_eq!(clearance.distance == 0.0, !wanted.is_empty(), "{what}");
}

#[test]
fn a_leg_along_two_shores_at_once() {
    let coast = coast();
    let touches = coast.crossings(p(1.0, 10.0), p(6.0, 10.0));
    let names: Vec<(&str, Point)> =
        touches.iter().map(|t| (coast.line(t.on.line).unwrap().name(), t.on.at)).collect();
    assert_eq!(names.iter().filter(|(name, _)| *name == "square").count(), 2);
    let open: Vec<Point> =
        names.iter().filter(|(name, _)| *name == "open").map(|(_, at)| *at).collect();
    assert_eq!(open, points(&[(2.0, 10.0), (5.0, 10.0)]));
}

#[rstest]
#[case("inside", (5.0, 5.0), true)]
#[case("outside beside a corner's ray", (-5.0, 10.0), false)]
#[case("on a side", (0.0, 5.0), true)]
#[case("on a collinear vertex", (6.0, 0.0), true)]
#[case("on the shared corner", (10.0, 10.0), true)]
#[case("on an open line", (5.0, 12.0), true)]
#[case("beside an open line", (4.0, 12.0), false)]
#[case("on the rock", (30.0, 0.0), true)]
#[case("beside the rock", (30.0, 1e-9), false)]
#[case("in the gap under the triangle", (15.0, 9.0), false)]
#[case("in line with the south side", (-5.0, 0.0), false)]
fn land(#[case] what: &str, #[case] at: (f64, f64), #[case] wanted: bool) {
    let at = p(at.0, at.1);
    assert_eq!(coast().on_land(at), wanted, "{what}");
    assert_eq!(coast().ashore(at) != Ashore::Water, wanted, "{what}");
}

#[test]
fn an_island_in_a_lake_and_two_that_overlap() {
    let square =
        |low: f64, high: f64| points(&[(low, low), (high, low), (high, high), (low, high)]);
    let mut builder = Builder::new(nav::Grid::parse("UTM:30N").unwrap());
    builder.line(LineKind::Land, 0, "main", square(0.0, 100.0));
    builder.line(LineKind::Lake, 0, "", square(20.0, 80.0));
    builder.line(LineKind::Land, 1, "inner", square(40.0, 60.0));
    builder.line(LineKind::Land, 2, "over", square(90.0, 120.0));
    let coast = builder.finish();
    let name = |x: f64| match coast.ashore(p(x, x)) {
        Ashore::Land(line) => coast.line(line).unwrap().name(),
        _ => "water",
    };
    assert_eq!(name(10.0), "main");
    assert_eq!(name(30.0), "water");
    assert_eq!(name(50.0), "inner");
    assert_ne!(name(95.0), "water", "within both");
    assert_eq!(name(110.0), "over");
}

#[test]
fn both_lobes_of_a_figure_of_eight_are_land() {
    let mut builder = Builder::new(nav::Grid::parse("UTM:30N").unwrap());
    builder.line(
        LineKind::Land,
        0,
        "",
        points(&[(0.0, 0.0), (10.0, 10.0), (10.0, 0.0), (0.0, 10.0)]),
    );
    let coast = builder.finish();
    assert!(coast.on_land(p(1.0, 5.0)) && coast.on_land(p(9.0, 5.0)));
    assert!(!coast.on_land(p(5.0, 1.0)) && !coast.on_land(p(5.0, 9.0)));
}

#[test]
fn an_empty_coast_answers_with_nothing() {
    let coast = Builder::new(nav::Grid::parse("UTM:30N").unwrap()).finish();
    let (a, b) = (p(0.0, 0.0), p(10.0, 10.0));
    assert!(coast.is_empty() && coast.nearest(a, f64::INFINITY).is_none());
    assert!(!coast.touches(a, b) && coast.crossings(a, b).is_empty() && !coast.on_land(a));
    assert_eq!(coast.clearance(a, b, f64::INFINITY), None);
    coast.for_runs_in(crate::Extent::new(a, b), |_| panic!("there is none"));
}

#[rstest]
#[case(f64::NAN)]
#[case(f64::INFINITY)]
#[case(1e300)]
fn numbers_out_of_all_bounds(#[case] far: f64) {
    let coast = coast();
    let (a, b) = (Point { x: far, y: 0.0 }, p(5.0, 5.0));
    assert!(!coast.on_land(a));
    let near = coast.nearest(a, f64::INFINITY);
    assert!(near.is_none() || far == 1e300);
    assert_eq!(coast.nearest(b, f64::NAN), None);
    assert_eq!(coast.nearest(b, -1.0), None);
    assert!(coast.touches(a, b) == (far == 1e300));
}
