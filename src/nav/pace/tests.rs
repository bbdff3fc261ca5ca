//! Speed, time and distance against a published table.

use rstest::rstest;

use super::*;
use crate::published::rows;

const TABLE_11: &str = include_str!("../../../tests/data/sailings/bowditch2024_table11.csv");

#[test]
fn bowditchs_table_of_speed_time_and_distance() {
    for row in rows(TABLE_11) {
        let speed = Speed::from_knots(row.number("knots")).unwrap();
        let time = SignedDuration::from_secs_f64(row.number("minutes") * 60.0);
        let distance = speed.over(time);
        row.check("distance_nm_printed", distance.as_nautical_miles(), 0.051);
        let back = Pace::new(speed, PaceUnit::Knots).time_for(distance).unwrap();
        assert!((back - time).abs() < SignedDuration::from_micros(1), "{}", row.text);
    }
}

#[test]
fn the_nautical_mile_is_1852_metres() {
    assert_eq!(Length::NAUTICAL_MILE.as_metres(), 1852.0);
    let hour = Pace::new(Speed::KNOT, PaceUnit::Knots).time_for(Length::NAUTICAL_MILE);
    assert_eq!(hour, Some(SignedDuration::from_hours(1)));
    // 6,076.11548556 feet of 0.3048 m (Bowditch 2024, unit conversions).
    assert!((1852.0_f64 / 0.3048 - 6_076.115_485_56).abs() < 5e-9);
}

#[test]
fn rests_stretch_the_time() {
    let pace: Pace = "6 kn".parse().unwrap();
    let rested = pace.with_rest_per_hour(SignedDuration::from_mins(10)).unwrap();
    let five_miles = 5.0 * Length::NAUTICAL_MILE;
    assert_eq!(pace.time_for(five_miles).unwrap().as_mins(), 50);
    assert_eq!(rested.time_for(five_miles).unwrap().as_secs_f64().round(), 3600.0);
    assert_eq!(pace.time_for(Length::ZERO), Some(SignedDuration::ZERO));
    assert!(pace.with_rest_per_hour(SignedDuration::from_mins(60)).is_err());
    assert!(pace.with_rest_per_hour(SignedDuration::from_mins(-1)).is_err());
}

#[test]
fn no_speed_takes_no_time_that_can_be_told() {
    let still: Pace = "0 kn".parse().unwrap();
    assert_eq!(still.time_for(Length::METRE), None);
}

#[rstest]
#[case("3 kn", "3 kn")]
#[case("3kn", "3 kn")]
#[case(" 2.75 knots ", "2.75 kn")]
#[case("5.5 km/h", "5.5 km/h")]
#[case("5,5 KMH", "5.5 km/h")]
#[case("10 kph", "10 km/h")]
fn paces_in_every_usual_form(#[case] text: &str, #[case] written: &str) {
    let pace: Pace = text.parse().unwrap();
    assert_eq!(pace.to_string(), written);
    assert_eq!(written.parse::<Pace>().unwrap(), pace);
}

#[rstest]
#[case("", "“” is not a pace; write, say, 3 kn or 5.5 km/h")]
#[case("fast", "“fast” is not a pace; write, say, 3 kn or 5.5 km/h")]
#[case("3", "“” is not a unit of pace; write kn or km/h behind the number")]
#[case("3 mph", "“mph” is not a unit of pace; write kn or km/h behind the number")]
#[case("-3 kn", "speed in knots -3 is not within 0 to 1,000 kn")]
#[case("1.2.3 kn", "“1.2.3 kn” is not a pace; write, say, 3 kn or 5.5 km/h")]
fn no_paces(#[case] text: &str, #[case] message: &str) {
    assert_eq!(text.parse::<Pace>().unwrap_err().to_string(), message);
}

#[test]
fn arrival_keeps_the_zone_and_minds_the_clocks() {
    let start: ZonedDateTime = "2026-03-29T00:30[Europe/London]".parse().unwrap();
    let end = arrival(&start, SignedDuration::from_mins(60)).unwrap();
    assert_eq!(end.to_string(), "2026-03-29T02:30:00+01:00[Europe/London]");
    assert!(arrival(&start, SignedDuration::MAX).is_none());
}
