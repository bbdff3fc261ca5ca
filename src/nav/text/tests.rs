//! Quantities written and read.

use proptest::prelude::*;
use rstest::rstest;

use super::*;
use crate::{Latitude, Longitude, Position};

fn metres(metres: f64) -> Length {
    Length::from_metres(metres).unwrap()
}

#[rstest]
#[case(0.0, "0.0 NM", "0 m")]
#[case(240.4, "0.1 NM", "240 m")]
#[case(999.4, "0.5 NM", "999 m")]
#[case(999.5, "0.5 NM", "1.0 km")]
#[case(7963.6, "4.3 NM", "8.0 km")]
#[case(23_456.0, "12.7 NM", "23.5 km")]
#[case(-0.2, "0.0 NM", "0 m")]
#[case(-2000.0, "-1.1 NM", "-2.0 km")]
fn distances(#[case] length: f64, #[case] miles: &str, #[case] kilometre: &str) {
    assert_eq!(nautical_miles(metres(length)), miles);
    assert_eq!(kilometres(metres(length)), kilometre);
}

#[rstest]
#[case(0.0, "0 min")]
#[case(29.0, "0 min")]
#[case(30.0, "1 min")]
#[case(34.0 * 60.0, "34 min")]
#[case(59.49 * 60.0, "59 min")]
#[case(59.6 * 60.0, "1 h 00")]
#[case(85.0 * 60.0, "1 h 25")]
#[case(119.6 * 60.0, "2 h 00")]
#[case(26.0 * 3600.0, "26 h 00")]
#[case(-20.0, "0 min")]
#[case(-85.0 * 60.0, "-1 h 25")]
fn durations(#[case] seconds: f64, #[case] written: &str) {
    assert_eq!(duration(SignedDuration::from_secs_f64(seconds)), written);
}

#[test]
fn the_longest_duration_is_written() {
    assert!(duration(SignedDuration::MAX).ends_with(" h 30"));
    assert!(duration(SignedDuration::MIN).starts_with('-'));
}

#[test]
fn clock_times_round_over_midnight() {
    let late: ZonedDateTime = "2026-06-14T23:59:30[Europe/London]".parse().unwrap();
    assert_eq!(clock(&late), "00:00");
    let noon: ZonedDateTime = "2026-06-14T14:05:29[Europe/London]".parse().unwrap();
    assert_eq!(clock(&noon), "14:05");
}

const D: AngleForm = AngleForm::Degrees;
const DM: AngleForm = AngleForm::DegreesMinutes;
const DMS: AngleForm = AngleForm::DegreesMinutesSeconds;

#[rstest]
#[case(D, 5, "57.15500°N  002.08000°W")]
#[case(D, 0, "57°N  002°W")]
#[case(DM, 0, "57°09′N  002°05′W")]
#[case(DM, 1, "57°09.3′N  002°04.8′W")]
#[case(DM, 3, "57°09.300′N  002°04.800′W")]
#[case(DMS, 0, "57°09′18″N  002°04′48″W")]
#[case(DMS, 2, "57°09′18.00″N  002°04′48.00″W")]
fn positions_in_each_form(#[case] form: AngleForm, #[case] decimals: u8, #[case] written: &str) {
    let here: Position = Position::from_degrees(57.155, -2.08).unwrap();
    assert_eq!(position(here, AngleStyle::new(form, decimals)), written);
}

