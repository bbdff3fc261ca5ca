//! The dots of the practice chart at 200 by 60, from all of it to a single bay.
#![allow(clippy::unwrap_used, missing_docs, reason = "a bench")]

use chart::dots::{Layers, Raster, Shapes};
use chart::{Cells, View};
use divan::Bencher;

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
