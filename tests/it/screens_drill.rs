//! Practice on the whole screen: what it shows from the list to the end, held by snapshots that are read by eye.

use ratatui::buffer::Buffer;
use rstest::rstest;
use tui::Shot;
use tui::driver::Driver;
use tui::theme::{Colours, Theme, Tone};

use crate::screens::{SIZES, hold};

/// The rows of the list from the first on that begin a sitting of one kind.
const REFERENCE: usize = 3;
const FIND: usize = 4;
const BEARING: usize = 9;
const LETTERS: usize = 6;
const TIME: usize = 16;
const DISTANCE: usize = 17;
const TWELFTHS: usize = 18;
const RATE: usize = 19;
const FIX: usize = 21;
const LEAVE: usize = 23;
const CARD: usize = 24;

/// What is drawn: its name, the row of the list that is begun, and what is done then.
const SCENES: [(&str, usize, &[Step]); 12] = [
    ("practice-question", BEARING, &[]),
    ("practice-hint", REFERENCE, &[Step::Keys("Tab")]),
    ("practice-writing", REFERENCE, &[Step::Keys("a 'QB 7' Enter")]),
    ("practice-right", REFERENCE, &[Step::Right]),
    ("practice-wrong-reference", REFERENCE, &[Step::Wrong]),
    ("practice-wrong-bearing", BEARING, &[Step::Wrong]),
    ("practice-place", FIX, &[Step::Keys("Tab")]),
    ("practice-place-missed", FIX, &[Step::Keys("Right*9 Up*5 Enter")]),
    ("practice-choices", FIND, &[]),
    ("practice-card", CARD, &[]),
    ("practice-passed", FIX, &[Step::Keys("o")]),
    (
        "practice-over",
        BEARING,
        &[
            Step::Wrong,
            Step::Keys("Enter"),
            Step::Right,
            Step::Keys("Enter"),
            Step::Wrong,
            Step::Keys("Enter o Enter"),
            Step::Wrong,
            Step::Keys("Enter"),
        ],
    ),
];

/// Something done while a question stands.
#[derive(Debug, Clone, Copy)]
enum Step {
    /// Keys, as a script has them.
    Keys(&'static str),
    /// The right answer, written.
    Right,
    /// What the likeliest mistake comes to, written.
    Wrong,
}

#[rstest]
fn practice_looks_as_it_did(
    #[values(Colours::None, Colours::True)] colours: Colours,
    #[values(0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11)] scene: usize,
) {
    let (name, row, steps) = SCENES[scene];
    for size in SIZES {
        let keys = format!("b Down*{row} Enter");
        hold(name, size, colours, &screen(&keys, steps, size, colours));
    }
}

/// What has no place on the chart, or the hours of a leg on it, answered wrongly.
#[rstest]
#[case("drawn-letters", LETTERS)]
#[case("drawn-time", TIME)]
#[case("drawn-distance", DISTANCE)]
#[case("drawn-twelfths", TWELFTHS)]
#[case("drawn-rate", RATE)]
#[case("drawn-leave", LEAVE)]
fn drawings_look_as_they_did(#[case] name: &str, #[case] row: usize) {
    let keys = format!("b Down*{row} Enter");
    for (size, colours) in
        [((160, 48), Colours::None), ((80, 24), Colours::None), ((160, 48), Colours::True)]
    {
        hold(name, size, colours, &screen(&keys, &[Step::Wrong], size, colours));
    }
}

#[rstest]
fn the_list_of_practice_looks_as_it_did(
    #[values(Colours::None, Colours::True)] colours: Colours,
    #[values(("practice-list", "b"), ("practice-list-far", "b Down*20"))] (name, keys): (
        &str,
        &str,
    ),
) {
    for size in SIZES {
        hold(name, size, colours, &screen(keys, &[], size, colours));
    }
}

fn screen(keys: &str, steps: &[Step], size: (u16, u16), colours: Colours) -> Buffer {
    let shot = Shot { size, keys: keys.to_owned(), colours, ..Shot::default() };
    let mut driver = shot.driver().unwrap();
    for step in steps {
        do_so(*step, &mut driver);
    }
    driver.buffer(&Theme::new(Tone::Dark, colours))
}

fn do_so(step: Step, driver: &mut Driver) {
    let asked = driver.state.practice.asked().map(|put| put.question.clone());
    let keys = match (step, asked) {
        (Step::Keys(keys), _) => keys.to_owned(),
        (Step::Right, Some(it)) => written(&it.answer.to_string()),
        (Step::Wrong, Some(it)) => written(&it.mistakes[0].answer.to_string()),
        (Step::Right | Step::Wrong, None) => panic!("a question stands"),
    };
    driver.keys(&keys).unwrap();
}

/// The keys that answer in a line.
fn written(answer: &str) -> String {
    format!("a '{answer}' Enter")
}
