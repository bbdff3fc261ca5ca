//! One frame of the chart at 200 by 60 on the practice chart, from all of it to a single bay, and
//! the dots alone.
#![allow(clippy::unwrap_used, missing_docs, reason = "a bench")]

use chart::dots::{Layers, Raster, Shapes};
use chart::{Cells, View};
use divan::Bencher;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use tui::draw::{self, Scene};
use tui::glyphs::DotSet;
use tui::theme::Theme;

/// How many times closer than all of the chart.
const ZOOMS: [f64; 3] = [1.0, 4.0, 16.0];

fn main() {
    divan::main();
}

fn view(chart: &chart::Chart, cells: Cells, zoom: f64) -> View {
    let all = View::fit(chart.extent, cells);
    all.zoomed(zoom, all.centre)
}

#[divan::bench(args = ZOOMS)]
fn frame(bencher: Bencher<'_, '_>, zoom: f64) {
    let chart = chart::practice().unwrap();
    let shapes = Shapes::new(&chart);
    let area = Rect::new(0, 0, 200, 60);
    let inside = draw::inner(area);
    let cells = Cells { columns: inside.width, rows: inside.height };
    let scene = Scene {
        chart: &chart,
        shapes: &shapes,
        grid: &chart.grid,
        view: view(&chart, cells, zoom),
        waypoints: &[],
        chosen_leg: None,
        chosen_waypoint: None,
        pencil: &[],
        cursor: None,
        norths: None,
        pace: None,
        dots: DotSet::Braille,
        names: true,
        grid_lines: true,
    };
    let theme = Theme::default();
    let mut buffer = Buffer::empty(area);
    bencher.bench_local(|| draw::chart(&scene, &theme, area, divan::black_box(&mut buffer)));
}

#[divan::bench(args = ZOOMS)]
fn dots(bencher: Bencher<'_, '_>, zoom: f64) {
    let chart = chart::practice().unwrap();
    let shapes = Shapes::new(&chart);
    let cells = Cells { columns: 195, rows: 57 };
    let raster = Raster::new(&view(&chart, cells, zoom), cells, 2, 4);
    bencher.bench_local(|| Layers::drawn(&shapes, divan::black_box(&raster)));
}

#[divan::bench]
fn shapes(bencher: Bencher<'_, '_>) {
    let chart = chart::practice().unwrap();
    bencher.bench_local(|| Shapes::new(divan::black_box(&chart)));
}
