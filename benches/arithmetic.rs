//! Positions, directions and grids, each beside its peer in the same run: compare the ratios.
//! One item is one position or one pair.
#![allow(clippy::unwrap_used, missing_docs, reason = "a bench")]

use chart::measure::{Line, Start};
use divan::Bencher;
use divan::counter::ItemsCount;
use nav::{Bearing, Grid, GridPoint, Length, Position, geodesic, rhumb};

const MANY: usize = 1_000;

fn main() {
    divan::main();
}

/// Positions scattered where every grid here reaches, the same at every run.
fn positions() -> Vec<Position> {
    let mut state = 0x9E37_79B9_7F4A_7C15_u64;
    let mut next = || {
        state =
            state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 11) as f64 / (1_u64 << 53) as f64
    };
    (0..MANY).map(|_| Position::from_degrees(52.0 + 3.0 * next(), -6.5 + next()).unwrap()).collect()
}

/// Each position with the next.
fn pairs() -> Vec<(Position, Position)> {
    let all = positions();
    all.iter().copied().zip(all.iter().copied().cycle().skip(1)).collect()
}

fn each<T: Sync, O>(bencher: Bencher<'_, '_>, items: &[T], work: impl Fn(&T) -> O + Sync) {
    bencher.counter(ItemsCount::new(items.len())).bench(|| {
        for item in items {
            divan::black_box(work(divan::black_box(item)));
        }
    });
}

#[divan::bench]
fn geodesic_inverse(bencher: Bencher<'_, '_>) {
    each(bencher, &pairs(), |(from, to)| geodesic::inverse(*from, *to));
}

#[divan::bench]
fn geodesic_inverse_peer_geographiclib(bencher: Bencher<'_, '_>) {
    use geographiclib_rs::{Geodesic, InverseGeodesic};
    let wgs84 = Geodesic::wgs84();
    let degrees = |at: Position| (at.lat.as_degrees(), at.lon.as_degrees());
    each(bencher, &pairs(), |(from, to)| {
        let ((lat1, lon1), (lat2, lon2)) = (degrees(*from), degrees(*to));
        let solved: (f64, f64, f64, f64) = wgs84.inverse(lat1, lon1, lat2, lon2);
        solved
    });
}

/// A traced leg of five thousand vertices.
fn traced() -> (Position, plan::Along, Position) {
    let line = shore();
    let between = plan::Line::new(line[1..5_001].iter().copied()).unwrap();
    let along = plan::Along::new(between, &[], Length::ZERO, Length::ZERO);
    (line[0], along, line[5_001])
}

/// The readings of a leg that was not read before, as while it follows the cursor, or was.
#[divan::bench(args = ["first", "again"])]
fn traced_leg_of_5000_vertices(bencher: Bencher<'_, '_>, time: &str) {
    let grid = Grid::parse("UTM:30N").unwrap();
    let mut route = plan::Route::new("C");
    route.departure = "2026-06-14T09:30[-02:00]".parse().ok();
    let frame = plan::Frame::of(&route, &grid);
    bencher
        .with_inputs(|| {
            let (from, along, to) = traced();
            if time == "again" {
                plan::lay_along(from, to, &along, &frame);
            }
            (from, along, to)
        })
        .bench_refs(|(from, along, to)| plan::lay_along(*from, *to, along, &frame));
}

/// A shore of many short sides: from place to place some tens of metres.
fn shore() -> Vec<Position> {
    let steps = positions();
    let mut at = (56.0, -6.0);
    let mut step = |by: &Position| {
        at.0 += (by.lat.as_degrees() - 53.5) * 4e-4;
        at.1 += (by.lon.as_degrees() + 6.0) * 2e-3;
        Position::from_degrees(at.0, at.1).unwrap()
    };
    (0..100).flat_map(|_| &steps).map(&mut step).collect()
}

/// One item is one side.
#[divan::bench]
fn line_length(bencher: Bencher<'_, '_>) {
    let shore = shore();
    bencher
        .counter(ItemsCount::new(shore.len()))
        .bench(|| geodesic::line_length(divan::black_box(&shore)));
}