#[rstest]
// 59.96 minutes go to the next degree.
#[case(56.999_333_333, 9.999_333_333, DM, 1, "57°00.0′N  010°00.0′E")]
#[case(-56.999_9, -179.999_9, DMS, 0, "57°00′00″S  180°00′00″W")]
#[case(89.999_999, 0.0, DM, 1, "90°00.0′N  000°00.0′E")]
#[case(0.009_999, 0.999_999, DMS, 0, "00°00′36″N  001°00′00″E")]
// A zero has no side.
#[case(-0.0, -0.0, DM, 1, "00°00.0′N  000°00.0′E")]
#[case(-0.000_1, -0.000_1, DM, 1, "00°00.0′N  000°00.0′E")]
fn carries_and_zeros(
    #[case] lat: f64,
    #[case] lon: f64,
    #[case] form: AngleForm,
    #[case] decimals: u8,
    #[case] written: &str,
) {
    let here: Position = Position::from_degrees(lat, lon).unwrap();
    assert_eq!(position(here, AngleStyle::new(form, decimals)), written);
}

#[rstest]
#[case("57.155 -2.08")]
#[case("57.155,-2.08")]
#[case("57.155, -2.08")]
#[case("57.155; -2.08")]
#[case("+57.155 −2.08")]
#[case("57.155-2.08")]
#[case("57,155 -2,08")]
#[case("57,155; -2,08")]
#[case("57,155, -2,08")]
#[case("57.155N 2.08W")]
#[case("57.155 N, 2.08 W")]
#[case("57,155N,2,08W")]
#[case("n57.155 w2.08")]
#[case("N 57.155 W 2.08")]
#[case("2.08W 57.155N")]
#[case("57 09.3N 2 4.8W")]
#[case("57-09.3N 002-04.8W")]
#[case("57°09.3′N  002°04.8′W")]
#[case("57° 09.3' N, 002° 04.8' W")]
#[case("57º09,3’N 002º04,8’W")]
#[case("57°09.3' -2°04.8'")]
#[case("57 9.3 -2 4.8")]
#[case("57°09'18\"N 002°04'48\"W")]
#[case("57°09′18″N 002°04′48″W")]
#[case("57:09:18N 2:04:48W")]
#[case("57 09 18 N 2 04 48 W")]
#[case("N57°09'18\" W002°04'48\"")]
#[case("57°09'18\", -002°04'48\"")]
#[case("57 9 18 -2 4 48")]
#[case("57 09 18.0\u{a0}N  2 04 48.0\u{a0}W")]
#[case("lat 57.155 lon -2.08")]
#[case("Latitude: 57.155 North, Longitude: 2.08 West")]
#[case("57°9.3', -2°4'48''")]
fn one_position_in_every_usual_form(#[case] text: &str) {
    let here = parse_position(text).unwrap_or_else(|error| panic!("{text}: {error}"));
    assert!((here.lat.as_degrees() - 57.155).abs() < 1e-12, "{here:?}");
    assert!((here.lon.as_degrees() + 2.08).abs() < 1e-12, "{here:?}");
}

#[rstest]
#[case("57,2", 57.0, 2.0)]
#[case("57 9.3 2 4.8", 57.155, 2.08)]
#[case("57 9 18 2 4 48", 57.155, 2.08)]
#[case("57°18″N 2°E", 57.005, 2.0)]
#[case("0 -0 04.8", 0.0, -0.08)]
#[case("-90, 180", -90.0, 180.0)]
#[case("0S 0W", 0.0, 0.0)]
#[case("57.155N, -2.08", 57.155, -2.08)]
#[case("57.155N -2.08", 57.155, -2.08)]
#[case("-2.08, 57.155N", 57.155, -2.08)]
fn other_positions(#[case] text: &str, #[case] lat: f64, #[case] lon: f64) {
    let here = parse_position(text).unwrap_or_else(|error| panic!("{text}: {error}"));
    assert!((here.lat.as_degrees() - lat).abs() < 1e-12, "{here:?}");
    assert!((here.lon.as_degrees() - lon).abs() < 1e-12, "{here:?}");
}

