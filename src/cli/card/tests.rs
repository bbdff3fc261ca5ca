//! Deck cards from the command line.

use std::fs;

use rstest::rstest;
use tempfile::TempDir;

use crate::Exit;
use crate::testing::{Said, run};

fn demonstration() -> String {
    plan::format::write(&plan::demonstration().unwrap())
}

/// A card of the demonstration on standard output.
fn printed(arguments: &[&str]) -> Said {
    run(["card", "-"].iter().chain(arguments).copied(), &demonstration())
}

/// A card of the demonstration in a file of this name.
fn saved(folder: &TempDir, name: &str, arguments: &[&str]) -> Said {
    let path = folder.path().join(name);
    printed(&[&["-o", path.to_str().unwrap()], arguments].concat())
}

fn names(folder: &TempDir) -> Vec<String> {
    let entries = fs::read_dir(folder.path()).unwrap();
    let mut names: Vec<String> =
        entries.map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

#[test]
fn as_text_it_goes_to_standard_output() {
    let said = printed(&[]);
    assert_eq!((said.exit, said.errors.as_str()), (Exit::Done, ""));
    assert!(said.output.lines().all(|line| plan::table::fitted(line, 80) == line));
    for part in
        ["South with the ebb\n", "Delovan slip", "Ways out", "no such place", "Not for navigation"]
    {
        assert!(said.output.contains(part), "{part}: {}", said.output);
    }
}

#[test]
fn as_markdown_by_the_ending_or_by_the_format() {
    let folder = tempfile::tempdir().unwrap();
    let said = saved(&folder, "card.md", &[]);
    assert_eq!(said.exit, Exit::Done, "{}", said.errors);
    let file = fs::read_to_string(folder.path().join("card.md")).unwrap();
    assert_eq!(file, printed(&["--format", "md"]).output);
    assert!(file.starts_with("# South with the ebb\n"), "{file}");
}

#[test]
fn a_pdf_says_where_it_is_and_is_the_same_each_time() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("card.pdf");
    let said = saved(&folder, "card.pdf", &["--size", "a5"]);
    assert_eq!((said.exit, said.output.as_str()), (Exit::Done, ""));
    assert_eq!(said.errors, format!("written: {}\n", path.display()));
    let bytes = fs::read(&path).unwrap();
    assert!(bytes.starts_with(b"%PDF-1.7") && bytes.ends_with(b"%%EOF"));
    assert_eq!(printed(&["--size", "a5", "--format", "pdf"]).bytes, bytes);
}

#[test]
fn a_file_that_is_there_stays_as_it_is_unless_told_otherwise() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("card.txt");
    fs::write(&path, "mine").unwrap();
    let said = saved(&folder, "card.txt", &[]);
    assert_eq!(said.exit, Exit::Bad);
    assert_eq!(
        said.errors,
        format!("{}: is there already; --force overwrites it\n", path.display())
    );
    assert_eq!(fs::read_to_string(&path).unwrap(), "mine");
    assert_eq!(saved(&folder, "card.txt", &["--force"]).exit, Exit::Done);
    assert_eq!(fs::read_to_string(&path).unwrap(), printed(&[]).output);
    assert_eq!(names(&folder), ["card.txt"]);
}

#[test]
fn each_page_of_svg_has_its_file_all_of_them_or_none() {
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name);
    fs::write(path("card-2.svg"), "mine").unwrap();
    let said = saved(&folder, "card.svg", &["--sides", "1"]);
    assert_eq!(said.exit, Exit::Bad);
    assert!(said.errors.ends_with("card-2.svg: is there already; --force overwrites it\n"));
    assert_eq!(names(&folder), ["card-2.svg"]);
    let said = saved(&folder, "card.svg", &["--force"]);
    assert_eq!(said.exit, Exit::Done, "{}", said.errors);
    let pages = names(&folder);
    assert!(pages.len() > 1, "{pages:?}");
    let listed: Vec<String> = pages.iter().map(|name| path(name).display().to_string()).collect();
    assert!(said.errors.ends_with(&format!("written: {}\n", listed.join(", "))), "{}", said.errors);
    for page in &pages {
        assert!(fs::read_to_string(path(page)).unwrap().starts_with("<?xml"), "{page}");
    }
    // One that is left of a longer card is no page of this.
    let next = path(&format!("card-{}.svg", pages.len() + 1));
    fs::write(&next, "of a longer one").unwrap();
    let said = saved(&folder, "card.svg", &["--force"]);
    let expected = format!("{} is from before, and no part of this\n", next.display());
    assert!(said.errors.ends_with(&expected), "{}", said.errors);
    assert_eq!(fs::read_to_string(next).unwrap(), "of a longer one");
}

