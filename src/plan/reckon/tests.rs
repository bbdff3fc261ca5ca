//! Routes whose figures are known.

use jiff::civil::date;
use jiff::tz::{Offset, TimeZone};
use nav::Speed;
use proptest::prelude::*;

mod along;

use super::*;
use crate::testing::{any_position, any_route};
use crate::{Departure, Document, Edit, Waypoint};

fn utm() -> Grid {
    Grid::parse("UTM:30N").unwrap()
}

fn at(lat: f64, lon: f64) -> Position {
    Position::from_degrees(lat, lon).unwrap()
}

/// A route at sea off nowhere in particular, leaving at 9:30 two hours behind UTC.
fn route(points: &[(f64, f64)]) -> Route {
    let departs = date(2026, 6, 14).at(9, 30, 0, 0);
    let zone = TimeZone::fixed(Offset::from_hours(-2).unwrap());
    Route {
        points: points.iter().map(|&(lat, lon)| Waypoint::new(at(lat, lon))).collect(),
        departure: Some(Departure::new(departs, zone).unwrap()),
        ..Route::new("C")
    }
}

#[test]
fn nothing_is_reckoned_from_nothing() {
    for points in [&[][..], &[(57.0, -2.0)]] {
        let reckoning = reckon(&route(points), &utm());
        assert_eq!(reckoning.legs, []);
        assert_eq!(reckoning.elapsed, Some(SignedDuration::ZERO));
        assert_eq!(reckoning.warnings, []);
    }
}

#[test]
fn a_leg_takes_the_time_of_the_published_table() {
    // Rows of table 11, Speed, time and distance, of NGA Pub. 9, The American Practical Navigator
    // (2024), volume II: minutes, knots, miles; printed to 0.1 mile, ties unevenly, so ±0.051.
    for (minutes, knots, miles) in
        [(60, 12.0, 12.0), (45, 8.5, 6.4), (50, 0.5, 0.4), (6, 3.5, 0.4), (16, 10.0, 2.7)]
    {
        let grid = utm();
        let frame = Frame {
            pace: Pace::new(Speed::from_knots(knots).unwrap(), nav::PaceUnit::Knots),
            ..Frame::of(&route(&[]), &grid)
        };
        let start = at(57.0, -2.0);
        let east = nav::Bearing::from_degrees(90.0).unwrap();
        let end = nav::rhumb::direct(start, east, miles * Length::NAUTICAL_MILE).unwrap();
        let time = lay(start, end, &frame).time.unwrap().as_secs_f64() / 60.0;
        let tolerance = 0.051 / knots * 60.0;
        assert!((time - f64::from(minutes)).abs() <= tolerance, "{miles} NM at {knots} kn: {time}");
    }
}

#[test]
fn stops_delay_what_comes_after_and_the_day_ends_with_the_last_leg() {
    let mut route = route(&[(57.0, -2.0), (57.05, -2.0), (57.1, -2.0)]);
    for point in &mut route.points {
        point.stop = SignedDuration::from_mins(20);
    }
    let reckoning = reckon(&route, &utm());
    let [first, second] = &reckoning.legs[..] else { panic!("two legs") };
    let (first, second) = (first.time.unwrap(), second.time.unwrap());
    assert_eq!(reckoning.stops, SignedDuration::from_mins(20));
    assert_eq!(reckoning.under_way, Some(first + second));
    assert_eq!(reckoning.elapsed, Some(first + SignedDuration::from_mins(20) + second));
    // 0.05° of latitude at 57° is 3.005 miles: an hour and six seconds at 3 knots.
    let clock = |moment: Option<ZonedDateTime>| nav::text::clock(&moment.unwrap());
    assert_eq!(clock(reckoning.points[0].arrives.clone()), "09:30");
    assert_eq!(clock(reckoning.departs(0)), "09:30");
    assert_eq!(clock(reckoning.points[1].arrives.clone()), "10:30");
    assert_eq!(clock(reckoning.departs(1)), "10:50");
    assert_eq!(clock(reckoning.points[2].arrives.clone()), "11:50");
    assert_eq!(reckoning.points[2].stop, SignedDuration::ZERO);
}

#[test]
fn grid_and_magnetic_bearings_come_from_the_middle_of_the_leg() {
    let reckoning = reckon(&route(&[(57.0, -2.2), (57.1, -1.8)]), &utm());
    let leg = &reckoning.legs[0];
    let bearings = leg.bearings.unwrap();
    let middle = utm().forward(at(57.05, -2.0)).unwrap();
    let turned = bearings.from_true.as_degrees() - bearings.from_grid.unwrap().as_degrees();
    // The middle of a rhumb line of 27 km is its mean in latitude and longitude to some 30 m,
    // which turns the grid by less than 0.0005°.
    assert!((turned - middle.convergence.as_degrees_east()).abs() < 5e-4, "{turned}");
    let variation = leg.variation.as_ref().unwrap().variation;
    assert_eq!(bearings.from_magnetic, Some(bearings.from_true.to_magnetic(variation)));
    // WMM2025 for 57°N 2°W in mid-2026 has magnetic north within a degree or two of true north.
    assert!(variation.as_degrees_east().abs() < 2.0, "{variation}");
}

#[test]
fn two_points_in_one_place_have_no_bearing() {
    let leg = lay(at(57.0, -2.0), at(57.0, -2.000_000_000_1), &Frame::of(&route(&[]), &utm()));
    assert_eq!((leg.distance, leg.bearings), (Length::ZERO, None));
    assert_eq!(leg.time, Some(SignedDuration::ZERO));
}

