//! Tests of ways by water: held against a visibility graph of small shores, and a flood of the practice chart.

use std::cmp::Reverse;
use std::collections::{BinaryHeap, HashMap};

use proptest::prelude::*;

use super::*;
use crate::coast::{Builder, LineKind};
use crate::practice;

fn at(x: f64, y: f64) -> Point {
    Point { x, y }
}

fn length(way: &[Point]) -> f64 {
    way.windows(2).map(|side| apart(side[0], side[1])).sum()
}

fn apart(a: Point, b: Point) -> f64 {
    (b.x - a.x).hypot(b.y - a.y)
}

fn extent() -> Extent {
    Extent::new(at(670_000.0, 345_000.0), at(675_000.0, 350_000.0))
}

/// A shore of rings, land or lakes.
fn coast(rings: &[(LineKind, Vec<Point>)]) -> Coast {
    let mut builder = Builder::new(practice().unwrap().grid);
    for (kind, ring) in rings {
        let closed = ring.iter().chain(ring.first()).copied();
        builder.line(*kind, 0, "", closed);
    }
    builder.finish()
}

fn land(ring: &[(f64, f64)]) -> (LineKind, Vec<Point>) {
    let (x, y) = (670_000.0, 345_000.0);
    (LineKind::Land, ring.iter().map(|p| at(x + p.0, y + p.1)).collect())
}

fn way(coast: &Coast, from: (f64, f64), to: (f64, f64)) -> Option<Vec<Point>> {
    let place = |p: (f64, f64)| at(670_000.0 + p.0, 345_000.0 + p.1);
    Seaway::new(coast, extent()).way(&[place(from)], place(to), f64::INFINITY)
}

#[test]
fn open_water_is_crossed_straight() {
    let coast = coast(&[land(&[(100.0, 100.0), (900.0, 100.0), (500.0, 700.0)])]);
    let found = way(&coast, (100.0, 1000.0), (2000.0, 1500.0)).unwrap();
    assert_eq!(found.len(), 2);
}

#[test]
fn a_way_round_an_island_goes_by_its_corners() {
    let square = [(1000.0, 1000.0), (2000.0, 1000.0), (2000.0, 2000.0), (1000.0, 2000.0)];
    let coast = coast(&[land(&square)]);
    let found = way(&coast, (500.0, 1200.0), (2500.0, 1300.0)).unwrap();
    // By the two southern corners: 200 and 300 m south of the ends, 500 m off them.
    let by_hand = 500f64.hypot(200.0) + 1000.0 + 500f64.hypot(300.0);
    assert_eq!(found.len(), 4, "{found:?}");
    assert!((length(&found) - by_hand).abs() < 1e-6, "{}", length(&found));
}

#[test]
fn an_inlet_is_left_by_its_mouth() {
    // A horseshoe that is open to the west, its walls 100 m thick.
    let coast = coast(&[land(&[
        (1000.0, 1000.0),
        (2000.0, 1000.0),
        (2000.0, 1500.0),
        (1000.0, 1500.0),
        (1000.0, 1400.0),
        (1900.0, 1400.0),
        (1900.0, 1100.0),
        (1000.0, 1100.0),
    ])]);
    let found = way(&coast, (1800.0, 1150.0), (2500.0, 1250.0)).unwrap();
    // Out along the wall, round its end, along the outside.
    let by_hand = 800f64.hypot(50.0) + 100.0 + 1000.0 + 500f64.hypot(250.0);
    assert!((length(&found) - by_hand).abs() < 1e-6, "{found:?}");
}

#[test]
fn from_a_lake_there_is_no_way() {
    let square = |low: f64, high: f64| [(low, low), (high, low), (high, high), (low, high)];
    let mut lake = land(&square(1400.0, 2600.0));
    lake.0 = LineKind::Lake;
    let coast = coast(&[land(&square(1000.0, 3000.0)), lake]);
    let mut water = Seaway::new(&coast, extent());
    let place = |x: f64, y: f64| at(670_000.0 + x, 345_000.0 + y);
    for (from, to) in [((2000.0, 2000.0), (500.0, 500.0)), ((500.0, 500.0), (2000.0, 2000.0))] {
        let (from, to) = (place(from.0, from.1), place(to.0, to.1));
        assert_eq!(water.way(&[from], to, f64::INFINITY), None);
        // Once more, now that it is known.
        assert_eq!(water.way(&[from], to, f64::INFINITY), None);
    }
    let within = water.way(&[place(1500.0, 1500.0)], place(2500.0, 2500.0), f64::INFINITY);
    assert_eq!(within.map(|way| way.len()), Some(2));
}

