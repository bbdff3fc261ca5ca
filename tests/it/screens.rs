//! Whole screens, as `strandline screen` draws them, held by snapshots that are read by eye.
//!
//! Each is the characters of the screen, a line with its size, and how its cells look: a letter
//! for every look, and for every row the letters with how many cells they go on for.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use ratatui::buffer::{Buffer, Cell};
use ratatui::style::Color;
use rstest::rstest;
use tui::Shot;
use tui::state::Access;
use tui::theme::{Colours, Theme, Tone};

pub(crate) const SIZES: [(u16, u16); 3] = [(200, 60), (80, 24), (60, 20)];

/// Drops two waypoints, off a quay and in the sound east of it.
const ONE_LEG: &str = "/ 'QB 803 441' Enter Enter / 'QB 820 450' Enter Enter";

/// Goes on round the headlands, names both ends, stops for lunch, and lights the third leg.
const FIVE_LEGS: &str = "/ 'QB 803 441' Enter Enter / 'QB 820 450' Enter Enter \
    / 'QB 841 475' Enter Enter / 'QB 841 490' Enter Enter / 'QB 880 505' Enter Enter \
    / 'QB 882 527' Enter Enter r 'North beach' Enter Shift-Tab*2 s 30 Enter \
    Shift-Tab*3 r 'Old quay' Enter Esc ] ] ]";

/// Puts two anchors on a much indented shore and goes on to a third place beside it.
const TRACING: &str = "/ 'QB 818 461' Enter c +*3 t Enter / 'QB 824 474' Enter Enter \
    / 'QB 836 482' Enter Left";

/// Lays the line 50 m off, makes it a leg behind a straight one, and lights it.
const TRACED: &str = "/ 'QB 803 441' Enter Enter / 'QB 818 461' Enter c +*3 t Enter \
    / 'QB 824 474' Enter Enter / 'QB 836 482' Enter Enter s Ctrl-U '50 m' Enter r Esc Esc ] ]";

/// The same line kept as a measurement, and what dividers find along it.
const DIVIDERS: &str = "/ 'QB 818 461' Enter c +*3 t Enter / 'QB 824 474' Enter Enter \
    / 'QB 836 482' Enter Enter Esc d";

/// At a station in a narrows, two hours after the departure.
const WATER: &str = "/ 'Ollillan' Enter }*2";

/// The same, closer, with the stream at its strongest.
const STREAMS: &str = "/ 'Ollillan' Enter c +*4 ; }*3";

/// The tide's day with the times of a route on it, half an hour after low water.
const CURVE: &str = "/ 'QB 803 441' Enter Enter / 'QB 820 450' Enter Enter \
    / 'QB 841 475' Enter Enter / 'QB 841 490' Enter Enter Esc ) >*3 y";

/// What is drawn: its name, and the keys that lead there.
const SCENES: [(&str, &str); 13] = [
    ("first-start", ""),
    ("one-leg", ONE_LEG),
    ("five-legs", FIVE_LEGS),
    ("help", "?"),
    ("action-list", "Ctrl-P 'way'"),
    ("jump-error", "/ 'QX 731 508'"),
    ("read-only", ONE_LEG),
    ("tracing", TRACING),
    ("traced", TRACED),
    ("dividers", DIVIDERS),
    ("water-pane", WATER),
    ("stream-arrows", STREAMS),
    ("tide-curve", CURVE),
];

#[rstest]
fn screens_look_as_they_did(
    #[values(Colours::None, Colours::True)] colours: Colours,
    #[values(0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12)] scene: usize,
) {
    let (name, keys) = SCENES[scene];
    for size in SIZES {
        hold(name, size, colours, &screen(name, keys, size, colours));
    }
}

/// Holds a screen against its snapshot.
pub(crate) fn hold(name: &str, size: (u16, u16), colours: Colours, buffer: &Buffer) {
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path(concat!(env!("CARGO_MANIFEST_DIR"), "/snapshots"));
    settings.set_prepend_module_to_snapshot(false);
    settings.set_omit_expression(true);
    let (width, height) = size;
    let colour = if colours == Colours::None { "" } else { "-colour" };
    settings.bind(|| {
        insta::assert_snapshot!(format!("{name}@{width}x{height}{colour}"), written(buffer));
    });
}

pub(crate) fn screen(name: &str, keys: &str, size: (u16, u16), colours: Colours) -> Buffer {
    let shot = Shot { size, keys: keys.to_owned(), colours, ..Shot::default() };
    let mut driver = shot.driver().unwrap();
    if name == "read-only" {
        let why = "another program has this route open".to_owned();
        driver.state.access = Access::ReadOnly(why);
    }
    driver.buffer(&Theme::new(Tone::Dark, colours))
}

/// The characters of the screen, its size, and how its cells look.
fn written(buffer: &Buffer) -> String {
    let text = tui::picture::text(buffer);
    let mut letters: BTreeMap<String, String> = BTreeMap::new();
    let mut rows = String::new();
    let mut looks = String::new();
    for row in buffer.content.chunks(usize::from(buffer.area.width)) {
        for run in row.chunk_by(|a, b| look(a) == look(b)) {
            let look = look(&run[0]);
            let next = letter(letters.len());
            let letter = letters.entry(look.clone()).or_insert_with(|| {
                let _ = writeln!(looks, "{next}: {look}");
                next
            });
            let _ = write!(rows, "{letter}{}", run.len());
        }
        rows.push('\n');
    }
    text + &looks + &rows
}

/// How a cell looks, in words.
fn look(cell: &Cell) -> String {
    let Cell { fg, bg, modifier, .. } = cell;
    let mut words = match (fg, bg) {
        (Color::Reset, Color::Reset) => "plain".to_owned(),
        (ink, Color::Reset) => format!("{ink}"),
        (ink, ground) => format!("{ink} on {ground}"),
    };
    for (name, _) in modifier.iter_names() {
        let _ = write!(words, " {}", name.to_lowercase());
    }
    words
}

/// `a` to `z`, then `A` to `Z`, then `aa` and on.
fn letter(index: usize) -> String {
    let letters: Vec<char> = ('a'..='z').chain('A'..='Z').collect();
    match index.checked_sub(letters.len()) {
        None => letters[index].to_string(),
        Some(rest) => format!("{}{}", letters[rest / letters.len()], letters[rest % letters.len()]),
    }
}
