//! The shore's index beside its peers, on a coast of about 150,000 vertices: compare the ratios
//! within one run. One item is one point or one leg.
//!
//! The coast is made up, the same at every run, unless `target/coast/bench.txt` holds a real one:
//! a line `x y` for each vertex in metres, and an empty line after each ring.
#![allow(clippy::unwrap_used, clippy::print_stdout, missing_docs, reason = "a bench")]

use std::sync::LazyLock;

use chart::Point;
use chart::coast::{Builder, Coast, LineKind};
use divan::Bencher;
use divan::counter::ItemsCount;
use geo::indexed::IntervalTreeMultiPolygon;
use geo::{Contains, Intersects, Line, LineString, MultiPolygon, Orient, Polygon, orient};
use rstar::{AABB, PointDistance, RTree, RTreeObject};

const MANY: usize = 1_000;

fn main() {
    same_answers();
    divan::main();
}

/// Numbers from 0 to 1, the same at every run.
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> f64 {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.next()
    }
}

/// A ring about a middle whose radius is rough at every size, as coasts are.
fn ring(dice: &mut Dice, middle: Point, radius: f64, doublings: u32) -> Vec<Point> {
    let mut radii = vec![radius; 8];
    let mut swing = radius / 4.0;
    for _ in 0..doublings {
        let next = radii.iter().cycle().skip(1);
        let mids: Vec<f64> = radii
            .iter()
            .zip(next)
            .map(|(a, b)| ((a + b) / 2.0 + dice.between(-swing, swing)).max(radius / 10.0))
            .collect();
        radii = radii.iter().zip(mids).flat_map(|(a, m)| [*a, m]).collect();
        swing *= 0.58;
    }
    let step = std::f64::consts::TAU / radii.len() as f64;
    let at = |(i, r): (usize, &f64)| Point {
        x: middle.x + r * (step * i as f64).cos(),
        y: middle.y + r * (step * i as f64).sin(),
    };
    radii.iter().enumerate().map(at).collect()
}

struct Shore {
    land: Vec<Vec<Point>>,
    lakes: Vec<Vec<Point>>,
    low: Point,
    high: Point,
}

fn made_up() -> Shore {
    let mut dice = Dice(7);
    let middle = Point { x: 500_000.0, y: 6_300_000.0 };
    let mut land = vec![ring(&mut dice, middle, 150_000.0, 14)];
    for i in 0..300 {
        let angle = f64::from(i) * std::f64::consts::TAU / 300.0;
        let far = 290_000.0 + f64::from(i % 5) * 12_000.0;
        let at = middle + Point { x: angle.cos() * far, y: angle.sin() * far };
        land.push(ring(&mut dice, at, 1_500.0, 3));
    }
    let mut lakes = Vec::new();
    for i in 0..20 {
        let at = middle + Point { x: f64::from(i % 5) * 2_000.0, y: f64::from(i / 5) * 2_000.0 };
        lakes.push(ring(&mut dice, at, 500.0, 3));
    }
    let (low, high) = (
        middle - Point { x: 350_000.0, y: 350_000.0 },
        middle + Point { x: 350_000.0, y: 350_000.0 },
    );
    Shore { land, lakes, low, high }
}

fn real() -> Option<Shore> {
    let text = std::fs::read_to_string("target/coast/bench.txt").ok()?;
    let number = |word: &str| word.parse::<f64>().unwrap();
    let rings = text.split("\n\n").map(|ring| {
        let points = ring.lines().filter_map(|line| line.split_once(' '));
        points.map(|(x, y)| Point { x: number(x), y: number(y) }).collect::<Vec<_>>()
    });
    let land: Vec<Vec<Point>> = rings.filter(|ring| ring.len() > 2).collect();
    let all = || land.iter().flatten();
    let low = |of: fn(&Point) -> f64| all().map(of).fold(f64::INFINITY, f64::min);
    let high = |of: fn(&Point) -> f64| all().map(of).fold(f64::NEG_INFINITY, f64::max);
    let (low, high) =
        (Point { x: low(|p| p.x), y: low(|p| p.y) }, Point { x: high(|p| p.x), y: high(|p| p.y) });
    Some(Shore { land, lakes: Vec::new(), low, high })
}

static SHORE: LazyLock<Shore> = LazyLock::new(|| real().unwrap_or_else(made_up));
static COAST: LazyLock<Coast> = LazyLock::new(|| coast(&SHORE));
static SIDES: LazyLock<RTree<Side>> = LazyLock::new(|| RTree::bulk_load(sides(&SHORE)));
static LAND: LazyLock<IntervalTreeMultiPolygon<f64>> =
    LazyLock::new(|| IntervalTreeMultiPolygon::new(&polygons(&SHORE)));

