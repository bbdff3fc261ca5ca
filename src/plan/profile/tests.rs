//! Profiles, kept and read again.

use rstest::rstest;

use super::*;

fn speed(knots: f64) -> Speed {
    Speed::from_knots(knots).unwrap()
}

fn trip(day: i8, hours: i64, ground: f64, water: Option<f64>) -> Trip {
    let date = jiff::civil::date(2026, 6, day);
    let time = SignedDuration::from_hours(hours);
    Trip {
        date,
        began: date.at(8, 0, 0, 0).to_zoned_datetime(jiff::tz::TimeZone::UTC).unwrap().timestamp(),
        title: "Round \"the\" islands".to_owned(),
        moving: time,
        distance: speed(ground).over(time).as_metres().round() * Length::METRE,
        over_ground: speed(ground),
        through_water: water.map(|knots| WaterPace {
            speed: speed(knots),
            time,
            spread: speed(0.31),
        }),
        wind: Some(Wind { from: nav::Bearing::from_degrees(230.0).unwrap(), speed: speed(9.0) }),
    }
}

fn profile() -> Profile {
    let mut profile = Profile::named(" Thursdays ").unwrap();
    profile.keep(trip(14, 3, 2.5, Some(3.2))).unwrap();
    profile.keep(trip(7, 1, 2.0, Some(2.8))).unwrap();
    profile.keep(trip(21, 5, 2.2, None)).unwrap();
    profile
}

#[test]
fn trips_are_kept_in_order_and_never_twice() {
    let mut profile = profile();
    let days: Vec<i8> = profile.trips().iter().map(|trip| trip.date.day()).collect();
    assert_eq!(days, [7, 14, 21]);
    let error = profile.keep(trip(14, 9, 9.0, None)).unwrap_err();
    assert!(error.to_string().contains("has this trip already, of 2026-06-14"), "{error}");
    assert_eq!(profile.trips()[1], trip(14, 3, 2.5, Some(3.2)));
}

/// By hand: (3 × 3.2 + 1 × 2.8) / 4; and over the ground (1 × 2.0 + 5 × 2.2) / 6.
#[test]
fn the_pace_to_plan_with_is_weighed_by_hours() {
    let pace = profile().pace().unwrap();
    assert!((pace.mean.as_knots() - 3.1).abs() < 1e-9 && pace.through_water);
    assert_eq!((pace.slowest, pace.trips, pace.time.as_hours()), (speed(2.8), 2, 4));
    assert_eq!(pace.to_plan_with().to_string(), "3.1 kn");
    let mut dry = Profile::named("dry").unwrap();
    assert_eq!(dry.pace(), None);
    dry.keep(trip(7, 1, 2.0, None)).unwrap();
    dry.keep(trip(8, 5, 2.2, None)).unwrap();
    let pace = dry.pace().unwrap();
    assert!((pace.mean.as_knots() - 2.17).abs() < 1e-9 && !pace.through_water);
}

#[test]
fn what_is_written_is_read_again() {
    let profiles = [profile(), Profile::named("Økter søndag").unwrap()];
    let text = write(&profiles).unwrap();
    let again = read(&text).unwrap();
    assert_eq!(write(&again).unwrap(), text);
    assert_eq!(again, profiles);
}

#[rstest]
#[case("(version: 2, profiles: [])", "1:1: version 2 is not known")]
#[case("(version: 1, profiles: [], more: 1)", "1:28:")]
#[case("(version: 1, profiles: [(name: \"3 kn\", trips: [])])", "is no name for a profile")]
#[case(
    "(version: 1, profiles: [(name: \"a\", trips: []), (name: \"A\", trips: [])])",
    "two profiles"
)]
#[case(
    "(version: 1, profiles: [(name: \"a\", trips: [(date: \"x\", began: \"2026-06-14T08:02:11Z\", moving_s: 1, distance_m: 1, ground_kn: 1.0)])])",
    "trip 1 of profile \"a\": date \"x\""
)]
#[case(
    "(version: 1, profiles: [(name: \"a\", trips: [(date: \"2026-06-14\", began: \"2026-06-14T08:02:11Z\", moving_s: 1, distance_m: 1, ground_kn: NaN)])])",
    "speed in knots"
)]
#[case("(version: 1, profiles: [", "1:24:")]
fn what_is_wrong_is_said(#[case] text: &str, #[case] wanted: &str) {
    let error = read(text).unwrap_err().to_string();
    assert!(error.contains(wanted), "{error}");
}
