//! Reads what a person might write, and what they should not have.

use proptest::prelude::*;
use rstest::rstest;

use super::*;
use crate::Steering;
use crate::testing::any_route;

const GOOD: &str = r#"(
    version: 1,
    title: "Rund øya",
    chart: "Ternhaven Sound",
    pace: "5.5 km/h",
    rest_min: 10,
    variation: Printed(deg_east: -4.5, year: 2015.0, deg_east_per_year: 0.125),
    departure: "2026-06-14T09:30:00-02:00[-02:00]",
    points: [
        (name: "Slip", lat: 52.2412345, lon: -27.1398765),
        (lat: 52.25, lon: -27.5, stop_min: 20, note: "lunch, \"dry\""),
    ],
)
"#;

#[test]
fn a_file_reads_and_writes_to_the_letter() {
    let route = read(GOOD).unwrap();
    assert_eq!(route.points[1].note, "lunch, \"dry\"");
    assert_eq!(route.departure.as_ref().unwrap().moment().hour(), 9);
    assert_eq!(write(&route), GOOD);
}

const TRACED: &str = r#"(
    version: 2,
    title: "",
    chart: "Ternhaven Sound",
    pace: "3 kn",
    variation: Model,
    points: [
        (lat: 52.25, lon: -27.1),
        (name: "Bay", lat: 52.26, lon: -27.08, along: (
            stand_off_m: 50.0, step_m: 200.0, free_start: true, other_way: true,
            through: [
                (lat: 52.2551, lon: -27.093),
                (lat: 52.256, lon: -27.09, free: true, other_way: true),
            ],
            line: [
                (52.2512, -27.0987), (52.2533, -27.0961), (52.2551, -27.0931),
                (52.258, -27.0853),
            ],
        )),
    ],
)
"#;

#[test]
fn a_traced_leg_reads_and_writes_to_the_letter() {
    let route = read(TRACED).unwrap();
    let along = route.points[1].along.as_ref().unwrap();
    assert_eq!((along.line.len(), along.through.len(), along.free_start), (4, 2, true));
    assert_eq!(write(&route), TRACED);
    // A file of either version may hold one.
    assert_eq!(read(&TRACED.replace("version: 2", "version: 1")), Ok(route));
}

#[rstest]
#[case("-27.0961", "-270.961", "16:48: longitude -270.961 is not within -180 to 180 degrees")]
#[case("52.2512", "NaN", "16:18: latitude NaN is not within -90 to 90 degrees")]
#[case(
    "(52.258, -27.0853)",
    "(52.258)",
    "17:24: Expected a position (latitude, longitude) but found one element instead"
)]
#[case("(52.258, -27.0853)", "52.258", "17:17: Expected opening `(` for struct `position`")]
#[case("50.0", "-1", "10:26: a stand-off of -1 m is not within 0 to 2000 m")]
#[case("200.0", "inf", "10:40: length in metres inf is not within the finite numbers")]
#[case(
    "            line",
    "            lines",
    "15:13: `lines` is not known here; known are `stand_off_m`, `step_m`, `free_start`, `free_end`, `other_way`, `through`, `line`"
)]
#[case("free: true", "free: yes", "13:49: Expected boolean")]
#[case(
    "lon: -27.1)",
    "lon: -27.1, along: (line: []))",
    "8:53: the first point ends no leg, so that no line can lead to it"
)]
#[case(
    "        )),",
    "        ), steer: OneHeading),",
    "19:31: one heading is for a straight leg; this one runs along the shore"
)]
fn bad_lines_are_refused_with_place_and_reason(
    #[case] good: &str,
    #[case] bad: &str,
    #[case] message: &str,
) {
    let text = TRACED.replacen(good, bad, 1);
    assert_ne!(text, TRACED);
    assert_eq!(read(&text).unwrap_err().to_string(), message);
}

const STEERED: &str = r#"(
    version: 3,
    title: "",
    chart: "Ternhaven Sound",
    pace: "3 kn",
    variation: Model,
    wind: (from_deg: 240.0, kn: 12.5, leeway: 1.5),
    limits: (race: "quiet", light: "none", wait: "30 min", drift: "2.5 kn", height: "-0.5 m", day: "8 h 00", slow: "40 %"),
    points: [
        (lat: 52.25, lon: -27.1),
        (lat: 52.26, lon: -27.08, steer: OneHeading),
    ],
)
"#;

