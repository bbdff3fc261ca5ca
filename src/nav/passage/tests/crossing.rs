//! One heading for a whole crossing.

use super::*;

fn crossing(line: &[Stretch<'_>], boat: f64) -> Crossing {
    one_heading(line, Boat::new(knots(boat)), departs()).unwrap()
}

/// A line cut into parts of half a mile.
fn cut(track: f64, miles: f64, run: &Run) -> Vec<Stretch<'_>> {
    let parts = (miles / 0.5).ceil();
    (0..parts as usize).map(|_| stretch(track, miles / parts, run)).collect()
}

#[test]
fn in_a_steady_stream_it_is_the_triangles() {
    for set in (0..360).step_by(15) {
        for drift in [0.0, 1.0, 2.5, 3.5] {
            let (set, water) = (f64::from(set), uniform(f64::from(set), drift));
            let line = cut(77.0, 5.0, &water);
            let stream = Stream { set: degrees(set), drift: knots(drift) };
            let steer = triangle::heading(degrees(77.0), knots(3.0), stream);
            let found = one_heading(&line, Boat::new(knots(3.0)), departs());
            match (steer, found) {
                (Steer::MakesWay { heading, ground_speed }, Ok(found)) => {
                    // A millimetre off the end of 5 NM is a hundred millionth of a turn.
                    let off = found.heading.turn_to(heading).as_degrees().abs();
                    assert!(off < 1e-4, "{set} {drift}: {off}");
                    let hours = found.time().as_secs_f64() / 3600.0;
                    close(hours, 5.0 / ground_speed.as_knots(), 1e-5);
                    assert!(found.farthest().unwrap().across.as_metres().abs() < 1e-2);
                }
                (Steer::MakesWay { ground_speed, .. }, Err(_)) => {
                    assert!(ground_speed <= LEAST_WAY, "{set} {drift}");
                }
                (_, found) => assert!(found.is_err(), "{set} {drift}"),
            }
        }
    }
}

/// Summed by hand: in four hours a stream of 0, 1, 2, 1, 0 kn to the east, straight from hour to hour,
/// sets the boat 0.5 + 1.5 + 1.5 + 0.5 = 4 NM to the right of a line to the north. At 3 kn it goes
/// 12 NM through the water, so it heads asin(4/12) to the left and makes good √(12² - 4²) NM.
#[test]
fn the_summed_set_of_four_hours() {
    let water = run(&[
        (0.0, 90.0, 0.0),
        (3600.0, 90.0, 1.0),
        (7200.0, 90.0, 2.0),
        (10_800.0, 90.0, 1.0),
        (14_400.0, 90.0, 0.0),
        (18_000.0, 90.0, 0.0),
    ]);
    let miles = (144.0_f64 - 16.0).sqrt();
    let found = crossing(&cut(0.0, miles, &water), 3.0);
    let expected = 360.0 - (1.0_f64 / 3.0).asin().to_degrees();
    assert!((found.heading.as_degrees() - expected).abs() < 1e-5, "{:?}", found.heading);
    close(found.time().as_secs_f64(), 4.0 * 3600.0, 1e-7);
    // After two hours it is 2 NM to the left by its heading, and half of the set to the right.
    let off = |at: SignedDuration| {
        let near = |offset: &&Offset| (offset.at.duration_since(departs()) - at).abs();
        found.track.iter().min_by_key(near).unwrap()
    };
    let middle = off(SignedDuration::from_hours(2));
    assert!(middle.across.as_nautical_miles().abs() < 0.06, "{middle:?}");
    // After one hour 1 NM to the left and 0.5 NM set: the greatest, where the stream is 1 kn.
    let farthest = found.farthest().unwrap();
    assert!((farthest.across.as_nautical_miles().abs() - 0.5).abs() < 1e-4, "{farthest:?}");
    let mean = found.sums().mean().unwrap();
    assert!(
        (mean.drift.as_knots() - 1.0).abs() < 1e-6 && (mean.set.as_degrees() - 90.0).abs() < 1e-6
    );
}

/// Summed by hand: a tide that sets as far to the one side as to the other wants no heading off; the track
/// bows out and comes back.
#[test]
fn a_whole_tide_sets_nowhere() {
    // Three hours east of 0, 2, 0 kn and three hours west of the same, by hour and a half: 3 NM out.
    let water = run(&[
        (0.0, 90.0, 0.0),
        (5_400.0, 90.0, 2.0),
        (10_800.0, 90.0, 0.0),
        (16_200.0, 270.0, 2.0),
        (21_600.0, 270.0, 0.0),
    ]);
    let found = crossing(&cut(0.0, 18.0, &water), 3.0);
    assert!(found.heading.turn_to(degrees(0.0)).as_degrees().abs() < 1e-5);
    close(found.time().as_secs_f64(), 6.0 * 3600.0, 1e-9);
    let farthest = found.farthest().unwrap();
    assert!((farthest.across.as_nautical_miles() - 3.0).abs() < 1e-5, "{farthest:?}");
    assert!((farthest.along.as_nautical_miles() - 9.0).abs() < 1e-5);
    // Holding the line takes longer than letting it carry.
    let held = walk(&cut(0.0, 18.0, &water), Boat::new(knots(3.0)), departs());
    assert!(seconds(&held) > found.time().as_secs_f64() + 600.0);
}

