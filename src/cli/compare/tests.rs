//! Comparisons on the command line, bytes in and bytes out.

use clap::Parser;
use nav::Pace;
use rstest::rstest;
use serde_json::Value;

use super::*;
use crate::Cli;
use crate::testing::{Said, run};

const TRACK: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/data/tracks/south.gpx");
const ROUTE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../maps/demonstration.ron");

fn compare(arguments: &[&str], input: &str) -> Said {
    run(["compare"].iter().chain(arguments).copied(), input)
}

fn done(arguments: &[&str], input: &str) -> String {
    let said = compare(arguments, input);
    assert_eq!((said.exit, said.errors.as_str()), (Exit::Done, ""));
    said.output
}

fn kept(page: &str) {
    let flowing = crate::testing::kept(page);
    assert!(!flowing.to_lowercase().contains("safe"));
}

#[test]
fn a_page_of_a_day() {
    let page = done(&[TRACK, ROUTE], "");
    kept(&page);
    insta::assert_snapshot!(page);
}

/// What happened is written where the track is made: in the order of `make.py`.
#[test]
fn json_has_what_happened() {
    let value: Value = serde_json::from_str(&done(&[TRACK, ROUTE, "--json"], "")).unwrap();
    let fixes = &value["fixes"];
    assert_eq!(
        (&fixes["wild"], &fixes["backwards"], &fixes["same_time"]),
        (&1.into(), &3.into(), &4.into())
    );
    assert_eq!(value["points"].as_array().unwrap().len(), 15);
    assert!(value["points"].as_array().unwrap().iter().all(|point| point["passed"] == true));
    let [gap] = &value["gaps"].as_array().unwrap()[..] else { panic!() };
    assert_eq!(gap["why"], "no fix");
    let [stray] = &value["strays"].as_array().unwrap()[..] else { panic!("{}", value["strays"]) };
    assert_eq!((&stray["side"], &stray["farthest"]["leg"]), (&"left".into(), &6.into()));
    let tea =
        value["stops"].as_array().unwrap().iter().map(|stop| stop["time_s"].as_f64().unwrap());
    assert!(tea.into_iter().any(|time| (time - 41.0 * 60.0).abs() < 90.0));
    // They left at 12:58, and the plan at 12:45.
    assert!(value["points"][0]["went_utc"].as_str().unwrap().starts_with("2026-06-14T12:5"));
    let water = value["water_pace"]["kn"].as_f64().unwrap();
    assert!((1.5..5.0).contains(&water), "{water}");
    assert!(value["caution"].as_str().unwrap().starts_with("Not for navigation"));
}

#[test]
fn csv_has_a_row_for_each_point() {
    let table = done(&[TRACK, ROUTE, "--csv"], "");
    let rows: Vec<::csv::StringRecord> =
        ::csv::Reader::from_reader(table.as_bytes()).records().map(Result::unwrap).collect();
    assert_eq!(rows.len(), 15);
    assert_eq!((&rows[0][1], &rows[14][1]), ("Rasovan Stones", "Delovan slip"));
    let made: f64 = rows.iter().filter_map(|row| row[10].parse::<f64>().ok()).sum();
    assert!((15_000.0..18_000.0).contains(&made), "{made}");
}

/// A track on standard input, of the form that a receiver writes without times, and of another day.
#[test]
fn without_times_and_without_a_stream() {
    let text = std::fs::read_to_string(TRACK).unwrap();
    let mut plain = String::new();
    for line in text.lines() {
        let time = line.find("<time>").zip(line.find("</trkpt>"));
        plain += &time.map_or(line.to_owned(), |(from, to)| line[..from].to_owned() + &line[to..]);
        plain.push('\n');
    }
    let page = done(&["-", ROUTE], &plain);
    kept(&page);
    assert!(page.contains("the track has no times"), "{page}");
    // Years for which no tide is reckoned.
    let page = done(&["-", ROUTE], &text.replace("2026-", "2150-"));
    kept(&page);
    assert!(page.contains("Pace through the water: not known"), "{page}");
}

const TWO: &str = r#"<gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1">
<trk><name>A</name><trkseg><trkpt lat="49.5" lon="-28.7"/></trkseg></trk>
<trk><name>B</name><trkseg><trkpt lat="1.5" lon="2.7"/><trkpt lat="1.5" lon="2.701"/></trkseg></trk></gpx>"#;

#[rstest]
#[case(&["-", ROUTE], TWO, "choose one by --track: 1 A (1 fixes); 2 B (2 fixes)")]
#[case(&["-", ROUTE, "--track", "3"], TWO, "there is no track 3; it has 1 A")]
#[case(&["-", ROUTE, "--track", "1"], TWO, "at least two are needed")]
#[case(&["-", ROUTE, "--track", "2"], TWO, "comes no nearer to the route than")]
#[case(&["-", ROUTE], "<gpx version=\"1.1\" creator=\"x\" xmlns=\"http://www.topografix.com/GPX/1/1\"/>", "there is no track in it")]
#[case(&[TRACK, "nowhere.ron"], "", "nowhere.ron: there is no such file")]
#[case(&["nowhere.gpx", ROUTE], "", "nowhere.gpx: there is no such file")]
#[case(&[TRACK, ROUTE, "--keep", "3 kn"], "", "is no name for a profile")]
#[case(&[TRACK, ROUTE, "--chart", ROUTE], "", "demonstration.ron:")]
#[case(&["-", ROUTE], "not xml", "standard input")]
fn bad_input_says_why(#[case] arguments: &[&str], #[case] input: &str, #[case] wanted: &str) {
    let said = compare(arguments, input);
    assert_eq!((said.exit, said.output.as_str()), (Exit::Bad, ""), "{}", said.errors);
    assert!(said.errors.contains(wanted), "{}", said.errors);
}

#[rstest]
#[case(&["compare"])]
#[case(&["compare", "a", "b", "--off", "5m"])]
#[case(&["compare", "a", "b", "--off", "20km"])]
#[case(&["compare", "a", "b", "--track", "0"])]
#[case(&["compare", "a", "--profiles"])]
#[case(&["compare", "a", "b", "--json", "--csv"])]
#[case(&["depart", "--pace", "3"])]
fn bad_usage_is_refused(#[case] arguments: &[&str]) {
    assert!(Cli::try_parse_from(["strandline"].iter().chain(arguments)).is_err(), "{arguments:?}");
}

#[test]
fn a_pace_is_a_speed_or_a_profile() {
    let pace: Pace = "3.2 kn".parse().unwrap();
    assert_eq!("3.2kn".parse(), Ok(PaceOrProfile::Pace(pace)));
    assert_eq!("Thursdays".parse(), Ok(PaceOrProfile::Profile("Thursdays".to_owned())));
    for wrong in ["3", "", "3 furlongs", "-2kn"] {
        assert!(wrong.parse::<PaceOrProfile>().is_err(), "{wrong}");
    }
    let slow = run(["depart", "--date", "2026-06-14", "--pace", "2.5kn", "--csv"], "").output;
    let fast = run(["depart", "--date", "2026-06-14", "--pace", "4kn", "--csv"], "").output;
    assert_ne!(slow, fast);
}