#[test]
fn moving_water_reads_and_writes_to_the_letter() {
    let route = read(STEERED).unwrap();
    assert_eq!(route.points[1].steer, Steering::OneHeading);
    let wind = route.wind.unwrap();
    assert_eq!((wind.wind.from.as_degrees(), wind.leeway.factor()), (240.0, 1.5));
    assert!((wind.wind.speed.as_knots() - 12.5).abs() < 1e-12);
    assert_eq!(route.limits.longest_wait.as_mins(), 30);
    assert_eq!(write(&route), STEERED);
    // Each of the three makes it a file of version 3, and none of them what it was before.
    let plain = |text: &str| {
        let lines = text.lines().filter(|line| !line.contains("wind") && !line.contains("limits"));
        lines
            .map(|line| format!("{}\n", line.replace(", steer: OneHeading", "")))
            .collect::<String>()
    };
    let without = plain(STEERED).replace("version: 3", "version: 1");
    assert_eq!(write(&read(&without).unwrap()), without);
    for line in STEERED.lines().filter(|line| line.contains("wind") || line.contains("limits")) {
        let one = plain(STEERED).replace("    points", &format!("{line}\n    points"));
        assert_eq!(write(&read(&one).unwrap()), one);
    }
    let usual = without.replace("    points", "    limits: (wait: \"1 h\"),\n    points");
    assert_eq!(write(&read(&usual).unwrap()), without);
}

#[rstest]
#[case("240.0", "inf", "7:22: bearing in degrees inf is not within the finite numbers")]
#[case("12.5", "-1", "7:33: speed in knots -1 is not within 0 to 1,000 kn")]
#[case(
    "12.5",
    "20",
    "7:48: a wind of 20.0 kn is over force 4 (16 kn), where a mixed group stops making planned progress; no leeway is reckoned"
)]
#[case("1.5", "4", "7:47: leeway factor 4 is not within 0 to 3")]
#[case("from_deg: 240.0, ", "", "7:33: `from_deg` is missing; every wind has it")]
#[case("quiet", "calm", "8:21: “calm” is no worst race; write quiet, running or worst")]
#[case("30 min", "25 h", "8:51: a longest wait of 1500 min is not within 0 and 1440 min")]
#[case(
    "slow:",
    "quick:",
    "8:110: `quick` is not known here; known are `race`, `light`, `wait`, `drift`, `height`, `day`, `slow`"
)]
fn bad_wind_and_limits_are_refused_with_place_and_reason(
    #[case] good: &str,
    #[case] bad: &str,
    #[case] message: &str,
) {
    let text = STEERED.replacen(good, bad, 1);
    assert_ne!(text, STEERED);
    assert_eq!(read(&text).unwrap_err().to_string(), message);
}

#[test]
fn a_vertex_too_many_is_refused_where_it_stands() {
    let leg = |vertices: usize| {
        format!("(lat: 1.0, lon: 2.0, along: (line: [\n{}])),\n", "(1.0, 2.0),\n".repeat(vertices))
    };
    let route =
        |legs: &str| format!("(version: 2, chart: \"C\", points: [(lat: 1.0, lon: 2.0),\n{legs}])");
    let error = read(&route(&leg(100_002))).unwrap_err();
    assert_eq!((error.line, error.column), (100_003, 12));
    assert_eq!(error.message, "100001 vertices in a traced leg; at most 100000 fit");
    let error = read(&route(&leg(90_000).repeat(3))).unwrap_err();
    assert_eq!(error.message, "270000 vertices in the route's traced legs; at most 250000 fit");
}

#[test]
fn what_another_program_said_reads_and_writes_to_the_letter() {
    let text = r#"(
    version: 4,
    title: "",
    chart: "Ternhaven Sound",
    pace: "3 kn",
    variation: Model,
    points: [
        (lat: 52.25, lon: -27.1, kept: (height_m: -0.5, symbol: "Anchor", class: "slip", description: "an \"old\" pier", links: [(address: "https://a.example", text: "Pier", kind: "text/html"), (address: "b")])),
        (lat: 52.26, lon: -27.08, kept: (class: "bay")),
        (lat: 52.26, lon: -27.09),
    ],
)
"#;
    let route = read(text).unwrap();
    let kept = route.points[0].kept.as_ref().unwrap();
    assert_eq!(
        (kept.description.as_str(), kept.links[1].address.as_str()),
        ("an \"old\" pier", "b")
    );
    assert_eq!(write(&route), text);
    // Nothing kept is nothing to write: the file is as it was before there was such a thing.
    let none = "(version: 1, chart: \"C\", points: [(lat: 1.0, lon: 2.0, kept: ())])";
    let none = read(none).unwrap();
    assert_eq!(none.points[0].kept, None);
    assert!(write(&none).starts_with("(\n    version: 1,"));
    let many = text.replace("(address: \"b\")", &["(address: \"b\")"; 4].join(", "));
    let error = read(&many).unwrap_err();
    assert_eq!(error.message, "5 links of a point; at most 4 fit");
}

#[test]
fn what_may_be_left_out_is_empty() {
    let route = read("(version: 1, chart: \"C\", points: [])").unwrap();
    assert_eq!(route, crate::Route::new("C"));
}

