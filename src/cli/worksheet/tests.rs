//! The practice sheet from the command line.

use rstest::rstest;

use crate::Exit;
use crate::testing::{Said, run};

const ROUTE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../maps/demonstration.ron");

fn sheet<'a>(arguments: impl IntoIterator<Item = &'a str>) -> Said {
    run(["worksheet", "practice"].into_iter().chain(arguments), "")
}

#[test]
fn the_same_seed_is_the_same_sheet() {
    let one = sheet(["--seed", "7", "--date", "2026-06-14"]);
    assert_eq!(one.exit, Exit::Done, "{}", one.errors);
    assert_eq!(one.output, sheet(["--seed", "7", "--date", "2026-06-14"]).output);
    assert_ne!(one.output, sheet(["--seed", "8", "--date", "2026-06-14"]).output);
    assert!(one.output.starts_with("Practice sheet 7\n"), "{}", one.output);
    for words in [
        "F–G",
        "09:00",
        "June 2026 (World Magnetic Model 2025)",
        "no such place",
        "Not for navigation",
        "Answers",
    ] {
        assert!(one.output.contains(words), "{words}");
    }
}

#[test]
fn the_points_of_a_route_are_asked_for() {
    let said = sheet([ROUTE, "--pace", "4 kn", "--answers", "none"]);
    assert_eq!(said.exit, Exit::Done, "{}", said.errors);
    assert!(said.output.starts_with("Practice sheet: South with the ebb\n"), "{}", said.output);
    assert!(said.output.contains("N–O") && said.output.contains("Pace 4 kn, leaving A at 10:45"));
    assert!(!said.output.contains("QB 646 597"), "{}", said.output);
    let only = sheet([ROUTE, "--answers", "only", "--format", "md", "--leave", "06:00"]);
    assert!(only.output.contains("QB 646 597") && only.output.contains("06:00"), "{}", only.output);
}

#[test]
fn answers_apart_are_a_second_file_and_no_file_is_replaced() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sheet.pdf");
    let path = path.to_str().unwrap();
    let said = sheet(["-o", path, "--answers", "apart"]);
    assert_eq!(said.exit, Exit::Done, "{}", said.errors);
    for name in ["sheet.pdf", "sheet-answers.pdf"] {
        assert!(std::fs::read(folder.path().join(name)).unwrap().starts_with(b"%PDF-"), "{name}");
        assert!(said.errors.contains(name), "{}", said.errors);
    }
    std::fs::remove_file(path).unwrap();
    let again = sheet(["-o", path, "--answers", "apart"]);
    assert_eq!(again.exit, Exit::Bad, "{}", again.errors);
    assert!(again.errors.contains("sheet-answers.pdf"), "{}", again.errors);
    assert!(!std::path::Path::new(path).exists());
    assert_eq!(sheet(["-o", path, "--answers", "apart", "--force"]).exit, Exit::Done);
}

#[test]
fn pictures_of_its_pages_have_a_file_each() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sheet.svg");
    let said = sheet(["-o", path.to_str().unwrap(), "--questions", "4"]);
    assert_eq!(said.exit, Exit::Done, "{}", said.errors);
    for name in ["sheet-1.svg", "sheet-2.svg"] {
        let svg = std::fs::read_to_string(folder.path().join(name)).unwrap();
        assert!(svg.contains("no such place"), "{name}");
    }
}

#[rstest]
#[case(&[ROUTE, "--scale", "1:10000"], "1:75,000 fits")]
#[case(&["--scale", "12 miles"], "write a scale such as 1:25000")]
#[case(&["--around", "Nowhere"], "no name on the chart begins with “Nowhere”")]
#[case(&["--answers", "apart"], "name a file with -o")]
#[case(&["-o", "sheet.gpx"], ".pdf, .svg, .png, .md")]
#[case(&["--questions", "26"], "26 is not in 1..=25")]
fn what_is_wrong_says_what_would_be_right(#[case] arguments: &[&str], #[case] words: &str) {
    use clap::Parser;
    let all = ["strandline", "worksheet", "practice"].iter().chain(arguments);
    if let Err(error) = crate::Cli::try_parse_from(all) {
        assert!(error.to_string().contains(words), "{error}");
        return;
    }
    let said = sheet(arguments.iter().copied());
    assert_eq!(said.exit, Exit::Bad);
    assert!(said.errors.contains(words), "{}", said.errors);
}

#[test]
fn points_lie_around_the_place_that_is_asked_for() {
    let said = sheet(["--around", "QB 70 47", "--scale", "25000", "--questions", "3"]);
    assert_eq!(said.exit, Exit::Done, "{}", said.errors);
    // At this scale the page shows four kilometres.
    for line in said.output.lines().filter(|line| line.contains("  QB ")) {
        let part = line.split("QB ").nth(1).unwrap();
        let along: i32 = part[..3].parse().unwrap();
        let up: i32 = part[4..7].parse().unwrap();
        assert!((along - 705).abs() <= 25 && (up - 475).abs() <= 25, "{line}");
    }
}
