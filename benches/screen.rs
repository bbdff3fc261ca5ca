//! Frames of the whole screen at 200x60 on the practice chart, and the start to the first of them.
#![allow(clippy::unwrap_used, missing_docs, reason = "a bench")]

use std::sync::Arc;

use chart::Point;
use chart::coast::Coast;
use chart::water::Tides;
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

/// The screen at the whole practice chart, or closer in a narrows, with streams and drying ground.
fn with_streams(zoom: &str) -> Driver {
    let mut driver = start();
    driver.keys("/ 'Ollillan' Enter c").unwrap().keys(zoom).unwrap();
    driver
}

/// Target: under 8 ms a frame. Ten minutes on and the frame that shows it, through whole days.
#[divan::bench(args = ["", "+*4", "+*8"])]
fn stream_field_time_steps(bencher: Bencher<'_, '_>, zoom: &str) {
    let mut driver = with_streams(zoom);
    let theme = Theme::new(Tone::Dark, Colours::True);
    let mut buffer = Buffer::empty(Rect::new(0, 0, SIZE.width, SIZE.height));
    let mut drawer = Drawer::default();
    bencher.bench_local(|| {
        driver.keys(">").unwrap();
        buffer.reset();
        draw(&driver, &theme, &mut buffer, &mut drawer);
    });
}

/// Target: under 8 ms a frame. A drag by a column and the frame that shows it, with the streams that
/// come into sight, which the runtime would look for beside the loop.
#[divan::bench(args = ["+*4", "+*8"])]
fn stream_field_panned(bencher: Bencher<'_, '_>, zoom: &str) {
    let mut driver = with_streams(zoom);
    let theme = Theme::new(Tone::Dark, Colours::True);
    let mut buffer = Buffer::empty(Rect::new(0, 0, SIZE.width, SIZE.height));
    let mut drawer = Drawer::default();
    let mut west = true;
    bencher.bench_local(|| {
        let way = if west { "Drag@80,30>79,30" } else { "Drag@79,30>80,30" };
        west = !west;
        driver.keys(way).unwrap();
        buffer.reset();
        draw(&driver, &theme, &mut buffer, &mut drawer);
    });
}

/// Every stream of a whole view looked for anew, which is done once a view and beside the loop.
#[divan::bench]
fn stream_field_found(bencher: Bencher<'_, '_>) {
    let chart = chart::practice().unwrap();
    let (tides, coast) = (Tides::of(&chart).unwrap(), Coast::of(&chart));
    let (low, size) = (chart.extent.min(), chart.extent.max() - chart.extent.min());
    let places: Vec<Point> = (0..400)
        .map(|i| {
            let (x, y) = (f64::from(i % 20) / 20.0, f64::from(i / 20) / 20.0);
            Point { x: low.x + x * size.x, y: low.y + y * size.y }
        })
        .collect();
    bencher
        .bench_local(|| places.iter().filter(|at| !tides.shares(&coast, **at).is_empty()).count());
}
