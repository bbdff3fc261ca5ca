//! Tracks of real form against routes, and against second methods.

mod made;

use jiff::{SignedDuration, Timestamp};
use nav::Position;
use proptest::prelude::*;
use rstest::rstest;

use super::*;
use crate::Course;
use crate::passage::tests::practice::{PRACTICE, instant};
use crate::track::Fix;
use made::{Boat, Fault, beside};

const START: &str = "2026-06-14T08:00Z";

/// So many metres east and north of a place in the ocean that no chart here has.
fn at(east: f64, north: f64) -> Position {
    crate::rounded(beside(Position::from_degrees(52.0, -20.0).unwrap(), east, north))
}

fn dry() -> Ground<'static> {
    Ground { tides: None, ..PRACTICE.ground() }
}

fn compared(track: &Recorded, points: &[Position]) -> Comparison {
    compare(track, &PRACTICE.route(points, "3 kn"), &dry(), &Settings::default()).unwrap()
}

fn seconds_off(a: Option<Timestamp>, b: Timestamp) -> f64 {
    a.unwrap().duration_since(b).as_secs_f64().abs()
}

/// A day with everything that happens, on a route that crosses itself and comes back the way that it went.
#[test]
fn a_day_of_real_form() {
    let points = [
        at(0.0, 0.0),
        at(3000.0, 0.0),
        at(3000.0, 2000.0),
        at(1500.0, -1500.0),
        at(3000.0, 0.0),
        at(0.0, 0.0),
    ];
    let [launch, east, north, south, ..] = points;
    let mut boat = Boat::at(START, launch);
    // Half an hour on the beach before they leave.
    let left = boat.stay(1800);
    // Back for a lost hat on the first leg.
    boat.go(at(1400.0, 0.0), 3.0);
    boat.go(at(900.0, 0.0), 3.0);
    let first = boat.go(east, 3.0);
    // Out to an islet beside the second leg, 700 m to its right, and a stop on it.
    let strays = boat.now();
    boat.go(at(3700.0, 1000.0), 2.8);
    let islet = (boat.now(), boat.stay(600));
    let second = boat.go(north, 2.8);
    let lunch = boat.stay(2400);
    let third = boat.go(south, 3.2);
    let fourth = boat.go(east, 3.2);
    let home = boat.go(launch, 2.9);
    boat.stay(900);
    let gap = (third - 1200, third - 600);
    let faults = [
        Fault::Gap(gap.0, gap.1),
        Fault::Wild(left + 333, 4000.0),
        Fault::Wild(fourth + 500, -900.0),
        Fault::Twice(first + 10, first + 40),
        Fault::Early(fourth + 100, fourth + 120, 3600),
    ];
    let track = boat.recorded(1, 3.0, &faults);
    let made = compared(&track, &points);
    let Cleaning { fixes, same_time, backwards, wild, used, .. } = made.cleaning;
    assert_eq!((same_time, backwards, wild), (30, 20, 2));
    assert_eq!((fixes, used), (boat.truth.len() - 600 + 30, fixes - 52));
    // Each point in the route's own order, though two are passed twice. The mean of ten fixes errs by a
    // metre, which shifts a time by a second; where the boat turns, the mean of ten seconds cuts the
    // corner, which adds up to five. A stop's edge lies up to 15 m off it, ten seconds, and a mean beside.
    let visits = [
        (left, left),
        (first, first),
        (second, lunch),
        (third, third),
        (fourth, fourth),
        (home, home),
    ];
    for (point, (passing, (came, went))) in made.points.iter().zip(visits).enumerate() {
        let within = if [0, 2, 5].contains(&point) { 25.0 } else { 12.0 };
        if point > 0 {
            assert!(seconds_off(passing.arrives, boat.when(came)) < within, "{point} came");
        }
        if point < 5 {
            assert!(seconds_off(passing.leaves, boat.when(went)) < within, "{point} went");
        }
        assert!(passing.passed && passing.nearest.unwrap().as_metres() < 20.0, "{point}");
    }
    // The way by a second method: the truth itself, second by second, without what was not seen. Noise
    // adds a thousandth, a turn back cuts up to a step of 20 m at its point, a stop's edge 15 m.
    let ends = [
        (left, first, 0),
        (first, second, 600),
        (lunch, third, 0),
        (third, fourth, 0),
        (fourth, home, 0),
    ];
    for (stage, (from, to, stopped)) in made.stages.iter().zip(ends) {
        let unseen = if (from..to).contains(&gap.0) { gap.1 - gap.0 } else { 0 };
        let unseen_way = if unseen > 0 { boat.way(gap.0, gap.1) } else { 0.0 };
        let truth = boat.way(from, to) - unseen_way;
        let off = stage.figures.made.as_metres() - truth;
        assert!(off.abs() < 0.003 * truth + 50.0, "{} to {}: {off}", stage.from, stage.to);
        let moving = (to - from - unseen - stopped) as f64;
        assert!((stage.figures.moving.as_secs_f64() - moving).abs() < 45.0, "{}", stage.from);
        assert!((stage.figures.stopped.as_secs_f64() - stopped as f64).abs() < 30.0);
        assert!((stage.figures.unseen.as_secs_f64() - unseen as f64).abs() < 12.0);
        assert!((stage.figures.across.as_metres() - unseen_way).abs() < 15.0);
    }
    assert_eq!(made.stages.len(), 5);
    assert_eq!(made.gaps.len(), 1);
    assert_eq!(made.gaps[0].why, GapWhy::NoFix);
    assert!(made.stops.iter().any(|stop| seconds_off(Some(stop.from), boat.when(islet.0)) < 25.0
        && seconds_off(Some(stop.to), boat.when(islet.1)) < 25.0));
    // Off the line once, found by brute force from the truth: when it crossed 200 m.
    let [stray] = &made.strays[..] else { panic!("{:?}", made.strays) };
    let legs = [(east, north)];
    let over: Vec<usize> = (strays..second).filter(|&it| boat.off(it, &legs) > 200.0).collect();
    assert!(seconds_off(stray.left.when, boat.when(over[0])) < 12.0);
    assert!(seconds_off(stray.back.unwrap().when, boat.when(*over.last().unwrap())) < 12.0);
    let most = over.iter().map(|&it| boat.off(it, &legs)).fold(0.0, f64::max);
    assert!((stray.off.as_metres() - most).abs() < 8.0, "{} {most}", stray.off.as_metres());
    assert!(stray.right && stray.left.leg == 1 && stray.farthest.leg == 1);
    assert!((stray.farthest.along.as_metres() - 1000.0).abs() < 20.0);
}

