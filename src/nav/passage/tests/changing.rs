//! Streams that change on the way.

use super::*;

/// Along the line by the integral (v + c₀)t + c₁t²/2 = d.
#[test]
fn a_stream_that_grows_evenly() {
    for (first, hourly, miles) in [(0.0, 0.5, 6.0), (1.0, -0.75, 9.0), (-2.0, 0.5, 5.0)] {
        let hours = 8.0;
        let end = first + hourly * hours;
        let set = |rate: f64| if rate < 0.0 { 205.0 } else { 25.0 };
        let water =
            run(&[(0.0, set(first), f64::abs(first)), (3600.0 * hours, set(end), f64::abs(end))]);
        let walk = walk(&[stretch(25.0, miles, &water)], Boat::new(knots(3.0)), departs());
        let speed = 3.0 + first;
        let expected = 2.0 * miles / (speed + (speed * speed + 2.0 * hourly * miles).sqrt());
        close(seconds(&walk), 3600.0 * expected, 1e-9);
    }
}

/// Across the line by the antiderivative of √(b² - x²) in its usual form.
#[test]
fn a_stream_across_that_grows_evenly() {
    let boat = 3.0;
    for (first, last) in [(0.0, 2.9), (-2.5, 2.0), (-3.0, 3.0), (1.0, 1.001)] {
        let hours = 2.0;
        let set = |rate: f64| if rate < 0.0 { 300.0 } else { 120.0 };
        let water =
            run(&[(0.0, set(first), f64::abs(first)), (3600.0 * hours, set(last), f64::abs(last))]);
        let whole = |x: f64| {
            let x: f64 = x.clamp(-boat, boat);
            (x * (boat * boat - x * x).sqrt() + boat * boat * (x / boat).asin()) / 2.0
        };
        // What is made good in the time, short of its ends where the boat can hardly hold the line.
        let (from, to) = (first.max(-2.99), last.min(2.99));
        let rate = (last - first) / hours;
        let miles = (whole(to) - whole(from)) / rate;
        let starts = departs() + SignedDuration::from_secs_f64(3600.0 * (from - first) / rate);
        let walk = walk(&[stretch(30.0, miles, &water)], Boat::new(knots(boat)), starts);
        // Where x changes by a thousandth, the difference of its integrals has lost three figures more.
        let lost = if (last - first).abs() < 0.01 { 1e-6 } else { 1e-9 };
        close(seconds(&walk), 3600.0 * (to - from) / rate, lost);
    }
}

/// A tide of twelve hours along the line by knots of ten minutes: from knot to knot by the trapezium.
#[test]
fn a_sinusoid_by_its_chords() {
    let rate = |step: usize| 2.0 * (std::f64::consts::TAU * step as f64 / 72.0).sin();
    let knots_at: Vec<_> = (0..=216)
        .map(|step| {
            let rate = rate(step);
            (600.0 * step as f64, if rate < 0.0 { 100.0 } else { 280.0 }, rate.abs())
        })
        .collect();
    let water = run(&knots_at);
    for miles in [0.01, 3.0, 20.0, 47.3] {
        let (mut left, mut step) = (miles, 0);
        let expected = loop {
            let (a, b) = (3.0 + rate(step), 3.0 + rate(step + 1));
            let covered = f64::midpoint(a, b) / 6.0;
            if covered >= left {
                let slope = (b - a) * 6.0;
                break step as f64 / 6.0 + 2.0 * left / (a + (a * a + 2.0 * slope * left).sqrt());
            }
            (left, step) = (left - covered, step + 1);
        };
        let walk = walk(&[stretch(280.0, miles, &water)], Boat::new(knots(3.0)), departs());
        close(seconds(&walk), 3600.0 * expected, 1e-9);
    }
}

/// The error of the walk itself: small steps come to it, four times closer with steps half as long.
#[test]
fn small_steps_come_to_it() {
    // Round the clock and through slack water, with knots at no round time.
    let water = run(&[
        (-400.0, 300.0, 1.9),
        (3_311.0, 350.0, 1.2),
        (6_977.0, 70.0, 0.2),
        (10_411.0, 140.0, 1.7),
        (14_003.0, 170.0, 2.2),
        (40_000.0, 350.0, 2.5),
    ]);
    let line =
        [stretch(20.0, 4.0, &water), stretch(95.0, 6.0, &water), stretch(310.0, 5.0, &water)];
    let boat = Boat::new(knots(3.1));
    let exact = seconds(&walk(&line, boat, departs()));
    let off = |step| (stepped(&line, boat, departs(), step).unwrap() - exact).abs();
    let [coarse, fine, finest] = [60.0, 6.0, 1.0].map(off);
    assert!(coarse < 1.0 && fine < 0.01 && finest < 0.000_5, "{coarse} {fine} {finest}");
    assert!(coarse > 1e-4, "{coarse}: the steps show");
}