#[test]
fn a_page_alone_has_the_name_as_it_is() {
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name);
    assert_eq!(saved(&folder, "card.svg", &[]).exit, Exit::Done);
    assert_eq!(saved(&folder, "one.svg", &["--page", "2"]).exit, Exit::Done);
    assert_eq!(fs::read(path("one.svg")).unwrap(), fs::read(path("card-2.svg")).unwrap());
    assert_eq!(saved(&folder, "small.png", &["--page", "1", "--dpi", "30"]).exit, Exit::Done);
    assert!(fs::read(path("small.png")).unwrap().starts_with(b"\x89PNG"));
}

#[rstest]
#[case(&["--format", "svg"], "standard output takes one file: a PDF holds them all, --page N is one of them")]
#[case(&["--page", "30", "--format", "pdf"], "--page: there are ")]
#[case(&["--format", "gpx"], "--format gpx is none of these: txt, pdf, svg, png, md")]
#[case(&["-o", "card"], "card: the name ends in none of .txt, .pdf, .svg, .png, .md; or say --format")]
#[case(&["-o", "no-such/card.pdf"], "no-such/card.pdf: there is no folder no-such; make it first, or name another")]
#[case(&["--chart", "no-such.ron"], "no-such.ron: there is no such file")]
fn what_cannot_be_done_is_said_in_one_line(#[case] arguments: &[&str], #[case] expected: &str) {
    let said = printed(arguments);
    assert_eq!((said.exit, said.output.as_str()), (Exit::Bad, ""));
    let last = said.errors.lines().last().unwrap();
    assert!(last.contains(expected), "{}", said.errors);
    // What is said before it is of the card's sides.
    assert!(said.errors.lines().count() == 1 || said.errors.starts_with("the card has "));
}

#[test]
fn another_day_and_time_than_the_route_has() {
    let said = printed(&["--date", "2026-06-21", "--leave", "07:15"]);
    assert_eq!(said.exit, Exit::Done, "{}", said.errors);
    assert!(said.output.contains("07:15 on Sunday 21 June 2026"), "{}", said.output);
    assert!(!printed(&[]).output.contains("07:15 on Sunday"));
}

#[test]
fn a_route_without_a_departure_has_a_card_without_times() {
    let mut route = plan::demonstration().unwrap();
    route.departure = None;
    let text = plan::format::write(&route);
    let said = run(["card", "-"], &text);
    assert_eq!(said.exit, Exit::Done);
    assert_eq!(said.errors.lines().count(), 1);
    assert!(said.errors.contains("no departure: no clock times"), "{}", said.errors);
    assert!(said.output.contains("Times by the pace alone"), "{}", said.output);
    let said = run(["card", "-", "--leave", "08:00", "--date", "2026-06-21"], &text);
    assert_eq!((said.exit, said.errors.as_str()), (Exit::Done, ""));
    assert!(said.output.contains("08:00 on Sunday 21 June 2026"), "{}", said.output);
}

#[test]
fn a_chart_without_tides_has_a_card_without_tides() {
    let mut chart = ::chart::practice().unwrap();
    (chart.streams, chart.races, chart.gates) = Default::default();
    chart.ports.clear();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("dry.ron");
    fs::write(&path, ::chart::format::write(&chart)).unwrap();
    let said = printed(&["--chart", path.to_str().unwrap()]);
    assert_eq!(said.exit, Exit::Done, "{}", said.errors);
    assert!(!said.output.contains("Tide at"), "{}", said.output);
    assert!(said.output.contains("Times by the pace alone"), "{}", said.output);
}

#[test]
fn a_route_of_one_point_has_a_card_and_one_of_none_has_not() {
    let mut route = plan::demonstration().unwrap();
    route.points.truncate(1);
    let folder = tempfile::tempdir().unwrap();
    let to = folder.path().join("one.pdf");
    let said = run(["card", "-", "-o", to.to_str().unwrap()], &plan::format::write(&route));
    assert_eq!(said.exit, Exit::Done, "{}", said.errors);
    route.points.clear();
    let said = run(["card", "-"], &plan::format::write(&route));
    assert_eq!(said.exit, Exit::Bad);
    assert_eq!(said.errors, "the route has no points yet: there is nothing to put on a card\n");
}

#[test]
fn more_sides_than_were_asked_for_are_told_of() {
    let mut route = plan::demonstration().unwrap();
    for index in 0..40 {
        let mut point = route.points[index % route.points.len()].clone();
        point.along = None;
        route.points.push(point);
    }
    let text = plan::format::write(&route);
    let folder = tempfile::tempdir().unwrap();
    let to = folder.path().join("long.pdf");
    let said = run(["card", "-", "-o", to.to_str().unwrap(), "--sides", "1"], &text);
    assert_eq!(said.exit, Exit::Done, "{}", said.errors);
    assert!(said.errors.contains("sides: so long a route has no room on 1"), "{}", said.errors);
}
