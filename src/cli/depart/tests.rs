//! Starts on the command line, bytes in and bytes out.

use std::collections::HashMap;

use clap::Parser;
use rstest::rstest;
use serde_json::Value;

use crate::testing::{Said, run};
use crate::{Cli, Exit};

fn depart(arguments: &[&str], input: &str) -> Said {
    run(["depart"].iter().chain(arguments).copied(), input)
}

fn done(arguments: &[&str]) -> String {
    let said = depart(arguments, "");
    assert_eq!((said.exit, said.errors.as_str()), (Exit::Done, ""));
    said.output
}

fn json(arguments: &[&str]) -> Value {
    serde_json::from_str(&done(&[arguments, &["--json"]].concat())).unwrap()
}

/// What every page keeps to.
fn kept(page: &str) {
    let flowing = crate::testing::kept(page);
    for wanted in ["eddies close in", "official tide tables", "no more than that"] {
        assert!(flowing.contains(wanted), "{wanted}");
    }
    assert!(!flowing.to_lowercase().contains("safe"));
}

#[test]
fn a_page_of_the_demonstration() {
    let page = done(&["--date", "2026-06-14"]);
    kept(&page);
    insta::assert_snapshot!(page);
}

#[test]
fn a_fortnight_is_a_line_for_each_day() {
    let page = done(&["--date", "2026-06-14", "--days", "14", "--every", "30min"]);
    kept(&page);
    insta::assert_snapshot!(page);
}

#[test]
fn strips_can_be_drawn_with_the_signs_of_every_keyboard() {
    for days in ["1", "3"] {
        let page = done(&["--date", "2026-06-14", "--ascii", "--days", days]);
        kept(&page);
        assert!(page.is_ascii(), "{page}");
    }
}

/// The same number but for what reading JSON takes off its last digit, or none in both.
fn alike(json: Option<f64>, csv: &str) {
    match (json, csv.parse::<f64>()) {
        (Some(json), Ok(csv)) => assert!((json - csv).abs() <= 1e-12 * csv.abs(), "{json} {csv}"),
        (json, csv) => assert!(json.is_none() && csv.is_err(), "{json:?} {csv:?}"),
    }
}

#[test]
fn text_csv_and_json_say_the_same() {
    let line = ["--date", "2026-06-14", "--every", "20"];
    let found = json(&line);
    let day = &found["days"][0];
    let starts = day["starts"].as_array().unwrap();
    assert_eq!(starts.len(), 72);
    let page = done(&line);
    let text = done(&[&line[..], &["--csv"]].concat());
    let mut rows = csv::Reader::from_reader(text.as_bytes());
    let mut count = 0;
    for (row, start) in rows.deserialize::<HashMap<String, String>>().zip(starts) {
        let row = row.unwrap();
        for name in ["utc", "local", "verdict"] {
            assert_eq!(start[name], row[name]);
        }
        for name in ["time_s", "waited_s", "against_s", "tide_at_landing_m", "light_left_s"] {
            alike(start[name].as_f64(), &row[name]);
        }
        for (name, of_day) in [("best", "best"), ("latest", "latest_within_limits")] {
            assert_eq!(row[name] == "yes", start["utc"] == day[of_day], "{name} {row:?}");
        }
        let words = |value: &Value| {
            value
                .as_array()
                .unwrap()
                .iter()
                .map(|it| it.as_str().unwrap().to_owned())
                .collect::<Vec<_>>()
        };
        assert_eq!(words(&start["reasons"]).join("; "), row["reasons"]);
        let legs = start["legs"].as_array().unwrap();
        for (number, leg) in (1..).zip(legs) {
            alike(leg["under_way_s"].as_f64(), &row[&format!("leg_{number}_s")]);
        }
        // Waits, legs and stops make the whole; the demonstration stops for half an hour.
        if let Some(time) = start["time_s"].as_f64() {
            let sum = |name: &str| legs.iter().map(|leg| leg[name].as_f64().unwrap()).sum::<f64>();
            assert!((sum("under_way_s") + sum("waited_s") + 1800.0 - time).abs() < 1e-3, "{start}");
        }
        let clock = &start["local"].as_str().unwrap()[11..16];
        let shown = page.lines().any(|line| line.get(..).is_some_and(|it| it.contains(clock)));
        assert!(shown || start["verdict"] == "refused", "{clock}");
        count += 1;
    }
    assert_eq!(count, 72);
    let best = starts.iter().find(|start| start["utc"] == day["best"]).unwrap();
    let clock = &best["local"].as_str().unwrap()[11..16];
    assert!(page.contains(&format!("Best: {clock}, ")), "{page}");
}

#[rstest]
#[case("2026-03-29", 23)]
#[case("2026-10-25", 25)]
#[case("2026-06-14", 24)]
fn days_have_as_many_hours_as_their_clock(#[case] date: &str, #[case] hours: usize) {
    let line = ["--date", date, "--zone", "Europe/London", "--light-left", "none"];
    let found = json(&line);
    assert_eq!(found["days"][0]["starts"].as_array().unwrap().len(), 6 * hours);
    let page = done(&line);
    kept(&page);
    let strip = page.lines().find(|line| line.starts_with("out  ")).unwrap();
    assert_eq!(strip.chars().count(), 5 + 3 * hours);
}

