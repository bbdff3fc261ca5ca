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
    assert_eq!(lines.next(), Some("port,water,utc,local,height_m"));
    for line in lines {
        assert!(line.starts_with("Skarv,") && line.contains("+05:30,"), "{line}");
        assert!(line.contains(",2026-06-14T"), "{line}");
    }
}

#[test]
fn a_secondary_port_says_whose_constants_it_has() {
    let said = tide(&["--port", "gala", "--date", "2026-06-14"], "");
    assert!(said.output.starts_with("Galamond Quay, on the chart "), "{}", said.output);
    assert!(said.output.contains("by differences on Port Ustorna"), "{}", said.output);
    assert!(said.output.contains('█'), "{}", said.output);
}

#[rstest]
#[case(&["--port", "Nowhere"], "no port is named “nowhere”; there is Port Ustorna, Delovhaven,")]
#[case(&["--date", "2200-01-01"], "is not within the years 1900 to 2100")]
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
fn wrong_usage_is_refused(#[case] line: &str) {
    assert!(Cli::try_parse_from(format!("strandline tide {line}").split(' ')).is_err());
}
