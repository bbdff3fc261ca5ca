//! Frames of 200x60 on a shore of the whole world, from all of it to a harbour: how long each takes,
//! and what one allocates.
//!
//! The shore is the file named by `STRANDLINE_SHORE` (see `fetch_world.py`), else a made one of ten
//! million vertices.
#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    clippy::cast_possible_truncation,
    missing_docs,
    reason = "a bench"
)]

use std::hint::black_box;
use std::ops::ControlFlow;
use std::path::Path;
use std::sync::Arc;
use std::time::{Duration, Instant};

use chart::coast::detail::Shores;
use chart::coast::{Builder, Coast, LineId, LineKind};
use chart::dots::{Drawing, Raster, Shapes};
use chart::{Chart, Extent, Point, View};
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

#[global_allocator]
static ALLOCATOR: divan::AllocProfiler<std::alloc::System> = divan::AllocProfiler::system();

const SIZE: Size = Size { width: 200, height: 60 };

/// Grid metres across a column, from the world to a harbour.
const SCALES: [f64; 10] =
    [270_000.0, 90_000.0, 30_000.0, 10_000.0, 3_000.0, 1_000.0, 300.0, 100.0, 30.0, 5.0];

/// Frames of each scale, and how often the series is drawn: the least time of each frame counts, since
/// what else the machine does in the middle of one is not what is measured.
const FRAMES: usize = 400;
const PASSES: usize = 5;

fn main() {
    let start = Instant::now();
    let shores = shores();
    let full = shores.full();
    let (vertices, lines) = (full.vertices(), full.lines().len());
    println!("{vertices} vertices, {lines} lines, with levels: {:.2?}", start.elapsed());
    let start = Instant::now();
    black_box(Shores::of(full.clone()));
    println!("the levels alone: {:.2?}", start.elapsed());
    for level in shores.levels() {
        let (lines, vertices) = (level.coast.lines().len(), level.coast.vertices());
        let (tolerance, out) = (level.tolerance, level.left_out);
        println!("{tolerance:>8} m {vertices:>9} vertices {lines:>7} lines {out:>7} left out");
    }
    let mut driver = driver(&shores);
    println!("metres a column   median      p99  slowest");
    for scale in SCALES {
        let mut times = frames(&mut driver, &shores, scale);
        times.sort_unstable();
        let at = |share: usize| times[(times.len() - 1) * share / 100];
        let micros = |share: usize| format!("{} µs", at(share).as_micros());
        println!("{scale:>15} {:>8} {:>8} {:>8}", micros(50), micros(99), micros(100));
    }
    divan::main();
}

/// Frames at places on the shore all over, each after a move of a few columns.
fn frames(driver: &mut Driver, shores: &Shores, scale: f64) -> Vec<Duration> {
    let theme = Theme::new(Tone::Dark, Colours::True);
    let mut drawer = Drawer::default();
    let mut buffer = Buffer::empty(Rect::new(0, 0, SIZE.width, SIZE.height));
    let lines = shores.full().lines().len();
    let place = |frame: usize| {
        let number = (frame / 4 * 7_919 % lines) as u32;
        let line = shores.full().line(LineId(number)).unwrap();
        let at = line.vertex(line.vertices() / 2);
        let moved = (frame % 4) as f64 * 3.0 * scale;
        View::new(Point { x: at.x + moved, y: at.y }, scale)
    };
    let mut times = vec![Duration::MAX; FRAMES];
    for frame in (0..FRAMES).cycle().take(PASSES * FRAMES) {
        driver.state.view = place(frame);
        driver.state.cursor = driver.state.view.centre;
        let start = Instant::now();
        buffer.reset();
        view(&driver.state, &theme, buffer.area, &mut buffer, &mut drawer);
        black_box(&buffer);
        times[frame] = times[frame].min(start.elapsed());
    }
    times
}

