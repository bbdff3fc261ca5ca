//! Boats that make no way, and streams that end.

use super::*;

/// A stream against the line that grows by half a knot in an hour.
fn growing() -> Run {
    run(&[(0.0, 180.0, 0.0), (36_000.0, 180.0, 5.0)])
}

#[test]
fn where_the_way_is_lost() {
    let water = growing();
    let line = [stretch(0.0, 5.0, &water), stretch(0.0, 5.0, &water)];
    let walk = walk(&line, Boat::new(knots(3.0)), departs());
    assert_eq!((walk.passed.len(), walk.arrives()), (1, None));
    let halt = walk.halt.unwrap();
    // 0.1 kn are left after 5.8 h, and 3·5.8 - 0.25·5.8² NM made good.
    assert_eq!((halt.stretch, halt.why), (1, Why::NoWay));
    let hours = halt.at.duration_since(departs()).as_secs_f64() / 3600.0;
    assert!((hours - 5.8).abs() < 1e-9, "{hours}");
    let miles = 3.0 * 5.8 - 0.25 * 5.8 * 5.8 - 5.0;
    assert!((halt.along.as_nautical_miles() - miles).abs() < 1e-9, "{halt:?}");
    // A little less than that is reached.
    let short = [stretch(0.0, 5.0 + miles - 1e-6, &water)];
    assert!(super::walk(&short, Boat::new(knots(3.0)), departs()).halt.is_none());
}

#[test]
fn a_stream_across_that_outgrows_the_boat() {
    let water = growing();
    let halt = walk(&[stretch(90.0, 50.0, &water)], Boat::new(knots(2.0)), departs()).halt.unwrap();
    // As it outgrows the boat the boat makes less and less: 0.1 kn at √(2² - 0.1²).
    let hours = halt.at.duration_since(departs()).as_secs_f64() / 3600.0;
    assert!((hours - 2.0 * (4.0_f64 - 0.01).sqrt()).abs() < 1e-9, "{hours}");
    assert_eq!(halt.why, Why::NoWay);
    // With the stream a little fair it makes way until it is swept off.
    let halt =
        walk(&[stretch(100.0, 50.0, &water)], Boat::new(knots(2.0)), departs()).halt.unwrap();
    assert_eq!(halt.why, Why::CannotHold);
    let hours = halt.at.duration_since(departs()).as_secs_f64() / 3600.0;
    assert!((hours - 4.0 / 80.0_f64.to_radians().sin()).abs() < 1e-9, "{hours}");
}

#[test]
fn no_way_from_the_beginning() {
    for (set, why) in [(180.0, Why::NoWay), (100.0, Why::CannotHold), (80.0, Why::CannotHold)] {
        let water = uniform(set, 4.0);
        let walk = walk(&[stretch(0.0, 1.0, &water)], Boat::new(knots(3.0)), departs());
        let halt = Halt { stretch: 0, along: Length::ZERO, at: departs(), why };
        assert_eq!(walk.halt, Some(halt), "{set}");
        assert_eq!(walk.sums(), Sums::default());
    }
    let nothing = Boat::new(knots(0.0));
    assert!(walk(&[stretch(0.0, 1.0, &uniform(0.0, 0.0))], nothing, departs()).halt.is_some());
    // Adrift, straight along the line.
    let drifts = walk(&[stretch(0.0, 1.0, &uniform(0.0, 2.0))], nothing, departs());
    assert_eq!(drifts.arrives(), Some(time("2026-06-14T09:30Z")));
}

#[test]
fn nothing_to_pass_takes_no_time() {
    let water = growing();
    let boat = Boat::new(knots(3.0));
    assert_eq!(walk(&[], boat, departs()).arrives(), Some(departs()));
    for miles in [0.0, -1.0] {
        let walk = walk(&[stretch(0.0, miles, &water)], boat, departs());
        assert_eq!(walk.arrives(), Some(departs()));
        assert_eq!(walk.passed[0].headings, [degrees(0.0); 2]);
        assert_eq!(walk.sums().mean(), None);
    }
}

#[test]
fn still_water_outside_a_streams_time() {
    // From half an hour after the departure to an hour after it: 0.5 h at 3, 0.5 h at 4, the rest at 3.
    let water = run(&[(1800.0, 40.0, 1.0), (3600.0, 40.0, 1.0)]);
    let walk = walk(&[stretch(40.0, 6.5, &water)], Boat::new(knots(3.0)), departs());
    close(seconds(&walk), 3600.0 * 2.0, 1e-9);
    let sums = walk.sums();
    assert!((sums.times.without_data.as_secs_f64() - 5400.0).abs() < 1e-5, "{sums:?}");
    assert!((sums.length_without_data.as_nautical_miles() - 4.5).abs() < 1e-9);
    assert!((sums.mean().unwrap().drift.as_knots() - 1.0).abs() < 1e-9);
    // Two streams count while both are known; one that is empty is never known.
    let later = run(&[(2700.0, 40.0, 1.0), (9000.0, 40.0, 1.0)]);
    let empty = run(&[]);
    for (other, known) in [(&later, 900.0), (&empty, 0.0)] {
        let both =
            Stretch { water: vec![(0.5, &water), (0.5, other)], ..stretch(40.0, 6.5, &water) };
        let sums = super::walk(&[both], Boat::new(knots(3.0)), departs()).sums();
        let found = (sums.times.whole() - sums.times.without_data).as_secs_f64();
        assert!((found - known).abs() < 1e-5, "{found}");
    }
}
