//! Traced legs whose figures are known, or come from an independent library.

use geographiclib_rs::{Geodesic, InverseGeodesic};
use proptest::collection::vec;

use super::*;
use crate::testing::any_along;
use crate::{Along, Line};

/// A leg along these positions, the first and the last its ends.
fn along(line: &[Position]) -> (Position, Position, Along) {
    let [from, between @ .., to] = line else { panic!("two ends") };
    let between = Line::new(between.iter().copied()).unwrap();
    (*from, *to, Along::new(between, &[], Length::ZERO, Length::ZERO))
}

fn lay_on(line: &[Position]) -> LegReading {
    let (from, to, along) = along(line);
    lay_along(from, to, &along, &Frame::of(&route(&[]), &utm()))
}

/// The same length by the library that the general method of geodesics comes from, side by side.
fn by_library(line: &[Position]) -> f64 {
    let wgs84 = Geodesic::wgs84();
    let degrees = |at: Position| (at.lat.as_degrees(), at.lon.as_degrees());
    let sides = line.windows(2).map(|side| {
        let ((lat1, lon1), (lat2, lon2)) = (degrees(side[0]), degrees(side[1]));
        let metres: f64 = wgs84.inverse(lat1, lon1, lat2, lon2);
        metres
    });
    sides.sum()
}

/// A walk from a place by small steps.
fn any_walk() -> impl Strategy<Value = Vec<Position>> {
    let steps = vec((-0.002..0.002, -0.003..0.003), 1..300);
    (-80.0..80.0, -180.0..180.0, steps).prop_map(
        |(lat, lon, steps): (f64, f64, Vec<(f64, f64)>)| {
            let start = crate::rounded(at(lat, lon));
            let walk = steps.into_iter().scan((lat, lon), |(lat, lon), (north, east)| {
                (*lat, *lon) = (*lat + north, *lon + east);
                let lon = nav::Longitude::wrapping(*lon).unwrap();
                Some(crate::rounded(at(*lat, lon.as_degrees())))
            });
            std::iter::once(start).chain(walk).collect()
        },
    )
}

#[test]
fn a_line_round_a_corner_is_two_stretches() {
    let north = (0..=10).map(|step| at(57.0 + 0.001 * f64::from(step), -3.0));
    let east = (1..=10).map(|step| at(57.01, -3.0 + 0.002 * f64::from(step)));
    let leg = lay_on(&north.chain(east).collect::<Vec<_>>());
    let read = leg.along.as_ref().unwrap();
    let bearings: Vec<f64> =
        read.stretches.iter().map(|s| s.bearings.unwrap().from_true.as_degrees()).collect();
    assert!(
        matches!(bearings[..], [north, east] if north < 1e-9 && (east - 90.0).abs() < 1e-9),
        "{bearings:?}"
    );
    assert_eq!(leg.bearings, None);
    // By hand from the radii of the ellipsoid: at 57.005° that of the meridian is 6,380.454 km, so that
    // 0.01° is 1,113.60 m; at 57.01° that of the parallel is 3,481.057 km, and 0.02° 1,215.12 m.
    let [first, last] =
        [read.first().unwrap(), read.last().unwrap()].map(|s| s.distance.as_metres());
    assert!((first - 1113.60).abs() < 0.01 && (last - 1215.12).abs() < 0.01, "{first} {last}");
    let times = leg.times_longer().unwrap();
    assert!((times - 2328.72 / 1113.60_f64.hypot(1215.12)).abs() < 1e-3, "{times}");
    // Three knots, by hand: 2,328.72 m in 25 min 8.9 s.
    assert_eq!(leg.time.unwrap().as_secs(), 1508);
}

#[test]
fn a_straight_line_is_one_stretch_that_it_does_not_stray_from() {
    let line: Vec<Position> = (0..50).map(|step| at(57.0 + 0.01 * f64::from(step), -3.0)).collect();
    let leg = lay_on(&line);
    let read = leg.along.as_ref().unwrap();
    assert_eq!(read.stretches.len(), 1);
    assert!(read.stretches[0].strays < 1e-6 * Length::METRE);
    assert!((leg.times_longer().unwrap() - 1.0).abs() < 1e-12);
}

#[test]
fn a_whole_round_ends_where_it_starts() {
    let corners = [(57.0, -3.0), (57.01, -3.0), (57.01, -2.98), (57.0, -2.98), (57.0, -3.0)];
    let leg = lay_on(&corners.map(|(lat, lon)| at(lat, lon)));
    let read = leg.along.as_ref().unwrap();
    assert_eq!((read.straight, leg.times_longer()), (Length::ZERO, None));
    assert_eq!(read.stretches.len(), 4);
    assert!(leg.distance > 4.6 * Length::KILOMETRE);
}

