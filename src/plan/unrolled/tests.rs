//! What a leg passes.

use chart::coast::Coast;
use chart::model::{Ground as Bottom, Land, Landing, Serves};
use chart::water::Tides;
use chart::{Chart, Extent, Point, Ring};
use jiff::{SignedDuration, Timestamp};
use nav::triangle::Stream;
use nav::{Bearing, Grid, GridPoint, Length, Position, Speed, geodesic};
use proptest::prelude::*;

use super::{Ground, Met, REACH, Unrolled, Way};

/// A square island of 2 km in the middle of 20 by 20 km near a meridian where the grid's scale
/// hardly changes lengths, a landing on its west side, one on its east side and one far away.
fn chart() -> Chart {
    let at = |x: f64, y: f64| Point { x: 500_000.0 + x, y: 5_500_000.0 + y };
    let shore = [(-1e3, -1e3), (1e3, -1e3), (1e3, 1e3), (-1e3, 1e3)];
    let land = |corners: [(f64, f64); 4]| Land {
        name: String::new(),
        shore: Ring(corners.map(|(x, y)| at(x, y)).to_vec()),
        lakes: Vec::new(),
    };
    let landing = |name: &str, x, y| Landing {
        name: name.to_owned(),
        at: at(x, y),
        ground: Bottom::Sand,
        serves: Serves::AnyTide,
        note: String::new(),
    };
    Chart {
        grid: Grid::parse("UTM:30N").unwrap(),
        extent: Extent::new(at(-1e4, -1e4), at(1e4, 1e4)),
        land: vec![land(shore)],
        landings: vec![
            landing("East", 1e3, 0.0),
            landing("West", -1e3, 0.0),
            landing("Far", -9e3, 5e3),
        ],
        ports: Vec::new(),
        streams: Vec::new(),
        races: Vec::new(),
        gates: Vec::new(),
        shorelines: Vec::new(),
        drying: Vec::new(),
        depths: Vec::new(),
        hazards: Vec::new(),
        places: Vec::new(),
        marks: Vec::new(),
        ..chart::practice().unwrap()
    }
}

fn position(x: f64, y: f64) -> Position {
    let on_grid = GridPoint::from_metres(500_000.0 + x, 5_500_000.0 + y).unwrap();
    Grid::parse("UTM:30N").unwrap().inverse(on_grid).unwrap().position
}

/// Grid metres on the ground here: UTM's scale on its central meridian is 0.9996.
fn ground(metres: f64) -> f64 {
    metres / 0.9996
}

fn unrolled(line: &[(f64, f64)], places: usize) -> Unrolled {
    let chart = chart();
    let coast = Coast::of(&chart);
    let on = Ground { chart: &chart, coast: &coast, tides: None };
    Unrolled::of(line.iter().map(|(x, y)| position(*x, *y)), &on, places).unwrap()
}

#[test]
fn a_leg_past_an_island_is_nearest_abeam_of_it() {
    let leg = unrolled(&[(-2_000.0, -4_000.0), (-2_000.0, 4_000.0)], 81);
    assert_eq!(leg.places.len(), 81);
    assert!((leg.length.as_metres() - ground(8_000.0)).abs() < 2.0, "{:?}", leg.length);
    let nearest = leg.nearest().unwrap();
    assert!((nearest.off.unwrap().as_metres() - ground(1_000.0)).abs() < 1.0, "{nearest:?}");
    // 3-4-5 triangles from both ends to the corners of the island.
    let ends = [leg.places.first().unwrap(), leg.places.last().unwrap()];
    for end in ends {
        let corner = ground(3_000.0_f64.hypot(1_000.0));
        assert!((end.off.unwrap().as_metres() - corner).abs() < 2.0, "{end:?}");
    }
    assert!(leg.places.iter().all(|place| !place.ashore));
    let farthest = leg.farthest().unwrap();
    assert!((farthest.as_metres() - ground(3_000.0_f64.hypot(1_000.0))).abs() < 2.0);
}

