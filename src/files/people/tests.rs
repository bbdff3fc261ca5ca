//! Tests of files of people.

use paper::sheet::{Kit, People};
use rstest::rstest;

use super::*;

fn read(text: &str) -> Result<People, String> {
    let mut input = text.as_bytes();
    open_people(Source::Input(&mut input)).map_err(|error| error.to_string())
}

#[test]
fn the_example_is_read() {
    let people = read(EXAMPLE).unwrap();
    assert_eq!((people.boats.len(), people.count()), (3, 4));
    assert_eq!(people.boats[2].crew[1].name, "Dov Instance");
    assert_eq!(people.kit[0].what, Kit::Radio);
    // Nobody's number is in it.
    assert!(
        !EXAMPLE.lines().any(|line| { line.contains("phone:") && !line.contains("phone: \"\"") })
    );
}

#[test]
fn all_but_the_version_may_be_left_out() {
    assert_eq!(read("(version: 1)").unwrap(), People::default());
    assert_eq!(read("\u{feff}(version: 1)").unwrap(), People::default());
}

#[test]
fn text_is_cleaned_where_it_is_read() {
    let text =
        "(version: 1, boats: [(crew: [(name: \"A\\u{1b}[2J\\u{202e}B\")])], medical: \" x\\ny \")";
    let people = read(text).unwrap();
    assert_eq!(people.boats[0].crew[0].name, "A\u{fffd}[2J\u{fffd}B");
    assert_eq!(people.medical, "x\u{fffd}y");
}

#[rstest]
#[case("", "1:1: the file ends in the middle; a file of people ends with `)`")]
#[case("(version: 1", "the file ends in the middle; a file of people ends with `)`")]
#[case("(version: 2)", "version 2 is not known here; this program reads version 1")]
#[case("(group: \"x\")", "`version` is missing")]
#[case("(version: 1, grup: \"x\")", "1:14: `grup` is not known here; known are `version`, `group`")]
#[case("(version: 1, group: \"x\", group: \"y\")", "`group` is given twice; once would be right")]
#[case("(version: 1) (version: 1)", "text after the file of people's closing `)`")]
#[case("(version: 1, kit: [(what: Anchor)])", "`Anchor` is not known here; known are `Radio`")]
#[case(
    "(version: 1,\n kit: [(what: Radio), (what: Radio)])",
    "is given twice; once, with all details, would be right"
)]
#[case("(version: 1, boats: [(kind: \"x\")])", "`crew` is missing")]
#[case("(version: 1, group: 7)", "1:20: Expected string")]
fn what_is_wrong_is_named_with_its_place(#[case] text: &str, #[case] said: &str) {
    let error = read(text).unwrap_err();
    assert!(error.starts_with("standard input:") && error.contains(said), "{error}");
}

#[test]
fn all_is_bounded() {
    let long = "x".repeat(81);
    let error = read(&format!("(version: 1, group: \"{long}\")")).unwrap_err();
    assert!(error.contains("this has 81 characters; 80 is the most"), "{error}");
    let boats = "(crew: []),".repeat(People::MOST_BOATS + 1);
    let error = read(&format!("(version: 1, boats: [{boats}])")).unwrap_err();
    assert!(error.contains("there are more than 60 boats, the most"), "{error}");
    let crew = "(),".repeat(People::MOST_CREW + 1);
    let error = read(&format!("(version: 1, boats: [(crew: [{crew}])])")).unwrap_err();
    assert!(error.contains("more than 4 people in a boat"), "{error}");
    let error = read(&" ".repeat(5 << 20)).unwrap_err();
    assert!(error.contains("is larger than 4 MB"), "{error}");
    let nested = format!("(version: 1, boats: {})", "[".repeat(10_000));
    assert!(read(&nested).is_err());
}

#[test]
fn bytes_that_are_no_text_are_said() {
    let mut input: &[u8] = b"(version: 1,\n group: \"\xFF\")";
    let error = open_people(Source::Input(&mut input)).unwrap_err().to_string();
    assert!(error.starts_with("standard input:2:10: the byte 0xFF is not part"), "{error}");
}