#[test]
fn a_stretch_may_be_cut_anywhere() {
    let water = run(&[(-400.0, 300.0, 1.9), (5_977.0, 70.0, 0.9), (40_000.0, 350.0, 2.5)]);
    let boat = Boat::new(knots(3.1));
    let whole = walk(&[stretch(20.0, 12.0, &water)], boat, departs());
    let cut: Vec<_> = (0..600).map(|_| stretch(20.0, 0.02, &water)).collect();
    let cut = walk(&cut, boat, departs());
    assert!((seconds(&whole) - seconds(&cut)).abs() < 1e-6);
    let (whole, cut) = (whole.sums(), cut.sums());
    assert!((whole.times.whole() - cut.times.whole()).abs() < SignedDuration::from_micros(2));
    assert!((whole.times.across - cut.times.across).abs() < SignedDuration::from_micros(2));
    let [whole, cut] = [whole, cut].map(|sums| sums.mean().unwrap());
    assert!((whole.drift.as_knots() - cut.drift.as_knots()).abs() < 1e-9);
    assert!(whole.set.turn_to(cut.set).as_degrees().abs() < 1e-7);
}

#[test]
fn parts_are_as_good_as_their_blend() {
    let one = run(&[(-400.0, 300.0, 1.9), (5_977.0, 70.0, 0.9), (40_000.0, 350.0, 2.5)]);
    let other = run(&[(-900.0, 200.0, 0.3), (2_977.0, 30.0, 1.9), (41_000.0, 50.0, 1.5)]);
    let water = vec![(0.3, &one), (0.7, &other)];
    let blend = Run::blended(&water);
    let boat = Boat::new(knots(3.1));
    let parts = Stretch { water, ..stretch(20.0, 12.0, &one) };
    let parts = walk(&[parts], boat, departs());
    let blended = walk(&[stretch(20.0, 12.0, &blend)], boat, departs());
    assert!((seconds(&parts) - seconds(&blended)).abs() < 1e-5);
}

#[test]
fn the_sorts_of_time() {
    // Along the line from 2 kn against it to 2 kn with it in four hours; then square across.
    let water = run(&[(0.0, 270.0, 2.0), (14_400.0, 90.0, 2.0), (72_000.0, 90.0, 2.0)]);
    let across = uniform(3.0, 1.5);
    let line = [
        stretch(90.0, 13.5, &water),
        Stretch { water: vec![], ..stretch(0.0, 1.5, &across) },
        stretch(275.0, 1.0, &across),
    ];
    let walk = walk(&line, Boat::new(knots(3.0)), departs());
    let times = walk.sums().times;
    // 12 NM in the first four hours, by the integral; half a knot either side of the turn is slack.
    let expected = [
        ("against", times.against, 1.5 * 3600.0),
        ("slack", times.slack, 3600.0),
        ("with", times.with, 1.5 * 3600.0 + 1.5 / 5.0 * 3600.0),
        ("without data", times.without_data, 1800.0),
    ];
    for (name, time, expected) in expected {
        assert!((time.as_secs_f64() - expected).abs() < 1e-4, "{name} {time:?} {expected}");
    }
    assert!((times.whole().as_secs_f64() - seconds(&walk)).abs() < 1e-6);
    let last = walk.passed[2].sums;
    assert_eq!(last.times.across, last.times.whole(), "88° off the line");
    let sums = walk.sums();
    assert!((sums.length_without_data.as_nautical_miles() - 1.5).abs() < 1e-9);
    let boat = knots(3.0).over(times.whole());
    assert!((sums.through_water.as_metres() - boat.as_metres()).abs() < 1e-3);
    let greatest = sums.greatest.unwrap();
    assert!((greatest.stream.drift.as_knots() - 2.0).abs() < 1e-9);
    assert_eq!(greatest.at, departs());
    // The mean of the first leg: nothing over the first four hours, then 2 kn for 0.3 h.
    let mean = walk.passed[0].sums.mean().unwrap();
    assert!((mean.drift.as_knots() - 0.6 / 4.3).abs() < 1e-9);
    assert!((mean.set.as_degrees() - 90.0).abs() < 1e-6);
}

/// The lines between the quarters: a stream that goes round the clock at an even rate of turning.
#[test]
fn the_quarters_part_at_45_degrees() {
    let turning: Vec<_> = (0..=360).map(|d| (20.0 * f64::from(d), f64::from(d), 1.0)).collect();
    let water = run(&turning);
    // Slow enough for the whole turn of two hours and no more than it.
    let line = [stretch(0.0, 5.9, &water)];
    let walk = walk(&line, Boat::new(knots(3.2)), departs());
    let whole = seconds(&walk);
    assert!((6_300.0..7_200.0).contains(&whole), "{whole}");
    let times = walk.sums().times;
    // 45° to 135° and 225° to 315°; 135° to 225°.
    assert!((times.across.as_secs_f64() - 3_600.0).abs() < 1e-3, "{times:?}");
    assert!((times.against.as_secs_f64() - 1_800.0).abs() < 1e-3, "{times:?}");
    assert!((times.with.as_secs_f64() - (whole - 5_400.0)).abs() < 1e-3, "{times:?}");
}
