//! What is said of the water, at every size and hour.

use ratatui::layout::Rect;

use super::words::said;
use crate::driver::Driver;
use crate::glyphs::DotSet;
use crate::testing::{driver, tidal};
use crate::theme::{Colours, Theme, Tone};

/// The rows of a part of the screen.
fn rows(driver: &Driver, part: Rect) -> Vec<String> {
    let buffer = driver.buffer(&Theme::new(Tone::Dark, Colours::None));
    let row = |y| (part.left()..part.right()).map(|x| buffer[(x, y)].symbol()).collect::<String>();
    (part.top()..part.bottom()).map(|y| row(y).trim_end().to_owned()).collect()
}

#[test]
fn no_figure_of_the_pane_is_cut_at_any_size_or_hour() {
    for (width, height) in [(110, 32), (110, 38), (120, 40), (140, 33), (180, 60), (200, 60)] {
        let mut driver = tidal(width, height);
        driver.state.cursor = driver.state.tides().unwrap().stations()[0].at();
        for _ in 0..26 {
            driver.keys(">*5").unwrap();
            let rows = rows(&driver, driver.state.layout().water);
            assert!(rows.iter().all(|row| !row.contains('…')), "{rows:#?}");
            let whole = rows.join("\n");
            let short = rows.len() < 8;
            for word in ["Water ", "height ", "stream ", "turns ", " m", " kn", "UTC-2"] {
                if short && ["height ", "stream "].contains(&word) {
                    continue;
                }
                assert!(whole.contains(word), "{word:?} in {whole}");
            }
        }
    }
}

#[test]
fn where_no_stream_is_known_it_says_so() {
    let mut driver = tidal(200, 60);
    driver.state.cursor = driver.state.chart.land[0].shore.0[0];
    driver.keys(">").unwrap();
    let rows = rows(&driver, driver.state.layout().water).join("\n");
    assert!(rows.contains("no data"), "{rows}");
    assert!(driver.buffer(&Theme::default()).area.width > 0);
    let mut small = tidal(80, 24);
    small.state.cursor = small.state.chart.land[0].shore.0[0];
    small.keys(">").unwrap();
    let folded = self::rows(&small, small.state.layout().folded).join("\n");
    assert!(folded.contains("stream: no data") && folded.contains("09:10"), "{folded}");
}

#[test]
fn a_chart_without_tides_says_nothing_of_water() {
    for (width, height) in [(200, 60), (80, 24)] {
        let driver = driver(width, height);
        assert!(said(&driver.state).is_none() && driver.state.layout().water.is_empty());
        let screen = rows(&driver, driver.state.layout().screen).join("\n");
        assert!(!screen.contains("Water ─") && !screen.contains("no data"), "{screen}");
    }
}

#[test]
fn the_curve_is_drawn_at_every_size_hour_and_port_and_in_plain_characters() {
    for (width, height) in [(200, 60), (133, 40), (80, 24), (60, 20), (59, 20), (9, 4), (0, 0)] {
        let mut driver = tidal(width, height);
        driver.keys("Enter L*4 Enter K*3 Enter Esc y").unwrap();
        for _ in 0..8 {
            driver.keys("}*5 Y").unwrap();
            let screen = rows(&driver, driver.state.layout().screen).join("\n");
            let is_there = screen.contains("Tide at ") && screen.contains("chart datum");
            assert!(is_there || width < 60, "{screen}");
            assert!(!screen.contains("afe"), "{screen}");
        }
        driver.state.settings.dots = DotSet::Ascii;
        let screen = rows(&driver, driver.state.layout().screen).join("\n");
        assert!(screen.is_ascii(), "{screen}");
    }
}

#[test]
fn high_and_low_waters_are_labelled_with_time_and_height() {
    for (width, height) in [(200, 60), (80, 24), (60, 20)] {
        let mut driver = tidal(width, height);
        driver.keys("y").unwrap();
        for _ in 0..24 {
            driver.keys("}").unwrap();
            let port = driver.state.port().unwrap();
            let day = driver.state.water_day().unwrap().ports()[port].day.clone();
            let screen = rows(&driver, driver.state.layout().screen).join("\n");
            for turn in &day.turns {
                let clock = super::words::clock(&driver.state, turn.at);
                let words = format!("{clock} {}", super::words::metres(turn.height));
                assert!(screen.contains(&words), "{words} in\n{screen}");
            }
        }
    }
}
