//! What a relief has to offer: lands, capes, bays, narrows, shoals and hills, each with the
//! place and the figures by which it is judged.

use super::contour::{Corner, Loop};
use super::dice::Xy;
use super::relief::{CELL, Relief};
use super::sketch::distance;
use super::survey::Survey;

/// A land within one shore.
#[derive(Debug, Clone)]
pub(super) struct Island {
    /// In square metres.
    pub(super) area: f64,
    /// A place well inside.
    pub(super) middle: Xy,
    /// Whether all of it lies on the chart.
    pub(super) whole: bool,
}

/// A place on a shore.
#[derive(Debug, Clone, Copy)]
pub(super) struct Berth {
    /// On the shore.
    pub(super) at: Xy,
    /// A boat's length or two off it.
    pub(super) off: Xy,
    /// The direction to the sea.
    pub(super) seaward: Xy,
    /// Which land it is on.
    pub(super) land: usize,
    /// How much land lies about it within some 450 m: little at a cape, much in a bay.
    pub(super) share: f64,
    /// See [`Survey::openness`].
    pub(super) openness: f64,
}

/// A place in the water where it is narrow.
#[derive(Debug, Clone, Copy)]
pub(super) struct Strait {
    pub(super) at: Xy,
    pub(super) width: f64,
    /// The direction through it.
    pub(super) through: Xy,
}

/// The best of some things, none within `spacing` of a better one, at most `count`.
pub(super) fn spaced<T: Copy>(
    things: impl IntoIterator<Item = T>,
    worth: impl Fn(&T) -> f64,
    place: impl Fn(&T) -> Xy,
    spacing: f64,
    count: usize,
) -> Vec<T> {
    let mut all: Vec<(f64, T)> = things.into_iter().map(|t| (worth(&t), t)).collect();
    // A stable sort: equals stay in the order of the relief.
    all.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut best: Vec<T> = Vec::new();
    for (_, thing) in all {
        if best.len() == count {
            break;
        }
        if best.iter().all(|b| distance(place(b), place(&thing)) >= spacing) {
            best.push(thing);
        }
    }
    best
}

pub(super) fn xy(corner: Corner) -> Xy {
    (f64::from(corner.0), f64::from(corner.1))
}

/// The lands within shores, in their order.
pub(super) fn islands(survey: &Survey<'_>, shores: &[Loop]) -> Vec<Island> {
    shores
        .iter()
        .map(|shore| Island {
            area: shore.double_area() as f64 / 2.0,
            middle: middle(survey, shore),
            whole: shore.corners.iter().all(|c| survey.relief.within(xy(*c), 0.0)),
        })
        .collect()
}

/// A place within a shore, as far from the water as can be and near the middle.
fn middle(survey: &Survey<'_>, shore: &Loop) -> Xy {
    let (mut low, mut high) = (xy(shore.corners[0]), xy(shore.corners[0]));
    for corner in shore.corners.iter().map(|c| xy(*c)) {
        low = (low.0.min(corner.0), low.1.min(corner.1));
        high = (high.0.max(corner.0), high.1.max(corner.1));
    }
    let centre = ((low.0 + high.0) / 2.0, (low.1 + high.1) / 2.0);
    let size = (high.0 - low.0).max(high.1 - low.1);
    let step = (size / 12.0).max(CELL / 4.0);
    let half = (size / 6.0).max(CELL);
    let mut best = (f64::MIN, xy(shore.corners[0]));
    let mut y = low.1;
    while y <= high.1 {
        let mut x = low.0;
        while x <= high.0 {
            let at = (x.floor(), y.floor());
            let worth = survey.land_share(at, half) - 0.5 * distance(at, centre) / size;
            if worth > best.0 && contains(shore, at) {
                best = (worth, at);
            }
            x += step;
        }
        y += step;
    }
    best.1
}

/// Whether a place lies within a loop.
pub(super) fn contains(shore: &Loop, at: Xy) -> bool {
    let next = shore.corners.iter().cycle().skip(1);
    let mut inside = false;
    for (a, b) in shore.corners.iter().zip(next) {
        let (a, b) = (xy(*a), xy(*b));
        if (a.1 > at.1) != (b.1 > at.1) && at.0 < a.0 + (at.1 - a.1) / (b.1 - a.1) * (b.0 - a.0) {
            inside = !inside;
        }
    }
    inside
}