#[rstest]
#[case("", "no position given; write, say, 57°09.3′N 002°04.8′W")]
#[case(" , ", "no position given; write, say, 57°09.3′N 002°04.8′W")]
#[case("57.155", "there is a latitude but no longitude")]
#[case("57°09.3′N", "there is a latitude but no longitude")]
#[case("57 09 18N", "there is a latitude but no longitude")]
#[case("57.155,", "there is a latitude but no longitude")]
#[case("2°04.8′W", "there is a longitude but no latitude")]
#[case("57N 58N", "both are latitudes; one needs E or W")]
#[case("2E 3W", "both are longitudes; one needs N or S")]
#[case("57N 2W 3E", "more than one latitude and one longitude")]
#[case("57, 2, 3", "more than one latitude and one longitude")]
#[case("57.155 2.08W", "only one of latitude and longitude has its letter; give both or none")]
#[case("57°60′N 2°W", "minutes 60 are not under 60")]
#[case("57°75.5′N 002°04.8′W", "minutes 75.5 are not under 60")]
#[case("57°09′60″N 2°W", "seconds 60 are not under 60")]
#[case("91N 2W", "latitude 91 is not within -90 to 90 degrees")]
#[case("57N 181W", "longitude -181 is not within -180 to 180 degrees")]
#[case("-57N 2W", "a sign and a letter at the same angle; give one of them")]
#[case(
    "57.5 09.3N 2W",
    "57.5 has a fraction, yet a smaller unit follows it; only the last figure may have one"
)]
#[case("57 09 18 1N 2W", "degrees, minutes and seconds are out of order")]
#[case("57′09°N 2W", "degrees, minutes and seconds are out of order")]
#[case("09.3′N 2°W", "the degrees are missing")]
#[case("1.2.3N 2W", "“1.2.3” is not a number")]
#[case(
    "57,155,2,08",
    "“57,155,2,08” can be read in two ways; put a space or a semicolon between latitude and longitude"
)]
#[case("57 Q 2", "“Q” is no part of a latitude or longitude")]
#[case("57% 2", "“%” is no part of a latitude or longitude")]
fn errors_name_what_is_wrong(#[case] text: &str, #[case] message: &str) {
    assert_eq!(parse_position(text).unwrap_err().to_string(), message);
}

#[test]
fn three_figures_have_no_boundary() {
    assert_eq!(parse_position("57 9.3 2").unwrap_err(), PositionError::NoBoundary);
}

fn style() -> impl Strategy<Value = AngleStyle> {
    (0..3, 0..=AngleStyle::MOST_DECIMALS)
        .prop_map(|(form, decimals)| AngleStyle::new([D, DM, DMS][form as usize], decimals))
}

proptest! {
    #[test]
    fn what_is_written_is_read(lat in -90.0..=90.0, lon in -180.0..=180.0, style in style()) {
        let here: Position = Position::from_degrees(lat, lon).unwrap();
        let written = position(here, style);
        prop_assert!(!written.contains("°60") && !written.contains("′60"), "{written}");
        let read = parse_position(&written).unwrap();
        let half_step = style.step_in_degrees() / 2.0 + 1e-13;
        prop_assert!((read.lat.as_degrees() - lat).abs() <= half_step, "{written}");
        prop_assert!((read.lon.as_degrees() - lon).abs() <= half_step, "{written}");
        prop_assert_eq!(position(read, style), written);
    }

    #[test]
    fn latitude_alone_and_longitude_alone(lat in -90.0..=90.0, lon in -180.0..=180.0) {
        let style = AngleStyle::default();
        let lat = latitude(Latitude::from_degrees(lat).unwrap(), style);
        let lon = longitude(Longitude::from_degrees(lon).unwrap(), style);
        prop_assert_eq!(lat.chars().count(), "57°09.3′N".chars().count());
        prop_assert_eq!(lon.chars().count(), "002°04.8′W".chars().count());
    }

    #[test]
    fn no_text_is_too_strange_to_be_answered(text in "[0-9NSEWnsew°′″'\", ;.:+-]{0,24}|\\PC{0,12}") {
        let _ = parse_position(&text);
    }
}
