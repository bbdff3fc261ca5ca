//! Whole screens of a fix from bearings, held by snapshots that are read by eye.

use rstest::rstest;
use tui::theme::Colours;

use crate::screens::{SIZES, hold, screen};

/// The bearing of a cairn, and the light on a point caught next.
const BEGUN: &str = "F / 'Rovunna' Enter Enter 337 Enter / 'Polawen Point l' Enter Up";

/// Three bearings that leave a triangle, looked at closely.
const TRIANGLE: &str = "F / 'Rovunna' Enter Enter 338 Enter / 'Point of Innussel l' Enter Enter 40 \
    Enter / 'Wolaran' Enter Enter 258 Enter Tab*4 c +*3";

/// A bearing being changed that was taken before: it and the one before cut narrowly.
const WRITTEN: &str = "F / 'Rovunna' Enter Enter 337 Enter / 'Polawen Point l' Enter Enter 172 \
    Enter Shift-Tab Enter";

/// Two lines, their fix made a waypoint, and the bearings laid down.
const TO_ROUTE: &str = "/ 'QB 841 475' Enter Enter Esc F / 'Rovunna' Enter Enter 338 Enter \
    / 'Point of Innussel l' Enter Enter 40 Enter r Esc";

const SCENES: [(&str, &str); 4] = [
    ("fix-begun", BEGUN),
    ("fix-triangle", TRIANGLE),
    ("fix-written", WRITTEN),
    ("fix-to-route", TO_ROUTE),
];

#[rstest]
fn fixes_look_as_they_did(
    #[values(Colours::None, Colours::True)] colours: Colours,
    #[values(0, 1, 2, 3)] scene: usize,
) {
    let (name, keys) = SCENES[scene];
    for size in SIZES {
        hold(name, size, colours, &screen(name, keys, size, colours));
    }
}
