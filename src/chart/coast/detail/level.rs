//! Making one level from the next finer one.

use super::Level;
use super::near::Vertices;
use super::small;
use super::thin::{Chain, thin};
use crate::coast::points::Points;
use crate::coast::{Builder, Coast};
use std::sync::Arc;

/// The sides of a square in which vertices are looked up, in tolerances: most triangles that a
/// vertex and its neighbours make lie in one or two.
const SQUARE: f64 = 3.0;

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

/// The level of that tolerance, made from a finer one.
#[must_use]
pub fn coarser(finer: &Level, tolerance: f64) -> Level {
    let coast = &finer.coast;
    let out = small::left_out(coast, SMALL * tolerance);
    let mut points = Vec::with_capacity(coast.vertices());
    let mut there = Vec::with_capacity(coast.vertices());
    let mut chains = Vec::with_capacity(coast.lines().len());
    for (line, out) in coast.lines().zip(&out) {
        let first = points.len();
        points.extend((0..line.vertices()).map(|index| line.vertex(index)));
        there.resize(points.len(), !out);
        chains.push(Chain { first, count: points.len() - first, closed: line.is_closed() });
    }
    // What the finer level moved already is not there to be moved again.
    let room = (tolerance - finer.tolerance).max(0.0);
    let mut vertices = Vertices::new(points, there, SQUARE * tolerance);
    for (chain, _) in chains.iter().zip(&out).filter(|(_, out)| !**out) {
        thin(chain, room, &mut vertices);
    }
    // What is left is some of what there was, so it is kept as that is.
    let builder = match &coast.points {
        Points::Exact(_) => Builder::new(coast.grid().clone()),
        Points::Ticks(scale, _) => Builder::in_ticks(coast.grid().clone(), *scale),
    };
    let mut builder = builder.without_lengths();
    for ((line, chain), _) in coast.lines().zip(&chains).zip(&out).filter(|(_, out)| !**out) {
        let indices = chain.first..chain.first + chain.count;
        let left = indices.filter(|index| vertices.is_there(*index));
        let left = left.map(|index| vertices.point(index));
        builder.line(line.kind(), line.feature(), line.name(), left);
    }
    let left_out = finer.left_out + out.iter().filter(|out| **out).count();
    Level { tolerance, left_out, coast: Arc::new(builder.finish()) }
}
