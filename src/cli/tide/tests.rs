//! The tide on the command line, bytes in and bytes out.

use clap::Parser;
use rstest::rstest;
use serde_json::Value;

use crate::testing::{Said, run};
use crate::{Cli, Exit};

const PORT: &str = r#"(
    version: 1,
    name: "Skarv",
    datum: "the hollow's datum",
    mean_level_m: 2.0,
    source: "made up",
    constituents: [("M2", 1.5, 100), ("S2", 0.5, 140)],
)"#;

fn tide(arguments: &[&str], input: &str) -> Said {
    run(["tide"].iter().chain(arguments).copied(), input)
}

#[test]
fn a_page_of_the_practice_chart() {
    let said = tide(&["--date", "2026-06-14"], "");
    assert_eq!((said.exit, said.errors.as_str()), (Exit::Done, ""));
    for line in said.output.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    insta::assert_snapshot!(said.output);
}

#[test]
fn a_port_file_and_its_days() {
    let said = tide(&["-", "--date", "2026-06-14", "--days", "3", "--json"], PORT);
    assert_eq!((said.exit, said.errors.as_str()), (Exit::Done, ""));
    let found: Value = serde_json::from_str(&said.output).unwrap();
    assert_eq!(found["port"], "Skarv");
    assert_eq!(found["source"], "made up");
    assert_eq!(found["mean_springs_range_m"], 4.0);
    let days = found["days"].as_array().unwrap();
    assert_eq!(days.len(), 3);
    let file = files::open_port(files::Source::Input(&mut PORT.as_bytes())).unwrap();
    let port = ::chart::water::Gauge::from(file);
    let mut turns = 0;
    for water in days.iter().flat_map(|day| day["waters"].as_array().unwrap()) {
        let at: jiff::Timestamp = water["utc"].as_str().unwrap().parse().unwrap();
        let height = port.height(at).unwrap().unwrap().as_metres();
        // The time is written to the second, in which nothing moves at a turn.
        assert!((water["height_m"].as_f64().unwrap() - height).abs() < 1e-6, "{water}");
        turns += 1;
    }
    assert!((11..=12).contains(&turns), "{turns}");
    // The same as CSV, on another clock.
    let line = ["-", "--date", "2026-06-14", "--zone", "+05:30", "--csv"];
    let said = tide(&line, PORT);
    let mut lines = said.output.lines();
    assert_eq!(lines.next(), Some("port,water,utc,local,height_m,later_min,higher_m,told"));
    for line in lines {
        assert!(line.starts_with("Skarv,") && line.contains("+05:30,"), "{line}");
        assert!(line.contains(",2026-06-14T"), "{line}");
        assert!(
            line.ends_with(
                ",,,\"by 2 constants of Skarv, source: made up; their age is not stated\""
            ),
            "{line}"
        );
    }
}

#[test]
fn a_secondary_port_says_whose_constants_it_has() {
    let said = tide(&["--port", "gala", "--date", "2026-06-14"], "");
    assert!(said.output.starts_with("Galamond Quay, on the chart "), "{}", said.output);
    let told = "Told by differences on Port Ustorna and its 11 constants, invented.";
    assert!(said.output.contains(told), "{}", said.output);
    assert!(said.output.contains('█'), "{}", said.output);
    // The differences used, beside the standard port's water: between those at springs and neaps.
    assert!(
        said.output.contains("03:18   4.22 m   -9 min, -0.18 m on 03:27, 4.40 m"),
        "{}",
        said.output
    );
    let said = tide(&["--port", "gala", "--date", "2026-06-14", "--json"], "");
    let found: Value = serde_json::from_str(&said.output).unwrap();
    assert_eq!(found["standard_port"], "Port Ustorna");
    for water in found["days"][0]["waters"].as_array().unwrap() {
        let number = |value: &Value| value.as_f64().unwrap();
        let standard = &water["standard"];
        let sum = number(&standard["height_m"]) + number(&standard["higher_m"]);
        assert!((number(&water["height_m"]) - sum).abs() < 1e-9, "{water}");
        let least = if water["water"] == "high" { -12.0 } else { -6.0 };
        assert!((least..3.0).contains(&number(&standard["later_min"])), "{water}");
    }
}

