//! The built-in route: over water, between landings, and decided by its start.

use std::sync::LazyLock;

use chart::coast::{Coast, rhumb};
use chart::water::{RaceState, Tides};
use chart::{Chart, Point};
use jiff::civil::date;
use jiff::{SignedDuration, Timestamp};

use super::*;
use crate::course::Course;
use crate::depart::civil_day;
use crate::passage::{HaltWhy, Passage};
use crate::unrolled::Ground;
use crate::{Steering, format};

static LAID: LazyLock<(Route, Chart, Coast, Tides)> = LazyLock::new(|| {
    let chart = chart::practice().unwrap();
    let (coast, tides) = (Coast::of(&chart), Tides::of(&chart).unwrap());
    (demonstration().unwrap(), chart, coast, tides)
});

fn on_grid(point: nav::Position) -> Point {
    let at = LAID.1.grid.forward(point).unwrap().point;
    Point { x: at.easting.as_metres(), y: at.northing.as_metres() }
}

fn apart(a: Point, b: Point) -> f64 {
    (a - b).x.hypot((a - b).y)
}

#[test]
fn it_is_a_days_trip_between_landings_with_a_stop() {
    let (route, chart, ..) = &*LAID;
    assert_eq!(format::write(route), TEXT);
    assert_eq!(route.check_chart(chart), Ok(()));
    let ashore = route.points.iter().filter(|point| {
        chart
            .landings
            .iter()
            .any(|landing| landing.name == point.name && apart(landing.at, on_grid(point.at)) < 1.0)
    });
    let ashore: Vec<&str> = ashore.map(|point| point.name.as_str()).collect();
    assert_eq!(ashore, ["Rasovan Stones", "Saverra slip", "Delovan slip"]);
    assert_eq!(route.points[8].stop, SignedDuration::from_mins(30));
    assert!(route.points.iter().any(|point| point.steer == Steering::OneHeading));
    assert_eq!(route.departure.as_ref().unwrap().moment().date(), date(2026, 6, 14));
}

#[test]
fn its_legs_lie_over_water_alone() {
    let (route, chart, coast, _) = &*LAID;
    let ashore: Vec<Point> = [0, 8, 14].map(|point| on_grid(route.points[point].at)).into();
    let mut checked = 0;
    for (index, ends) in route.points.windows(2).enumerate() {
        for line in rhumb::line(&chart.grid, ends[0].at, ends[1].at, 0.1).unwrap() {
            for side in line.windows(2) {
                checked += 1;
                let on_the_way = coast.crossings(side[0], side[1]).into_iter().find(|touch| {
                    // The bow is on the shore at a landing.
                    ashore.iter().all(|landing| apart(*landing, touch.on.at) > 1.0)
                });
                assert_eq!(on_the_way, None, "leg {}", index + 1);
            }
        }
    }
    assert!(checked >= 14);
}

fn course() -> Course {
    let (route, chart, coast, tides) = &*LAID;
    Course::new(route, &Ground { chart, coast, tides: Some(tides) })
}

/// The passage that leaves so many minutes after midnight, and waits for an hour at most.
fn leaving(course: &Course, minutes: i64) -> Passage {
    let zone = course.zone();
    let (from, _): (Timestamp, _) = civil_day(date(2026, 6, 14), zone).unwrap();
    let at = from + SignedDuration::from_mins(minutes);
    course.passage(Some(&LAID.3), at, SignedDuration::from_hours(1)).unwrap()
}

fn race(passage: &Passage) -> Option<RaceState> {
    passage.legs.iter().flat_map(|leg| &leg.races).filter_map(|met| met.state).max()
}

#[test]
fn its_start_decides() {
    let course = course();
    let kilometres = course.distance().as_metres() / 1000.0;
    assert!((15.0..25.0).contains(&kilometres), "{kilometres}");
    // As it is saved: through a quiet race and an open gate, a glance at the clock before it.
    let saved = leaving(&course, 10 * 60 + 45);
    assert_eq!(race(&saved), Some(RaceState::Quiet));
    assert!(saved.halt.is_none() && saved.waited() < SignedDuration::from_mins(5));
    let gates: Vec<&str> =
        saved.legs.iter().flat_map(|leg| &leg.gates).map(|gate| &*gate.name).collect();
    assert_eq!(gates, ["Farum Gut"]);
    // The quickest of the morning has the overfalls at their worst.
    assert_eq!(race(&leaving(&course, 6 * 60 + 30)), Some(RaceState::Worst));
    // Early and late, the Gut is shut for hours.
    let shut = leaving(&course, 8 * 60).halt.unwrap();
    assert!(matches!(shut.why, HaltWhy::Shut { .. }), "{shut:?}");
    // Of all starts that get there without the worst of the race, the best is at least a quarter quicker
    // than the slowest.
    let day = (0..96).map(|quarter| leaving(&course, 15 * quarter));
    let times: Vec<f64> = day
        .filter(|passage| race(passage) < Some(RaceState::Worst))
        .filter_map(|passage| Some(passage.time()?.as_secs_f64()))
        .collect();
    let best = times.iter().copied().fold(f64::INFINITY, f64::min);
    let slowest = times.iter().copied().fold(0.0, f64::max);
    assert!(times.len() > 10 && best < 0.75 * slowest, "{best} of {slowest} s");
}