fn driver(shores: &Arc<Shores>) -> Driver {
    let far = 20_000_000.0;
    let chart = Chart {
        title: "World".to_owned(),
        invented: false,
        source: String::new(),
        grid: shores.full().grid().clone(),
        extent: Extent::new(Point { x: -far, y: -far }, Point { x: far, y: far }),
        land: vec![],
        shorelines: vec![],
        drying: vec![],
        depths: vec![],
        landings: vec![],
        hazards: vec![],
        races: vec![],
        gates: vec![],
        places: vec![],
        marks: vec![],
        ports: vec![],
        streams: vec![],
    };
    let departure = Departure::new(date(2026, 6, 14).at(9, 0, 0, 0), TimeZone::UTC).unwrap();
    let now = departure.moment().clone();
    let route = Route { departure: Some(departure), ..Route::new(&chart.title) };
    let document = Document::new(route).unwrap();
    let keymap = Keymap::standard().unwrap();
    let mut state = State::new(SIZE, Arc::new(chart), document, keymap, &now);
    state.shores = shores.clone();
    Driver::new(state)
}

/// The file's shore, or a made one.
fn shores() -> Arc<Shores> {
    match std::env::var("STRANDLINE_SHORE") {
        Ok(path) => {
            let go_on = &mut |_, _| ControlFlow::Continue(());
            files::open_coast(Path::new(&path), None, go_on).unwrap().shores
        }
        Err(_) => Arc::new(Shores::of(Arc::new(made()))),
    }
}

/// Islands of all sizes, rough at every scale: a circle whose radius is a sum of waves.
fn made() -> Coast {
    let mut builder = Builder::new(nav::Grid::parse("EPSG:3395").unwrap()).without_lengths();
    let mut seed = 1_u64;
    let mut random = move || {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (seed >> 33) as f64 / (1_u64 << 31) as f64
    };
    let mut size = 4.0e6;
    let mut left = 10_000_000_usize;
    let mut number = 0;
    while left > 12 {
        let count = ((size / 40.0) as usize).clamp(12, 1_200_000).min(left);
        let middle = Point { x: (random() - 0.5) * 3.8e7, y: (random() - 0.5) * 2.4e7 };
        let phases: Vec<f64> = (0..18).map(|_| random() * std::f64::consts::TAU).collect();
        let corner = |index: usize| {
            let angle = std::f64::consts::TAU * index as f64 / count as f64;
            let waves = phases.iter().enumerate().map(|(octave, phase)| {
                let times = f64::from(1_u32 << octave);
                (angle * times + phase).sin() / times.powf(0.8) / 4.0
            });
            let radius = size / 6.3 * (1.0 + waves.sum::<f64>()).max(0.1);
            middle + Point { x: angle.cos(), y: angle.sin() } * radius
        };
        builder.line(LineKind::Land, number, "", (0..count).map(corner));
        (left, number) = (left - count, number + 1);
        size = (size * 0.93).max(300.0 + 600.0 * random());
    }
    builder.finish()
}

/// The dots alone for one pan after the other: nothing is allocated.
#[divan::bench]
fn pan_and_dots(bencher: divan::Bencher<'_, '_>) {
    let chart = chart::practice().unwrap();
    let shores = Arc::new(Shores::of(Arc::new(Coast::of(&chart))));
    let shapes = Arc::new(Shapes::new(&chart));
    let cells = chart::Cells { columns: 147, rows: 55 };
    let view = View::fit(chart.extent, cells);
    let rasters = [view, view.panned(1.0, 0.0)].map(|view| Raster::new(&view, cells, 2, 4));
    let mut drawing = Drawing::default();
    bencher.bench_local(|| {
        for raster in &rasters {
            black_box(drawing.layers(&shapes, &shores, raster, &[]));
        }
    });
}

/// The whole screen for one pan after the other, and what it allocates.
#[divan::bench]
fn pan_and_frame(bencher: divan::Bencher<'_, '_>) {
    let chart = chart::practice().unwrap();
    let shores = Arc::new(Shores::of(Arc::new(Coast::of(&chart))));
    let mut driver = driver(&shores);
    driver.state.view = View::fit(chart.extent, chart::Cells { columns: 150, rows: 50 });
    let theme = Theme::new(Tone::Dark, Colours::True);
    let (mut drawer, mut buffer) =
        (Drawer::default(), Buffer::empty(Rect::new(0, 0, SIZE.width, SIZE.height)));
    let mut by = 1.0;
    bencher.bench_local(|| {
        driver.state.view = driver.state.view.panned(by, 0.0);
        by = -by;
        buffer.reset();
        view(&driver.state, &theme, buffer.area, &mut buffer, &mut drawer);
    });
}
