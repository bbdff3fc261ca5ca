//! Courses and their tables on the practice chart.

use jiff::SignedDuration;
use nav::Length;

use crate::passage::tests::practice::{PRACTICE, instant};
use crate::{Course, Steering};

const HOUR: SignedDuration = SignedDuration::from_hours(1);

#[test]
fn stretches_make_up_their_legs() {
    for (from, to) in PRACTICE.lines() {
        let course = PRACTICE.course(&[from, to], "3 kn");
        let leg = &course.legs()[0];
        let sum: Length = leg.stretches.iter().map(|stretch| stretch.length).sum();
        assert!((sum - leg.distance).abs().as_metres() < 1e-6);
        assert_eq!((leg.stretches[0].from, leg.stretches.last().unwrap().to), (from, to));
        for pair in leg.stretches.windows(2) {
            assert_eq!(pair[0].to, pair[1].from);
            assert!(pair[0].length.as_metres() <= 250.0);
        }
        let reading = crate::reckon(&PRACTICE.route(&[from, to], "3 kn"), &PRACTICE.chart.grid);
        assert!((reading.legs[0].distance - leg.distance).abs().as_metres() < 1e-9);
    }
}

/// Looked up or walked, a passage is the same within 5 s, and so is what is told of it.
#[test]
fn a_table_agrees_with_the_walk() {
    let [from, to] = ["2026-06-13T12:00Z", "2026-06-16T00:00Z"].map(instant);
    let flows = PRACTICE.tides.flows(from, to).unwrap();
    let (mut worst, mut most) = (0.0_f64, 0.0_f64);
    for (number, line) in PRACTICE.lines().into_iter().enumerate() {
        let mut route = PRACTICE.route(&[line.0, line.1, line.0], "3.5 kn");
        route.points[2].steer = Steering::OneHeading;
        let course = Course::new(&route, &PRACTICE.ground());
        let waters = course.waters(&PRACTICE.tides, &flows).unwrap();
        let table = waters.table(from, to);
        for hour in 0..5 {
            let minutes = SignedDuration::from_mins(number as i64 * 13 + hour * 293);
            let departs = instant("2026-06-14T00:00Z") + minutes;
            let (walked, found) = (waters.passage(departs, HOUR), table.passage(departs, HOUR));
            assert_eq!(walked.legs.len(), found.legs.len(), "{number} {departs}");
            for (walked, found) in walked.legs.iter().zip(&found.legs) {
                let off = found.arrives.duration_since(walked.arrives).as_secs_f64().abs();
                let waited = (found.waited - walked.waited).as_secs_f64().abs();
                worst = worst.max(off).max(waited);
                let times =
                    [found.times, walked.sums.times].map(|times| times.against.as_secs_f64());
                most = most.max((times[0] - times[1]).abs());
                assert_eq!(walked.waited_for, found.waited_for);
                assert_eq!(walked.races.len(), found.races.len());
            }
        }
    }
    assert!(worst < 5.0, "{worst}");
    // With, against and across part sharply: a stream near a bound may be told as either.
    assert!(most < 180.0, "{most}");
}
