//! The sheet for the contact ashore, from the command line.

use std::fs;

use files::PEOPLE_EXAMPLE;

use crate::testing::run;
use crate::{Cli, Exit};

const ROUTE: &str = r#"(version: 1, title: "Out and over", chart: "The Melorrel Isles (invented)",
    departure: "2026-06-14T09:30[-02:00]", points: [
        (name: "Rasovan Stones", lat: 49.515028279, lon: -28.725415132),
        (name: "Past the Overfalls", lat: 49.514756759, lon: -28.708018844, stop_min: 20),
        (name: "Off Point of Erserra", lat: 49.505546674, lon: -28.6525025),
    ])"#;

/// What the sheet of the route says, with more arguments.
fn sheet(arguments: &[&str]) -> crate::testing::Said {
    let all = ["sheet", "-"].into_iter().chain(arguments.iter().copied());
    run(all, ROUTE)
}

/// Its text without breaks of lines.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn without_a_file_it_is_text() {
    let said = sheet(&[]);
    assert_eq!(said.exit, Exit::Done);
    assert!(
        said.output.lines().all(|line| plan::table::fitted(line, 80) == line),
        "{}",
        said.output
    );
    for words in [
        "For the contact ashore: Out and over",
        "Raise the alarm",
        "Look up the local number",
        "no such place",
        "Not for navigation",
    ] {
        assert!(flat(&said.output).contains(words), "{words}: {}", said.output);
    }
}

#[test]
fn the_margin_is_the_users() {
    let said = flat(&sheet(&["--overdue", "1h"]).output);
    assert!(said.contains("it is 1 h 00"), "{said}");
    let said = flat(&sheet(&["--overdue", "45 min"]).output);
    assert!(said.contains("it is 45 min"), "{said}");
    for wrong in ["soon", "-5", "49 h"] {
        let line = ["strandline", "sheet", &format!("--overdue={wrong}")].map(str::to_owned);
        let error = <Cli as clap::Parser>::try_parse_from(line).unwrap_err();
        assert_eq!(error.exit_code(), 2, "{wrong}");
    }
}

#[test]
fn positions_are_in_the_form_that_is_asked_for() {
    for (form, position) in [
        ("DM", "49°30.90′N 028°43.52′W"),
        ("d", "49.5150°N 028.7254°W"),
        ("DMS", "49°30′54″N 028°43′31″W"),
    ] {
        let said = flat(&sheet(&["--form", form]).output);
        assert!(said.contains(position), "{form}: {said}");
    }
}

#[test]
fn people_come_from_the_users_own_file() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("people.ron");
    fs::write(&path, PEOPLE_EXAMPLE).unwrap();
    let said = sheet(&["--people", path.to_str().unwrap()]);
    assert_eq!(said.exit, Exit::Done, "{}", said.errors);
    let text = flat(&said.output);
    for words in
        ["Aino Example", "yellow deck", "[x] distress beacon", "[ ] flares", "Edda Placeholder"]
    {
        assert!(text.contains(words), "{words}: {text}");
    }
}

#[test]
fn nothing_of_the_people_is_in_a_route_or_on_a_card() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    fs::write(at("people.ron"), PEOPLE_EXAMPLE).unwrap();
    fs::write(at("route.ron"), ROUTE).unwrap();
    let to = at("sheet.md");
    let said = run(["sheet", &at("route.ron"), "--people", &at("people.ron"), "-o", &to], "");
    assert_eq!(said.exit, Exit::Done, "{}", said.errors);
    assert!(fs::read_to_string(&to).unwrap().contains("Aino Example"));
    // The route's file is untouched, and what is made of it afterwards knows nobody.
    assert_eq!(fs::read_to_string(at("route.ron")).unwrap(), ROUTE);
    let route = files::open_route(&at("route.ron")).unwrap();
    files::save_route(at("again.ron").as_ref(), &route).unwrap();
    let again = fs::read_to_string(at("again.ron")).unwrap();
    let card = run(["card", &at("route.ron")], "").output;
    let show = run(["route", "show", &at("route.ron"), "--json"], "").output;
    for personal in ["Example", "Specimen", "yellow deck", "Placeholder", "blue van", "seasons"] {
        assert!(PEOPLE_EXAMPLE.contains(personal));
        for text in [&again, &card, &show] {
            assert!(!text.contains(personal), "{personal}: {text}");
        }
    }
    // Nor can a route hold them.
    let smuggled = ROUTE.replace("points:", "group: \"Thursday\", points:");
    assert_eq!(run(["card", "-"], &smuggled).exit, Exit::Bad);
}

