//! The sun against almanacs.

use jiff::civil::{Date, Time};
use jiff::tz::{Offset, TimeZone};
use jiff::{SignedDuration, Timestamp};

use super::place::Place;
use super::*;
use crate::Position;
use crate::published::{Row, rows};

/// A row's place.
fn place(row: &Row) -> Position {
    Position::from_degrees(row.number("lat_deg"), row.number("lon_deg")).unwrap()
}

/// The instants at which a row's local date begins and ends.
fn local_day(row: &Row) -> (Timestamp, Timestamp) {
    let date: Date = row.text("date").parse().unwrap();
    let zone = zone(row);
    let start = |date: Date| zone.to_timestamp(date.at(0, 0, 0, 0)).unwrap();
    (start(date), start(date.tomorrow().unwrap()))
}

fn zone(row: &Row) -> TimeZone {
    TimeZone::fixed(Offset::from_hours(row.number("utc_offset_h") as i8).unwrap())
}

/// The instant of a clock time on a row's local date.
fn clock(row: &Row, time: &str) -> Timestamp {
    let time: Time = time.parse().unwrap();
    let date: Date = row.text("date").parse().unwrap();
    zone(row).to_timestamp(date.to_datetime(time)).unwrap()
}

const COLUMNS: [(&str, Altitude, Way); 6] = [
    ("sunrise", Altitude::RISE_AND_SET, Way::Rising),
    ("sunset", Altitude::RISE_AND_SET, Way::Setting),
    ("civil_begin", Altitude::CIVIL, Way::Rising),
    ("civil_end", Altitude::CIVIL, Way::Setting),
    ("nautical_begin", Altitude::NAUTICAL, Way::Rising),
    ("nautical_end", Altitude::NAUTICAL, Way::Setting),
];

/// Seconds in which the sun climbs or sinks 0.005 degree at an instant: what its place is good to.
fn grain(row: &Row, at: Timestamp) -> f64 {
    let altitude = |at| sky(place(row), at).unwrap().altitude.as_degrees();
    let half = SignedDuration::from_secs(5);
    0.005 / ((altitude(at + half) - altitude(at - half)).abs() / 10.0)
}

/// Holds a row's columns to the sun's goings through their altitudes on its local date, within
/// `printed` seconds and the grain.
fn check(row: &Row, columns: &[(&str, Altitude, Way)], printed: f64) {
    let (from, to) = local_day(row);
    for &(column, altitude, way) in columns {
        let found = crossings(place(row), altitude, from, to).unwrap();
        let found: Vec<_> = found.iter().filter(|crossing| crossing.way == way).collect();
        // Two on one date have a semicolon between them.
        let cell = row.text(column);
        let expected: Vec<&str> = cell.split(';').filter(|time| *time != "-").collect();
        assert_eq!(found.len(), expected.len(), "{column} of {}: {found:?}", row.text);
        for (found, expected) in found.iter().zip(expected) {
            let off = found.at.duration_since(clock(row, expected)).as_secs_f64().abs();
            let most = printed + grain(row, found.at);
            assert!(off <= most, "{column} is {off} s off, may be {most}, in {}", row.text);
        }
    }
}

#[test]
fn the_naval_observatorys_almanac_to_the_minute() {
    let rows = rows(include_str!("../../../tests/data/sun/usno_2026.csv"));
    assert_eq!(rows.len(), 150);
    for row in rows {
        // Half a minute, and 3 s that the tables themselves differ by from DE421 in mid-latitudes.
        check(&row, &COLUMNS[..4], 33.0);
    }
}

#[test]
fn computed_to_the_second() {
    for row in rows(include_str!("../../../tests/data/sun/sun_computed.csv")) {
        check(&row, &COLUMNS, 0.5);
        let (from, to) = local_day(&row);
        let azimuth = |column: &str, way: Way| {
            let found = crossings(place(&row), Altitude::RISE_AND_SET, from, to).unwrap();
            let at = found.iter().find(|crossing| crossing.way == way).unwrap().at;
            let azimuth = sky(place(&row), at).unwrap().azimuth.as_degrees();
            // Half a digit, and the turn in the grain: no more than an hour's 15 degrees, by the
            // height of the pole.
            row.check(column, azimuth, 0.006 + grain(&row, at) * 15.0 / 3600.0);
        };
        if row.text("state_sun") == "both" && !row.text.contains(';') {
            azimuth("sunrise_azimuth_deg", Way::Rising);
            azimuth("sunset_azimuth_deg", Way::Setting);
        }
    }
}

