//! What lies at the two ends of a channel: the sea at both, or a basin at one.

use super::dice::Xy;
use super::relief::{CELL, Relief};
use super::survey::Survey;
use super::wishes::TideRange;

/// As far as a channel may reach to either side, in metres: what is wider is shut by nothing.
const WIDEST: f64 = 2_600.0;

/// What lies at the ends of a channel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Ends {
    /// The sea comes to both.
    Open,
    /// One end is shut off from the sea but for the channel.
    Basin {
        /// Whether it is the end ahead.
        ahead: bool,
    },
}

/// What lies at the ends of the channel through a place along `axis`.
pub(super) fn ends(survey: &Survey<'_>, at: Xy, axis: Xy) -> Ends {
    let relief = survey.relief;
    let Some(wall) = wall(survey, at, axis) else { return Ends::Open };
    let shut = |way: Xy| {
        beside(relief, at, way, &wall).is_some_and(|start| !reaches_frame(relief, start, &wall))
    };
    match (shut(axis), shut((-axis.0, -axis.1))) {
        (true, false) => Ends::Basin { ahead: true },
        (false, true) => Ends::Basin { ahead: false },
        _ => Ends::Open,
    }
}

/// The greatest rate at springs, in knots, of the stream that fills and empties the basin at one end of
/// a channel; nothing where it has no walls.
pub(super) fn filling(
    survey: &Survey<'_>,
    (at, axis): (Xy, Xy),
    ahead: bool,
    tide: TideRange,
) -> Option<f64> {
    /// From low to high water, in seconds.
    const RISE: f64 = 22_357.0;
    /// Metres a second in a knot.
    const KNOT: f64 = 1_852.0 / 3_600.0;
    let (relief, range) = (survey.relief, tide.as_metres());
    let wall = wall(survey, at, axis)?;
    let way = if ahead { axis } else { (-axis.0, -axis.1) };
    let start = beside(relief, at, way, &wall)?;
    let below = |node: usize| relief.high_water() - relief.heights[node];
    let depths = wall.iter().map(|node| (below(*node) - range / 2.0).max(0.0));
    // The wall's nodes are given every half cell.
    let section: f64 = depths.sum::<f64>() * CELL / 2.0;
    let mut volume = 0.0;
    spread(relief, start, &wall, |node| {
        volume += below(node).min(range);
        false
    });
    let mean = volume * CELL * CELL / (section.max(CELL) * RISE);
    Some(mean * std::f64::consts::FRAC_PI_2 / KNOT)
}

/// How far it is by water from one end of a channel to the other but through it, in metres, from node
/// to node straight on; nothing where no other way leads.
pub(super) fn way_round(survey: &Survey<'_>, at: Xy, axis: Xy) -> Option<f64> {
    let relief = survey.relief;
    let wall = wall(survey, at, axis)?;
    let start = beside(relief, at, axis, &wall)?;
    let goal = beside(relief, at, (-axis.0, -axis.1), &wall)?;
    let mut met = met(relief, &wall, start);
    let mut ring = vec![start];
    let mut steps = 0;
    while !ring.is_empty() {
        if ring.contains(&goal) {
            return Some(f64::from(steps) * CELL);
        }
        let mut next = Vec::new();
        for node in ring {
            straight_on(relief, node, |beside| {
                if !met[beside] && is_sea(relief, beside) {
                    met[beside] = true;
                    next.push(beside);
                }
            });
        }
        (ring, steps) = (next, steps + 1);
    }
    None
}

/// The first node of the water off a wall on one side.
fn beside(relief: &Relief, at: Xy, way: Xy, wall: &[usize]) -> Option<usize> {
    let off = |step: i32| {
        let metres = f64::from(step) * CELL / 2.0;
        relief.node((at.0 + way.0 * metres, at.1 + way.1 * metres))
    };
    (2..12).map(off).find(|node| is_sea(relief, *node) && !wall.contains(node))
}

/// The nodes that a walk does not go to: the wall, and where it begins.
fn met(relief: &Relief, wall: &[usize], start: usize) -> Vec<bool> {
    let mut met = vec![false; relief.heights.len()];
    for node in wall.iter().chain([&start]) {
        met[*node] = true;
    }
    met
}

/// The nodes beside one, but for those over corners.
fn straight_on(relief: &Relief, node: usize, mut each: impl FnMut(usize)) {
    let column = node % relief.columns;
    let beside = [
        (column > 0).then(|| node - 1),
        (column + 1 < relief.columns).then_some(node + 1),
        node.checked_sub(relief.columns),
        Some(node + relief.columns).filter(|above| *above < relief.heights.len()),
    ];
    beside.into_iter().flatten().for_each(&mut each);
}

fn is_sea(relief: &Relief, node: usize) -> bool {
    relief.heights[node] < relief.high_water()
}

/// The nodes of a wall across the channel from land to land; nothing where there is none so near.
fn wall(survey: &Survey<'_>, at: Xy, axis: Xy) -> Option<Vec<usize>> {
    let mut nodes = Vec::new();
    for across in [(axis.1, -axis.0), (-axis.1, axis.0)] {
        let reach = survey.fetch(at, across, WIDEST).min(survey.to_frame(at, across));
        let mut gone = 0.0;
        while gone < reach + CELL {
            nodes.push(survey.relief.node((at.0 + across.0 * gone, at.1 + across.1 * gone)));
            gone += CELL / 2.0;
        }
        if is_sea(survey.relief, *nodes.last()?) {
            return None;
        }
    }
    Some(nodes)
}

/// Whether water leads from a node to the relief's frame, from node to node straight on, without
/// passing the wall.
fn reaches_frame(relief: &Relief, start: usize, wall: &[usize]) -> bool {
    let (columns, rows) = (relief.columns, relief.rows);
    spread(relief, start, wall, |node| {
        let (column, row) = (node % columns, node / columns);
        column == 0 || row == 0 || column + 1 == columns || row + 1 == rows
    })
}

/// Goes through the water that hangs together with a node, from node to node straight on, without
/// passing the wall, until `ends` does; whether it did.
fn spread(
    relief: &Relief,
    start: usize,
    wall: &[usize],
    mut ends: impl FnMut(usize) -> bool,
) -> bool {
    let mut met = met(relief, wall, start);
    let mut found = vec![start];
    while let Some(node) = found.pop() {
        if ends(node) {
            return true;
        }
        straight_on(relief, node, |beside| {
            if !met[beside] && is_sea(relief, beside) {
                met[beside] = true;
                found.push(beside);
            }
        });
    }
    false
}
