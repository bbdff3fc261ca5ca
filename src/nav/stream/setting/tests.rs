//! When a stream sets within a range, beside a plain look at every second.

use jiff::{SignedDuration, Timestamp};
use proptest::collection::vec;
use proptest::prelude::*;

use super::*;

fn bearing(degrees: f64) -> Bearing<True> {
    Bearing::from_degrees(degrees).unwrap()
}

/// Knots ten minutes apart from 1970 on.
fn run(flows: &[(f64, f64)]) -> Run {
    let knot = |(index, flow): (usize, &(f64, f64))| Knot { at: index as f64 * 600.0, flow: *flow };
    Run::new(flows.iter().enumerate().map(knot).collect())
}

fn second(second: i64) -> Timestamp {
    Timestamp::UNIX_EPOCH + SignedDuration::from_secs(second)
}

#[test]
fn a_stream_that_turns_about_sets_within_half_the_time() {
    // North, still after five minutes, then south.
    let there_and_back = run(&[(0.0, 1.0), (0.0, -1.0)]);
    let found = there_and_back.setting(bearing(350.0), bearing(10.0));
    assert_eq!(found, [(second(0), second(300))]);
    assert_eq!(there_and_back.setting(bearing(90.0), bearing(200.0)), [(second(300), second(600))]);
    // Through north from the west to the east; the range through north is met as well.
    let round = run(&[(-1.0, 1.0), (1.0, 1.0)]);
    assert_eq!(round.setting(bearing(0.0), bearing(90.0)), [(second(300), second(600))]);
    assert_eq!(round.setting(bearing(315.0), bearing(45.0)), [(second(0), second(600))]);
    assert_eq!(round.setting(bearing(90.0), bearing(270.0)), []);
    // Still water sets nowhere, and an empty run at no time.
    assert_eq!(run(&[(0.0, 0.0), (0.0, 0.0)]).setting(bearing(0.0), bearing(359.0)), []);
    assert_eq!(run(&[]).setting(bearing(0.0), bearing(359.0)), []);
}

proptest! {
    #[test]
    fn it_is_what_every_second_says(
        flows in vec((-3.0..3.0, -3.0..3.0), 2..9),
        first in 0.0..360.0_f64,
        wide in 1.0..359.0_f64,
    ) {
        let run = run(&flows);
        let found = run.setting(bearing(first), bearing(first + wide));
        prop_assert!(found.windows(2).all(|pair| pair[0].1 < pair[1].0), "{found:?}");
        for at in (0..(flows.len() as i64 - 1) * 600).map(second) {
            let set = run.at(at).unwrap().set.as_degrees();
            let off = (set - first).rem_euclid(360.0);
            // So near to an end of the range a last digit decides.
            if off < 1e-6 || (off - wide).abs() < 1e-6 || off > 360.0 - 1e-6 {
                continue;
            }
            let within = found.iter().any(|(from, to)| (*from..=*to).contains(&at));
            prop_assert_eq!(within, off < wide, "at {} it sets {}", at, set);
        }
    }
}