#[test]
fn a_wrong_file_of_people_is_named_with_line_and_column() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("people.ron");
    for (text, words) in [
        ("(version: 1,\n  boats: [(crew: [(nam: \"x\")])])", "people.ron:2:"),
        ("(version: 9)", "version 9 is not known here"),
        ("(version: 1, kit: [(what: Parrot)])", "`Parrot` is not known here; known are `Radio`"),
        ("(version: 1, group: \"\u{1b}[2J\", boats: 3)", "people.ron:1:"),
    ] {
        fs::write(&path, text).unwrap();
        let said = sheet(&["--people", path.to_str().unwrap()]);
        assert_eq!(said.exit, Exit::Bad, "{text}");
        assert!(said.errors.contains(words), "{text}: {}", said.errors);
        assert!(said.output.is_empty() && !said.errors.contains('\u{1b}'));
    }
    let said = sheet(&["--people", folder.path().join("none.ron").to_str().unwrap()]);
    assert!(said.errors.contains("there is no such file"), "{}", said.errors);
    let said = sheet(&["--people", folder.path().to_str().unwrap()]);
    assert!(said.errors.contains("this is a folder"), "{}", said.errors);
}

#[test]
fn pages_are_written_whole_and_not_over_others() {
    let folder = tempfile::tempdir().unwrap();
    let to = folder.path().join("sheet.pdf");
    let to = to.to_str().unwrap();
    assert_eq!(sheet(&["-o", to]).exit, Exit::Done);
    let bytes = fs::read(to).unwrap();
    assert!(bytes.starts_with(b"%PDF-1."));
    assert_eq!(sheet(&["-o", to]).exit, Exit::Bad);
    assert_eq!(fs::read(to).unwrap(), bytes);
    assert_eq!(sheet(&["-o", to, "--force", "--size", "a5"]).exit, Exit::Done);
    assert_ne!(fs::read(to).unwrap(), bytes);
    let said = sheet(&["-o", folder.path().join("no/such/sheet.pdf").to_str().unwrap()]);
    assert_eq!(said.exit, Exit::Bad);
}

#[test]
fn the_example_is_printed_and_read_again() {
    let said = run(["sheet", "--people-example"], "");
    assert_eq!((said.exit, said.output.as_str()), (Exit::Done, PEOPLE_EXAMPLE));
}

#[test]
fn of_a_route_without_a_departure_no_clock_time_is_given() {
    let undated = ROUTE.replace("departure: \"2026-06-14T09:30[-02:00]\",", "");
    let said = run(["sheet", "-", "--lines", "2"], &undated);
    assert_eq!(said.exit, Exit::Done, "{}", said.errors);
    let text = flat(&said.output);
    assert!(text.contains("times count from the launch") && text.contains("+1 h"), "{text}");
    assert!(!text.contains("09:30"), "{text}");
}

#[test]
fn an_empty_route_is_no_sheet() {
    let said =
        run(["sheet", "-"], r#"(version: 1, chart: "The Melorrel Isles (invented)", points: [])"#);
    assert_eq!(said.exit, Exit::Bad);
    assert!(said.errors.contains("no points yet"), "{}", said.errors);
}