fn coast(shore: &Shore) -> Coast {
    let mut builder = Builder::new(nav::Grid::parse("UTM:30N").unwrap()).without_lengths();
    for (feature, ring) in (0..).zip(&shore.land) {
        builder.line(LineKind::Land, feature, "", ring.iter().copied());
    }
    for ring in &shore.lakes {
        builder.line(LineKind::Lake, 0, "", ring.iter().copied());
    }
    builder.finish()
}

fn polygons(shore: &Shore) -> MultiPolygon {
    let ring = |points: &Vec<Point>| LineString::from(points.clone());
    let mut polygons: Vec<_> =
        shore.land.iter().map(|l| Polygon::new(ring(l), Vec::new())).collect();
    for lake in &shore.lakes {
        polygons[0].interiors_push(ring(lake));
    }
    MultiPolygon::new(polygons).orient(orient::Direction::Default)
}

/// A side as the peer's index keeps it.
#[derive(Clone, Copy)]
struct Side(Point, Point);

impl RTreeObject for Side {
    type Envelope = AABB<[f64; 2]>;

    fn envelope(&self) -> Self::Envelope {
        AABB::from_corners([self.0.x, self.0.y], [self.1.x, self.1.y])
    }
}

impl PointDistance for Side {
    fn distance_2(&self, point: &[f64; 2]) -> f64 {
        let (ax, ay) = (self.0.x - point[0], self.0.y - point[1]);
        let (dx, dy) = (self.1.x - self.0.x, self.1.y - self.0.y);
        let square = dx * dx + dy * dy;
        let part = if square > 0.0 { (-(ax * dx + ay * dy) / square).clamp(0.0, 1.0) } else { 0.0 };
        let (x, y) = (ax + part * dx, ay + part * dy);
        x * x + y * y
    }
}

fn sides(shore: &Shore) -> Vec<Side> {
    let closed = |ring: &Vec<Point>| {
        let next = ring.iter().cycle().skip(1);
        ring.iter().zip(next).map(|(a, b)| Side(*a, *b)).collect::<Vec<_>>()
    };
    shore.land.iter().chain(&shore.lakes).flat_map(closed).collect()
}

fn peer_crosses((a, b): (Point, Point)) -> bool {
    let leg = Line::new(a, b);
    let envelope = AABB::from_corners([a.x, a.y], [b.x, b.y]);
    SIDES.locate_in_envelope_intersecting(envelope).any(|s| Line::new(s.0, s.1).intersects(&leg))
}

/// Points all over the coast.
fn scattered(count: usize) -> Vec<Point> {
    let (mut dice, shore) = (Dice(1), &*SHORE);
    let mut point = || Point {
        x: dice.between(shore.low.x, shore.high.x),
        y: dice.between(shore.low.y, shore.high.y),
    };
    (0..count).map(|_| point()).collect()
}

/// Points near the shore, within about a kilometre.
fn near_shore(count: usize) -> Vec<Point> {
    let mut dice = Dice(2);
    let all: Vec<Point> = SHORE.land.iter().flatten().copied().collect();
    let mut point = || {
        let vertex = all[(dice.next() * all.len() as f64) as usize % all.len()];
        vertex + Point { x: dice.between(-1_000.0, 1_000.0), y: dice.between(-1_000.0, 1_000.0) }
    };
    (0..count).map(|_| point()).collect()
}

/// A cursor that moves along a stretch of the shore, a few dots at a time.
fn path() -> Vec<Point> {
    let mut dice = Dice(3);
    let mut at = SHORE.land[0][0] + Point { x: 800.0, y: 800.0 };
    let (mut dx, mut dy) = (0.0, 0.0);
    let mut next = || {
        dx = (dx + dice.between(-30.0, 30.0)) * 0.95;
        dy = (dy + dice.between(-30.0, 30.0)) * 0.95;
        at = at + Point { x: dx, y: dy };
        at
    };
    (0..MANY).map(|_| next()).collect()
}

/// Legs of one length in all directions, from points near the shore.
fn legs(length: f64) -> Vec<(Point, Point)> {
    let mut dice = Dice(4);
    let mut leg = |from: Point| {
        let angle = dice.between(0.0, std::f64::consts::TAU);
        (from, from + Point { x: angle.cos() * length, y: angle.sin() * length })
    };
    near_shore(MANY).into_iter().map(&mut leg).collect()
}