#[test]
fn a_landing_counts_in_sight_and_within_reach_only() {
    let leg = unrolled(&[(-2_000.0, -4_000.0), (-2_000.0, 4_000.0)], 33);
    let [west] = leg.landings.as_slice() else { panic!("{:?}", leg.landings) };
    assert_eq!(
        west.landing, 1,
        "the one behind the island is out of sight, the far one out of reach"
    );
    assert!((west.away.as_metres() - ground(1_000.0)).abs() < 1.0, "{west:?}");
    assert!((west.along.as_metres() - ground(4_000.0)).abs() < 1.0, "{west:?}");
    let wide = unrolled(&[(-4_000.0, -4_000.0), (-4_000.0, 4_000.0)], 33);
    assert!(wide.landings.is_empty(), "farther off than {} m", REACH.as_metres());
}

#[test]
fn a_leg_over_land_is_ashore_where_it_is() {
    let leg = unrolled(&[(-2_000.0, 0.0), (2_000.0, 0.0)], 5);
    let ashore: Vec<bool> = leg.places.iter().map(|place| place.ashore).collect();
    assert!(ashore[2] && !ashore[0] && !ashore[4], "{ashore:?}");
    assert_eq!(leg.places[2].off, Some(Length::ZERO));
    assert_eq!(leg.landings.len(), 2, "both are on the leg itself");
}

#[test]
fn a_traced_leg_is_walked_round_its_corners() {
    let line = [(-2_000.0, -2_000.0), (-2_000.0, 2_000.0), (2_000.0, 2_000.0)];
    let leg = unrolled(&line, 9);
    assert!((leg.length.as_metres() - ground(8_000.0)).abs() < 2.0);
    let corner = &leg.places[4];
    let away = geodesic::inverse(corner.at, position(-2_000.0, 2_000.0)).distance;
    assert!(away.as_metres() < 1.0, "{away:?}");
    let tracks: Vec<i64> =
        leg.places.iter().map(|place| place.track.unwrap().as_degrees().round() as i64).collect();
    assert_eq!(tracks[1] % 360, 0);
    assert_eq!(tracks[6], 90);
    let end = geodesic::inverse(leg.places[8].at, position(2_000.0, 2_000.0)).distance;
    assert!(end.as_metres() < 0.01, "{end:?}");
}

#[test]
fn a_line_needs_two_ends_and_a_leg_without_length_has_no_track() {
    let chart = chart();
    let coast = Coast::of(&chart);
    let on = Ground { chart: &chart, coast: &coast, tides: None };
    assert_eq!(Unrolled::of([position(0.0, 0.0)].into_iter(), &on, 9), None);
    assert_eq!(Unrolled::of(std::iter::empty(), &on, 9), None);
    let still = unrolled(&[(-2_000.0, 0.0), (-2_000.0, 0.0)], 3);
    assert_eq!(still.length, Length::ZERO);
    assert!(still.places.iter().all(|place| place.track.is_none()));
    assert_eq!(unrolled(&[(-2_000.0, 0.0), (-3_000.0, 0.0)], 0).places.len(), 2);
}

#[test]
fn streams_are_those_of_the_chart_at_the_time_of_passing() {
    let chart = chart::practice().unwrap();
    let coast = Coast::of(&chart);
    let tides = Tides::of(&chart).unwrap();
    let station = &tides.stations()[0];
    let at = |dx: f64, dy: f64| {
        let Point { x, y } = station.at() + Point { x: dx, y: dy };
        chart.grid.inverse(GridPoint::from_metres(x, y).unwrap()).unwrap().position
    };
    let on = Ground { chart: &chart, coast: &coast, tides: Some(&tides) };
    let leg = Unrolled::of([at(0.0, 0.0), at(10.0, 20.0)].into_iter(), &on, 3).unwrap();
    let start: Timestamp = "2026-06-14T09:00Z".parse().unwrap();
    let flows = tides.flows(start, start + SignedDuration::from_hours(13)).unwrap();
    for hours in 0..13 {
        let passing = start + SignedDuration::from_hours(hours);
        let met = leg.met(&flows, &[Some(passing); 3]);
        let first = met[0].unwrap();
        assert_eq!(Some(first.stream), flows.at(&Tides::only(0), passing), "{hours} h");
        assert_eq!(Some(first.track), leg.places[0].track);
    }
    assert_eq!(leg.met(&flows, &[None; 3]), vec![None; 3], "no time, no stream");
    let before = start - SignedDuration::from_hours(24 * 30);
    assert_eq!(leg.met(&flows, &[Some(before); 3]), vec![None; 3], "outside what was asked for");
}

