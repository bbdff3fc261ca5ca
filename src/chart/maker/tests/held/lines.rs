//! Lines: whole metres, the inside on the left, none through another, depths one within the next.

use std::collections::{BTreeMap, BTreeSet};

use super::sea::turn;
use crate::model::{Chart, DepthArea, Point, Ring};

pub(super) fn hold(chart: &Chart, found: &mut Vec<String>) {
    turn_left(chart, found);
    do_not_meet(chart, found);
    stand_alone(chart, found);
    depths_nest(chart, found);
}

/// All lines that come from the relief; the drying ground's last.
fn rings(chart: &Chart) -> (Vec<&Ring>, Vec<&Ring>) {
    let shores = chart.land.iter().flat_map(|l| std::iter::once(&l.shore).chain(&l.lakes));
    let lines = shores.chain(chart.depths.iter().map(|d| &d.edge)).collect();
    (lines, chart.drying.iter().map(|d| &d.edge).collect())
}

fn turn_left(chart: &Chart, found: &mut Vec<String>) {
    let (lines, flats) = rings(chart);
    let races = chart.races.iter().map(|r| &r.edge);
    for ring in lines.into_iter().chain(flats).chain(races) {
        if ring.doubled_area() <= 0.0 {
            found.push(format!("a ring has its inside on the right: {:?}", ring.0.first()));
        }
        if ring.0.iter().any(|p| p.x.fract() != 0.0 || p.y.fract() != 0.0) {
            found.push("a corner is not on a whole metre".to_owned());
        }
    }
}

fn do_not_meet(chart: &Chart, found: &mut Vec<String>) {
    let (lines, flats) = rings(chart);
    let corners = lines.iter().flat_map(|r| r.0.iter().map(|p| (p.x as i64, p.y as i64)));
    let mut seen = BTreeSet::new();
    found.extend(
        corners
            .filter(|corner| !seen.insert(*corner))
            .map(|at| format!("two lines meet at {at:?}")),
    );
    let mut squares: BTreeMap<(i64, i64), Vec<(Point, Point)>> = BTreeMap::new();
    for (a, b) in lines.into_iter().chain(flats).flat_map(Ring::sides) {
        let square = |v: f64| (v / 100.0) as i64;
        for x in square(a.x.min(b.x))..=square(a.x.max(b.x)) {
            for y in square(a.y.min(b.y))..=square(a.y.max(b.y)) {
                squares.entry((x, y)).or_default().push((a, b));
            }
        }
    }
    for sides in squares.values() {
        for (i, (a, b)) in sides.iter().enumerate() {
            for (c, d) in &sides[i + 1..] {
                let crosses = turn(*a, *b, *c) * turn(*a, *b, *d) < 0.0
                    && turn(*c, *d, *a) * turn(*c, *d, *b) < 0.0;
                if crosses {
                    found.push(format!("{a:?} {b:?} crosses {c:?} {d:?}"));
                }
            }
        }
    }
}

/// No land lies within another's shore, and each lake within its own land.
fn stand_alone(chart: &Chart, found: &mut Vec<String>) {
    for (i, land) in chart.land.iter().enumerate() {
        let at = land.shore.0[0];
        let about = chart.land.iter().enumerate();
        if about.filter(|(j, _)| *j != i).any(|(_, other)| other.shore.encloses(at)) {
            found.push(format!("the land at {at:?} lies within another"));
        }
        if land.lakes.iter().any(|lake| !land.shore.encloses(lake.0[0])) {
            found.push(format!("a lake of the land at {at:?} is not within it"));
        }
    }
}

/// Each depth area lies in the water, next within one that begins where it ends, or about whose end it
/// begins; the outermost end where the open sea begins.
fn depths_nest(chart: &Chart, found: &mut Vec<String>) {
    let sea = chart.depths.iter().map(|d| d.to_m).fold(0.0, f64::max).min(20.0);
    for (i, depth) in chart.depths.iter().enumerate() {
        let at = depth.edge.0[0];
        if chart.land.iter().any(|land| land.shore.encloses(at)) {
            found.push(format!("the depths at {at:?} lie on land"));
        }
        let others = chart.depths.iter().enumerate().filter(|(j, _)| *j != i).map(|(_, d)| d);
        let about = others.filter(|other| other.edge.encloses(at));
        let size = |d: &&DepthArea| d.edge.doubled_area();
        let fits = match about.min_by(|a, b| size(a).total_cmp(&size(b))) {
            Some(about) => depth.to_m == about.from_m || depth.from_m == about.to_m,
            None => depth.to_m == sea,
        };
        if !fits {
            let (from, to) = (depth.from_m, depth.to_m);
            found.push(format!("the depths from {from} to {to} m at {at:?} skip some"));
        }
    }
}
