//! The page of progress on the screen, with a record of several months.

use std::sync::Arc;

use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use practice::memory::{Answered, Outcome, Record, Schedule, progress};
use practice::{Kind, MistakeKind};
use rstest::rstest;
use tui::Shot;
use tui::glyphs::DotSet;
use tui::state::{Overlay, ProgressPage};
use tui::theme::{Colours, Theme, Tone};

use super::screens::{SIZES, hold};

/// The day on which the screen is looked at, in the middle of June.
const NOW: &str = "2026-06-14T18:00:00Z";

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
            let turned = item.kind == Kind::ToGrid && *times % 3 != 0;
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

fn page(record: &Record, row: usize) -> Overlay {
    let now = NOW.parse().unwrap();
    let progress = Arc::new(progress(record, now, &TimeZone::UTC));
    Overlay::Progress(ProgressPage { progress, now, row })
}

#[rstest]
#[case("progress", 0, DotSet::Braille)]
#[case("progress-of-a-skill", 4, DotSet::Braille)]
#[case("progress-plain", 1, DotSet::Ascii)]
#[case("progress-of-nothing", 0, DotSet::Braille)]
fn the_page_looks_as_it_did(#[case] name: &str, #[case] row: usize, #[case] dots: DotSet) {
    let record = if name.ends_with("nothing") { Record::default() } else { months() };
    for size in SIZES {
        for colours in [Colours::None, Colours::True] {
            let mut driver = Shot { size, colours, dots, ..Shot::default() }.driver().unwrap();
            driver.state.overlays.push(page(&record, row));
            hold(name, size, colours, &driver.buffer(&Theme::new(Tone::Dark, colours)));
        }
    }
}
