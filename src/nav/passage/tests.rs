//! Passages against closed forms and small steps.

use jiff::{SignedDuration, Timestamp};

use super::*;
use crate::stream::{Knot, Run, vector};
use crate::triangle::{self, Steer, Stream};

const KNOT: f64 = Speed::KNOT.as_metres_per_second();

fn time(text: &str) -> Timestamp {
    text.parse().unwrap()
}

fn degrees(degrees: f64) -> Bearing<True> {
    Bearing::from_degrees(degrees).unwrap()
}

fn knots(knots: f64) -> Speed {
    Speed::from_knots(knots).unwrap()
}

fn departs() -> Timestamp {
    time("2026-06-14T09:00Z")
}

/// A stream with knots so many seconds after the departure, each setting somewhere at so many knots.
fn run(of: &[(f64, f64, f64)]) -> Run {
    let origin = departs().as_duration().as_secs_f64();
    let knot = |&(at, set, drift): &(f64, f64, f64)| Knot {
        at: origin + at,
        flow: vector(degrees(set), drift * KNOT),
    };
    Run::new(of.iter().map(knot).collect())
}

/// The same stream from an hour before the departure to four days after it.
fn uniform(set: f64, drift: f64) -> Run {
    run(&[(-3600.0, set, drift), (4.0 * 86_400.0, set, drift)])
}

fn stretch(track: f64, miles: f64, run: &Run) -> Stretch<'_> {
    Stretch {
        track: degrees(track),
        length: miles * Length::NAUTICAL_MILE,
        water: vec![(1.0, run)],
    }
}

fn seconds(walk: &Walk) -> f64 {
    walk.arrives().unwrap().duration_since(walk.departs).as_secs_f64()
}

fn close(found: f64, expected: f64, relative: f64) {
    assert!((found - expected).abs() <= relative * expected.abs(), "{found} not {expected}");
}

#[test]
fn a_uniform_stream_along_the_line() {
    for (drift, miles) in [(0.0, 5.0), (1.25, 6.0), (2.5, 3.0), (2.8, 2.0)] {
        for (set, way) in [(40.0, 3.0 + drift), (220.0, 3.0 - drift)] {
            let stream = uniform(set, drift);
            let line = [stretch(40.0, miles, &stream)];
            let walk = walk(&line, Boat::new(knots(3.0)), departs());
            close(seconds(&walk), 3600.0 * miles / way, 1e-9);
        }
    }
}

#[test]
fn a_uniform_stream_at_every_angle() {
    let boat = knots(3.0);
    for track in (0..360).step_by(20) {
        for set in (0..360).step_by(7) {
            for drift in [0.7, 2.0, 2.85, 4.0] {
                let (track, set) = (f64::from(track), f64::from(set));
                let stream = Stream { set: degrees(set), drift: knots(drift) };
                let water = uniform(set, drift);
                let walk = walk(&[stretch(track, 4.0, &water)], Boat::new(boat), departs());
                match triangle::heading(degrees(track), boat, stream) {
                    Steer::MakesWay { ground_speed, heading } if ground_speed > LEAST_WAY => {
                        close(seconds(&walk), 3600.0 * 4.0 / ground_speed.as_knots(), 1e-9);
                        for steered in walk.passed[0].headings {
                            assert!(steered.turn_to(heading).as_degrees().abs() < 1e-9);
                        }
                    }
                    Steer::CannotHold => assert_eq!(walk.halt.unwrap().why, Why::CannotHold),
                    _ => assert_eq!(walk.halt.unwrap().why, Why::NoWay),
                }
            }
        }
    }
}

#[test]
fn durations_are_exact() {
    let pace: crate::Pace = "3.3 kn".parse().unwrap();
    let pace = pace.with_rest_per_hour(SignedDuration::from_mins(7)).unwrap();
    let still = uniform(0.0, 0.0);
    let line = [stretch(40.0, 2.0, &still), stretch(310.0, 7.3, &still)];
    let walk = walk(&line, Boat::at_pace(pace), departs());
    let expected = pace.time_for(9.3 * Length::NAUTICAL_MILE).unwrap().as_secs_f64();
    assert!((seconds(&walk) - expected).abs() < 1e-6);
}