#[test]
fn a_ragged_line_is_read_in_six_stretches_at_most() {
    let zigzag = |step: i32| at(57.0 + 0.02 * f64::from(step % 2), -3.0 + 0.01 * f64::from(step));
    let line: Vec<Position> = (0..40).map(zigzag).collect();
    let read = lay_on(&line).along.unwrap();
    assert_eq!(read.stretches.len(), 6);
    assert!(read.stretches.iter().any(|stretch| stretch.strays > Length::KILOMETRE));
}

#[test]
fn points_all_in_one_place_make_no_length_and_no_bearing() {
    let leg = lay_on(&[at(57.0, -3.0); 4]);
    assert_eq!((leg.distance, leg.time), (Length::ZERO, Some(SignedDuration::ZERO)));
    assert_eq!(leg.along.unwrap().first().unwrap().bearings, None);
}

proptest! {
    #[test]
    fn a_traced_leg_is_as_long_as_its_line(line in any_walk()) {
        let leg = lay_on(&line);
        let metres = leg.distance.as_metres();
        // Twenty nanometres a side.
        prop_assert!((metres - by_library(&line)).abs() < 3e-8 * line.len() as f64, "{}", metres);
        prop_assert_eq!(leg.time, route(&[]).pace.time_for(leg.distance));
        prop_assert!(leg.times_longer().is_none_or(|times| times > 1.0 - 1e-9));
    }

    /// Stretches lead from vertex to vertex of the line, each from the end of the one before, and no
    /// vertex is farther off its stretch than is said. Held by geodesics: the area of a triangle over its
    /// base, with sides by Heron's formula, is good to a part in a hundred on walks of this size.
    #[test]
    fn stretches_follow_one_another_and_say_how_far_the_line_strays(line in any_walk()) {
        let leg = lay_on(&line);
        let stretches = leg.along.unwrap().stretches;
        prop_assert_eq!((stretches[0].from, stretches[stretches.len() - 1].to), (leg.from, leg.to));
        let mut rest = &line[..];
        for stretch in &stretches {
            prop_assert_eq!(rest.first(), Some(&stretch.from));
            let bound = stretch.strays.as_metres() * 1.02 + 0.1;
            let fits = |&end: &usize| {
                rest[end] == stretch.to && (by_library(&rest[..=end]) - stretch.distance.as_metres()).abs() < 1e-3
            };
            let end = (0..rest.len()).find(fits).unwrap();
            for vertex in &rest[..=end] {
                prop_assert!(off(*vertex, stretch.from, stretch.to) < bound);
            }
            rest = &rest[end..];
        }
        prop_assert_eq!(rest.len(), 1);
        let strays = stretches.iter().map(|stretch| stretch.strays / leg.distance);
        prop_assert!(stretches.len() == 6 || strays.fold(0.0, f64::max) < 1.05 / 40.0);
    }

    #[test]
    fn the_traced_leg_under_the_pencil_is_the_leg_once_it_is_dropped(
        from in any_position(), to in any_position(), along in any_along()
    ) {
        let grid = utm();
        let mut drawn = route(&[]);
        drawn.points = vec![Waypoint::new(from), Waypoint::new(to).reached(along.clone())];
        let pencil = lay_along(from, to, &along, &Frame::of(&drawn, &grid));
        prop_assert_eq!(&reckon(&drawn, &grid).legs[0], &pencil);
        // What a line remembers of its measures is of these ends alone.
        let afresh = Along { line: Line::new(along.line.iter().copied()).unwrap(), ..along.clone() };
        let frame = Frame::of(&drawn, &grid);
        prop_assert_eq!(lay_along(to, from, &along, &frame), lay_along(to, from, &afresh, &frame));
    }
}

/// How far a point is from the line between two others, in metres.
fn off(point: Position, from: Position, to: Position) -> f64 {
    let [a, b, base] =
        [by_library(&[from, point]), by_library(&[point, to]), by_library(&[from, to])];
    if base < 1e-3 || a * a > b * b + base * base || b * b > a * a + base * base {
        return a.min(b);
    }
    let half = f64::midpoint(a, b + base);
    let area = half * (half - a) * (half - b) * (half - base);
    2.0 * area.max(0.0).sqrt() / base
}
