//! The page of progress on the screen, with a record of several months.

use jiff::{SignedDuration, Timestamp};
use practice::memory::{Answered, Outcome, Record, Schedule};
use practice::{Kind, MistakeKind};
use rstest::rstest;
use tui::Shot;
use tui::glyphs::DotSet;
use tui::theme::{Colours, Theme, Tone};

use super::screens::{SIZES, hold};

/// The morning on which the screen is looked at.
const NOW: &str = "2026-06-14T06:00:00Z";

/// Seven months of a learner who is asked by the schedule on most evenings, with a month's pause in spring: ever better, but
/// with the variation the wrong way to the end.
fn months() -> Record {
    let mut record = Record::default();
    let now: Timestamp = NOW.parse().unwrap();
    let mut asked = std::collections::BTreeMap::<Kind, u64>::new();
    for day in 0..210_u64 {
        if day * 7 % 10 < 5 || (110..138).contains(&day) {
            continue;
        }
        for number in 0..3 + day * 5 % 4 {
            let before = SignedDuration::from_hours(24 * (210 - i64::try_from(day).unwrap()));
            let when = now - before + SignedDuration::from_mins(i64::try_from(number).unwrap());
            let item = *Schedule::of(&record, when).in_turn()[0];
            let times = asked.entry(item.kind).or_default();
            *times += 1;
            let turned = item.kind == Kind::ToGrid && !times.is_multiple_of(3);
            let wrong = turned || (day * 31 + number * 17) % 9 > *times + 1;
            let answered = Answered {
                when,
                kind: item.kind,
                level: item.level,
                seed: day,
                chart: "Hollow Sound".to_owned(),
                outcome: if wrong { Outcome::Wrong } else { Outcome::Right },
                hints: 0,
                off: String::new(),
                mistake: turned.then_some(MistakeKind::VariationWrongWay),
                seconds: 40,
                learner: String::new(),
                set: String::new(),
            };
            assert!(record.keep(answered));
        }
    }
    record
}

#[rstest]
#[case("progress", "B", DotSet::Braille)]
#[case("progress-of-a-skill", "B Down*4", DotSet::Braille)]
#[case("progress-plain", "b Down Down Enter Down", DotSet::Ascii)]
#[case("progress-of-nothing", "B", DotSet::Braille)]
fn the_page_looks_as_it_did(#[case] name: &str, #[case] keys: &str, #[case] dots: DotSet) {
    let record = if name.ends_with("nothing") { Record::default() } else { months() };
    for size in SIZES {
        for colours in [Colours::None, Colours::True] {
            let mut driver = Shot { size, colours, dots, ..Shot::default() }.driver().unwrap();
            driver.record = record.clone();
            driver.keys(keys).unwrap();
            hold(name, size, colours, &driver.buffer(&Theme::new(Tone::Dark, colours)));
        }
    }
}

/// A row that is pressed is chosen; beside the list nothing is.
#[test]
fn a_row_is_chosen_by_the_pointer() {
    let mut driver = Shot { size: (80, 24), ..Shot::default() }.driver().unwrap();
    driver.record = months();
    driver.keys("B").unwrap();
    let chosen = |driver: &tui::driver::Driver| match driver.state.overlays.last() {
        Some(tui::state::Overlay::Progress(page)) => page.row,
        other => panic!("{other:?}"),
    };
    // The border, the heading, then the rows.
    for (row, expected) in [(5, 3), (1, 3), (2, 0), (20, 0), (4, 2)] {
        driver.keys(&format!("Click@10,{row}")).unwrap();
        assert_eq!(chosen(&driver), expected, "{row}");
    }
}

/// From the page one goes to a new list, also where it was opened from the list.
#[test]
fn the_page_leads_to_what_can_be_practised() {
    let mut driver = Shot { size: (80, 24), ..Shot::default() }.driver().unwrap();
    driver.keys("b B b").unwrap();
    assert_eq!(driver.state.overlays.len(), 1);
    assert!(matches!(driver.state.overlays[0], tui::state::Overlay::Drills(_)));
}