/// The heading found, gone along in small steps by the triangle.
#[test]
fn in_small_steps_it_comes_to_the_end() {
    let near = run(&[(-400.0, 300.0, 1.9), (5_977.0, 70.0, 0.9), (40_000.0, 350.0, 2.2)]);
    let far = run(&[(-900.0, 200.0, 1.3), (9_977.0, 30.0, 1.9), (41_000.0, 50.0, 1.5)]);
    let push = Stream { set: degrees(200.0), drift: knots(0.3) };
    let boat = Boat::new(knots(3.1)).with_leeway(push);
    let line = [stretch(50.0, 5.0, &near), stretch(50.0, 5.0, &far)];
    let found = one_heading(&line, boat, departs()).unwrap();
    let (mut along, mut across, mut now, step) = (0.0, 0.0, 0.0, 2.0);
    let (axis, end) = (50.0_f64.to_radians(), 10.0 * 1852.0);
    let whole = found.time().as_secs_f64();
    let mut points = found.track.iter().peekable();
    while now < whole {
        let taken = f64::min(step, whole - now);
        let at = departs() + SignedDuration::from_secs_f64(now + taken / 2.0);
        let water = if along < end / 2.0 { near.at(at) } else { far.at(at) }.unwrap();
        let made = triangle::made_good(found.heading, boat.speed(), water);
        let ground = vector(made.track.unwrap(), made.ground_speed.as_metres_per_second());
        let push = vector(push.set, push.drift.as_metres_per_second());
        let (east, north) = (ground.0 + push.0, ground.1 + push.1);
        along += taken * (east * axis.sin() + north * axis.cos());
        across += taken * (east * axis.cos() - north * axis.sin());
        now += taken;
        while let Some(point) =
            points.next_if(|point| point.at <= departs() + SignedDuration::from_secs_f64(now))
        {
            // Within a step of it.
            assert!((point.along.as_metres() - along).abs() < 6.0, "{point:?} {along}");
            assert!((point.across.as_metres() - across).abs() < 6.0, "{point:?} {across}");
        }
    }
    // A step of the wrong water where the streams meet: 2 s · 2 kn.
    assert!((along - end).abs() < 3.0 && across.abs() < 3.0, "{along} {across}");
    assert!(found.farthest().unwrap().across.as_metres().abs() > 200.0);
    let last = found.track.last().unwrap();
    assert!((last.along.as_metres() - end).abs() < 1e-6 && last.across.as_metres().abs() < 2e-3);
    assert_eq!(last.at, found.arrives);
    let gaps = found.track.windows(2).map(|pair| pair[1].at.duration_since(pair[0].at));
    assert!(gaps.max().unwrap() <= SignedDuration::from_secs(300));
}

/// The film run backwards: the same way back, in as long, on the heading turned round.
#[test]
fn reversed_in_time_and_stream() {
    let there = [(0.0, 300.0, 1.9), (5_977.0, 70.0, 0.9), (40_000.0, 350.0, 2.2)];
    let water = run(&there);
    let out = crossing(&cut(50.0, 9.0, &water), 3.1);
    let whole = out.time().as_secs_f64();
    let back: Vec<_> =
        there.iter().rev().map(|&(at, set, drift)| (whole - at, set + 180.0, drift)).collect();
    let water = run(&back);
    let back = crossing(&cut(230.0, 9.0, &water), 3.1);
    assert!(back.heading.turn_to(out.heading.back()).as_degrees().abs() < 1e-5);
    close(back.time().as_secs_f64(), whole, 1e-6);
}

#[test]
fn the_quickest_of_several() {
    // Across and fair at once, faster than the boat: the stream turns the boat's best way aside.
    let water = uniform(45.0, 4.0);
    let found = crossing(&cut(20.0, 4.0, &water), 3.0);
    let Steer::MakesWay { heading, .. } = triangle::heading(
        degrees(20.0),
        knots(3.0),
        Stream { set: degrees(45.0), drift: knots(4.0) },
    ) else {
        panic!()
    };
    assert!(found.heading.turn_to(heading).as_degrees().abs() < 1e-4);
}

#[test]
fn when_no_heading_does_it() {
    let boat = Boat::new(knots(3.0));
    let said = |line: &[Stretch<'_>]| one_heading(line, boat, departs()).unwrap_err();
    let across = uniform(90.0, 4.0);
    let NoHeading::Missed { off } = said(&[stretch(0.0, 3.0, &across)]) else { panic!() };
    // The best heads so that the sum of both lies closest to the line: 3 kn in a circle about 4 kn.
    let least = 3.0 * (4.0 - 3.0 * 0.75) / (3.0 * (1.0_f64 - 0.75 * 0.75).sqrt());
    assert!((off.as_nautical_miles() - least).abs() < 0.01, "{off:?} {least}");
    assert!(
        said(&[stretch(0.0, 3.0, &across)]).to_string().starts_with("no heading brings the boat")
    );
    let against = uniform(180.0, 3.5);
    assert_eq!(said(&[stretch(0.0, 3.0, &against)]), NoHeading::NoWay);
    let bent = [stretch(0.0, 3.0, &against), stretch(358.0, 3.0, &against)];
    assert_eq!(
        said(&bent).to_string(),
        "the line turns by 2.0°; on one heading goes a straight line, within 1°"
    );
}

#[test]
fn nothing_to_cross() {
    let found = one_heading(&[], Boat::new(knots(3.0)), departs()).unwrap();
    assert_eq!((found.arrives, found.track.len()), (departs(), 1));
}