/// Dividers walked along a shore of 100,000 vertices; one item is a vertex.
#[divan::bench(args = [100, 1_000, 10_000])]
fn dividers(bencher: Bencher<'_, '_>, metres: u32) {
    let line = Line::new(shore(), false);
    let step = f64::from(metres) * Length::METRE;
    bencher
        .counter(ItemsCount::new(line.vertices()))
        .bench(|| divan::black_box(&line).walk(step, Start::FIRST));
}

#[divan::bench]
fn line_length_as_it_is_read(bencher: Bencher<'_, '_>) {
    let shore = shore();
    bencher.counter(ItemsCount::new(shore.len())).bench(|| {
        let mut line = geodesic::LineLength::new();
        for position in divan::black_box(&shore) {
            line.push(*position);
        }
        line.length()
    });
}

#[divan::bench]
fn line_length_peer_geographiclib(bencher: Bencher<'_, '_>) {
    use geographiclib_rs::{Geodesic, InverseGeodesic};
    let wgs84 = Geodesic::wgs84();
    let shore: Vec<(f64, f64)> =
        shore().iter().map(|at| (at.lat.as_degrees(), at.lon.as_degrees())).collect();
    bencher.counter(ItemsCount::new(shore.len())).bench(|| {
        let shore = divan::black_box(&shore);
        let sides = shore.iter().zip(&shore[1..]);
        let length = |((lat1, lon1), (lat2, lon2)): (&(f64, f64), &(f64, f64))| -> f64 {
            wgs84.inverse(*lat1, *lon1, *lat2, *lon2)
        };
        sides.map(length).sum::<f64>()
    });
}

#[divan::bench]
fn geodesic_direct(bencher: Bencher<'_, '_>) {
    let bearing = Bearing::from_degrees(47.0).unwrap();
    let distance = 4.3 * Length::NAUTICAL_MILE;
    each(bencher, &positions(), |from| geodesic::direct(*from, bearing, distance));
}

#[divan::bench]
fn rhumb_inverse(bencher: Bencher<'_, '_>) {
    each(bencher, &pairs(), |(from, to)| rhumb::inverse(*from, *to));
}

#[divan::bench(args = ["UTM:30N", "EPSG:27700", "EPSG:2157"])]
fn grid_forward(bencher: Bencher<'_, '_>, name: &str) {
    let grid = Grid::parse(name).unwrap();
    each(bencher, &positions(), |at| grid.forward(*at));
}

#[divan::bench(args = ["UTM:30N", "EPSG:27700"])]
fn grid_forward_all(bencher: Bencher<'_, '_>, name: &str) {
    let grid = Grid::parse(name).unwrap();
    let positions = positions();
    let mut points = Vec::with_capacity(MANY);
    bencher.counter(ItemsCount::new(MANY)).bench_local(|| {
        points.clear();
        grid.forward_all(divan::black_box(&positions), &mut points).unwrap();
        divan::black_box(&points);
    });
}

#[divan::bench(args = ["UTM:30N", "EPSG:27700", "EPSG:2157"])]
fn grid_inverse(bencher: Bencher<'_, '_>, name: &str) {
    let grid = Grid::parse(name).unwrap();
    let points: Vec<GridPoint> =
        positions().iter().map(|at| grid.forward(*at).unwrap().point).collect();
    each(bencher, &points, |at| grid.inverse(*at));
}

#[divan::bench]
fn grid_forward_peer_proj4rs_utm(bencher: Bencher<'_, '_>) {
    let longlat = "+proj=longlat +datum=WGS84 +type=crs";
    let utm = "+proj=utm +zone=30 +datum=WGS84 +type=crs";
    let from = proj4rs::Proj::from_proj_string(longlat).unwrap();
    let to = proj4rs::Proj::from_proj_string(utm).unwrap();
    let points: Vec<(f64, f64, f64)> =
        positions().iter().map(|at| (at.lon.as_radians(), at.lat.as_radians(), 0.0)).collect();
    each(bencher, &points, |at| {
        let mut at = *at;
        proj4rs::transform::transform(&from, &to, &mut at).map(|()| at)
    });
}