/// Noise makes a way from fix to fix far too long; what is left of it is as the module says.
#[rstest]
#[case(2.0)]
#[case(5.0)]
#[case(9.0)]
fn noise_adds_what_is_stated(#[case] errs: f64) {
    let points = [at(0.0, 0.0), at(12_000.0, 3_000.0)];
    let mut boat = Boat::at(START, points[0]);
    let end = boat.go(points[1], 3.0);
    let truth = boat.way(0, end);
    let track = boat.recorded(1, errs, &[]);
    let plain: f64 = track
        .fixes()
        .windows(2)
        .map(|pair| nav::geodesic::inverse(pair[0].at, pair[1].at).distance.as_metres())
        .sum();
    assert!(plain > 1.3 * truth, "{plain}");
    let made = compared(&track, &points).whole.made.as_metres();
    // Stated: s²/4000; its own scatter is a fourth of it over some 400 steps, and the ends err by s.
    let stated = truth * errs * errs / 4000.0;
    assert!((made - truth - stated).abs() < 0.5 * stated + 3.0 * errs, "{made} {truth} {stated}");
}

/// A track that is the route has nothing off it, its way is the route's, and its pace is what was gone at.
#[test]
fn a_track_that_is_the_route() {
    for points in [
        vec![at(0.0, 0.0), at(5_000.0, 1_000.0)],
        vec![at(0.0, 0.0), at(5_000.0, 0.0), at(0.0, 0.0)],
        vec![at(0.0, 0.0), at(2_000.0, 0.0), at(1_000.0, 1_500.0), at(1_000.0, -1_500.0)],
        // Round twice.
        [[0.0, 0.0], [1_500.0, 0.0], [1_500.0, 1_500.0], [0.0, 1_500.0]]
            .iter()
            .cycle()
            .take(9)
            .map(|it| at(it[0], it[1]))
            .collect(),
    ] {
        let mut boat = Boat::at(START, points[0]);
        let ends: Vec<usize> = points[1..].iter().map(|&to| boat.go(to, 3.3)).collect();
        let made = compared(&boat.recorded(1, 0.0, &[]), &points);
        assert!(made.strays.is_empty() && made.gaps.is_empty() && made.stops.is_empty());
        assert_eq!(made.stages.len(), points.len() - 1);
        for (stage, end) in made.stages.iter().zip(ends) {
            assert!(seconds_off(stage.arrives, boat.when(end)) < 6.0);
            assert!(stage.off.as_metres() < 8.0, "{:?}", stage.off);
            // A turn back is cut by a step of 20 m at most, and a mean of ten seconds by 4 m, at either end.
            let short = stage.planned - stage.figures.made;
            assert!(short.abs().as_metres() < 48.0, "{short:?}");
        }
        let pace = made.ground_pace.unwrap();
        assert!((pace.speed.as_knots() - 3.3).abs() < 0.05, "{pace:?}");
        assert!(!made.runs_back);
    }
}

