//! A coast taken apart and put together again, whole and damaged.

use super::*;
use crate::coast::parts::{Parts, PartsError, Sections};
use bytemuck::{Pod, cast_slice};
use proptest::prelude::*;
use std::ops::Range;
use std::sync::Arc;

/// Bytes on a multiple of eight.
struct Bytes(Vec<u64>);

impl AsRef<[u8]> for Bytes {
    fn as_ref(&self) -> &[u8] {
        cast_slice(&self.0)
    }
}

/// The sections one after the other, and where each lies.
fn laid_out(sections: &Sections<'_>) -> (Vec<u64>, [Range<usize>; 6]) {
    let Sections { points, lines, names, runs, tree, cells, .. } = *sections;
    let mut words: Vec<u64> = Vec::new();
    let ranges = [points, lines, names, runs, tree, cells].map(|section| {
        let start = words.len() * 8;
        let mut padded = section.to_vec();
        padded.resize(section.len().next_multiple_of(8), 0);
        words.extend(padded.chunks(8).map(|chunk| u64::from_ne_bytes(chunk.try_into().unwrap())));
        start..start + section.len()
    });
    (words, ranges)
}

fn parts(words: Vec<u64>, ranges: [Range<usize>; 6], sections: &Sections<'_>) -> Parts {
    let bytes: SharedBytes = Arc::new(Bytes(words));
    fn slab<T: Pod>(bytes: &SharedBytes, range: Range<usize>) -> Slab<T> {
        Slab::mapped(bytes.clone(), range).unwrap()
    }
    let [points, lines, names, runs, tree, cells] = ranges;
    Parts {
        head: sections.head,
        points: slab(&bytes, points),
        lines: slab(&bytes, lines),
        names: slab(&bytes, names),
        runs: slab(&bytes, runs),
        tree: slab(&bytes, tree),
        cells: slab(&bytes, cells),
    }
}

fn in_ticks() -> Coast {
    let scale = Scale { origin: p(0.0, 0.0), tick: 0.01 };
    let mut builder = Builder::in_ticks(nav::Grid::parse("UTM:30N").unwrap(), scale);
    for line in coast().lines() {
        builder.line(line.kind(), line.feature(), line.name(), line.points());
    }
    let ring = (0..200).map(|i| f64::from(i).to_radians() * 1.8);
    let ring = ring.map(|angle| p(1_000.0 + 200.0 * angle.cos(), 200.0 * angle.sin()));
    builder.line(LineKind::Land, 7, "Round Island", ring);
    builder.finish()
}

fn ask_everything(coast: &Coast) {
    let (a, b) = (p(-50.0, 45.0), p(1_300.0, 90.0));
    let _ = (coast.nearest(a, f64::INFINITY), coast.crossings(a, b), coast.first_touch(a, b));
    let _ = (coast.clearance(a, p(-60.0, 99.0), f64::INFINITY), coast.ashore(a), coast.on_land(b));
    coast.for_runs_in(crate::Extent::new(a, b), |run| assert!(run.points.len() > 1));
    for line in coast.lines() {
        let _ = (line.name(), line.points().last(), line.length_to(&line.place(u32::MAX, 0.5)));
    }
}

#[test]
fn a_mapped_coast_is_the_one_that_was_taken_apart() {
    let coast = in_ticks();
    let sections = coast.sections().unwrap();
    let (words, ranges) = laid_out(&sections);
    let mapped = Coast::from_parts(coast.grid().clone(), parts(words, ranges, &sections)).unwrap();
    assert_eq!(mapped, coast);
    assert_eq!(mapped.ashore(p(1_100.0, 30.0)), coast.ashore(p(1_100.0, 30.0)));
    assert!(mapped.on_land(p(1_100.0, 30.0)));
    ask_everything(&mapped);
    assert!(super::coast().sections().is_none(), "vertices as given are not for a file");
}

#[test]
fn arrays_that_do_not_fit_are_refused() {
    let coast = in_ticks();
    let sections = coast.sections().unwrap();
    let (words, ranges) = laid_out(&sections);
    let whole = parts(words, ranges, &sections);
    let grid = || coast.grid().clone();
    let fault = |change: fn(&mut Parts)| {
        let mut parts = whole.clone();
        change(&mut parts);
        Coast::from_parts(grid(), parts).unwrap_err().to_string()
    };
    fn changed<T: Pod>(slab: &Slab<T>, change: impl FnOnce(&mut Vec<T>)) -> Slab<T> {
        let mut owned = slab.to_vec();
        change(&mut owned);
        owned.into()
    }
    let tick = fault(|parts| parts.head.tick = 0.0);
    assert_eq!(tick, PartsError::Scale.to_string());
    let cut = fault(|parts| parts.points = changed(&parts.points, |v| v.truncate(20)));
    assert!(cut.ends_with("it has no sides, or vertices beyond the last"), "{cut}");
    let bare = fault(|parts| parts.lines = changed(&parts.lines, |v| v[1].sides = 0));
    assert_eq!(bare, "line 1: it has no sides, or vertices beyond the last");
    let kind = fault(|parts| parts.lines = changed(&parts.lines, |v| v[2].kind = 9));
    assert_eq!(kind, "line 2: it is of no known kind");
    let name = fault(|parts| parts.names = changed(&parts.names, |v| v.truncate(3)));
    assert!(name.ends_with("its name lies beyond the last"), "{name}");
    let run = fault(|parts| parts.runs = changed(&parts.runs, |v| v[3].first += 1));
    assert_eq!(run, "run 3 is not where its line has one");
    let more = fault(|parts| parts.runs = changed(&parts.runs, |v| v.push(v[0])));
    let count = whole.runs.len();
    assert_eq!(more, format!("runs: {} elements, {count} are called for", count + 1));
    let tree = fault(|parts| parts.tree = changed(&parts.tree, |v| v.clear()));
    assert_eq!(tree, format!("the tree: 0 elements, {} are called for", whole.tree.len()));
    let cells = fault(|parts| parts.cells = changed(&parts.cells, |v| v.truncate(1)));
    assert!(cells.starts_with("the cells of land: 1 elements"), "{cells}");
}

proptest! {
    /// A damaged file that fits all the same may give wrong answers, but none that is no answer.
    #[test]
    fn no_damage_makes_a_query_read_beyond_the_arrays(
        damage in prop::collection::vec((any::<prop::sample::Index>(), any::<u64>()), 1..4),
    ) {
        let coast = in_ticks();
        let sections = coast.sections().unwrap();
        let (mut words, ranges) = laid_out(&sections);
        for (index, value) in damage {
            let index = index.index(words.len());
            words[index] = value;
        }
        let grid = coast.grid().clone();
        if let Ok(damaged) = Coast::from_parts(grid, parts(words, ranges, &sections)) {
            ask_everything(&damaged);
        }
    }
}
