//! The queries against plain scans.

use super::*;
use crate::coast::tests::plain;
use proptest::prelude::*;

/// Lines on a coarse lattice, so that points repeat, sides overlap and runs are collinear; some are
/// long enough for many runs.
fn lattice_line() -> impl Strategy<Value = (u8, Vec<(i32, i32)>)> {
    (0..3_u8, prop::collection::vec((0..12, 0..12), 1..90))
}

/// Lines that wander by small steps, as shores do.
fn wandering_line() -> impl Strategy<Value = (u8, Vec<(i32, i32)>)> {
    let steps = prop::collection::vec((-2..=2, -2..=2), 1..700);
    (0..3_u8, (-60..60, -60..60), steps).prop_map(|(kind, (mut x, mut y), steps)| {
        let walk = steps.into_iter().map(|(dx, dy)| {
            (x, y) = (x + dx, y + dy);
            (x, y)
        });
        (kind, walk.collect())
    })
}

fn shores() -> impl Strategy<Value = Vec<(u8, Vec<(i32, i32)>)>> {
    prop::collection::vec(prop_oneof![lattice_line(), wandering_line()], 0..7)
}

/// The coast of lines, its unit `unit` metres; in ticks, or as given.
fn made(lines: &[(u8, Vec<(i32, i32)>)], unit: f64, in_ticks: bool) -> Coast {
    let grid = nav::Grid::parse("UTM:30N").unwrap();
    let mut builder = if in_ticks {
        let origin = at(0, 0, unit);
        Builder::in_ticks(grid, Scale { origin, tick: unit / 3.0 })
    } else {
        Builder::new(grid)
    };
    for (feature, (kind, line)) in (0..).zip(lines) {
        let kind = [LineKind::Land, LineKind::Lake, LineKind::Open][usize::from(*kind)];
        // Neighbours share a number, so that some lakes are those of a land.
        let points = line.iter().map(|&(x, y)| at(x, y, unit));
        builder.line(kind, feature / 2, "", points);
    }
    builder.without_lengths().finish()
}

fn at(x: i32, y: i32, unit: f64) -> Point {
    p(f64::from(x) * unit, f64::from(y) * unit)
}

/// A place on the lattice, or between.
fn place() -> impl Strategy<Value = (f64, f64)> {
    prop_oneof![
        (-20..40, -20..40).prop_map(|(x, y)| (f64::from(x), f64::from(y))),
        (-20..40, -20..40).prop_map(|(x, y)| (f64::from(x) / 2.0, f64::from(y) / 2.0)),
        (-80.0..80.0, -80.0..80.0),
    ]
}

const UNITS: [f64; 3] = [1.0, 0.1, 1_250.0];

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn queries_are_those_of_a_plain_scan(
        lines in shores(), unit in prop::sample::select(&UNITS), in_ticks: bool,
        a in place(), b in place(), reach in prop_oneof![Just(f64::INFINITY), 0.0..200.0_f64],
    ) {
        let coast = made(&lines, unit, in_ticks);
        let (a, b) = (p(a.0 * unit, a.1 * unit), p(b.0 * unit, b.1 * unit));
        prop_assert_eq!(coast.nearest(a, reach), plain::nearest(&coast, a, reach));
        let crossings = plain::crossings(&coast, [a, b]);
        prop_assert_eq!(coast.touches(a, b), !crossings.is_empty());
        prop_assert_eq!(coast.first_touch(a, b), crossings.first().copied());
        prop_assert_eq!(coast.crossings(a, b), crossings);
        prop_assert_eq!(coast.clearance(a, b, reach), plain::clearance(&coast, [a, b], reach));
        let ashore = plain::ashore(&coast, a);
        prop_assert_eq!(coast.ashore(a), ashore);
        prop_assert_eq!(coast.on_land(a), ashore != Ashore::Water);
    }

    #[test]
    fn a_walker_says_what_a_plain_scan_says(
        lines in shores(), in_ticks: bool, path in prop::collection::vec(place(), 1..12),
    ) {
        let coast = made(&lines, 1.0, in_ticks);
        let mut walker = coast.walker();
        for (x, y) in path {
            let near = walker.nearest(p(x, y), f64::INFINITY);
            prop_assert_eq!(near, plain::nearest(&coast, p(x, y), f64::INFINITY));
        }
    }

    #[test]
    fn no_run_that_reaches_into_an_extent_is_left_out(
        lines in shores(), in_ticks: bool, a in place(), b in place(),
    ) {
        let coast = made(&lines, 1.0, in_ticks);
        let extent = crate::Extent::new(p(a.0, a.1), p(b.0, b.1));
        let mut seen = Vec::new();
        coast.for_runs_in(extent, |run| seen.extend(run.sides().map(|(side, ends)| (run.line, side, ends))));
        prop_assert!(seen.is_sorted_by_key(|(line, side, _)| (*line, *side)));
        for line in coast.lines() {
            for side in 0..line.sides() {
                let [s, e] = line.side(side);
                let inside = |q: Point| extent.min().x <= q.x && q.x <= extent.max().x
                    && extent.min().y <= q.y && q.y <= extent.max().y;
                if inside(s) || inside(e) {
                    prop_assert!(seen.contains(&(line.id(), side, [s, e])));
                }
            }
        }
    }

    #[test]
    fn every_line_is_there_as_it_was_given(lines in shores()) {
        let coast = made(&lines, 1.0, false);
        prop_assert_eq!(coast.lines().len(), lines.len());
        let mut found: Vec<Vec<(f64, f64)>> = coast
            .lines()
            .map(|line| line.points().map(|q| (q.x - 500_000.0, q.y - 6_300_000.0)).collect())
            .collect();
        let mut given: Vec<Vec<(f64, f64)>> = lines
            .iter()
            .map(|(kind, line)| {
                let mut line: Vec<_> = line.iter().map(|&(x, y)| (f64::from(x), f64::from(y))).collect();
                if line.len() == 1 || (*kind < 2 && line.first() != line.last()) {
                    line.push(line[0]);
                }
                line
            })
            .collect();
        let order = |a: &Vec<(f64, f64)>, b: &Vec<(f64, f64)>| a.partial_cmp(b).unwrap();
        found.sort_by(order);
        given.sort_by(order);
        prop_assert_eq!(found, given);
    }
}