#[test]
fn a_days_light_is_in_order_about_noon() {
    for row in rows(include_str!("../../../tests/data/sun/sun_computed.csv")) {
        let date: Date = row.text("date").parse().unwrap();
        let day = day(place(&row), date).unwrap();
        let order = [day.dawn, day.rise, Some(day.noon), day.set, day.dusk];
        let there: Vec<Timestamp> = order.into_iter().flatten().collect();
        assert!(there.is_sorted(), "{day:?} in {}", row.text);
        let noon = sky(place(&row), day.noon).unwrap();
        let rises = day.rise.or(day.set).is_some();
        let expected = match row.text("state_sun") {
            "up all day" => Daylight::NeverSets,
            "down all day" => Daylight::NeverRises,
            _ => Daylight::DayAndNight,
        };
        assert_eq!(day.daylight, expected, "{}", row.text);
        assert_eq!(rises, expected == Daylight::DayAndNight);
        // The table's is the highest of coarse steps, which near the zenith miss the top.
        if row.number("max_altitude_deg") < 85.0 {
            row.check("max_altitude_deg", noon.altitude.as_degrees(), 0.01);
        }
    }
}

#[test]
fn a_day_by_the_sun_has_what_the_almanacs_date_has() {
    for row in rows(include_str!("../../../tests/data/sun/usno_2026.csv")) {
        let light = day(place(&row), row.text("date").parse().unwrap()).unwrap();
        let found = [light.rise, light.set, light.dawn, light.dusk];
        let (from, to) = local_day(&row);
        for ((column, ..), found) in COLUMNS[..4].iter().zip(found) {
            let printed = row.text(column);
            match found {
                None => assert_eq!(printed, "-", "{column} in {}", row.text),
                Some(found) if printed != "-" => {
                    let off = found.duration_since(clock(&row, printed)).as_secs_f64().abs();
                    assert!(off <= 33.0 + grain(&row, found), "{column} {off} in {}", row.text);
                }
                // Before the sun's own midnight, and after the clock's.
                Some(found) => {
                    assert!(!(from..to).contains(&found), "{column} {found} in {}", row.text);
                }
            }
        }
    }
}

/// Meeus, Astronomical Algorithms, 2nd edition, examples 12.a and 25.a (numbers from memory).
#[test]
fn meeuss_examples() {
    let at = |text: &str| text.parse::<Timestamp>().unwrap().as_duration().as_secs_f64();
    let apparent = Place::at(at("1987-04-10T00:00Z")).sidereal.rem_euclid(360.0);
    let printed = 15.0 * (13.0 + 10.0 / 60.0 + 46.1351 / 3600.0);
    // A second of arc, from the nutation's smaller terms.
    assert!((apparent - printed).abs() < 1.0 / 3600.0 * 1.5, "{apparent} {printed}");
    // 1992 October 13, 0 h of terrestrial time.
    let midnight = at("1992-10-13T00:00Z");
    let place = Place::at(midnight - super::place::terrestrial_ahead(midnight));
    // The example leaves the planets' pulls out: no more than 0.0067 degree.
    assert!((place.right_ascension.rem_euclid(360.0) - 198.380_83).abs() < 0.0067);
    assert!((place.sin.asin().to_degrees() + 7.785_07).abs() < 0.0067 * 0.4);
    // Apparent places of the example by the complete theory: 13 h 13 min 30.749 s, -7°47′01.74″.
    assert!(
        (place.right_ascension.rem_euclid(360.0) - 15.0 * (13.0 + 13.0 / 60.0 + 30.749 / 3600.0))
            .abs()
            < 0.003
    );
}

#[test]
fn poles_date_line_and_dates() {
    let day_at = |lat, lon, date: &str| {
        day(Position::from_degrees(lat, lon).unwrap(), date.parse().unwrap())
    };
    assert_eq!(day_at(90.0, 0.0, "2026-06-21").unwrap().daylight, Daylight::NeverSets);
    assert_eq!(day_at(-90.0, 0.0, "2026-06-21").unwrap().daylight, Daylight::NeverRises);
    let (west, east) =
        (day_at(10.0, -180.0, "2026-03-01").unwrap(), day_at(10.0, 180.0, "2026-03-02").unwrap());
    assert_eq!(west, east, "one meridian, two dates");
    assert!(day_at(50.0, 0.0, "1899-12-31").is_err());
    assert!(day_at(50.0, 0.0, "2101-01-01").is_err());
}

/// Also at the ends of what an instant can be.
#[test]
fn days_at_the_ends_of_time_are_refused() {
    for (year, month, date) in [(9999, 12, 31), (9999, 12, 30), (-9999, 1, 1), (1899, 12, 31)] {
        for lon in [-179.0, 0.0, 179.0] {
            let place = Position::from_degrees(57.0, lon).unwrap();
            let date = jiff::civil::date(year, month, date);
            let day = day(place, date);
            assert!(day.is_err(), "{date} {lon}: {day:?}");
        }
    }
}