#[test]
fn a_straight_way_is_exact_and_steady() {
    let points = [at(0.0, 0.0), at(9_000.0, -4_000.0)];
    let mut boat = Boat::at(START, points[0]);
    boat.go(points[1], 2.7);
    let made = compared(&boat.recorded(1, 0.0, &[]), &points);
    let planned = crate::reckon(&PRACTICE.route(&points, "3 kn"), &PRACTICE.chart.grid).distance;
    assert!((made.whole.made - planned).abs().as_metres() < 0.01);
    assert!((made.stages[0].planned - planned).abs().as_metres() < 0.01);
    let pace = made.ground_pace.unwrap();
    assert!((pace.speed.as_knots() - 2.7).abs() < 0.001 && pace.spread.as_knots() < 0.001);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    /// A track of another day is the same track.
    #[test]
    fn times_may_be_moved(days in -9000_i64..9000, seconds in 0_i64..86400, every in 1_usize..30) {
        let points = [at(0.0, 0.0), at(2_000.0, 700.0), at(900.0, 2_500.0)];
        let mut boat = Boat::at(START, points[0]);
        boat.go(points[1], 3.0);
        boat.stay(400);
        boat.go(points[2], 3.0);
        let first = compared(&boat.recorded(every, 3.0, &[]), &points);
        let later = SignedDuration::from_hours(24 * days) + SignedDuration::from_secs(seconds);
        boat.start += later;
        let second = compared(&boat.recorded(every, 3.0, &[]), &points);
        prop_assert_eq!(first.whole, second.whole);
        prop_assert_eq!(first.cleaning, second.cleaning);
        for (a, b) in first.points.iter().zip(&second.points) {
            prop_assert_eq!(a.nearest, b.nearest);
            prop_assert_eq!(a.arrives.map(|it| it + later), b.arrives);
        }
    }

    /// However the faults lie, what is used rises in time and goes no faster than a kayak.
    #[test]
    fn what_is_used_is_in_order(wild in 0_usize..2000, from in 0_usize..2000, long in 1_usize..300, early in 1_i64..5000) {
        let mut boat = Boat::at(START, at(0.0, 0.0));
        boat.go(at(3_000.0, 0.0), 3.0);
        let faults = [Fault::Wild(wild, 3_000.0), Fault::Early(from, from + long, early)];
        let track = boat.recorded(1, 3.0, &faults);
        let plane = Plane::about(at(0.0, 0.0).lon);
        let cleaned = Cleaned::of(&track, &plane);
        prop_assert!(cleaned.fixes.windows(2).all(|pair| pair[0].t < pair[1].t));
        let Cleaning { fixes, untimed, same_time, backwards, wild, used } = cleaned.cleaning;
        prop_assert_eq!(fixes, untimed + same_time + backwards + wild + used);
        let near = |fix: &Timed| fix.at.away(plane.spot(at(1_500.0, 0.0)).unwrap()) < 1_600.0;
        prop_assert!(cleaned.fixes.iter().all(near));
    }
}

