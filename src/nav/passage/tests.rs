//! Passages against closed forms and small steps.

mod changing;
mod crossing;
mod halts;
mod looked_up;
mod properties;

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

/// The time that a passage takes in fixed small steps: at the middle of each the triangle gives the ground
/// speed. Nothing where a step makes no way. The second method, which shares only the streams and the
/// triangle with the first.
fn stepped(line: &[Stretch<'_>], boat: Boat, departs: Timestamp, step: f64) -> Option<f64> {
    let (mut now, mut left) = (0.0, 0.0);
    for stretch in line {
        left += stretch.length.as_metres();
        while left > 0.0 {
            let at = departs + SignedDuration::from_secs_f64(now + step / 2.0);
            let flow = stretch.water.iter().fold((0.0, 0.0), |sum, (part, run)| {
                let stream = run.at(at).unwrap();
                let flow = vector(stream.set, stream.drift.as_metres_per_second());
                (sum.0 + part * flow.0, sum.1 + part * flow.1)
            });
            let leeway = boat.leeway();
            let push = vector(leeway.set, leeway.drift.as_metres_per_second());
            let flow = crate::stream::stream((flow.0 + push.0, flow.1 + push.1));
            let Steer::MakesWay { ground_speed, .. } =
                triangle::heading(stretch.track, boat.speed(), flow)
            else {
                return None;
            };
            if ground_speed <= LEAST_WAY {
                return None;
            }
            let speed = ground_speed.as_metres_per_second();
            // The last step of the stretch is as long as it takes.
            let taken = (left / speed).min(step);
            now += taken;
            left = if taken < step { 0.0 } else { left - speed * step };
        }
    }
    Some(now)
}

#[test]
fn a_still_stream_may_be_scaled() {
    let still = uniform(70.0, 0.0);
    let boat = Boat::new(knots(2.7));
    let line = |water: Vec<(f64, &Run)>| {
        let length = 4.0 * Length::NAUTICAL_MILE;
        walk(&[Stretch { track: degrees(33.0), length, water }], boat, departs()).arrives()
    };
    let once = line(vec![(1.0, &still)]);
    assert_eq!(once, line(vec![(2.0, &still)]));
    assert_eq!(once, line(vec![(0.5, &still), (0.5, &still)]));
    assert_eq!(once, line(vec![]));
}

#[test]
fn the_winds_push_adds_to_the_stream() {
    let water = uniform(10.0, 1.0);
    let push = Stream { set: degrees(280.0), drift: knots(0.4) };
    let boat = Boat::new(knots(3.0)).with_leeway(push);
    let walked = walk(&[stretch(345.0, 5.0, &water)], boat, departs());
    // 1 kn to 010° and 0.4 kn to 280°, summed by hand.
    let both = (1.0_f64.hypot(0.4), 10.0 - 0.4_f64.atan2(1.0).to_degrees());
    let sum = uniform(both.1, both.0);
    let alone = walk(&[stretch(345.0, 5.0, &sum)], Boat::new(knots(3.0)), departs());
    close(seconds(&walked), seconds(&alone), 1e-9);
    // But the stream is the water's alone.
    let mean = walked.sums().mean().unwrap();
    assert!((mean.drift.as_knots() - 1.0).abs() < 1e-9);
    assert!((mean.set.as_degrees() - 10.0).abs() < 1e-9);
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
