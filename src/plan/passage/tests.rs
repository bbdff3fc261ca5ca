//! Passages against closed forms and against slower methods.

mod closed;
mod crossing;
mod lone;
pub(crate) mod practice;
mod slow;
mod waits;

use chart::coast::Coast;
use jiff::{SignedDuration, Timestamp};
use nav::Pace;

use practice::{PRACTICE, instant};

use super::HaltWhy;
use crate::course::Steered;
use crate::unrolled::Ground;
use crate::{Course, Route, Waypoint};

/// Without stream, wind and waits a passage takes the time that is reckoned at the pace.
#[test]
fn without_stream_it_is_what_is_reckoned() {
    let chart = chart::practice().unwrap();
    let coast = Coast::of(&chart);
    let mut route = Route::new(&chart.title);
    let pace = "3.2 kn".parse::<Pace>().unwrap();
    route.pace = pace.with_rest_per_hour(SignedDuration::from_mins(7)).unwrap();
    for (x, y) in [(670_000.0, 350_000.0), (673_000.0, 352_000.0), (675_000.0, 349_500.0)] {
        let at = chart.position(chart::Point { x, y }).unwrap();
        let stop = SignedDuration::from_mins(20);
        route.points.push(Waypoint { stop, ..Waypoint::new(at) });
    }
    let ground = Ground { chart: &chart, coast: &coast, tides: None };
    let course = Course::new(&route, &ground);
    let departs: Timestamp = instant("2026-06-14T09:00Z");
    let passage = course.passage(None, departs, SignedDuration::ZERO).unwrap();
    let reckoning = crate::reckon(&route, &chart.grid);
    let off = passage.time().unwrap() - reckoning.elapsed.unwrap();
    assert!(off.abs() < SignedDuration::from_micros(1), "{off:?}");
    for (leg, reading) in passage.legs.iter().zip(&reckoning.legs) {
        let off = leg.time() - reading.time.unwrap();
        assert!(off.abs() < SignedDuration::from_micros(1), "{off:?}");
    }
}

/// A second method, stepped finely in time with the stream asked for at every step's own place.
#[test]
fn fine_stepping_agrees_on_the_practice_chart() {
    let mut compared = 0;
    let mut worst = 0.0_f64;
    for (number, (from, to)) in PRACTICE.lines().into_iter().enumerate() {
        for hour in [0, 5, 9] {
            let hour = (hour + number as i64 * 2) % 24;
            let departs = instant("2026-06-14T00:00Z") + SignedDuration::from_hours(hour);
            let course = PRACTICE.course(&[from, to], "3.5 kn");
            let passage =
                course.passage(Some(&PRACTICE.tides), departs, SignedDuration::ZERO).unwrap();
            let stepped = slow::hold(from, to, 3.5, departs);
            match (passage.time(), stepped) {
                (Some(time), Some(stepped)) => {
                    let off = time.as_secs_f64() - stepped;
                    worst = worst.max(off.abs());
                    compared += 1;
                }
                (None, None) => {}
                other => panic!("{number} {hour}: {other:?}"),
            }
        }
    }
    assert!(compared > 40 && worst < 5.0, "{compared} compared, worst {worst} s");
}

/// The route that is built in: each leg as long as it is reckoned to be, one of them in a race, one
/// through a gate, one on one heading; by some starts it arrives, by others the gate is shut.
#[test]
fn the_demonstration_hangs_on_its_start() {
    let route = crate::demonstration().unwrap();
    let course = Course::new(&route, &PRACTICE.ground());
    let legs = || course.legs().iter();
    assert!(legs().any(|leg| !leg.races.is_empty()) && legs().any(|leg| !leg.gates.is_empty()));
    assert!(legs().any(|leg| leg.steered == Steered::OneHeading));
    let reckoning = crate::reckon(&route, &PRACTICE.chart.grid);
    for (leg, reading) in legs().zip(&reckoning.legs) {
        assert!((leg.distance - reading.distance).abs().as_metres() < 1e-6);
    }
    let (mut arrives, mut shut) = (0, 0);
    for hour in 0..24 {
        let departs = instant("2026-06-14T00:00Z") + SignedDuration::from_hours(hour);
        let wait = route.limits.longest_wait;
        let passage = course.passage(Some(&PRACTICE.tides), departs, wait).unwrap();
        arrives += u32::from(passage.arrives().is_some());
        let why = passage.halt.map(|halt| halt.why);
        shut += u32::from(matches!(why, Some(HaltWhy::Shut { .. })));
    }
    assert!(arrives >= 3 && shut >= 3, "{arrives} arrive, {shut} find the gate shut");
}