/// A tide table as it is typed in.
const TABLE: &str = r#"(
    version: 1,
    name: "Hollow Harbour",
    datum: "chart datum",
    zone: "Europe/Oslo",
    means: (springs_m: 3.5, neaps_m: 1.8),
    source: "the harbour office's tables",
    years: (2026, 2026),
    waters: [
        ("2026-06-14T03:27", 4.4),
        ("2026-06-14T09:28", 0.8),
        ("2026-06-14T15:47", 4.5),
        ("2026-06-14T21:54", 0.6),
    ],
)"#;

#[test]
fn a_page_of_a_printed_table() {
    // No date is given: the table's own day.
    let said = tide(&["-"], TABLE);
    assert_eq!((said.exit, said.errors.as_str()), (Exit::Done, ""));
    for line in said.output.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    insta::assert_snapshot!(said.output);
}

#[test]
fn a_printed_table_has_cosine_and_twelfths_beside_one_another() {
    let said = tide(&["-", "--json"], TABLE);
    let found: Value = serde_json::from_str(&said.output).unwrap();
    assert_eq!(found["known"][0], "2026-06-14T01:27:00Z");
    assert_eq!(found["years"][1], 2026);
    let hours = found["days"][0]["hours"].as_array().unwrap();
    assert_eq!(hours.len(), 24);
    // 2 h 33 of 6 h 01 from 4.4 m down to 0.8 m: by hand.
    let six = &hours[6];
    assert_eq!(six["utc"], "2026-06-14T04:00:00Z");
    let part: f64 = 153.0 / 361.0;
    let cosine = 4.4 - 3.6 * (1.0 - (std::f64::consts::PI * part).cos()) / 2.0;
    let twelfths = 4.4 - 3.6 * (3.0 + 3.0 * (part * 6.0 - 2.0)) / 12.0;
    let number = |value: &Value| value.as_f64().unwrap();
    assert!((number(&six["height_m"]) - cosine).abs() < 1e-9, "{six}");
    assert!((number(&six["twelfths_m"]) - twelfths).abs() < 1e-9, "{six}");
    assert!((number(&six["difference_m"]) - (twelfths - cosine)).abs() < 1e-9, "{six}");
    // Outside the table nothing is known, and nothing is said.
    assert!(hours[0]["height_m"].is_null() && hours[23]["twelfths_m"].is_null());
    let csv = tide(&["-", "--csv"], TABLE).output;
    assert_eq!(csv.lines().next(), Some("port,utc,local,height_m,twelfths_m,difference_m,told"));
    assert!(csv.lines().nth(1).unwrap().contains("T00:00+02:00,,,,"), "{csv}");
    let said = tide(&["-", "--date", "2026-06-16"], TABLE);
    assert_eq!((said.exit, said.output.as_str()), (Exit::No, ""));
    assert_eq!(
        said.errors,
        "nothing is known of 2026-06-16: the table of Hollow Harbour goes from 14 June 2026 03:27 to \
         14 June 2026 21:54\n"
    );
}

#[test]
fn pressure_and_season_are_put_on_and_said() {
    let day = ["-", "--date", "2026-06-14"];
    let heights = |more: &[&str], input: &str| {
        let said = tide(&[&day[..], more, &["--json"]].concat(), input);
        let found: Value = serde_json::from_str(&said.output).unwrap();
        let waters = found["days"][0]["waters"].as_array().unwrap().clone();
        let heights: Vec<f64> =
            waters.iter().map(|water| water["height_m"].as_f64().unwrap()).collect();
        (heights, found["remarks"].to_string())
    };
    let seasonal = PORT
        .replace("source:", "seasonal_m: [0.1, 0.1, 0, 0, 0, 0.05, 0, 0, 0, 0, 0.1, 0.1], source:");
    let (plain, remarks) = heights(&[], &seasonal);
    assert!(!remarks.contains("hPa") && !remarks.contains("season"), "{remarks}");
    let (raised, remarks) = heights(&["--pressure", "979.25", "--season"], &seasonal);
    // 34 hPa at 9.95 mm each, and mid-June's level less a day's part of the way from May's.
    let expected = 34.0 * 100.0 / (1025.0 * 9.807) + 0.05 * (1.0 - 1.5 / 30.0);
    for (plain, raised) in plain.iter().zip(&raised) {
        assert!((raised - plain - expected).abs() < 1e-9, "{raised} {plain}");
    }
    assert!(remarks.contains("Heights are raised by 0.34 m for air of 979.25 hPa"), "{remarks}");
    assert!(remarks.contains("Heights have the season's level in them"), "{remarks}");
    let page = tide(&[&day[..], &["--season"]].concat(), &seasonal).output;
    assert!(page.contains("  season +0.05 m, in the heights"), "{page}");
    let high = tide(&[&day[..], &["--pressure", "1030"]].concat(), PORT).output;
    assert!(high.contains("Heights are lowered by 0.17 m for air of 1030 hPa"), "{high}");
    // Where nobody stated it, and where it is there already.
    let said = tide(&[&day[..], &["--season"]].concat(), PORT);
    assert_eq!(said.exit, Exit::Bad);
    assert!(
        said.errors.starts_with("Skarv states no monthly levels (seasonal_m)"),
        "{}",
        said.errors
    );
    let said = tide(&["-", "--season"], TABLE);
    assert!(
        said.errors.contains("as printed tables have it; it is not put on twice"),
        "{}",
        said.errors
    );
}

