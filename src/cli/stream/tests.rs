//! The stream on the command line, bytes in and bytes out.

use clap::Parser;
use rstest::rstest;
use serde_json::Value;

use crate::testing::{Said, run};
use crate::{Cli, Exit};

fn stream(arguments: &[&str]) -> Said {
    run(["stream"].iter().chain(arguments).copied(), "")
}

fn json(arguments: &[&str]) -> Value {
    let said = stream(&[arguments, &["--json"]].concat());
    assert_eq!((said.exit, said.errors.as_str()), (Exit::Done, ""));
    serde_json::from_str(&said.output).unwrap()
}

#[test]
fn pages_of_a_station_and_of_a_place_between() {
    let station = stream(&["--station", "ollillan", "--date", "2026-06-14"]);
    let between = stream(&["--at", "QB 635 455", "--date", "2026-06-14"]);
    for said in [&station, &between] {
        assert_eq!((said.exit, said.errors.as_str()), (Exit::Done, ""));
        for line in said.output.lines() {
            assert!(line.chars().count() <= 80, "{line}");
        }
    }
    insta::assert_snapshot!([station.output, between.output].join("\n"));
}

#[test]
fn the_hours_of_a_day_and_one_time_in_it() {
    let day = json(&["--station", "The Quelild Gates", "--date", "2026-06-14"]);
    let hours = day["hours"].as_array().unwrap();
    assert_eq!(hours.len(), 25);
    assert_eq!(hours[9]["local"], "2026-06-14T09:00-02:00");
    let one = json(&["--station", "the quel", "--date", "2026-06-14", "--time", "09:00"]);
    assert_eq!(one["hours"].as_array().unwrap().as_slice(), &hours[9..10]);
    assert!(one.get("turns").is_none());
    // Four turns a day, each with its slack, and a greatest rate between.
    let count = |what: &str| day[what].as_array().unwrap().len();
    assert!((3..=4).contains(&count("turns")), "{day}");
    assert!((3..=4).contains(&count("slack")), "{day}");
    assert!((3..=5).contains(&count("greatest")), "{day}");
    let csv = stream(&["--station", "The Quelild Gates", "--date", "2026-06-14", "--csv"]);
    assert_eq!(csv.output.lines().count(), 26);
    assert!(csv.output.starts_with("utc,local,set_deg,rate_kn\n2026-06-14T02:00:00Z,"));
}

#[test]
fn the_hours_of_a_gate_and_of_a_race() {
    let gate = stream(&["--gate", "farum", "--date", "2026-06-14"]);
    let race = stream(&["--race", "jasinna", "--date", "2026-06-14"]);
    for said in [&gate, &race] {
        assert_eq!((said.exit, said.errors.as_str()), (Exit::Done, ""));
        assert!(said.output.lines().all(|line| line.chars().count() <= 80), "{}", said.output);
    }
    insta::assert_snapshot!("hours_of_a_gate_and_a_race", [gate.output, race.output].join("\n"));
    // The stretches are the whole day, without a gap.
    for (option, name, words) in [
        ("--gate", "The Quelild Gates", &["open", "shut"][..]),
        ("--race", "Ollillan Tumble", &["quiet", "running", "at its worst"][..]),
    ] {
        let day = json(&[option, name, "--date", "2026-06-15"]);
        let stretches = day["stretches"].as_array().unwrap();
        assert_eq!(stretches[0]["from_local"], "2026-06-15T00:00-02:00");
        assert_eq!(stretches.last().unwrap()["to_local"], "2026-06-16T00:00-02:00");
        assert!(stretches.windows(2).all(|pair| pair[0]["to_utc"] == pair[1]["from_utc"]));
        let said: std::collections::BTreeSet<&str> =
            stretches.iter().map(|it| it["state"].as_str().unwrap()).collect();
        assert_eq!(said, words.iter().copied().collect());
        let csv = stream(&[option, name, "--date", "2026-06-15", "--csv"]).output;
        assert_eq!(csv.lines().count(), stretches.len() + 1);
    }
}

#[test]
fn where_nothing_is_known_the_answer_is_no() {
    let said = stream(&["--at", "QB 899 401", "--date", "2026-06-14"]);
    assert_eq!((said.exit, said.output.as_str()), (Exit::No, ""));
    assert!(said.errors.starts_with("nothing is known of the stream at QB 899 401:"));
    assert_eq!(said.errors.lines().count(), 1, "{}", said.errors);
}

#[rstest]
#[case(&["--station", "Nowhere"], "no station is named “nowhere”; there is Ollillan Narrows,")]
#[case(&["--station", "off"], "several stations begin with “off”: Off Point of Jasinna,")]
#[case(&["--gate", "the"], "several gates begin with “the”: The Quelild Gates, The Polinna Gates,")]
#[case(&["--race", "Nowhere"], "no race is named “nowhere”; there is Ollillan Tumble,")]
#[case(&["--at", "Nowhere"], "--at: no name on the chart begins with “Nowhere”")]
#[case(
    &["--station", "ollillan", "--date", "2026-03-29", "--time", "02:30", "--zone", "Europe/Oslo"],
    "02:30 on 2026-03-29 is not one instant: the zone's clocks change then; give another"
)]
#[case(&["--station", "ollillan", "--date", "1899-01-01"], "is not within the years 1900 to 2100")]
fn what_cannot_be_answered_is_said(#[case] arguments: &[&str], #[case] wanted: &str) {
    let said = stream(arguments);
    assert_eq!(said.exit, Exit::Bad);
    assert!(said.errors.contains(wanted), "{}", said.errors);
    assert_eq!(said.errors.lines().count(), 1, "{}", said.errors);
}

#[rstest]
#[case("")]
#[case("--station A --at B")]
#[case("--station A --time 9:00")]
#[case("--station A --time 24:00")]
#[case("--station A --slack -1")]
#[case("--station A --json --csv")]
#[case("--station A --gate B")]
#[case("--gate A --time 09:00")]
fn wrong_usage_is_refused(#[case] line: &str) {
    let words = line.split(' ').filter(|word| !word.is_empty());
    assert!(Cli::try_parse_from(["strandline", "stream"].into_iter().chain(words)).is_err());
}