#[test]
fn limits_are_the_users() {
    let verdicts = |limits: &[&str]| {
        let line = [&["--date", "2026-06-14", "--csv"], limits].concat();
        let said = depart(&line, "");
        let acceptable = said.output.lines().skip(1).filter(|row| !row.contains(",refused,"));
        (said.exit, acceptable.count())
    };
    let (exit, usual) = verdicts(&[]);
    assert!(exit == Exit::Done && usual > 0);
    let (_, quiet) = verdicts(&["--worst-race", "quiet"]);
    let (_, any) = verdicts(&["--worst-race", "worst", "--light-left", "none"]);
    assert!(quiet < usual && usual < any, "{quiet} {usual} {any}");
    assert_eq!(verdicts(&["--longest-day", "30"]), (Exit::No, 0));
    let said = depart(&["--date", "2026-06-14", "--longest-day", "30"], "");
    assert_eq!(said.exit, Exit::No);
    assert!(said.output.contains("\nNo start of the day keeps within the limits.\n"));
    kept(&said.output);
}

#[test]
fn a_chart_without_streams_says_so_and_still_tells_light_and_height() {
    let mut chart = ::chart::practice().unwrap();
    (chart.streams, chart.races, chart.gates) = (Vec::new(), Vec::new(), Vec::new());
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("still.ron");
    std::fs::write(&path, ::chart::format::write(&chart)).unwrap();
    let line = ["--date", "2026-06-14", "--chart", path.to_str().unwrap()];
    let page = done(&line);
    kept(&page);
    let flowing = page.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flowing.contains("Nothing is known of the stream on the way"), "{page}");
    let found = json(&line);
    let starts = found["days"][0]["starts"].as_array().unwrap();
    assert!(starts.iter().all(|start| start["tide_at_landing_m"].is_f64()));
    assert!(starts.iter().all(|start| start["light_left_s"].is_f64()));
}

const NOWHERE: &str = r#"(version: 1, chart: "The Melorrel Isles (invented)", points: [])"#;
const ELSEWHERE: &str = r#"(version: 1, chart: "Elsewhere", points: [])"#;
const UNTIMELY: &str =
    r#"(version: 1, chart: "Elsewhere", departure: "2026-06-14T25:30[UTC]", points: [])"#;

#[rstest]
#[case(&["--date", "2200-01-01"], "is not within the years 1900 to 2100")]
#[case(&["--date", "1899-06-01"], "is not within the years 1900 to 2100")]
#[case(&["-"], "the route has no legs; it takes two points to leave one for the other")]
#[case(&["--worst-race", "wild"], "--worst-race: “wild” is no worst race; write quiet, running or worst")]
#[case(&["--greatest-drift", "0"], "--greatest-drift: a greatest drift of 0 kn is not within 0.1 and 30 kn")]
#[case(&["--longest-wait", "-5"], "--longest-wait: “-5” is no longest wait; write minutes")]
#[case(
    &["--date", "2011-12-30", "--zone", "Pacific/Apia"],
    "there is no 2011-12-30 in this zone: its clocks go from the day before to the day after"
)]
fn what_cannot_be_answered_is_said(#[case] arguments: &[&str], #[case] wanted: &str) {
    let arguments: Vec<String> = arguments.iter().map(|it| (*it).to_owned()).collect();
    // A value that begins with a minus is joined to its option.
    let joined: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let said = match joined.as_slice() {
        [option, value] if value.starts_with('-') && option.starts_with("--") => {
            depart(&[&format!("{option}={value}")], NOWHERE)
        }
        _ => depart(&joined, NOWHERE),
    };
    assert_eq!(said.exit, Exit::Bad);
    assert!(said.errors.contains(wanted), "{}", said.errors);
    assert_eq!(said.errors.lines().count(), 1, "{}", said.errors);
    assert_eq!(said.output, "");
}

#[rstest]
#[case(ELSEWHERE, "name its file with --chart")]
#[case(UNTIMELY, "standard input:1:")]
#[case("nothing", "standard input:1:")]
fn routes_that_cannot_be_left_on_are_refused(#[case] route: &str, #[case] wanted: &str) {
    let said = depart(&["-"], route);
    assert_eq!((said.exit, said.output.as_str()), (Exit::Bad, ""));
    assert!(said.errors.contains(wanted), "{}", said.errors);
}

#[rstest]
#[case("--date 2026-6-14")]
#[case("--date 2026-02-30")]
#[case("--zone Nowhere")]
#[case("--days 0")]
#[case("--days 32")]
#[case("--every 0")]
#[case("--every 25h")]
#[case("--every often")]
#[case("--json --csv")]
#[case("--json --ascii")]
fn wrong_usage_is_refused(#[case] line: &str) {
    assert!(Cli::try_parse_from(format!("strandline depart {line}").split(' ')).is_err());
}
