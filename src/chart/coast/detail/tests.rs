//! Levels of small coasts, held against every rule by looking at all pairs.

use super::*;
use crate::Point;
use crate::coast::{Builder, LineKind, flat};
use proptest::prelude::*;
use std::ops::ControlFlow;

fn builder() -> Builder {
    Builder::new(nav::Grid::parse("UTM:30N").unwrap())
}

fn level(coast: Coast, tolerances: &[f64]) -> (Arc<Coast>, Vec<Level>) {
    let full = Arc::new(coast);
    let mut finer = Level { tolerance: 0.0, left_out: 0, coast: full.clone() };
    let mut levels = Vec::new();
    for tolerance in tolerances {
        finer = coarser(&finer, *tolerance, &mut Alone).unwrap();
        levels.push(finer.clone());
    }
    (full, levels)
}

fn sides(coast: &Coast) -> Vec<(u32, [Point; 2])> {
    let of = |line: crate::coast::Line<'_>| {
        let id = line.id().0;
        (0..line.sides()).map(|side| (id, line.side(side))).collect::<Vec<_>>()
    };
    coast.lines().flat_map(of).collect()
}

/// How many pairs of sides meet that have no end in common.
fn meetings(coast: &Coast) -> usize {
    let sides = sides(coast);
    let mut count = 0;
    for (index, (_, a)) in sides.iter().enumerate() {
        for (_, b) in &sides[index + 1..] {
            let joined = a.iter().any(|p| b.contains(p));
            count += usize::from(!joined && flat::meets(*a, *b));
        }
    }
    count
}

/// The greatest distance from a place on `of` to the nearest side among `sides`, by samples.
fn farthest(of: &[[Point; 2]], sides: &[[Point; 2]]) -> f64 {
    let mut most = 0.0_f64;
    for [a, b] in of {
        for step in 0..=8 {
            let p = *a + (*b - *a) * (f64::from(step) / 8.0);
            let near = sides.iter().map(|side| flat::foot(p, *side).1.sqrt());
            most = most.max(near.fold(f64::INFINITY, f64::min));
        }
    }
    most
}

/// A ring round a middle, its radius changed at every corner: star-shaped, so it never crosses
/// itself.
fn star(middle: Point, radii: &[f64]) -> Vec<Point> {
    let count = radii.len() as f64;
    let corner = |(index, radius): (usize, &f64)| {
        let (sin, cos) = (std::f64::consts::TAU * index as f64 / count).sin_cos();
        middle + Point { x: cos, y: sin } * *radius
    };
    radii.iter().enumerate().map(corner).collect()
}

/// Rough islands in a row with narrow straits between, each with a lake, an islet in the lake.
fn archipelago() -> impl Strategy<Value = Coast> {
    let ring = |low: f64, high: f64| prop::collection::vec(low..high, 12..60);
    let island = (ring(60.0, 99.5), ring(20.0, 50.0), ring(2.0, 15.0));
    (prop::collection::vec(island, 1..4), prop::collection::vec((0.0..600.0, -40.0..40.0), 2..40))
        .prop_map(|(islands, mut open)| {
            let mut builder = builder();
            for (index, (shore, lake, islet)) in islands.iter().enumerate() {
                let middle = Point { x: 500_000.0 + 200.0 * index as f64, y: 6_000_000.0 };
                let feature = index as u32;
                builder.line(LineKind::Land, feature, "", star(middle, shore));
                builder.line(LineKind::Lake, feature, "", star(middle, lake));
                builder.line(LineKind::Land, 100 + feature, "", star(middle, islet));
            }
            open.sort_by(|a: &(f64, f64), b| a.0.total_cmp(&b.0));
            let open = open.iter().map(|(x, y)| Point { x: 499_900.0 + x, y: 6_000_150.0 + y });
            builder.line(LineKind::Open, 0, "", open);
            builder.finish()
        })
}

/// Does the last part first, or breaks off before the first.
struct Backwards {
    stops: bool,
}

impl Crew for Backwards {
    fn share(&mut self, parts: usize, work: &(dyn Fn(usize) + Sync)) -> ControlFlow<()> {
        if self.stops {
            return ControlFlow::Break(());
        }
        (0..parts).rev().for_each(work);
        ControlFlow::Continue(())
    }
}