#[test]
fn a_month_has_its_greatest_and_least_ranges() {
    let page = tide(&["--month", "2026-06"], "").output;
    assert!(page.lines().all(|line| line.chars().count() <= 80), "{page}");
    insta::assert_snapshot!(page);
    let csv = tide(&["--month", "2026-06", "--csv"], "").output;
    assert_eq!(csv.lines().count(), 31);
    let ranges: Vec<f64> =
        csv.lines().skip(1).map(|line| line.split(',').nth(2).unwrap().parse().unwrap()).collect();
    let found: Value =
        serde_json::from_str(&tide(&["--month", "2026-06", "--json"], "").output).unwrap();
    let most = ranges.iter().copied().fold(0.0, f64::max);
    assert_eq!(found["greatest"]["range_m"].as_f64(), Some(most));
    // The age of the tide: the greatest range is within a day of the springs that follow new moon.
    assert_eq!(found["greatest"]["date"], "2026-06-16");
    let springs = found["springs_and_neaps"].as_array().unwrap();
    let of = |event: &Value| event["local"].as_str().unwrap()[..10].to_owned();
    assert!(springs.iter().any(|event| of(event) == "2026-06-16"), "{springs:?}");
    for year in ["1900-01", "2100-12"] {
        assert_eq!(tide(&["--month", year, "--zone", "UTC"], "").exit, Exit::Done, "{year}");
    }
}

#[test]
fn the_age_of_constants_is_said() {
    let aged = PORT.replace("source:", "years: (1998, 2004), source:");
    let said = tide(&["-", "--date", "2026-06-14"], &aged).output;
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    let wanted = "Told by 2 constants of Skarv, of 1998 to 2004, 22 years before this date; source: \
                  made up.";
    assert!(said.contains(wanted), "{said}");
    let bare = PORT.replace("    source: \"made up\",\n", "");
    let said = tide(&["-", "--date", "2026-06-14"], &bare).output;
    assert!(said.contains("Told by 2 constants of Skarv, no source is stated."), "{said}");
}