#[test]
fn a_place_above_the_beach_is_one_that_a_boat_comes_to() {
    let square = [(1000.0, 1000.0), (2000.0, 1000.0), (2000.0, 2000.0), (1000.0, 2000.0)];
    let coast = coast(&[land(&square)]);
    let water = Seaway::new(&coast, extent());
    let place = |x: f64, y: f64| at(670_000.0 + x, 345_000.0 + y);
    assert_eq!(water.afloat(place(900.0, 1500.0)), Some(place(900.0, 1500.0)));
    let beach = water.afloat(place(1040.0, 1500.0)).unwrap();
    assert!(!coast.on_land(beach) && apart(beach, place(1000.0, 1500.0)) < 1.0);
    assert_eq!(water.afloat(place(1500.0, 1500.0)), None);
}

#[test]
fn a_way_longer_than_is_asked_for_is_none() {
    let square = [(1000.0, 1000.0), (2000.0, 1000.0), (2000.0, 2000.0), (1000.0, 2000.0)];
    let coast = coast(&[land(&square)]);
    let place = |x: f64, y: f64| at(670_000.0 + x, 345_000.0 + y);
    let mut water = Seaway::new(&coast, extent());
    let (from, to) = (place(500.0, 1500.0), place(2500.0, 1500.0));
    assert!(water.way(&[from], to, 2000.0).is_none());
    assert!(water.way(&[from], to, 2600.0).is_some());
}