/// Places along all shores, some `pace` metres apart.
pub(super) fn berths(survey: &Survey<'_>, shores: &[Loop], pace: f64) -> Vec<Berth> {
    let mut found = Vec::new();
    for (land, shore) in shores.iter().enumerate() {
        let count = shore.corners.len();
        let mut gone = pace;
        for i in 0..count {
            let before = xy(shore.corners[(i + count - 1) % count]);
            let (at, ahead) = (xy(shore.corners[i]), xy(shore.corners[(i + 1) % count]));
            gone += distance(before, at);
            if gone >= pace
                && survey.relief.within(at, 150.0)
                && let Some(berth) = berth(survey, before, at, ahead, land)
            {
                gone = 0.0;
                found.push(berth);
            }
        }
    }
    found
}

fn berth(survey: &Survey<'_>, before: Xy, at: Xy, ahead: Xy, land: usize) -> Option<Berth> {
    let run = distance(before, ahead);
    if run <= 0.0 {
        return None;
    }
    // The land is on the left of a shore.
    let seaward = ((ahead.1 - before.1) / run, (before.0 - ahead.0) / run);
    let off = (at.0 + seaward.0 * 70.0, at.1 + seaward.1 * 70.0);
    let share = survey.land_share(at, 450.0);
    survey.is_reached(off).then(|| Berth {
        at,
        off,
        seaward,
        land,
        share,
        openness: survey.openness(off),
    })
}

/// Water narrower than this on the lattice may be narrower still between the shores' lines.
const NARROWEST: f64 = 120.0;

/// Narrow places, looked for every 120 m.
pub(super) fn straits(survey: &Survey<'_>) -> Vec<Strait> {
    let relief = survey.relief;
    let mut found = Vec::new();
    for row in (0..relief.rows).step_by(3) {
        for column in (0..relief.columns).step_by(3) {
            let node = relief.index(column, row);
            let at = relief.place(node);
            if relief.heights[node] > -1.0
                || !relief.within(at, 300.0)
                || survey.land_share(at, 320.0) < 0.25
            {
                continue;
            }
            if let Some(strait) = strait(survey, at) {
                found.push(strait);
            }
        }
    }
    found
}

fn strait(survey: &Survey<'_>, near: Xy) -> Option<Strait> {
    let (width, across) = survey.width(near, 520.0);
    if !(NARROWEST..500.0).contains(&width) {
        return None;
    }
    // To the middle of the water between its shores.
    let shift = survey.fetch(near, across, 520.0) - width / 2.0;
    let at = ((near.0 + across.0 * shift).round(), (near.1 + across.1 * shift).round());
    let (width, across) = survey.width(at, 520.0);
    let through = survey.axis(at);
    let slant = (through.0 * across.0 + through.1 * across.1).abs();
    let open = |way: Xy| survey.fetch(at, way, 1_000.0) >= (2.2 * width).max(520.0);
    let opens = slant < 0.6 && open(through) && open((-through.0, -through.1));
    (opens && survey.is_reached(at) && width >= NARROWEST).then_some(Strait { at, width, through })
}

/// Nodes higher than all within two cells, with their heights, in the order of the relief.
pub(super) fn summits(relief: &Relief, low: f64, high: f64) -> Vec<(Xy, f64)> {
    let mut found = Vec::new();
    for row in 2..relief.rows - 2 {
        for column in 2..relief.columns - 2 {
            let node = relief.index(column, row);
            let height = relief.heights[node];
            if (low..high).contains(&height)
                && stands_out(relief, column, row)
                && relief.within(relief.place(node), 100.0)
            {
                found.push((relief.place(node), height));
            }
        }
    }
    found
}

fn stands_out(relief: &Relief, column: usize, row: usize) -> bool {
    let height = relief.heights[relief.index(column, row)];
    (row - 2..=row + 2).all(|r| {
        (column - 2..=column + 2)
            .all(|c| (c, r) == (column, row) || relief.heights[relief.index(c, r)] < height)
    })
}

/// Places in open or half open water that a boat comes to, looked for every 400 m: with their distance
/// off the land.
pub(super) fn offings(survey: &Survey<'_>) -> Vec<(Xy, f64)> {
    let relief = survey.relief;
    let mut found = Vec::new();
    for row in (10..relief.rows - 10).step_by(10) {
        for column in (10..relief.columns - 10).step_by(10) {
            let node = relief.index(column, row);
            let at = relief.place(node);
            if relief.heights[node] < -5.0 && relief.within(at, 300.0) && survey.is_reached(at) {
                found.push((at, survey.clearance(at, 3_000.0)));
            }
        }
    }
    found
}