#[test]
fn a_wild_first_fix_goes_and_a_jump_that_lasts_is_a_gap() {
    let points = [at(0.0, 0.0), at(3_000.0, 0.0)];
    let mut boat = Boat::at(START, points[0]);
    boat.go(points[1], 3.0);
    let track = boat.recorded(1, 2.0, &[Fault::Wild(0, 8_000.0), Fault::Wild(1, 8_000.0)]);
    let made = compared(&track, &points);
    assert_eq!((made.cleaning.wild, made.gaps.len()), (2, 0));
    // One time far ahead costs one fix.
    let ahead = boat.recorded(1, 2.0, &[Fault::Early(700, 701, -40_000)]);
    assert_eq!(compared(&ahead, &points).cleaning.backwards, 1);
    let moved = compared(&boat.recorded(1, 2.0, &[Fault::Moved(1_000, 2_500.0)]), &points);
    assert_eq!((moved.cleaning.wild, moved.gaps.len()), (0, 1));
    assert_eq!(moved.gaps[0].why, GapWhy::Jump);
    assert!((moved.gaps[0].straight.as_metres() - 2_500.0).abs() < 15.0);
    let made = moved.whole.made.as_metres();
    assert!((made - boat.way(0, boat.now())).abs() < 20.0, "{made}");
}

/// Points that were left out are told, and the stage goes from the one before to the one after.
#[test]
fn points_that_were_not_passed() {
    let points = [at(0.0, 0.0), at(2_000.0, 0.0), at(2_000.0, 2_000.0), at(4_000.0, 2_000.0)];
    let mut boat = Boat::at(START, points[0]);
    boat.go(points[1], 3.0);
    boat.go(points[3], 3.0);
    let made = compared(&boat.recorded(5, 2.0, &[]), &points);
    let passed: Vec<bool> = made.points.iter().map(|point| point.passed).collect();
    assert_eq!(passed, [true, true, false, true]);
    // The corner that was cut lies the height of a right angle of two kilometres away.
    let nearest = made.points[2].nearest.unwrap().as_metres();
    assert!((nearest - 2_000.0 / 2_f64.sqrt()).abs() < 8.0, "{nearest}");
    assert_eq!((made.stages[1].from, made.stages[1].to), (1, 3));
    assert!((made.stages[1].planned.as_metres() - 4_000.0).abs() < 0.5);
    assert_eq!(made.strays.len(), 1);
    assert!((made.stages[1].off.as_metres() - 1_000.0).abs() < 10.0, "{:?}", made.stages[1].off);
    // Turned round half way, and home: the rest was never reached.
    let points = [at(0.0, 0.0), at(3_000.0, 0.0), at(9_000.0, 0.0)];
    let mut boat = Boat::at(START, points[0]);
    boat.go(at(5_000.0, 0.0), 3.0);
    boat.go(points[0], 3.0);
    let made = compared(&boat.recorded(5, 2.0, &[]), &points);
    let passed: Vec<bool> = made.points.iter().map(|point| point.passed).collect();
    assert_eq!(passed, [true, true, false]);
}

