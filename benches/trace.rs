//! Lines laid along 100 km of a shore of 150,000 vertices: the click, the move of the cursor, a
//! stand-off and smoothing.
#![allow(clippy::unwrap_used, missing_docs, reason = "a bench")]

use std::f64::consts::TAU;

use chart::Point;
use chart::coast::{Builder, Coast, LineId, LineKind, ShorePoint};
use chart::trace::{Anchor, Laid, Trace, Way, Wishes, lay, patient};
use divan::Bencher;

const VERTICES: u32 = 150_000;

fn main() {
    divan::main();
}

/// An indented island about 1,000 km round by its outline, and 1,530 km along its shore: rays from
/// its middle meet it once, so that it does not cross itself.
fn coast() -> Coast {
    let middle = Point { x: 500_000.0, y: 5_000_000.0 };
    let bend = |turn: f64| {
        let octave = |k: i32| {
            let waves = f64::from(1u32 << k);
            (turn * waves * TAU + f64::from(k * k)).sin() / waves.powf(0.8)
        };
        (2..14).map(octave).sum::<f64>()
    };
    let points = (0..VERTICES).map(|index| {
        let turn = f64::from(index) / f64::from(VERTICES);
        let radius = 150_000.0 + 25_000.0 * bend(turn);
        let (sin, cos) = (turn * TAU).sin_cos();
        middle + Point { x: cos, y: sin } * radius
    });
    let mut builder = Builder::new(nav::Grid::parse("UTM:30N").unwrap());
    builder.line(LineKind::Land, 0, "", points);
    builder.finish()
}

/// Places 100 km apart along the shore, across its seam, and some beyond the second.
fn places(coast: &Coast) -> (ShorePoint, Vec<ShorePoint>) {
    let line = coast.line(LineId(0)).unwrap();
    let start = line.place(line.sides() - 1_000, 0.3);
    let before = line.length().as_metres() - line.length_to(&start).as_metres();
    let reaches = |side: &u32| before + line.length_to(&line.place(*side, 0.0)).as_metres() > 100e3;
    let end = (0..line.sides()).step_by(16).find(reaches).unwrap();
    (start, (0..64).map(|more| line.place(end + more, 0.5)).collect())
}

fn laid(coast: &Coast, wishes: Wishes) -> Laid {
    let (start, ends) = places(coast);
    let anchors = [start, ends[0]].map(|place| (Anchor::Shore(place), Way::Shorter));
    lay(coast, &anchors, wishes, &patient).unwrap()
}

fn along(bencher: Bencher<'_, '_>, wishes: Wishes) {
    let coast = coast();
    let (start, ends) = places(&coast);
    let anchors = [start, ends[0]].map(|place| (Anchor::Shore(place), Way::Shorter));
    let points = laid(&coast, wishes).points.len();
    bencher
        .counter(divan::counter::ItemsCount::new(points))
        .bench_local(|| lay(&coast, divan::black_box(&anchors), wishes, &patient).unwrap());
}

/// The line after the click.
#[divan::bench]
fn click(bencher: Bencher<'_, '_>) {
    along(bencher, Wishes::default());
}

/// The line under the cursor, moved.
#[divan::bench]
fn cursor_moves(bencher: Bencher<'_, '_>) {
    let coast = coast();
    let (start, ends) = places(&coast);
    let mut trace = Trace::new(Wishes::default()).unwrap();
    let mut ends = ends.into_iter().cycle();
    let mut next = || (Anchor::Shore(ends.next().unwrap()), Way::Shorter);
    trace.push(&coast, Anchor::Shore(start), Way::Shorter, &patient).unwrap();
    trace.push(&coast, next().0, Way::Shorter, &patient).unwrap();
    bencher.bench_local(|| {
        trace.set(&coast, 1, next(), &patient).unwrap();
        trace.laid().points.len()
    });
}

#[divan::bench(args = [10.0, 50.0, 500.0])]
fn stand_off(bencher: Bencher<'_, '_>, stand_off: f64) {
    along(bencher, Wishes { stand_off, step: 0.0 });
}

#[divan::bench(args = [50.0, 200.0, 1_000.0])]
fn smoothed(bencher: Bencher<'_, '_>, step: f64) {
    along(bencher, Wishes { stand_off: 0.0, step });
}

#[divan::bench]
fn stand_off_smoothed(bencher: Bencher<'_, '_>) {
    along(bencher, Wishes { stand_off: 50.0, step: 500.0 });
}
