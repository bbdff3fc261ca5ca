//! What each state shows at each size.

use proptest::prelude::*;
use ratatui::buffer::Buffer;
use ratatui::layout::{Rect, Size};

use super::readings::readings;
use super::{ink, view};
use crate::glyphs::DotSet;
use crate::state::{Access, Saving};
use crate::testing::driver;
use crate::theme::{Colours, Theme, Tone};
use crate::{Msg, State};

fn plain() -> Theme {
    Theme::new(Tone::Dark, Colours::None)
}

/// The rows of the screen, without what is blank behind them.
fn rows(state: &State) -> Vec<String> {
    let area = Rect::new(0, 0, state.size.width, state.size.height);
    let mut buffer = Buffer::empty(area);
    view(state, &plain(), area, &mut buffer, &mut crate::draw::Drawer::default());
    let row = |y| {
        let mut row = String::new();
        let mut x = 0;
        while x < area.width {
            let symbol = buffer[(x, y)].symbol();
            row.push_str(symbol);
            x += ink::width(symbol).max(1);
        }
        row.trim_end().to_owned()
    };
    (0..area.height).map(row).collect()
}

/// The screen after these keys.
fn shown(width: u16, height: u16, keys: &str) -> String {
    let mut driver = driver(width, height);
    driver.keys(keys).unwrap();
    rows(&driver.state).join("\n")
}

#[test]
fn the_first_screen_says_how_to_begin() {
    for (width, height) in [(200, 60), (120, 40), (80, 24), (60, 20)] {
        let screen = shown(width, height, "");
        assert!(screen.contains("Enter drops the first waypoint"), "{screen}");
        assert!(screen.contains("? all"), "{screen}");
        assert!(screen.contains("invented chart: no such place"), "{screen}");
    }
}

#[test]
fn the_readings_are_of_the_leg_under_the_pencil_until_the_cursor_is_on_its_start() {
    let keys = "Enter Right*20 Enter";
    assert!(shown(120, 40, keys).contains("─ leg 1"));
    let screen = shown(120, 40, &format!("{keys} Up*8"));
    assert!(screen.contains("─ from 2 to the cursor"), "{screen}");
    let screen = shown(120, 40, &format!("{keys} Up*8 Enter Esc ["));
    assert!(screen.contains("─ leg 1"), "{screen}");
}

#[test]
fn a_table_of_thirty_legs_keeps_the_lit_one_in_sight() {
    let keys = "Enter ".to_owned() + &"Right*2 Down Enter ".repeat(30);
    for leg in ["[ ]", "["] {
        let back = format!("{keys} Esc {leg}");
        let screen = shown(120, 32, &back);
        assert_eq!(screen.matches('▸').count(), 1, "{screen}");
    }
    let screen = shown(80, 24, &format!("{keys} Esc a"));
    assert_eq!(screen.matches('▸').count(), 1, "{screen}");
}

#[test]
fn what_is_wrong_is_told_in_full() {
    let screen = shown(60, 20, "/ 'QX 12 34 north of nowhere'");
    let mut driver = driver(60, 20);
    driver.keys("/ 'QX 12 34 north of nowhere'").unwrap();
    let Some(crate::state::Overlay::Jump(jump)) = driver.state.overlays.last() else {
        panic!("the jump box is open")
    };
    for word in jump.wrong.as_ref().unwrap().split(' ') {
        assert!(screen.contains(word), "{word:?} in\n{screen}");
    }
}

#[test]
fn a_route_that_may_only_be_read_says_so_at_every_size() {
    for (width, height) in [(200, 60), (80, 24), (60, 20)] {
        let mut driver = driver(width, height);
        driver.state.access = Access::ReadOnly("another program has it open".to_owned());
        let screen = rows(&driver.state).join("\n");
        assert!(screen.contains("read-only"), "{screen}");
        assert!(!screen.contains("drops the first"), "{screen}");
    }
}

#[test]
fn what_is_not_saved_is_said_at_every_size() {
    for (width, height) in [(200, 60), (80, 24), (60, 20)] {
        let mut driver = driver(width, height);
        driver.state.saving = Saving::Failed("the disk is full".to_owned());
        let screen = rows(&driver.state).join("\n");
        assert!(screen.contains("not saved: the disk is full"), "{screen}");
    }
}

#[test]
fn with_plain_dots_the_screen_is_plain_from_edge_to_edge() {
    for keys in
        ["", "Enter Right*9 Enter", "?", "Ctrl-P", "/ 'QX 1'", "p x", "Enter Right*9 Enter a"]
    {
        for (width, height) in [(200, 60), (120, 40), (80, 24), (60, 20), (9, 4)] {
            let mut driver = driver(width, height);
            driver.state.settings.dots = DotSet::Ascii;
            driver.keys(keys).unwrap();
            for row in rows(&driver.state) {
                assert!(row.is_ascii(), "{row:?} after {keys:?}");
            }
        }
    }
}

#[test]
fn no_figure_is_cut_at_any_width() {
    for width in 60..240 {
        // A leg of two figures of miles and hours, in the middle of a route of such.
        let mut driver = driver(width, if width < 110 { 24 } else { 40 });
        driver.keys("- - Enter Right*40 Enter Down*30 Enter Left*40 Enter Esc ] ]").unwrap();
        let readings = readings(&driver.state);
        let screen = rows(&driver.state).join("\n");
        let (leg, far) = (&readings.leg, &readings.so_far);
        let always = [&leg.from_magnetic, &leg.nautical_miles, &leg.time, &readings.reference];
        let beside = [
            &leg.from_true,
            &leg.from_grid,
            &leg.back_true,
            &leg.back_grid,
            &leg.back_magnetic,
            &leg.kilometres,
            &far.nautical_miles,
            &far.kilometres,
            &far.elapsed,
            &far.clock,
            &readings.whole.elapsed,
            &readings.whole.clock,
            &readings.variation,
            &readings.position,
        ];
        let beside = beside.iter().filter(|_| width >= 110);
        for text in always.iter().chain(beside) {
            assert!(
                !text.is_empty() && screen.contains(text.as_str()),
                "{text:?} at {width}\n{screen}"
            );
        }
    }
}

const KEYS: &[&str] = &[
    "Enter",
    "Right*7",
    "Down*3",
    "Space",
    "?",
    "Ctrl-P",
    "/",
    "Esc",
    "r",
    "p",
    "D",
    "V",
    "T",
    "a",
    "'QB 71'",
    "'潮見 e\u{301}'",
    "Tab",
    "[",
    "]",
    "Up",
    "PageDown",
    "+*3",
    "-*2",
    "m",
    "u",
    "U",
    "R",
    "#",
    "%",
    "Click@20,9",
    "Drag@10,5>40,12",
    "WheelUp@30,10",
    "b",
    "B",
    "b Down*4 Enter",
    "o",
    "'12'",
    "PageUp",
];

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn every_state_is_drawn_at_every_size(
        keys in proptest::collection::vec(proptest::sample::select(KEYS), 0..14),
        (width, height) in (0u16..230, 0u16..70),
        (then_width, then_height) in (0u16..230, 0u16..70),
    ) {
        let mut driver = driver(width, height);
        driver.keys(&keys.join(" ")).unwrap();
        rows(&driver.state);
        driver.send(Msg::Resize(Size { width: then_width, height: then_height }));
        rows(&driver.state);
        // A frame may come before the resize is known.
        let area = Rect::new(0, 0, width, height);
        view(&driver.state, &plain(), area, &mut Buffer::empty(area), &mut crate::draw::Drawer::default());
    }
}
