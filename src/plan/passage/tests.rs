//! Passages against closed forms and against slower methods.

use chart::coast::Coast;
use jiff::{SignedDuration, Timestamp};

use crate::unrolled::Ground;
use crate::{Course, Route, Waypoint};

/// Without stream, wind and waits a passage takes the time that is reckoned at the pace.
#[test]
fn without_stream_it_is_what_is_reckoned() {
    let chart = chart::practice().unwrap();
    let coast = Coast::of(&chart);
    let mut route = Route::new(&chart.title);
    let pace = "3.2 kn".parse::<nav::Pace>().unwrap();
    route.pace = pace.with_rest_per_hour(SignedDuration::from_mins(7)).unwrap();
    for (x, y) in [(670_000.0, 350_000.0), (673_000.0, 352_000.0), (675_000.0, 349_500.0)] {
        let at = chart.position(chart::Point { x, y }).unwrap();
        let stop = SignedDuration::from_mins(20);
        route.points.push(Waypoint { stop, ..Waypoint::new(at) });
    }
    let ground = Ground { chart: &chart, coast: &coast, tides: None };
    let course = Course::new(&route, &ground);
    let departs: Timestamp = "2026-06-14T09:00Z".parse().unwrap();
    let passage = course.passage(None, departs, SignedDuration::ZERO).unwrap();
    let reckoning = crate::reckon(&route, &chart.grid);
    let off = passage.time().unwrap() - reckoning.elapsed.unwrap();
    assert!(off.abs() < SignedDuration::from_micros(1), "{off:?}");
    for (leg, reading) in passage.legs.iter().zip(&reckoning.legs) {
        let off = leg.time() - reading.time.unwrap();
        assert!(off.abs() < SignedDuration::from_micros(1), "{off:?}");
    }
}
