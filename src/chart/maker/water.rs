//! Which water is the sea: parts of the relief below a level that no boat reaches are found and
//! settled, so that every low shore on the chart is one that the sea washes.

use super::relief::Relief;

/// Water within the land smaller than this is filled, larger is a lake; in nodes.
const LEAST_LAKE: usize = 24;
/// Pools left by the ebb smaller than this are filled, in nodes.
const LEAST_POOL: usize = 80;
/// Water as deep as this lies along the chart's frame, in metres.
const FRAME_DEPTH: f64 = 45.0;

/// Settles the waters of a relief: afterwards only the sea lies below high water in
/// `relief`. Returns the relief in which only lakes lie below high water, if there are any.
pub(super) fn settle(relief: &mut Relief) -> Option<Relief> {
    sink_frame(relief);
    let high_water = relief.high_water();
    let basins = cut_off(relief, high_water);
    let mut lakes = basins.iter().any(|basin| basin.len() >= LEAST_LAKE).then(|| relief.clone());
    for height in lakes.iter_mut().flat_map(|lakes| &mut lakes.heights) {
        *height = height.max(high_water + 1.0);
    }
    for basin in basins {
        let mut lake = lakes.as_mut().filter(|_| basin.len() >= LEAST_LAKE);
        for node in &basin {
            if let Some(lakes) = &mut lake {
                lakes.heights[*node] = relief.heights[*node];
            }
            relief.heights[*node] = high_water + 1.0;
        }
    }
    for pool in cut_off(relief, 0.0) {
        if pool.len() < LEAST_POOL {
            for node in pool {
                relief.heights[node] = 0.3;
            }
        }
    }
    lakes
}

/// The lattice's frame is deep, so that every shore closes within it.
fn sink_frame(relief: &mut Relief) {
    let (columns, rows) = (relief.columns, relief.rows);
    for (index, height) in relief.heights.iter_mut().enumerate() {
        let (column, row) = (index % columns, index / columns);
        if column == 0 || row == 0 || column + 1 == columns || row + 1 == rows {
            *height = height.min(-FRAME_DEPTH);
        }
    }
}

/// The connected parts below a level that the frame's water does not reach.
fn cut_off(relief: &Relief, level: f64) -> Vec<Vec<usize>> {
    let mut met = vec![false; relief.heights.len()];
    // All of the frame is water: what hangs together with it begins beside it, and no walk comes to
    // the lattice's edge.
    let (right, top) = (relief.columns - 1, relief.rows - 1);
    for column in 0..=right {
        met[relief.index(column, 0)] = true;
        met[relief.index(column, top)] = true;
    }
    for row in 0..=top {
        met[relief.index(0, row)] = true;
        met[relief.index(right, row)] = true;
    }
    let across = (1..right).flat_map(|column| [(column, 1), (column, top - 1)]);
    let up = (1..top).flat_map(|row| [(1, row), (right - 1, row)]);
    for (column, row) in across.chain(up) {
        let node = relief.index(column, row);
        if !met[node] && relief.heights[node] < level {
            flood(relief, level, node, &mut met);
        }
    }
    let mut parts = Vec::new();
    for node in 0..relief.heights.len() {
        if !met[node] && relief.heights[node] < level {
            parts.push(flood(relief, level, node, &mut met));
        }
    }
    parts
}

/// The nodes below a level that hang together with `start` within the frame, which is met, over corners
/// too: a saddle is drawn as water wherever a shore is traced.
fn flood(relief: &Relief, level: f64, start: usize, met: &mut [bool]) -> Vec<usize> {
    let mut found = vec![start];
    met[start] = true;
    let mut next = 0;
    while let Some(node) = found.get(next).copied() {
        next += 1;
        let (below, above) = (node - relief.columns, node + relief.columns);
        let around = [below - 1, below, below + 1, node - 1, node + 1, above - 1, above, above + 1];
        for beside in around {
            if !met[beside] && relief.heights[beside] < level {
                met[beside] = true;
                found.push(beside);
            }
        }
    }
    found
}

/// Less water than this at high water may be too narrow for a boat, in metres.
const PASSABLE: f64 = 1.2;

/// Whether a boat comes to each node from the open sea: on the chart, and only straight from node to
/// node, so that no way leads through a gap that the shores' lines all but close.
pub(super) fn reached(relief: &Relief) -> Vec<bool> {
    let mut met = vec![false; relief.heights.len()];
    met[relief.sea] = true;
    let (columns, beyond) = (relief.columns, relief.margin());
    let (on_chart, rows) = (beyond..columns - beyond, beyond..relief.rows - beyond);
    let mut found = vec![relief.sea];
    let passable = relief.high_water() - PASSABLE;
    while let Some(node) = found.pop() {
        let (column, row) = (node % columns, node / columns);
        let beside = [
            (column > on_chart.start).then(|| node - 1),
            (column + 1 < on_chart.end).then_some(node + 1),
            (row > rows.start).then(|| node - columns),
            (row + 1 < rows.end).then_some(node + columns),
        ];
        for beside in beside.into_iter().flatten() {
            if !met[beside] && relief.heights[beside] < passable {
                met[beside] = true;
                found.push(beside);
            }
        }
    }
    met
}
