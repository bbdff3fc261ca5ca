//! Closed forms: a stream that is the same everywhere and at all times.

use nav::{Bearing, Length};
use proptest::prelude::*;

use super::lone::Lone;
use super::practice::instant;
use crate::passage::{Passage, PassageWarning};
use crate::{Edit, Route, Steering, Weather};

const KNOT: f64 = 1852.0 / 3600.0;

/// Its time in seconds, against what is expected to a tenth of a millisecond, which is what instants and
/// lengths of this size are good to.
fn takes(passage: &Passage, seconds: f64) {
    let time = passage.time().unwrap().as_secs_f64();
    assert!((time - seconds).abs() < 1e-4, "{time} {seconds}");
}

fn length(route: &Route) -> f64 {
    let [from, to] = route.points.as_slice() else { panic!() };
    nav::rhumb::inverse(from.at, to.at).distance.as_metres()
}

/// The true bearing of a route's first leg.
fn bearing(route: &Route) -> f64 {
    nav::rhumb::inverse(route.points[0].at, route.points[1].at).bearing.as_degrees()
}

fn on_one_heading(mut route: Route) -> Route {
    route.points[1].steer = Steering::OneHeading;
    route
}

#[test]
fn with_against_and_across_an_even_stream() {
    let departs = instant("2026-06-14T09:00Z");
    let still = Lone::steady(0.0, 0.0);
    let route = still.route(&[(-2_000.0, -500.0), (2_500.0, 1_000.0)], "3 kn");
    let (metres, track) = (length(&route), bearing(&route));
    takes(&still.passage(&route, departs, 0), metres / (3.0 * KNOT));
    for (turn, seconds) in [
        (0.0, metres / ((3.0 + 1.25) * KNOT)),
        (180.0, metres / ((3.0 - 1.25) * KNOT)),
        (90.0, metres / ((9.0_f64 - 1.25 * 1.25).sqrt() * KNOT)),
    ] {
        let lone = Lone::steady((track + turn) % 360.0, 1.25);
        let held = lone.passage(&route, departs, 0);
        takes(&held, seconds);
        // Where the stream is the same all the way, one heading holds the line.
        takes(&lone.passage(&on_one_heading(route.clone()), departs, 0), seconds);
        let leg = &held.legs[0];
        let expected =
            if turn == 90.0 { track - (1.25_f64 / 3.0).asin().to_degrees() } else { track };
        let mean = leg.headings.unwrap().mean.unwrap().from_true;
        let off = mean.turn_to(Bearing::from_degrees(expected).unwrap()).as_degrees();
        assert!(off.abs() < 1e-6, "{turn}: {mean:?} {expected}");
        let mean = leg.sums.mean().unwrap();
        assert!((mean.drift.as_knots() - 1.25).abs() < 1e-6);
        let through = leg.sums.through_water.as_metres();
        assert!((through - seconds * 3.0 * KNOT).abs() < 1e-3, "{through}");
    }
}

#[test]
fn what_is_beyond_the_station_is_still_water_and_said() {
    let lone = Lone::steady(90.0, 1.0);
    // A reach of 5 km each way, and what is beyond it.
    let route = lone.route(&[(-8_000.0, 0.0), (8_000.0, 0.0)], "3 kn");
    let passage = lone.passage(&route, instant("2026-06-14T09:00Z"), 0);
    let leg = &passage.legs[0];
    let unknown = leg.sums.length_without_data.as_metres();
    let metres = length(&route);
    // To half of the least stretch at either brink.
    assert!((unknown - (metres - 10_000.0)).abs() < 4.0, "{unknown}");
    let time = unknown / (3.0 * KNOT) + (metres - unknown) / (4.0 * KNOT);
    // The track is not quite along the stream: by less than half a degree, on the grid.
    assert!((passage.time().unwrap().as_secs_f64() - time).abs() < 2.0);
    let said = passage.warnings.iter().any(|warning| {
        matches!(warning, PassageWarning::NoData { length, .. } if length.as_metres() == unknown)
    });
    assert!(said, "{:?}", passage.warnings);
}

#[test]
fn the_wind_pushes_as_a_stream_does() {
    let departs = instant("2026-06-14T09:00Z");
    let still = Lone::steady(0.0, 0.0);
    let mut route = still.route(&[(-2_000.0, -500.0), (2_500.0, 1_000.0)], "3 kn");
    let (metres, track) = (length(&route), bearing(&route).round());
    // From ahead, but for the rounding of the wind to tenths: 3% of 10 kn.
    let from = Bearing::from_degrees(track).unwrap();
    let wind = nav::leeway::Wind { from, speed: nav::Speed::from_knots(10.0).unwrap() };
    let mut document = crate::Document::new(route.clone()).unwrap();
    document.apply(Edit::SetWind(Some(Weather::of(wind)))).unwrap();
    route = document.route().clone();
    let across = 0.3 * (track - bearing(&route)).to_radians().sin();
    let along = 0.3 * (track - bearing(&route)).to_radians().cos();
    let passage = still.passage(&route, departs, 0);
    takes(&passage, metres / (((9.0 - across * across).sqrt() - along) * KNOT));
    assert!(passage.warnings.iter().any(|it| matches!(it, PassageWarning::Leeway(_))));
    document.undo();
    assert_eq!(document.route().wind, None);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Through the whole chain, with a stream that sets any way: √(v² - c²) + a along the line.
    #[test]
    fn an_even_stream_of_any_set(set in 0.0..360.0, rate in 0.0..2.4, ends in [(-3000.0..3000.0, -3000.0..3000.0), (-3000.0..3000.0, -3000.0..3000.0)]) {
        let lone = Lone::steady(set, rate);
        let route = lone.route(&ends, "3 kn");
        prop_assume!(length(&route) > 300.0);
        let turn = (set - bearing(&route)).to_radians();
        let (across, along) = (rate * turn.sin(), rate * turn.cos());
        let speed = (9.0 - across * across).sqrt() + along;
        let passage = lone.passage(&route, instant("2026-06-14T09:00Z"), 0);
        let time = passage.time().unwrap().as_secs_f64();
        prop_assert!((time - length(&route) / (speed * KNOT)).abs() < 1e-3);
        prop_assert!(passage.sums().length_without_data < Length::METRE);
        let crossing = lone.passage(&on_one_heading(route.clone()), instant("2026-06-14T09:00Z"), 0);
        prop_assert!((crossing.time().unwrap().as_secs_f64() - time).abs() < 1e-2);
    }

    /// Twice the rate of nothing is nothing: in still water a stream's direction changes nothing.
    #[test]
    fn still_water_is_still_whichever_way_it_sets(set in 0.0..360.0) {
        let lone = Lone::steady(set, 0.0);
        let route = lone.route(&[(-2000.0, 0.0), (1000.0, 800.0)], "3 kn");
        let passage = lone.passage(&route, instant("2026-06-14T09:00Z"), 0);
        prop_assert!((passage.time().unwrap().as_secs_f64() - length(&route) / (3.0 * KNOT)).abs() < 1e-4);
    }
}