#[test]
fn races_and_gates_lie_where_the_leg_meets_them() {
    let chart = chart::practice().unwrap();
    let coast = Coast::of(&chart);
    let tides = Tides::of(&chart).unwrap();
    let on = Ground { chart: &chart, coast: &coast, tides: Some(&tides) };
    let at = |point: Point| {
        chart.grid.inverse(GridPoint::from_metres(point.x, point.y).unwrap()).unwrap().position
    };
    let leg = |a: Point, b: Point| Unrolled::of([at(a), at(b)].into_iter(), &on, 65).unwrap();
    for (index, race) in tides.races().iter().enumerate() {
        let corners = &race.edge().0;
        let (a, b) = (corners[0], corners[corners.len() / 2]);
        let whole: f64 = race.along(a, b).iter().map(|(from, to)| to - from).sum();
        let leg = leg(a, b);
        let met: Vec<_> = leg.races.iter().filter(|it| it.race == index).collect();
        let sum: Length = met.iter().map(|it| it.to - it.from).sum();
        assert!((sum / leg.length - whole).abs() < 0.01, "{}: {met:?}", race.name());
        assert_eq!(met.len(), race.along(a, b).len(), "{}: {met:?}", race.name());
    }
    for (index, gate) in tides.gates().iter().enumerate() {
        let (a, b) = gate.line();
        // Across it, through its middle.
        let (middle, half) = ((a + b) / 2.0, (b - a) / 2.0);
        let aside = Point { x: -half.y, y: half.x };
        let leg = leg(middle - aside, middle + aside);
        let [crossed] = leg.gates.as_slice() else { panic!("{}: {:?}", gate.name(), leg.gates) };
        assert_eq!(crossed.gate, index);
        assert!((crossed.along / leg.length - 0.5).abs() < 0.01, "{crossed:?}");
    }
}

fn met(set: f64, knots: f64, track: f64) -> Met {
    let degrees = |it| Bearing::from_degrees(it).unwrap();
    let stream = Stream { set: degrees(set), drift: Speed::from_knots(knots).unwrap() };
    Met { stream, track: degrees(track) }
}

#[test]
fn a_stream_is_named_by_its_greater_part() {
    assert_eq!(met(10.0, 2.0, 350.0).way(), Way::With, "over north");
    assert_eq!(met(190.0, 2.0, 350.0).way(), Way::Against);
    assert_eq!(met(90.0, 2.0, 0.0).way(), Way::ToStarboard);
    assert_eq!(met(270.0, 2.0, 0.0).way(), Way::ToPort);
    assert_eq!(met(40.0, 2.0, 0.0).way(), Way::With);
    assert_eq!(met(50.0, 2.0, 0.0).way(), Way::ToStarboard);
    assert_eq!(met(0.0, 0.49, 0.0).way(), Way::Slack);
    assert_eq!(met(0.0, 0.51, 0.0).way(), Way::With);
}

proptest! {
    #[test]
    fn the_parts_of_a_stream_make_the_whole(
        set in 0.0..360.0, track in 0.0..360.0, knots in 0.0..12.0,
    ) {
        let met = met(set, knots, track);
        let whole = met.with_knots().hypot(met.across_knots());
        prop_assert!((whole - knots).abs() < 1e-9);
        let back = Met { track: met.track.back(), ..met };
        prop_assert!((met.with_knots() + back.with_knots()).abs() < 1e-9);
        prop_assert!((met.across_knots() + back.across_knots()).abs() < 1e-9);
    }
}