#[rstest]
#[case(
    "version: 1",
    "version: 5",
    "2:14: version 5 is not known here; this program reads versions 1 to 4"
)]
#[case("    version: 1,\n", "", "12:1: `version` is missing; every route has it")]
#[case("52.25", "91.5", "11:15: latitude 91.5 is not within -90 to 90 degrees")]
#[case("52.25", "NaN", "11:15: latitude NaN is not within -90 to 90 degrees")]
#[case("-27.5", "inf", "11:27: longitude inf is not within -180 to 180 degrees")]
#[case("52.25", "\"x\"", "11:14: Expected float")]
#[case(
    "(lat: ",
    "(lan: ",
    "11:10: `lan` is not known here; known are `name`, `lat`, `lon`, `stop_min`, `note`, `along`, `steer`, `kept`"
)]
#[case("(lat: 52.25, ", "(", "11:58: `lat` is missing; every waypoint has it")]
#[case("(lat: ", "(lat: 5, lat: ", "11:18: `lat` is given twice; once would be right")]
#[case("stop_min: 20", "stop_min: -3", "11:45: a stop of -3 min is not within 0 min to 168 h")]
#[case("stop_min: 20", "stop_min: 1.5", "11:45: Expected comma")]
#[case(
    "title",
    "titel",
    "3:5: `titel` is not known here; known are `version`, `title`, `chart`, `pace`, `rest_min`, `variation`, `departure`, `wind`, `limits`, `points`"
)]
#[case("Sound\",", "Sound\"", "5:5: Expected comma")]
#[case("    ],\n)\n", "", "11:72: the file ends in the middle; a route ends with `)`")]
#[case("5.5 km/h", "5.5", "5:12: “” is not a unit of pace; write kn or km/h behind the number")]
#[case(
    "5.5 km/h",
    "0.004 kn",
    "5:12: a pace of 0 kn gets nowhere; the slowest is 0.01 of its unit"
)]
#[case(
    "rest_min: 10",
    "rest_min: 60",
    "6:15: a rest of 60 minutes in each hour is not within 0 to 59 minutes"
)]
#[case("-4.5", "-184.5", "7:34: variation -184.5 is not within -180 to 180 degrees")]
#[case("Printed", "Guessed", "7:16: `Guessed` is not known here; known are `Model`, `Printed`")]
#[case("\"Slip\"", "Slip", "10:15: Expected string")]
#[case(
    "lon: -27.5",
    "lon: -27.5, steer: Straight",
    "11:41: `Straight` is not known here; known are `Line`, `OneHeading`"
)]
#[case(
    "lon: -27.1398765",
    "lon: -27.1398765, steer: OneHeading",
    "10:78: the first point ends no leg, so that there is nothing to steer"
)]
#[case(")\n", ") more", "13:2: text after the route's closing `)`")]
#[case(
    "-02:00]",
    "-02:00",
    "8:17: departure \"2026-06-14T09:30:00-02:00[-02:00\" is not a local time with its zone in brackets, such as 2026-06-14T09:30[-02:00] or 2026-06-14T09:30[Europe/Oslo]"
)]
#[case(
    "09:30:00-02:00[-02:00]",
    "09:30",
    "8:17: departure \"2026-06-14T09:30\" is not a local time with its zone in brackets, such as 2026-06-14T09:30[-02:00] or 2026-06-14T09:30[Europe/Oslo]"
)]
fn bad_files_are_refused_with_place_and_reason(
    #[case] good: &str,
    #[case] bad: &str,
    #[case] message: &str,
) {
    let text = GOOD.replacen(good, bad, 1);
    assert_ne!(text, GOOD);
    assert_eq!(read(&text).unwrap_err().to_string(), message);
}

#[test]
fn names_from_outside_are_cleaned_and_their_length_is_bounded() {
    let route = read(&GOOD.replace("Slip", "\u{1b}[2J\u{202e}yaB")).unwrap();
    assert_eq!(route.points[0].name, "�[2J�yaB");
    let long = GOOD.replace("Slip", &"x".repeat(61));
    assert_eq!(
        read(&long).unwrap_err().to_string(),
        "10:17: the name has 61 characters; at most 60 fit"
    );
}

#[test]
fn a_point_too_many_is_refused() {
    let points = "(lat: 1.0, lon: 2.0),".repeat(1000);
    let text = format!("(version: 1, chart: \"C\", points: [{points}])");
    let error = read(&text).unwrap_err();
    assert_eq!(error.message, "a route holds at most 999 points");
}

#[test]
fn a_text_that_is_cut_off_anywhere_is_an_error_and_no_more() {
    for end in (0..GOOD.trim_end().len()).filter(|&end| GOOD.is_char_boundary(end)) {
        assert!(read(&GOOD[..end]).is_err(), "{end}");
    }
}

proptest! {
    #[test]
    fn what_is_written_reads_back_the_same(route in any_route()) {
        let text = write(&route);
        let back = read(&text);
        prop_assert_eq!(back.as_ref(), Ok(&route), "{}", text);
        prop_assert_eq!(write(&route), text);
    }

    #[test]
    fn any_text_is_read_without_harm(text in "\\PC{0,80}|[()\\[\\]:,\"a-z0-9. ]{0,80}") {
        let _ = read(&text);
    }
}