proptest! {
    #[test]
    fn a_level_is_the_same_whoever_makes_it(coast in archipelago(), tolerance in 0.5..80.0) {
        let full = Level { tolerance: 0.0, left_out: 0, coast: Arc::new(coast) };
        let made = coarser(&full, tolerance, &mut Backwards { stops: false });
        prop_assert!(made.is_some());
        prop_assert_eq!(&made, &coarser(&full, tolerance, &mut Alone));
        prop_assert_eq!(coarser(&full, tolerance, &mut Backwards { stops: true }), None);
    }

    #[test]
    fn levels_keep_to_the_rules(coast in archipelago(), first in 0.5..8.0) {
        let (full, levels) = level(coast, &[first, 4.0 * first, 16.0 * first, 64.0 * first]);
        prop_assert_eq!(meetings(&full), 0);
        for level in &levels {
            prop_assert_eq!(meetings(&level.coast), 0, "tolerance {}", level.tolerance);
            prop_assert_eq!(level.coast.lines().len() + level.left_out, full.lines().len());
            for line in level.coast.lines() {
                let least = if line.is_closed() { 3 } else { 2 };
                prop_assert!(line.vertices() >= least);
                let same = |other: &crate::coast::Line<'_>| {
                    (other.kind(), other.feature()) == (line.kind(), line.feature())
                };
                let whole = full.lines().find(same).unwrap();
                let of = |line: crate::coast::Line<'_>| {
                    (0..line.sides()).map(|side| line.side(side)).collect::<Vec<_>>()
                };
                let (now, before) = (of(line), of(whole));
                let bound = level.tolerance * (1.0 + 1e-9);
                prop_assert!(farthest(&now, &before) <= bound);
                prop_assert!(farthest(&before, &now) <= bound);
            }
        }
    }
}

/// Two long shores 1 m apart, far closer than the tolerance.
#[test]
fn a_strait_stays_open() {
    let mut builder = builder();
    let wave = |x: i32| 30.0 * (0.1 * f64::from(x)).sin();
    // One shore has its vertices between those of the other, so that they do not thin out alike.
    let shore = |up: f64, far: f64| {
        let odd = i32::from(up > 0.0);
        let near = (0..200).map(move |x| (f64::from(20 * x + 10 * odd), wave(2 * x + odd) + up));
        near.chain([(4_000.0, far), (0.0, far)]).map(|(x, y)| Point { x, y })
    };
    builder.line(LineKind::Land, 0, "", shore(0.0, -500.0));
    builder.line(LineKind::Land, 1, "", shore(1.0, 500.0));
    let (full, levels) = level(builder.finish(), &[5.0, 20.0, 80.0, 320.0]);
    assert_eq!(meetings(&full), 0);
    for level in levels {
        assert_eq!(meetings(&level.coast), 0, "{}", level.tolerance);
        assert_eq!(level.coast.lines().len(), 2);
    }
}

/// Of small islands close together one stays; a lone one always does.
#[test]
fn small_islands_thin_out_and_do_not_vanish() {
    let mut builder = builder();
    let islet = |x: f64, y: f64, r: f64| star(Point { x, y }, &[r; 6]);
    for (index, (x, r)) in [(10.0, 1.0), (20.0, 2.0), (30.0, 1.5), (950.0, 1.0)].iter().enumerate()
    {
        builder.line(LineKind::Land, index as u32, "", islet(*x, 50.0, *r));
    }
    let (_, levels) = level(builder.finish(), &[100.0]);
    let mut kept: Vec<u32> = levels[0].coast.lines().map(|line| line.feature()).collect();
    kept.sort_unstable();
    assert_eq!((kept, levels[0].left_out), (vec![1, 3], 2));
    assert!(levels[0].coast.lines().all(|line| line.vertices() == 3));
}

#[test]
fn a_lake_left_out_takes_its_islands_along() {
    let mut builder = builder();
    let ring = |r: f64| star(Point { x: 500.0, y: 500.0 }, &[r; 12]);
    builder.line(LineKind::Land, 0, "", ring(400.0));
    builder.line(LineKind::Lake, 0, "", ring(40.0));
    builder.line(LineKind::Land, 1, "", ring(10.0));
    let (_, levels) = level(builder.finish(), &[30.0, 100.0]);
    assert_eq!(levels[0].coast.lines().len(), 3);
    assert_eq!(levels[1].coast.lines().len(), 1);
}

#[test]
fn the_level_for_a_scale() {
    let coast = || Arc::new(builder().finish());
    let level = |tolerance| Level { tolerance, left_out: 0, coast: coast() };
    let shores = Shores::new(coast(), vec![level(40.0), level(10.0)]);
    let chosen = |scale| std::ptr::from_ref(shores.for_scale(scale));
    assert_eq!(chosen(19.9), Arc::as_ptr(shores.full()));
    assert_eq!(chosen(20.0), Arc::as_ptr(&shores.levels()[0].coast));
    assert_eq!(chosen(1e9), Arc::as_ptr(&shores.levels()[1].coast));
}