/// A ratio means nothing if the answers differ.
fn same_answers() {
    let many = scattered(100_000);
    let ours = many.iter().filter(|p| COAST.on_land(**p)).count();
    let exact = many.iter().filter(|p| COAST.ashore(**p) != chart::coast::Ashore::Water).count();
    let peer = many.iter().filter(|p| LAND.contains(*p)).count();
    assert_eq!((ours, exact), (peer, peer), "points on land of {}", many.len());
    let (mut touching, mut legs_in_all) = (0, 0);
    for leg in [1_000.0, 50_000.0].into_iter().flat_map(legs) {
        assert_eq!(COAST.touches(leg.0, leg.1), peer_crosses(leg), "{leg:?}");
        touching += usize::from(peer_crosses(leg));
        legs_in_all += 1;
    }
    for p in scattered(MANY).into_iter().chain(path()) {
        let peer = SIDES.nearest_neighbor_with_distance_2([p.x, p.y]).unwrap().1.sqrt();
        let ours = COAST.nearest(p, f64::INFINITY).unwrap().distance;
        assert!((ours - peer).abs() <= 1e-6, "{p:?}: {ours}, {peer}");
    }
    println!(
        "{} vertices; of {} points {peer} on land; of {legs_in_all} legs {touching} touch",
        COAST.vertices(),
        many.len(),
    );
}

fn each<T: Sync, O>(bencher: Bencher<'_, '_>, items: &[T], work: impl Fn(&T) -> O + Sync) {
    bencher.counter(ItemsCount::new(items.len())).bench(|| {
        for item in items {
            divan::black_box(work(divan::black_box(item)));
        }
    });
}

#[divan::bench_group]
mod nearest_at_random {
    use super::*;

    #[divan::bench]
    fn ours(bencher: Bencher<'_, '_>) {
        each(bencher, &scattered(MANY), |p| COAST.nearest(*p, f64::INFINITY));
    }

    #[divan::bench]
    fn peer_rstar(bencher: Bencher<'_, '_>) {
        each(bencher, &scattered(MANY), |p| SIDES.nearest_neighbor([p.x, p.y]));
    }
}

#[divan::bench_group]
mod nearest_along_a_path {
    use super::*;

    #[divan::bench]
    fn ours(bencher: Bencher<'_, '_>) {
        let path = path();
        bencher.counter(ItemsCount::new(path.len())).bench(|| {
            let mut walker = COAST.walker();
            for p in &path {
                divan::black_box(walker.nearest(divan::black_box(*p), f64::INFINITY));
            }
        });
    }

    #[divan::bench]
    fn peer_rstar(bencher: Bencher<'_, '_>) {
        each(bencher, &path(), |p| SIDES.nearest_neighbor([p.x, p.y]));
    }
}

#[divan::bench_group]
mod does_a_leg_cross {
    use super::*;

    #[divan::bench(args = [1_000.0, 50_000.0])]
    fn ours(bencher: Bencher<'_, '_>, length: f64) {
        each(bencher, &legs(length), |(a, b)| COAST.touches(*a, *b));
    }

    #[divan::bench(args = [1_000.0, 50_000.0])]
    fn ours_where_first(bencher: Bencher<'_, '_>, length: f64) {
        each(bencher, &legs(length), |(a, b)| COAST.first_touch(*a, *b));
    }

    #[divan::bench(args = [1_000.0, 50_000.0])]
    fn peer_rstar(bencher: Bencher<'_, '_>, length: f64) {
        each(bencher, &legs(length), |leg| peer_crosses(*leg));
    }
}

#[divan::bench_group]
mod how_close_does_a_leg_come {
    use super::*;

    #[divan::bench(args = [1_000.0, 50_000.0])]
    fn ours(bencher: Bencher<'_, '_>, length: f64) {
        each(bencher, &legs(length), |(a, b)| COAST.clearance(*a, *b, f64::INFINITY));
    }
}

#[divan::bench_group]
mod is_it_land {
    use super::*;

    #[divan::bench]
    fn ours(bencher: Bencher<'_, '_>) {
        each(bencher, &scattered(MANY), |p| COAST.on_land(*p));
    }

    #[divan::bench]
    fn ours_by_the_sides_alone(bencher: Bencher<'_, '_>) {
        each(bencher, &scattered(MANY), |p| COAST.ashore(*p));
    }

    #[divan::bench]
    fn peer_geo_interval_tree(bencher: Bencher<'_, '_>) {
        each(bencher, &scattered(MANY), |p| LAND.contains(p));
    }
}

#[divan::bench_group(sample_count = 10)]
mod made {
    use super::*;

    #[divan::bench]
    fn ours() -> Coast {
        coast(&SHORE)
    }

    #[divan::bench]
    fn peer_rstar() -> RTree<Side> {
        RTree::bulk_load(sides(&SHORE))
    }
}
