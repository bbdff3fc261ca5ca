//! The dots of the practice chart at 200 by 60, from all of it to a single bay.
#![allow(clippy::unwrap_used, missing_docs, reason = "a bench")]

use std::sync::Arc;

use chart::coast::Coast;
use chart::coast::detail::Shores;
use chart::dots::{Drawing, Raster, Shapes};
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
    let shapes = Arc::new(Shapes::new(&chart));
    let shores = Arc::new(Shores::of(Arc::new(Coast::of(&chart))));
    let cells = Cells { columns: 195, rows: 57 };
    let view = view(&chart, cells, zoom);
    // Two views in turn: one alone would be drawn once.
    let rasters = [view, view.panned(1.0, 0.0)].map(|view| Raster::new(&view, cells, 2, 4));
    let mut drawing = Drawing::default();
    bencher.bench_local(|| {
        for raster in &rasters {
            divan::black_box(drawing.layers(&shapes, &shores, raster, &[]));
        }
    });
}

#[divan::bench]
fn shapes(bencher: Bencher<'_, '_>) {
    let chart = chart::practice().unwrap();
    bencher.bench_local(|| Shapes::new(divan::black_box(&chart)));
}
