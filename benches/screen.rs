//! Frames of the whole screen at 200x60 on the practice chart, and the start to the first of them.
#![allow(clippy::unwrap_used, missing_docs, reason = "a bench")]

use std::sync::Arc;

use divan::Bencher;
use jiff::civil::date;
use jiff::tz::TimeZone;
use plan::{Departure, Document, Route};
use ratatui::buffer::Buffer;
use ratatui::layout::{Rect, Size};
use tui::action::Keymap;
use tui::draw::Drawer;
use tui::driver::Driver;
use tui::theme::{Colours, Theme, Tone};
use tui::{State, view};

const SIZE: Size = Size { width: 200, height: 60 };
const FIVE_LEGS: &str = "Enter L*3 Enter J*5 Enter L*4 Enter K*3 Enter L*8 Enter";

fn main() {
    divan::main();
}

fn start() -> Driver {
    let chart = chart::practice().unwrap();
    let departure = Departure::new(date(2026, 6, 14).at(9, 0, 0, 0), TimeZone::UTC).unwrap();
    let now = departure.moment().clone();
    let route = Route { departure: Some(departure), ..Route::new(&chart.title) };
    let document = Document::new(route).unwrap();
    Driver::new(State::new(SIZE, Arc::new(chart), document, Keymap::standard().unwrap(), &now))
}

fn draw(driver: &Driver, theme: &Theme, buffer: &mut Buffer, drawer: &mut Drawer) {
    view(&driver.state, theme, buffer.area, buffer, drawer);
}

/// A frame with five legs, at the whole chart and closer.
#[divan::bench(args = ["", "+*4", "+*8"])]
fn frame(bencher: Bencher<'_, '_>, zoom: &str) {
    let mut driver = start();
    driver.keys(FIVE_LEGS).unwrap().keys(zoom).unwrap();
    let theme = Theme::new(Tone::Dark, Colours::True);
    let mut buffer = Buffer::empty(Rect::new(0, 0, SIZE.width, SIZE.height));
    let mut drawer = Drawer::default();
    bencher.bench_local(|| {
        buffer.reset();
        draw(&driver, &theme, &mut buffer, &mut drawer);
    });
}

/// A move of the cursor by one dot and the frame that shows it.
#[divan::bench]
fn move_and_frame(bencher: Bencher<'_, '_>) {
    let mut driver = start();
    driver.keys(FIVE_LEGS).unwrap();
    let theme = Theme::new(Tone::Dark, Colours::True);
    let mut buffer = Buffer::empty(Rect::new(0, 0, SIZE.width, SIZE.height));
    let mut drawer = Drawer::default();
    bencher.bench_local(|| {
        driver.keys("Right Left").unwrap();
        buffer.reset();
        draw(&driver, &theme, &mut buffer, &mut drawer);
    });
}

/// The built-in chart read from its text.
#[divan::bench]
fn practice_chart_read() -> chart::Chart {
    chart::practice().unwrap()
}

/// From nothing to the first frame: the chart read, the state made, the screen drawn.
#[divan::bench]
fn start_to_first_frame() -> Buffer {
    start().buffer(&Theme::new(Tone::Dark, Colours::True))
}