#[test]
fn warnings_come_once_and_in_words() {
    let far = route(&[(1.0, 80.0), (2.0, 81.0), (57.2, -2.0)]);
    let said = |route: &Route| -> Vec<String> {
        reckon(route, &utm()).warnings.iter().map(ToString::to_string).collect()
    };
    let [only] = &said(&far)[..] else { panic!("{:?}", said(&far)) };
    assert!(only.starts_with("point 1 and 1 more have no grid reference: "), "{only}");
    let leg = &reckon(&far, &utm()).legs[0];
    assert!(leg.convergence.is_err() && leg.bearings.unwrap().from_grid.is_none());

    let undated = Route { departure: None, ..route(&[(57.0, -2.0), (57.1, -2.0)]) };
    assert_eq!(
        said(&undated),
        ["no departure is set: no clock times, and no magnetic bearings without a date"]
    );
    let leg = &reckon(&undated, &utm()).legs[0];
    assert!(leg.variation.is_none() && leg.bearings.unwrap().from_magnetic.is_none());

    let late = date(2031, 6, 14).at(9, 30, 0, 0);
    let late = Route {
        departure: Some(Departure::new(late, TimeZone::UTC).unwrap()),
        ..route(&[(57.0, -2.0), (57.1, -2.0), (57.0, -2.0)])
    };
    let [only] = &said(&late)[..] else { panic!("{:?}", said(&late)) };
    assert!(only.starts_with("from leg 1: 2031.4 is outside the years"), "{only}");
}

/// A traced leg turned about has its stretches turned about, to the last bit.
fn turned_about(there: Option<&Traced>, back: Option<&Traced>) -> Result<(), TestCaseError> {
    prop_assert_eq!(there.is_some(), back.is_some());
    let Some((there, back)) = there.zip(back) else { return Ok(()) };
    prop_assert_eq!(there.straight, back.straight);
    prop_assert_eq!(there.stretches.len(), back.stretches.len());
    for (there, back) in there.stretches.iter().zip(back.stretches.iter().rev()) {
        prop_assert_eq!((there.from, there.to), (back.to, back.from));
        prop_assert_eq!((there.distance, there.strays), (back.distance, back.strays));
        let back = back.bearings.map(Bearings::back);
        prop_assert_eq!(there.bearings.is_some(), back.is_some());
        let (Some(there), Some(back)) = (there.bearings, back) else { continue };
        prop_assert!(there.from_true.turn_to(back.from_true).as_degrees().abs() < 1.2e-13);
    }
    Ok(())
}

proptest! {
    /// A point put on the corner of a grid square keeps its reference when it becomes a waypoint.
    #[test]
    fn a_point_on_a_grid_line_keeps_its_reference(e in 2000i32..8000, n in 55_000i32..68_000) {
        let corner = nav::GridPoint::from_metres(f64::from(e) * 100.0, f64::from(n) * 100.0).unwrap();
        let position = utm().inverse(corner).unwrap().position;
        let dropped = utm().forward(crate::rounded(position)).unwrap().point;
        let reference = |point| utm().reference(point, nav::Figures::Six).unwrap();
        prop_assert_eq!(reference(dropped), reference(corner));
    }

    /// Reversing a route reverses its legs: the lengths to the last bit, the bearings within the
    /// rounding of a sum of half a turn (two units in the last place of 360, 1.2e-13).
    #[test]
    fn a_route_turned_about_has_its_legs_turned_about(route in any_route()) {
        let mut document = Document::new(route.clone()).unwrap();
        document.apply(Edit::Reverse).unwrap();
        let there = reckon(&route, &utm());
        let mut back = reckon(document.route(), &utm());
        back.legs.reverse();
        for (there, back) in there.legs.iter().zip(&back.legs) {
            prop_assert_eq!(there.distance, back.distance);
            prop_assert_eq!((there.from, there.to), (back.to, back.from));
            prop_assert_eq!(&there.convergence, &back.convergence);
            prop_assert_eq!(&there.variation, &back.variation);
            turned_about(there.along.as_ref(), back.along.as_ref())?;
            let (Some(there), Some(back)) = (there.bearings, back.bearings) else { continue };
            let back = back.back();
            let near = |turn: nav::Turn| turn.as_degrees().abs() < 1.2e-13;
            prop_assert!(near(there.from_true.turn_to(back.from_true)));
            prop_assert_eq!(there.from_grid.is_some(), back.from_grid.is_some());
            if let (Some(one), Some(other)) = (there.from_grid, back.from_grid) {
                prop_assert!(near(one.turn_to(other)));
            }
            if let (Some(one), Some(other)) = (there.from_magnetic, back.from_magnetic) {
                prop_assert!(near(one.turn_to(other)));
            }
        }
        // A sum taken from the other end differs in its last places.
        let difference = (there.distance - reckon(document.route(), &utm()).distance).as_metres();
        prop_assert!(difference.abs() <= 1e-15 * 8.0 * there.distance.as_metres());
    }

    #[test]
    fn the_leg_under_the_pencil_is_the_leg_once_it_is_dropped(from in any_position(), to in any_position()) {
        let grid = utm();
        let mut drawn = route(&[]);
        drawn.points = vec![Waypoint::new(from), Waypoint::new(to)];
        let pencil = lay(from, to, &Frame::of(&drawn, &grid));
        prop_assert_eq!(&reckon(&drawn, &grid).legs[0], &pencil);
    }
}
