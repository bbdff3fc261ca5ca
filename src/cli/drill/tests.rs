//! Drills, lines in and lines out.

use std::fs;

use insta::assert_snapshot;
use rstest::rstest;
use serde_json::Value;

use crate::Exit;
use crate::testing::run;

fn drill(arguments: &str, input: &str) -> String {
    let said = run(["drill"].into_iter().chain(arguments.split(' ')), input);
    assert_eq!((said.exit, said.errors.as_str()), (Exit::Done, ""));
    for line in said.output.lines().filter(|line| !line.starts_with(['{', ' '])) {
        assert!(line.chars().count() <= 80, "{line}");
    }
    said.output
}

#[test]
fn the_kinds_are_listed() {
    assert_snapshot!(drill("--list", ""));
}

#[test]
fn a_drill_is_held() {
    let typed = "?\n?\n?\nhalf past\n330 M\n\n110\n230 M\nq\n";
    assert_snapshot!(drill("back --seed 7", typed));
}

#[test]
fn a_drill_of_all_kinds_is_held() {
    let typed =
        "008\n96 M\nQB 542 814\n1.6 kn\na\n\n40 min\n49 24.1N 28 33.1W\n301\nwb\n4\n?\n270\n";
    assert_snapshot!(drill("mixed --seed 12 --count 12 --level 2", typed));
}

#[test]
fn a_paper_has_its_answers_at_the_end() {
    assert_snapshot!(drill("mixed --seed 3 --count 22 --level 3 --answers", ""));
}

#[test]
fn nobody_is_there_to_answer() {
    let said = drill("time --seed 1 --count 3", "");
    assert_eq!(said.matches(" of 3 · ").count(), 3);
    assert!(said.ends_with("no such place exists.\n"), "{said}");
    assert!(!said.contains("right"), "{said}");
}

#[test]
fn json_has_the_answers_apart() {
    let said = drill("mixed --seed 7 --count 22 --json", "");
    let document: Value = serde_json::from_str(&said).unwrap();
    let list = |name: &str| document[name].as_array().unwrap().clone();
    assert_eq!((list("questions").len(), list("answers").len()), (22, 22));
    for (question, answer) in list("questions").iter().zip(list("answers")) {
        assert_eq!(question["number"], answer["number"]);
        assert!(question.get("answer").is_none() && answer["answer"].is_string());
    }
    assert_eq!(document["invented"], true);
    assert_eq!(said, drill("mixed --seed 7 --count 22 --json", ""));
}

#[test]
fn what_is_typed_cannot_command_the_terminal() {
    let said = drill("time --seed 1 --count 1", "\u{1b}[2J\u{202e}\n");
    assert!(!said.contains(['\u{1b}', '\u{202e}']), "{said:?}");
}

#[test]
fn a_chart_that_has_not_what_it_takes_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bare.ron");
    let bare = r#"(version: 1, title: "Bare", invented: true, grid: Named("UTM:25N"),
        extent: (south_west: (500000, 5200000), north_east: (501000, 5201000)), shore: Here([]))"#;
    fs::write(&path, bare).unwrap();
    let path = path.to_str().unwrap();
    let said = run(["drill", "reference", "--chart", path], "");
    assert_eq!(said.exit, Exit::Bad);
    assert_eq!(
        said.errors,
        "the chart “Bare” has not what it takes to ask for the six-figure reference of a mark; take another \
         chart or kind\n"
    );
    // What needs no chart is asked all the same.
    let said = run(["drill", "mixed", "--chart", path, "--count", "8", "--seed", "1"], "");
    assert_eq!((said.exit, said.output.matches(" of 8 · ").count()), (Exit::Done, 8));
}

#[rstest]
#[case("drill", "required")]
#[case("drill nothing", "“nothing” is no kind of exercise; there is reference, find,")]
#[case("drill time --level 4", "“4” is no level; it is 1, 2 or 3")]
#[case("drill time --count 0", "0 is not in 1..=1000")]
fn what_is_asked_for_wrongly_is_told(#[case] line: &str, #[case] said: &str) {
    let all = ["strandline"].into_iter().chain(line.split(' '));
    let error = <crate::Cli as clap::Parser>::try_parse_from(all).unwrap_err().to_string();
    assert!(error.contains(said), "{error}");
}
