//! Port files right and wrong.

use rstest::rstest;

use super::*;

const WHOLE: &str = r#"(
    version: 1,
    name: "Skarv",
    datum: "NAP",
    mean_level_m: 0.09,
    ahead_of_utc_h: 1,
    constituents: [
        ("M2", 0.78924, 85.75),
        ("S2", 0.19218, 147.27),
    ],
)"#;

#[test]
fn a_whole_one_is_read() {
    let PortFile { name, datum, source, tide, .. } = read(WHOLE).unwrap();
    assert_eq!((name.as_str(), datum.as_str(), source.as_str()), ("Skarv", "NAP", ""));
    let FileTide::Constants(port) = tide else { panic!("no constants") };
    assert_eq!(port.nodal_factors(), NodalFactors::MidYear);
    // An hour of S2 is 30 degrees.
    let s2 = port.harmonics()[1].phase.as_degrees();
    assert!((s2 - 117.27).abs() < 1e-9, "{s2}");
}

#[rstest]
#[case(
    "version: 1",
    "version: 2",
    "2:15: version 2 of the port format; this program reads version 1"
)]
#[case("NAP", "NAP\", color: \"red", "4:24: Unexpected field named `color` in `Port`")]
#[case(
    "\"M2\"",
    "\"MX2\"",
    "8:15: no constituent is called \"MX2\"; the nearest name is MU2, and all are those of the"
)]
#[case("\"S2\"", "\"M2\"", "7:19: the port \"Skarv\" has two lines for M2; one is needed")]
#[case("0.78924", "-0.78924", "7:19: the amplitude of M2 at \"Skarv\", -0.78924 m, is not")]
#[case("147.27", "inf", "9:9: phase in degrees inf is not within the finite numbers")]
#[case("ahead_of_utc_h: 1", "ahead_of_utc_h: 20", "6:21: ahead_of_utc_h 20 is not within")]
#[case("ahead_of_utc_h: 1", "zone: \"UTC\"", "6:11: zone belongs to a printed table, which this")]
#[case("ahead_of_utc_h: 1", "years: (2004, 1998)", "6:12: years from 2004 to 1998; the first")]
#[case("ahead_of_utc_h: 1", "seasonal_m: [0.1]", "6:17: 1 monthly levels; twelve are right")]
#[case("ahead_of_utc_h: 1", "waters: []", "6:13: a port file has constituents or the waters of")]
#[case("mean_level_m: 0.09,", "", "1:1: a port of constituents needs mean_level_m")]
fn faults_are_named(#[case] was: &str, #[case] is: &str, #[case] said: &str) {
    let error = read(&WHOLE.replacen(was, is, 1)).unwrap_err().to_string();
    assert!(error.starts_with(said), "{error}");
}

const TABLE: &str = r#"(
    version: 1,
    name: "Skarv",
    datum: "chart datum",
    zone: "Europe/Oslo",
    means: (springs_m: 3.5, neaps_m: 1.8),
    source: "the office",
    years: (2026, 2026),
    waters: [
        ("2026-03-28T21:10", 0.8),
        ("2026-03-29T03:27", 4.4),
        ("2026-03-29T09:28", 0.9, Low),
    ],
)"#;

#[test]
fn a_table_is_read() {
    let file = read(TABLE).unwrap();
    assert_eq!((file.source.as_str(), file.years), ("the office", Some((2026, 2026))));
    let FileTide::Printed { table, ranges, .. } = file.tide else { panic!("no table") };
    // Oslo's clocks are put forward in between.
    let (from, to) = table.span();
    assert_eq!(from, "2026-03-28T20:10Z".parse().unwrap());
    assert_eq!(to, "2026-03-29T07:28Z".parse().unwrap());
    assert!((ranges.unwrap().springs().as_metres() - 3.5).abs() < 1e-12);
}

#[rstest]
#[case("T03:27", "T02:27", "11:10: 2026-03-29T02:27 does not exist in Europe/Oslo: its clocks")]
#[case("4.4", "0.4", "11:30: the high water of 0.4 m at 2026-03-29T03:27 does not fit the low")]
#[case("0.9, Low", "4.9, Low", "12:30: the low water of 4.9 m at 2026-03-29T09:28 does not fit")]
#[case("4.4)", "4.4, Low)", "11:30: the low water of 4.4 m at 2026-03-29T03:27 does not fit")]
#[case(
    "4.4",
    "4.4, High), (\"2026-03-29T04:27\", 4.5, High",
    "11:68: a second high water in a row"
)]
#[case("T09:28", "T01:28", "12:10: 2026-03-29T01:28 comes after 2026-03-29T03:27 in the table")]
#[case("3.5", "1.5", "6:12: a mean range of 1.5 m at springs is not larger than 1.8 m at neaps")]
#[case("Europe/Oslo", "Oslo", "5:11: \"Oslo\" is no time zone; write Europe/Oslo, UTC, UTC-3")]
#[case("zone:", "mean_level_m: 2, zone:", "5:19: mean_level_m belongs to constituents, which")]
fn misprints_are_named_at_their_place(#[case] was: &str, #[case] is: &str, #[case] said: &str) {
    let error = read(&TABLE.replacen(was, is, 1)).unwrap_err().to_string();
    assert!(error.starts_with(said), "{error}");
}

#[test]
fn a_port_needs_constituents() {
    let text = "(version: 1, name: \"Skarv\", datum: \"\", mean_level_m: 0, constituents: [])";
    let error = read(text).unwrap_err().to_string();
    assert_eq!(error, "1:71: the port \"Skarv\" has no constituents; at least one is needed");
    let error = read("(version: 1, name: \"Skarv\", datum: \"\")").unwrap_err().to_string();
    assert!(error.starts_with("1:1: the port has neither constituents nor the waters"), "{error}");
}