/// Whether two straight pieces cross within both.
fn crosses([a, b]: [Point; 2], [p, q]: [Point; 2]) -> bool {
    let hand = |a: Point, b: Point, c: Point| (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
    hand(a, b, p) * hand(a, b, q) < 0.0 && hand(p, q, a) * hand(p, q, b) < 0.0
}

fn is_inside(ring: &[Point], p: Point) -> bool {
    let sides = ring.iter().zip(ring.iter().cycle().skip(1));
    let beyond = sides.filter(|(a, b)| {
        (a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)
    });
    beyond.count() % 2 == 1
}

fn is_clear(rings: &[Vec<Point>], [a, b]: [Point; 2]) -> bool {
    let middle = (a + b) / 2.0;
    rings.iter().all(|ring| {
        let neighbours = |p: &Point, q: &Point| [*p, *q] == [a, b] || [*q, *p] == [a, b];
        let mut sides = ring.iter().zip(ring.iter().cycle().skip(1));
        sides.clone().any(|(p, q)| neighbours(p, q))
            || (!sides.any(|(p, q)| crosses([a, b], [*p, *q])) && !is_inside(ring, middle))
    })
}

/// The length of the shortest way: by Dijkstra's rule from vertex to vertex that sees it.
fn shortest(rings: &[Vec<Point>], from: Point, to: Point) -> f64 {
    let places: Vec<Point> =
        [from, to].into_iter().chain(rings.iter().flatten().copied()).collect();
    let mut far = vec![f64::INFINITY; places.len()];
    let mut done = vec![false; places.len()];
    far[0] = 0.0;
    while let Some(now) =
        (0..places.len()).filter(|i| !done[*i]).min_by(|a, b| far[*a].total_cmp(&far[*b]))
    {
        if now == 1 {
            break;
        }
        done[now] = true;
        for next in 0..places.len() {
            let there = far[now] + apart(places[now], places[next]);
            if !done[next] && there < far[next] && is_clear(rings, [places[now], places[next]]) {
                far[next] = there;
            }
        }
    }
    far[1]
}

/// An island about a place: how far it reaches in directions that follow each other.
fn island() -> impl Strategy<Value = (f64, f64, Vec<f64>)> {
    let reach = 100.0..600.0f64;
    (600.0..4400.0f64, 600.0..4400.0f64, prop::collection::vec(reach, 3..10))
}

/// Islands with at least four cells of water between any two.
fn apart_from_each_other(islands: &[(f64, f64, Vec<f64>)]) -> Vec<(Point, f64, Vec<Point>)> {
    let mut kept: Vec<(Point, f64, Vec<Point>)> = Vec::new();
    for (x, y, reach) in islands {
        let middle = at(670_000.0 + x, 345_000.0 + y);
        let most = reach.iter().copied().fold(0.0, f64::max);
        if kept.iter().any(|other| apart(other.0, middle) < other.1 + most + 100.0) {
            continue;
        }
        let turn = std::f64::consts::TAU / reach.len() as f64;
        let corner = |(index, reach): (usize, &f64)| {
            let angle = index as f64 * turn + 0.1;
            at(middle.x + reach * angle.cos(), middle.y + reach * angle.sin())
        };
        kept.push((middle, most, reach.iter().enumerate().map(corner).collect()));
    }
    kept
}

proptest! {
    #[test]
    fn ways_are_as_short_as_a_visibility_graph_has_them(
        islands in prop::collection::vec(island(), 1..9),
        (fx, fy, tx, ty) in (50.0..4950.0f64, 50.0..4950.0f64, 50.0..4950.0f64, 50.0..4950.0f64),
    ) {
        let islands = apart_from_each_other(&islands);
        let (from, to) = (at(670_000.0 + fx, 345_000.0 + fy), at(670_000.0 + tx, 345_000.0 + ty));
        let clear = |p: Point| islands.iter().all(|other| apart(other.0, p) > other.1 + 50.0);
        prop_assume!(clear(from) && clear(to));
        let rings: Vec<Vec<Point>> = islands.into_iter().map(|island| island.2).collect();
        let lines: Vec<(LineKind, Vec<Point>)> =
            rings.iter().map(|ring| (LineKind::Land, ring.clone())).collect();
        let coast = coast(&lines);
        let found = Seaway::new(&coast, extent()).way(&[from], to, f64::INFINITY).unwrap();
        prop_assert_eq!((found.first(), found.last()), (Some(&from), Some(&to)));
        let (found, best) = (length(&found), shortest(&rings, from, to));
        let straight = apart(from, to);
        prop_assert!(found >= straight - 1e-6);
        prop_assert_eq!(found - straight < 1e-6, !coast.touches(from, to));
        prop_assert!(found >= best - 1e-6, "{found} is shorter than can be: {best}");
        prop_assert!(found <= best * (1.0 + DETOUR) + 4.0 * CELL, "{found}, and there is {best}");
    }
}

fn is_in(extent: Extent, p: Point) -> bool {
    let (low, high) = (extent.min(), extent.max());
    (low.x..=high.x).contains(&p.x) && (low.y..=high.y).contains(&p.y)
}

/// How far each node of a lattice is from a place by water, in eight directions, without a look at what is tested but the
/// shore itself.
fn flood(
    coast: &Coast,
    within: Extent,
    from: Point,
    step: f64,
    reach: i64,
) -> HashMap<(i64, i64), f64> {
    let place = |(i, j): (i64, i64)| at(from.x + i as f64 * step, from.y + j as f64 * step);
    let mut far = HashMap::from([((0, 0), 0.0)]);
    let mut open = BinaryHeap::from([Reverse((0u64, (0i64, 0i64)))]);
    while let Some(Reverse((gone, node))) = open.pop() {
        let gone = f64::from_bits(gone);
        if gone > far[&node] {
            continue;
        }
        for (i, j) in (-1..=1).flat_map(|i| (-1..=1).map(move |j| (i, j))) {
            let next = (node.0 + i, node.1 + j);
            let beyond = next.0.abs().max(next.1.abs()) > reach || !is_in(within, place(next));
            if beyond || coast.touches(place(node), place(next)) {
                continue;
            }
            let there = gone + apart(place(node), place(next));
            if far.get(&next).is_none_or(|known| there < *known) {
                far.insert(next, there);
                open.push(Reverse((there.to_bits(), next)));
            }
        }
    }
    far
}

#[test]
fn a_flood_of_the_practice_chart_comes_as_far() {
    const STEP: f64 = 60.0;
    let chart = practice().unwrap();
    let coast = Coast::of(&chart);
    let mut water = Seaway::new(&coast, chart.extent);
    let mut bends = 0;
    for landing in chart.landings.iter().step_by(4) {
        let Some(from) = water.afloat(landing.at) else { continue };
        // From a node on the water off the beach, so that the lattice begins where the way does.
        let far = flood(&coast, chart.extent, from, STEP, 50);
        for (node, far) in far.iter().filter(|(node, _)| node.0 % 16 == 0 && node.1 % 16 == 0) {
            let to = at(from.x + node.0 as f64 * STEP, from.y + node.1 as f64 * STEP);
            let Some(way) = water.way(&[from], to, f64::INFINITY) else {
                panic!("{}: no way to {to:?}, {far} m by flood", landing.name)
            };
            let found = length(&way);
            bends += usize::from(way.len() > 2);
            // The lattice goes at most 8.3 % about, and may cut no corner; the way may go the longer hand.
            let near = found <= far * (1.0 + DETOUR) + 4.0 * CELL;
            // What the lattice does not come through, a strait narrower than its step, the way may.
            assert!(near, "{}: {found} to {to:?}, {far} by flood", landing.name);
            for side in way.windows(2) {
                let inner = |part: f64| side[0] + (side[1] - side[0]) * part;
                assert!((1..20).all(|part| {
                    let at = inner(f64::from(part) / 20.0);
                    !coast.on_land(at) || coast.nearest(at, 0.01).is_some()
                }));
            }
        }
    }
    assert!(bends > 100, "{bends}");
}
