//! Tables right and wrong.

use rstest::rstest;

use super::*;

fn lines(text: &str) -> Vec<PrintedWater> {
    ron::from_str(text).unwrap()
}

fn said(zone: &str, text: &str) -> (Vec<Step>, String) {
    let (way, misprint) = table(zone, &lines(text)).unwrap_err();
    (way, misprint.to_string())
}

const DAY: &str = r#"[
        ("2026-06-14T03:27", 4.4), ("2026-06-14T09:28", 0.8), ("2026-06-14T15:47", 4.5),
        ("2026-06-14T21:54", 0.6),
    ]"#;

#[rstest]
#[case(DAY)]
#[case(&DAY.replacen("0.8)", "0.8, Low)", 1))]
#[case(&DAY.replace("4.4)", "4.4, High)").replace("0.6)", "0.6, Low)"))]
#[case(&DAY.replace('T', " "))]
fn kinds_are_told_by_their_turns_or_stated(#[case] text: &str) {
    let table = table("UTC-2", &lines(text)).unwrap();
    let kinds: Vec<Water> = table.turns().iter().map(|turn| turn.water).collect();
    assert_eq!(kinds, [Water::High, Water::Low, Water::High, Water::Low]);
    let (from, to) = table.span();
    assert_eq!(from, "2026-06-14T05:27Z".parse().unwrap());
    assert_eq!(to, "2026-06-14T23:54Z".parse().unwrap());
}

#[rstest]
#[case(
    "4.5",
    "0.7",
    2,
    1,
    "the high water of 0.7 m at 2026-06-14T15:47 does not fit the low \
     water of 0.8 m before it: high water stands above the low waters beside it"
)]
#[case("0.6", "4.9", 3, 1, "the low water of 4.9 m at 2026-06-14T21:54 does not fit the high")]
#[case("T15:47", "T09:28", 2, 0, "2026-06-14T09:28 comes after 2026-06-14T09:28 in the table")]
#[case("-14T21", "-16T21", 3, 0, "2026-06-16T21:54 is more than a day after 2026-06-14T15:47;")]
#[case("4.5)", "4.5, Low)", 1, 1, "the high water of 0.8 m at 2026-06-14T09:28 does not fit")]
#[case("2026-06-14T21", "2101-06-14T21", 3, 0, "2101-06-14T21:54 is not within the years 1900")]
#[case("0.6", "60", 3, 1, "height 60 is out of range; -30 to 30 m are right")]
#[case("0.6", "NaN", 3, 1, "height NaN is out of range")]
#[case("T03:27", "T25:27", 0, 0, "\"2026-06-14T25:27\" is no time; write")]
fn misprints_are_named(
    #[case] was: &str,
    #[case] is: &str,
    #[case] line: usize,
    #[case] part: usize,
    #[case] wanted: &str,
) {
    let (way, misprint) = said("UTC-2", &DAY.replacen(was, is, 1));
    assert!(misprint.starts_with(wanted), "{misprint}");
    assert_eq!(way, [Field("waters"), Element(line), Element(part)]);
}

#[test]
fn two_of_a_kind_are_named() {
    let twice = DAY.replacen("4.4)", "4.4, High)", 1).replacen("0.8)", "0.8, High)", 1);
    let (way, misprint) = said("UTC", &twice);
    assert_eq!(way, [Field("waters"), Element(1), Element(2)]);
    assert_eq!(
        misprint,
        "a second high water in a row at 2026-06-14T09:28; high and low come by turns"
    );
}

#[test]
fn a_table_needs_a_zone_or_offsets_and_two_lines() {
    let (way, misprint) = said("", DAY);
    assert_eq!(way, [Field("waters"), Element(0), Element(0)]);
    assert!(misprint.contains("no zone is stated; write 2026-06-14T03:27+01:00"), "{misprint}");
    let (way, misprint) = said("Nowhere", DAY);
    assert_eq!(way, [Field("zone")]);
    assert!(misprint.starts_with("\"Nowhere\" is no time zone;"), "{misprint}");
    for few in ["[]", "[(\"2026-06-14T03:27Z\", 4.4)]"] {
        assert!(said("", few).1.contains("at least two are needed"), "{few}");
    }
    // Clocks are put forward at one that morning.
    let spring = r#"[("2026-03-29T01:30", 4.4), ("2026-03-29T07:30", 1)]"#;
    assert!(said("Europe/London", spring).1.contains("does not exist in Europe/London"));
}