/// The issue's bad input, each through the reader that people meet.
#[rstest]
#[case::no_constituents(
    PORT,
    "[(\"M2\", 1.5, 100), (\"S2\", 0.5, 140)]",
    "[]",
    "7:19: the port \"Skarv\" has no constituents; at least one is needed"
)]
#[case::unknown_constituent(
    PORT,
    "\"S2\"",
    "\"S22\"",
    "7:44: no constituent is called \"S22\"; the nearest name is S2, and all are those of the"
)]
#[case::out_of_order(
    TABLE,
    "14T15:47",
    "14T08:47",
    "12:10: 2026-06-14T08:47 comes after 2026-06-14T09:28 in the table, and is no later; times rise"
)]
#[case::high_below_low(
    TABLE,
    "4.5)",
    "0.5)",
    "12:30: the high water of 0.5 m at 2026-06-14T15:47 does not fit the low water of 0.8 m before"
)]
#[case::year_out_of_range(
    TABLE,
    "\"2026-06-14T03",
    "\"1826-06-14T03",
    "10:10: 1826-06-14T03:27 is not within the years 1900 to 2100, for which tides are reckoned"
)]
#[case::no_such_time(
    TABLE,
    "2026-06-14T03:27",
    "2026-03-29T02:27",
    "10:10: 2026-03-29T02:27 does not exist in Europe/Oslo: its clocks are put forward over it;"
)]
#[case::days_left_out(
    TABLE,
    "14T21:54",
    "17T21:54",
    "13:10: 2026-06-17T21:54 is more than a day after 2026-06-14T15:47; high and low water follow"
)]
#[case::one_line(
    TABLE,
    ", 4.4),\n        (\"2026-06-14T09:28\", 0.8),\n        (\"2026-06-14T15:47\", 4.5),\n        (\"2026-06-14T21:54\", 0.6)",
    ", 4.4)",
    "9:13: 1 high and low waters; at least two are needed"
)]
fn bad_input_is_one_error_at_its_place(
    #[case] file: &str,
    #[case] was: &str,
    #[case] is: &str,
    #[case] wanted: &str,
) {
    let text = file.replacen(was, is, 1);
    assert_ne!(text, file, "{was} is not in the file");
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("port.ron");
    std::fs::write(&path, &text).unwrap();
    let path = path.display().to_string();
    let said = tide(&[&path, "--date", "2026-06-14"], "");
    assert_eq!((said.exit, said.output.as_str()), (Exit::Bad, ""));
    assert!(said.errors.starts_with(&format!("{path}:{wanted}")), "{}", said.errors);
    // Nothing is lost: the file stands as it was.
    assert_eq!(std::fs::read_to_string(&path).unwrap(), text);
}

/// The same on a chart.
#[rstest]
#[case(
    "name: \"S2\"",
    "name: \"S22\"",
    "no constituent is called \"S22\"; the nearest name is S2,"
)]
#[case(
    "name: \"S2\"",
    "name: \"m2\"",
    "two constituents are called \"M2\"; the name must tell them apart"
)]
#[case(
    "standard: \"Port Ustorna\"",
    "standard: \"Port Nowhere\"",
    "there is no port \"Port Nowhere\" on the"
)]
fn bad_ports_of_a_chart_are_named_at_their_place(
    #[case] was: &str,
    #[case] is: &str,
    #[case] wanted: &str,
) {
    let text = ::chart::format::write(&::chart::practice().unwrap());
    let bad = text.replacen(was, is, 1);
    assert_ne!(bad, text);
    let line = text.lines().position(|line| line.contains(was)).unwrap() + 1;
    let said = tide(&["-"], &bad);
    assert_eq!(said.exit, Exit::Bad);
    assert!(said.errors.starts_with(&format!("standard input:{line}:")), "{}", said.errors);
    assert!(said.errors.contains(wanted), "{}", said.errors);
}

#[rstest]
#[case(&["--port", "Nowhere"], "no port is named “nowhere”; there is Port Ustorna, Delovhaven,")]
#[case(&["--date", "2200-01-01"], "is not within the years 1900 to 2100")]
#[case(&["--date", "1899-12-30"], "is not within the years 1900 to 2100")]
#[case(&["-"], "standard input:1:8: ")]
fn what_cannot_be_answered_is_said(#[case] arguments: &[&str], #[case] wanted: &str) {
    let said = tide(arguments, "nothing");
    assert_eq!(said.exit, Exit::Bad);
    assert!(said.errors.contains(wanted), "{}", said.errors);
    assert_eq!(said.errors.lines().count(), 1, "{}", said.errors);
}

#[rstest]
#[case("--date 2026-6-14")]
#[case("--date 2026-02-30")]
#[case("--date 2026-06-14T09")]
#[case("--zone Nowhere")]
#[case("--zone +15:00")]
#[case("--days 0")]
#[case("--json --csv")]
#[case("--month 2026-13")]
#[case("--month 2026-06-01")]
#[case("--month 2026-06 --date 2026-06-14")]
#[case("--month 2026-06 --pressure 990")]
#[case("--pressure 99")]
#[case("--pressure low")]
fn wrong_usage_is_refused(#[case] line: &str) {
    assert!(Cli::try_parse_from(format!("strandline tide {line}").split(' ')).is_err());
}