/// A stop at one of two points that are close to each other is at that one alone.
#[test]
fn a_stop_is_at_the_nearest_point() {
    let points = [at(0.0, 0.0), at(2_000.0, 0.0), at(2_150.0, 0.0), at(4_000.0, 500.0)];
    let mut boat = Boat::at(START, points[0]);
    let came = boat.go(points[1], 3.0);
    let went = boat.stay(1_200);
    let next = boat.go(points[2], 3.0);
    boat.go(points[3], 3.0);
    let made = compared(&boat.recorded(1, 2.0, &[]), &points);
    assert!(seconds_off(made.points[1].arrives, boat.when(came)) < 25.0);
    assert!(seconds_off(made.points[1].leaves, boat.when(went)) < 25.0);
    assert!(seconds_off(made.points[2].arrives, boat.when(next)) < 12.0);
    assert_eq!(made.points[2].arrives, made.points[2].leaves);
}

#[test]
fn a_track_the_other_way_round_is_told() {
    let points = [at(0.0, 0.0), at(3_000.0, 0.0), at(3_000.0, 4_000.0), at(7_000.0, 4_000.0)];
    let mut boat = Boat::at(START, points[3]);
    for to in [points[2], points[1], points[0]] {
        boat.go(to, 3.0);
    }
    let track = boat.recorded(5, 2.0, &[]);
    assert!(compared(&track, &points).runs_back);
    let mut back = points;
    back.reverse();
    let made = compared(&track, &back);
    assert!(!made.runs_back && made.points.iter().all(|point| point.passed));
}

#[test]
fn without_times_there_are_distances_alone() {
    let points = [at(0.0, 0.0), at(3_000.0, 0.0), at(3_000.0, 2_000.0)];
    let mut boat = Boat::at(START, points[0]);
    boat.go(at(1_500.0, 600.0), 3.0);
    boat.go(points[1], 3.0);
    boat.go(points[2], 3.0);
    let timed = boat.recorded(10, 0.0, &[]);
    let mut track = Recorded::named("no times");
    for (number, fix) in timed.fixes().iter().enumerate() {
        if number == 200 {
            track.begin_segment();
        }
        track.push(Fix::new(fix.at, fix.when().filter(|_| number % 5 == 0))).unwrap();
    }
    let made = compared(&track, &points);
    assert_eq!(made.cleaning.untimed, timed.fixes().len().div_ceil(5));
    assert!(made.recorded.is_none() && made.stops.is_empty() && made.ground_pace.is_none());
    assert_eq!(made.stages.len(), 2);
    let way = boat.way(0, boat.now());
    let all = made.whole.made.as_metres() + made.whole.across.as_metres();
    assert!((all - way).abs() < 30.0, "{all} {way}");
    assert_eq!(made.strays.len(), 1);
    assert!((made.strays[0].off.as_metres() - 600.0).abs() < 10.0);
    assert!(made.strays[0].left.when.is_none() && made.whole.moving.is_zero());
    assert_eq!(made.gaps[0].why, GapWhy::Parted);
}

#[test]
fn what_cannot_be_compared_says_why() {
    let two = [at(0.0, 0.0), at(3_000.0, 0.0)];
    let track = |places: &[Position]| {
        let mut track = Recorded::named("few");
        for (number, &at) in (0..).zip(places) {
            let when = START.parse::<Timestamp>().unwrap() + SignedDuration::from_mins(number);
            track.push(Fix::new(at, Some(when))).unwrap();
        }
        track
    };
    let said = |track: &Recorded, points: &[Position]| {
        let route = PRACTICE.route(points, "3 kn");
        compare(track, &route, &dry(), &Settings::default()).unwrap_err().to_string()
    };
    assert_eq!(
        said(&track(&[]), &two),
        "the track has 0 usable fixes of 0; at least two are needed"
    );
    assert!(said(&track(&two[..1]), &two).starts_with("the track has 1 usable fixes of 1"));
    assert!(said(&track(&two), &two[..1]).contains("the route has 1 points"));
    let far = [at(90_000.0, 0.0), at(90_300.0, 0.0)];
    assert!(said(&track(&far), &two).contains("no nearer to the route than 87 km"));
    let pole = [at(0.0, 0.0), Position::from_degrees(89.9, 0.0).unwrap()];
    assert!(said(&track(&two), &pole).contains("pole"));
}

