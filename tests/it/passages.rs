//! The passage and the departure strip: whole screens with the demonstration route, and a start taken
//! in a pseudo-terminal.

use std::path::{Path, PathBuf};

use rstest::rstest;
use tui::Shot;
use tui::theme::{Colours, Theme, Tone};

use crate::driver::Home;
use crate::screens::{SIZES, hold};

/// The demonstration route as a file.
fn demonstration() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("maps/demonstration.ron")
}

/// What is drawn: its name, and the keys that lead there.
const SCENES: [(&str, &str); 6] = [
    // The second leg, past the overfalls; small screens open the strip.
    ("leg-strip", "] ] W +*2"),
    // The whole route with its clock times, the leg by the gate, and where the group is an hour and a
    // half on.
    ("passage", "]*11 W } > > >"),
    // The open crossing on one heading.
    ("one-heading", "]*6 W +*2"),
    ("starts", "E"),
    // The first start of the day, which is refused.
    ("starts-refused", "E PageUp*24"),
    ("fortnight", "E f Down*3"),
];

#[rstest]
fn screens_look_as_they_did(
    #[values(Colours::None, Colours::True)] colours: Colours,
    #[values(0, 1, 2, 3, 4, 5)] scene: usize,
) {
    let (name, keys) = SCENES[scene];
    for size in SIZES {
        // On a screen without a column of readings the strip is opened first, if there is room for it.
        let opens = if size == (80, 24) { "x " } else { "" };
        let shot = Shot {
            size,
            keys: format!("{opens}{keys}"),
            colours,
            route: Some(demonstration()),
            ..Shot::default()
        };
        let buffer = shot.driver().unwrap().buffer(&Theme::new(Tone::Dark, colours));
        hold(name, size, colours, &buffer);
    }
}

#[test]
fn a_start_is_taken_from_the_strip_and_kept() {
    let home = Home::new();
    let path = home.path().join("day.ron");
    std::fs::copy(demonstration(), &path).unwrap();
    let before = files::open_route(&path).unwrap();
    let chart = Path::new(env!("CARGO_MANIFEST_DIR")).join("maps/practice.ron");
    let files = [chart.to_str().unwrap(), path.to_str().unwrap()];
    let mut terminal = home.terminal((120, 40), &files);
    terminal.wait_for(&["? all", "South with the ebb"]);
    terminal.keys("E");
    terminal.wait_for(&["When to leave: Sun 14 June 2026", "* best"]);
    terminal.keys("b");
    terminal.wait_for(&["good: lands"]);
    terminal.keys("\r");
    terminal.wait_for(&["departs Sunday 14 June 2026", "saved"]);
    let taken = files::open_route(&path).unwrap().departure.unwrap();
    assert_ne!(Some(&taken), before.departure.as_ref());
    // The readings' clock is that of the passage.
    terminal.keys("]");
    terminal.wait_for(&["with the stream"]);
    terminal.keys("u");
    terminal.wait_for(&["took back: departure", "saved"]);
    terminal.keys("q");
    assert!(terminal.wait_end().success());
    assert_eq!(files::open_route(&path).unwrap().departure, before.departure);
}
