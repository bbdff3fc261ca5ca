//! Making one level from the next finer one.

use super::Level;
use super::near::Vertices;
use super::small;
use super::thin::thin;
use crate::coast::crew::{self, Crew};
use crate::coast::line::LineRecord;
use crate::coast::points::Points;
use crate::coast::{Builder, Coast};
use std::ops::Range;
use std::sync::Arc;

/// How far the windows in which vertices are looked up reach beyond a triangle, in tolerances.
const REACH: f64 = 6.0;

/// How many sides the lines of a block have together, at the least; so few in tests that there are
/// several.
const BLOCK: usize = if cfg!(test) { 64 } else { 1 << 17 };

/// How large a ring is that stays whatever lies beside it, in tolerances: a dot of the drawings that
/// the level is for.
const SMALL: f64 = 2.0;

/// The tolerances that levels of `full` should have, in grid metres, the finest first.
///
/// Each is twice the one before, since a view has the more shore on the screen the finer its level
/// is. The first is about the mean distance of the vertices, since a smaller one would take hardly
/// any out; the last leaves so little that no drawing needs less.
#[must_use]
pub fn tolerances(full: &Coast) -> Vec<f64> {
    if full.vertices() < super::LEAST {
        return Vec::new();
    }
    let (mut sides, mut length) = (0_u64, 0.0);
    let (mut west, mut east) = (f64::INFINITY, f64::NEG_INFINITY);
    full.for_runs(|run| {
        for (_, [a, b]) in run.sides() {
            length += (b.x - a.x).hypot(b.y - a.y);
            (west, east) = (west.min(a.x), east.max(a.x));
            sides += 1;
        }
    });
    let mean = length / sides.max(1) as f64;
    let first = mean.max(1.0).log2().floor().exp2();
    let widest = (east - west) / 512.0;
    std::iter::successors(Some(first), |tolerance| Some(tolerance * 2.0))
        .take_while(|tolerance| *tolerance < widest)
        .collect()
}

/// The level of that tolerance, made from a finer one; nothing where `crew` breaks it off.
#[must_use]
pub fn coarser(finer: &Level, tolerance: f64, crew: &mut dyn Crew) -> Option<Level> {
    let coast = &*finer.coast;
    let out = small::left_out(coast, SMALL * tolerance);
    // What the finer level moved already is not there to be moved again.
    let room = (tolerance - finer.tolerance).max(0.0);
    let lines = coast.arrays().lines;
    let blocks = blocks(lines);
    let there = crew::each(crew, blocks.len(), |block| {
        let mut vertices = Vertices::new(coast, &out, blocks[block].clone(), REACH * tolerance);
        let inside = blocks[block].clone().filter(|line| !out[*line]);
        inside.for_each(|line| thin(&lines[line], room, &mut vertices));
        vertices.there()
    })?;
    // What is left is some of what there was, so it is kept as that is.
    let builder = match &coast.points {
        Points::Exact(_) => Builder::new(coast.grid().clone()),
        Points::Ticks(scale, _) => Builder::in_ticks(coast.grid().clone(), *scale),
    };
    let mut builder = builder.without_lengths();
    // The blocks hold all lines one after the other, a ring with its first vertex again at the end.
    let mut there = there.into_iter().flatten();
    for (line, out) in coast.lines().zip(&out) {
        // First the points, which end the pair before one more of `there` is taken.
        let kept = line.points().zip(there.by_ref());
        let kept = kept.filter_map(|(point, there)| there.then_some(point));
        if *out {
            kept.for_each(drop);
        } else {
            builder.line(line.kind(), line.feature(), line.name(), kept);
        }
    }
    let left_out = finer.left_out + out.iter().filter(|out| **out).count();
    Some(Level { tolerance, left_out, coast: Arc::new(builder.finish_by(crew)?) })
}

/// The lines in blocks that are worked on each for itself.
fn blocks(lines: &[LineRecord]) -> Vec<Range<usize>> {
    let mut blocks = Vec::new();
    let (mut first, mut sides) = (0, 0);
    for (index, line) in lines.iter().enumerate() {
        sides += line.sides as usize;
        if sides >= BLOCK || index + 1 == lines.len() {
            blocks.push(first..index + 1);
            (first, sides) = (index + 1, 0);
        }
    }
    blocks
}
