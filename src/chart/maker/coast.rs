//! The lines of a chart: shores, lakes, drying ground and depth contours, from one relief.

use std::collections::BTreeSet;

use super::contour::{Corner, Loop, lines};
use super::finds::xy;
use super::flats::{Flat, flats};
use super::relief::{Levels, Relief};
use super::thin::{Line, thin};

/// Lands smaller than this are left to the drying ground, in square metres.
const LEAST_LAND: i64 = 700;
/// Depth areas smaller than this are not drawn, in square metres.
const LEAST_DEPTH_AREA: i64 = 20_000;
/// How far thinning may move the line of each level, in metres.
const TOLERANCE: [f64; 5] = [2.5, 4.0, 12.0, 16.0, 24.0];
/// The level of low water is the second one: depths begin with the third.
const FIRST_DEPTH: usize = 2;

/// Water between two depths.
#[derive(Debug, Clone)]
pub(super) struct Depth {
    pub(super) from_m: f64,
    pub(super) to_m: f64,
    pub(super) edge: Loop,
}

/// The lines of a chart.
#[derive(Debug, Clone)]
pub(super) struct Coast {
    /// Shores, the longest first.
    pub(super) shores: Vec<Loop>,
    pub(super) lakes: Vec<Loop>,
    pub(super) flats: Vec<Flat>,
    /// Depth areas, an outer one before those within it.
    pub(super) depths: Vec<Depth>,
}

impl Coast {
    /// Draws the lines of a settled relief and of its lakes, if it has any.
    pub(super) fn new(relief: &Relief, lakes: Option<&Relief>) -> Self {
        let (mut flats, joints) = flats(relief);
        let mut levels = lines(relief);
        let mut lakes: Vec<Loop> = lakes.map_or_else(Vec::new, |lakes| lines(lakes).swap_remove(0));
        lakes.retain(|lake| lake.double_area() < -2 * LEAST_LAND);
        drop_small(&mut levels);
        thin_all(&mut levels, &mut lakes, &joints, relief);
        let mut shared: Vec<Corner> = levels[..FIRST_DEPTH]
            .iter()
            .flatten()
            .flat_map(|l| l.corners.iter().copied())
            .chain(joints)
            .collect();
        shared.sort_unstable();
        for flat in &mut flats {
            flat.edge.corners.retain(|c| shared.binary_search(c).is_ok());
        }
        let seen = |line: &Loop| line.corners.iter().any(|c| relief.within(xy(*c), 0.0));
        flats.retain(|f| f.edge.corners.len() > 2 && seen(&f.edge));
        lakes.iter_mut().for_each(|l| l.corners.reverse());
        let mut depths = depths(levels.split_off(FIRST_DEPTH), &relief.levels);
        let mut shores: Vec<Loop> = levels.swap_remove(0);
        depths.retain(|depth| seen(&depth.edge));
        shores.retain(|l| l.double_area() > 2 * LEAST_LAND && seen(l));
        shores.sort_by_key(|l| (std::cmp::Reverse(l.double_area()), l.corners[0]));
        Self { shores, lakes, flats, depths }
    }
}

fn drop_small(levels: &mut [Vec<Loop>]) {
    for level in &mut levels[FIRST_DEPTH..] {
        level.retain(|l| l.double_area().abs() > 2 * LEAST_DEPTH_AREA);
    }
}

fn thin_all(
    levels: &mut [Vec<Loop>],
    lakes: &mut [Loop],
    joints: &BTreeSet<Corner>,
    relief: &Relief,
) {
    let size = relief.place(relief.heights.len() - 1);
    let mut all: Vec<Line<'_>> = Vec::new();
    for (level, tolerance) in levels.iter_mut().zip(TOLERANCE) {
        let line = |l| Line { corners: l, tolerance };
        all.extend(level.iter_mut().map(|l| &mut l.corners).map(line));
    }
    all.extend(lakes.iter_mut().map(|l| Line { corners: &mut l.corners, tolerance: TOLERANCE[0] }));
    thin(&mut all, joints, (size.0 as i32, size.1 as i32));
}

/// Depth areas of the contours below low water: within a contour the water is shallower, or
/// deeper if the contour rings a hollow.
fn depths(lines: Vec<Vec<Loop>>, levels: &Levels) -> Vec<Depth> {
    let mut found = Vec::new();
    for (i, level) in lines.into_iter().enumerate() {
        let here = FIRST_DEPTH + i;
        for mut edge in level {
            let shallow_within = edge.double_area() > 0;
            let (top, foot) = if shallow_within {
                (levels[here - 1], levels[here])
            } else {
                (levels[here], levels.get(here + 1).copied().unwrap_or(2.5 * levels[here]))
            };
            if !shallow_within {
                edge.corners.reverse();
            }
            found.push(Depth { from_m: -top, to_m: -foot, edge });
        }
    }
    found.sort_by_key(|d| (std::cmp::Reverse(d.edge.double_area()), d.edge.corners[0]));
    found
}