/// The way through the water by a second method: the truth, second by second, each with the stream asked
/// for at its own place and instant.
#[test]
fn through_the_water_as_by_small_steps() {
    let mut compared = 0;
    for (number, (from, to)) in PRACTICE.lines().into_iter().enumerate().step_by(3) {
        let mut boat = Boat::at("2026-06-14T06:00Z", from);
        boat.start += SignedDuration::from_mins(97 * number as i64);
        let end = boat.go(to, 3.0);
        let track = boat.recorded(1, 0.0, &[]);
        let route = PRACTICE.route(&[from, to], "3 kn");
        let made = compare(&track, &route, &PRACTICE.ground(), &Settings::default()).unwrap();
        let (mut water, mut known) = (0.0, 0.0);
        let flows = PRACTICE.tides.flows(boat.start, boat.when(end)).unwrap();
        for (second, pair) in boat.truth.windows(2).enumerate() {
            let grid = PRACTICE.chart.grid.forward(pair[0]).unwrap().point;
            let point = chart::Point { x: grid.easting.as_metres(), y: grid.northing.as_metres() };
            let shares = PRACTICE.tides.shares(&PRACTICE.coast, point);
            let Some(stream) = flows.at(&shares, boat.when(second)) else { continue };
            let step = nav::rhumb::inverse(pair[0], pair[1]);
            let vector = |bearing: f64, metres: f64| {
                let (sin, cos) = bearing.to_radians().sin_cos();
                (metres * sin, metres * cos)
            };
            let over = vector(step.bearing.as_degrees(), step.distance.as_metres());
            let moved = vector(stream.set.as_degrees(), stream.drift.as_metres_per_second());
            water += (over.0 - moved.0).hypot(over.1 - moved.1);
            known += 1.0;
        }
        let figures = made.stages[0].figures;
        let time = figures.water_time.as_secs_f64();
        assert!((time - known).abs() < 90.0, "{number}: {time} {known}");
        if known > 1_000.0 {
            let [a, b] = [figures.water.as_metres() / time, water / known];
            assert!((a - b).abs() < 0.02 * 1852.0 / 3600.0, "{number}: {a} {b}");
            compared += 1;
        }
        assert!((figures.made.as_metres() - boat.way(0, end)).abs() < 1.0);
    }
    assert!(compared > 5, "{compared}");
}

/// A passage gone exactly as planned has the plan's pace through the water and its times.
#[test]
fn a_passage_as_planned() {
    let departs = instant("2026-06-14T09:00Z");
    let arriving = PRACTICE.lines().into_iter().find_map(|(from, to)| {
        let mut route = PRACTICE.route(&[from, to], "3.2 kn");
        route.departure = Some("2026-06-14T09:00[UTC]".parse().unwrap());
        let course = Course::new(&route, &PRACTICE.ground());
        let passage = course.passage(Some(&PRACTICE.tides), departs, SignedDuration::ZERO).ok()?;
        let known = passage.sums().times.without_data.is_zero();
        (passage.halt.is_none() && known).then_some((route, passage))
    });
    let (route, passage) = arriving.unwrap();
    let mut track = Recorded::named("as planned");
    for mark in &passage.legs[0].way {
        track.push(Fix::new(mark.at, Some(mark.when))).unwrap();
    }
    let made = compare(&track, &route, &PRACTICE.ground(), &Settings::default()).unwrap();
    let water = made.water_pace.unwrap().speed.as_knots();
    assert!((water - 3.2).abs() < 0.05, "{water}");
    let arrives = made.planned.as_ref().unwrap().arrives[1].unwrap();
    assert!(seconds_off(made.stages[0].arrives, arrives) < 1.0);
    assert_eq!(made.planned, made.from_start);
}
