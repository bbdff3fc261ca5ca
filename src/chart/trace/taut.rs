//! The smoothed line: the shortest chain of chords from place to place of the shore.
//!
//! The places are the vertices of the section, its ends, and places every [`SPACING`] along sides
//! that are longer. A chord is a straight piece from one place to a later one that is no longer
//! than the step, has no point in common with the shore but its ends, and runs on the water's
//! side: the section between its ends and the chord go round water only. The sides between
//! neighbouring places are allowed however long they are. Since a longer step only adds chords,
//! the shortest chain never gets longer by more than [`WORTH`] a place.

use std::collections::HashMap;
use std::ops::ControlFlow;

use geo::kernels::{Kernel, Orientation, RobustKernel};

use super::near::{Near, Side};
use super::scale::Scale;
use super::section::{Section, Stretch};
use super::{Hand, TraceError, Watch};
use crate::Point;
use crate::coast::{Line, LineId, LineKind, ShorePoint};

/// How far apart the places on a long side are at most, in ground metres. It does not depend on
/// the step, so that the chords of a shorter step are also chords of a longer one.
const SPACING: f64 = 25.0;

/// What a chord must save to be looked at, in metres: no more than rounding does not.
const WORTH: f64 = 1e-6;

/// A place that a chord may begin or end at.
#[derive(Debug, Clone, Copy)]
pub(super) struct Place {
    at: Point,
    /// The points of the shore next to it, behind and ahead as one goes with the land on the left;
    /// the place itself at the end of an open line.
    behind: Point,
    ahead: Point,
    /// The side that it lies within, if it is no vertex.
    within: Option<u32>,
}

impl Place {
    /// A place on a line.
    pub(super) fn new(line: &Line<'_>, place: &ShorePoint) -> Place {
        let within = (place.part > 0.0 && place.part < 1.0).then_some(place.side);
        let mut ends = [false, true].map(|ahead| next(line, place, ahead));
        if line.kind() == LineKind::Lake {
            ends.reverse();
        }
        Place { at: place.at, behind: ends[0], ahead: ends[1], within }
    }

    /// Whether the way to another point leads off on the water, not along the shore.
    fn faces(&self, to: Point) -> bool {
        let (behind, ahead, to) = (self.behind - self.at, self.ahead - self.at, to - self.at);
        if cross(behind, ahead) > 0.0 {
            cross(behind, to) > 0.0 && cross(to, ahead) > 0.0
        } else {
            cross(ahead, to) < 0.0 || cross(to, behind) < 0.0
        }
    }

    /// Whether it is on that side of its own line.
    fn is_on(&self, side: &Side) -> bool {
        self.within == Some(side.side) || side.ends.contains(&self.at)
    }
}

/// The smoothed line along `section`, both ends included.
///
/// # Errors
/// [`TraceError::CalledOff`] by `watch`.
pub(super) fn smoothed(
    section: &Section<'_>,
    step: f64,
    near: &Near<'_>,
    scale: &Scale<'_>,
    watch: Watch<'_>,
) -> Result<Vec<Point>, TraceError> {
    let places = places(section, scale);
    let line = section.line.id();
    let open = |i: usize, j: usize| is_open(near, line, [&places[i], &places[j]]);
    let points: Vec<Point> = places.iter().map(|place| place.at).collect();
    let chain = chain(&points, step, scale, section.land(), open, watch)?;
    Ok(corners(&chain, &points, |index| places[index].within.is_none()))
}

/// The points of a chain without those that it goes straight through, but those to `keep`: where
/// it follows a long side, the places on that are no corners.
pub(super) fn corners(
    chain: &[usize],
    points: &[Point],
    keep: impl Fn(usize) -> bool,
) -> Vec<Point> {
    let corner = |index: usize| match chain.get(index.saturating_sub(1)..index + 2) {
        Some(&[before, now, after]) if index > 0 => {
            keep(now) || bends([before, now, after].map(|i| points[i]))
        }
        _ => true,
    };
    (0..chain.len()).filter(|index| corner(*index)).map(|index| points[chain[index]]).collect()
}

/// Whether three points of a line are not in line.
fn bends([before, now, after]: [Point; 3]) -> bool {
    let along = after - before;
    cross(along, now - before).abs() > WORTH * along.x.hypot(along.y)
}

/// The shortest chain of chords from the first of `points` to the last, in their order, by their
/// numbers. A chord is at most `step` ground metres long, lies on the other hand of the line through the points than
/// `land`, and is `open`.
///
/// # Errors
/// [`TraceError::CalledOff`] by `watch`.
pub(super) fn chain(
    points: &[Point],
    step: f64,
    scale: &Scale<'_>,
    land: Hand,
    open: impl Fn(usize, usize) -> bool,
    watch: Watch<'_>,
) -> Result<Vec<usize>, TraceError> {
    let scales: Vec<f64> = points.iter().map(|point| scale.at(*point)).collect();
    let swept = swept(points);
    let ground = |i: usize, j: usize| {
        let (a, b) = (points[i], points[j]);
        (b.x - a.x).hypot(b.y - a.y) * 2.0 / (scales[i] + scales[j])
    };
    // Twice the area between the points from `i` to `j` and the chord: water lies on the right of
    // a line with land on its left, which then goes round it by the right.
    let water = |i: usize, j: usize| {
        let (a, b) = (points[i] - points[0], points[j] - points[0]);
        let area = swept[j] - swept[i] + cross(b, a);
        if land == Hand::Left { area <= 0.0 } else { area >= 0.0 }
    };
    let square = step * scales.iter().copied().fold(0.0, f64::max);
    let index = |point: Point| [point.x, point.y].map(|v| (v / square).floor() as i64);
    let mut earlier: HashMap<[i64; 2], Vec<usize>> = HashMap::new();
    let mut best = vec![(0.0, 0); points.len()];
    let mut chords: Vec<(f64, usize)> = Vec::new();
    for j in 1..points.len() {
        if j % 64 == 0 && watch().is_break() {
            return Err(TraceError::CalledOff);
        }
        if j >= 2 {
            earlier.entry(index(points[j - 2])).or_default().push(j - 2);
        }
        best[j] = (best[j - 1].0 + ground(j - 1, j), j - 1);
        chords.clear();
        let [x, y] = index(points[j]);
        for square in (-1..=1).flat_map(|v| (-1..=1).map(move |u| [x + u, y + v])) {
            for &i in earlier.get(&square).into_iter().flatten() {
                let chord = ground(i, j);
                let length = best[i].0 + chord;
                if chord <= step && length < best[j].0 - WORTH && water(i, j) {
                    chords.push((length, i));
                }
            }
        }
        chords.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
        if let Some(found) = chords.iter().find(|(_, i)| open(*i, j)) {
            best[j] = *found;
        }
    }
    let mut chain: Vec<usize> =
        std::iter::successors(points.len().checked_sub(1), |at| (*at > 0).then(|| best[*at].1))
            .collect();
    chain.reverse();
    Ok(chain)
}

/// Twice the area swept from the first point, up to each.
fn swept(points: &[Point]) -> Vec<f64> {
    let mut sum = 0.0;
    let mut before = None;
    let mut swept = Vec::with_capacity(points.len());
    for point in points {
        let arm = *point - points[0];
        sum += before.map_or(0.0, |before| cross(before, arm));
        before = Some(arm);
        swept.push(sum);
    }
    swept
}

/// The places within a side that is longer than [`SPACING`].
pub(super) fn cut([a, b]: [Point; 2], scale: &Scale<'_>) -> impl Iterator<Item = Point> + use<> {
    let length = (b.x - a.x).hypot(b.y - a.y) / scale.at((a + b) / 2.0);
    let parts = (length / SPACING).ceil().max(1.0);
    (1..parts as u32).map(move |part| a + (b - a) * (f64::from(part) / parts))
}

fn places(section: &Section<'_>, scale: &Scale<'_>) -> Vec<Place> {
    let place = |at, within| Place { at, behind: at, ahead: at, within };
    let mut places = vec![place(section.from.at, None)];
    for Stretch { side, ends: [a, b] } in section.stretches() {
        places.extend(cut([a, b], scale).map(|at| place(at, Some(side))));
        places.push(place(b, None));
    }
    let points: Vec<Point> = places.iter().map(|place| place.at).collect();
    let ends = [section.from, section.to].map(|end| Place::new(&section.line, &end));
    let last = places.len() - 1;
    for (index, place) in places.iter_mut().enumerate() {
        place.behind = if index > 0 { points[index - 1] } else { place.at };
        place.ahead = if index < last { points[index + 1] } else { place.at };
        if section.land() == Hand::Right {
            std::mem::swap(&mut place.behind, &mut place.ahead);
        }
    }
    [places[0], places[last]] = ends;
    places
}

/// The vertex next to a place in the order of the vertices, or against it; the place itself at the
/// end of an open line. Vertices that repeat the place are passed over.
fn next(line: &Line<'_>, place: &ShorePoint, ahead: bool) -> Point {
    let step = |index: u32| match (ahead, line.is_closed()) {
        (true, true) => Some(if index + 1 >= line.sides() { 0 } else { index + 1 }),
        (true, false) => (index < line.sides()).then_some(index + 1),
        (false, true) => Some(if index == 0 { line.sides() - 1 } else { index - 1 }),
        (false, false) => index.checked_sub(1),
    };
    let start = if ahead { place.side } else { place.side + u32::from(place.part > 0.0) };
    let mut vertices = std::iter::successors(step(start), |index| step(*index))
        .take(line.sides() as usize + 1)
        .map(|index| line.vertex(index));
    vertices.find(|vertex| *vertex != place.at).unwrap_or(place.at)
}

/// Whether the straight piece from a place of a line to a point off the shore runs on water.
pub(super) fn sees(near: &Near<'_>, line: LineId, place: &Place, point: Point) -> bool {
    let chord = [place.at, point];
    let crosses = |side: &Side| {
        let own = side.line == line && place.is_on(side);
        if !own && meets(chord, side.ends) {
            ControlFlow::Break(())
        } else {
            ControlFlow::Continue(())
        }
    };
    place.faces(point) && near.visit(chord, 0.0, crosses).is_continue()
}

/// Whether the chord between two places of a line runs on water alone.
fn is_open(near: &Near<'_>, line: LineId, [a, b]: [&Place; 2]) -> bool {
    let chord = [a.at, b.at];
    let crosses = |side: &Side| {
        let own = side.line == line && (a.is_on(side) || b.is_on(side));
        if !own && meets(chord, side.ends) {
            ControlFlow::Break(())
        } else {
            ControlFlow::Continue(())
        }
    };
    a.faces(b.at) && b.faces(a.at) && near.visit(chord, 0.0, crosses).is_continue()
}

/// Whether two straight pieces have a point in common.
pub(super) fn meets([a, b]: [Point; 2], [p, q]: [Point; 2]) -> bool {
    let beyond = |a: f64, b: f64, p: f64, q: f64| a.max(b) < p.min(q) || p.max(q) < a.min(b);
    if beyond(a.x, b.x, p.x, q.x) || beyond(a.y, b.y, p.y, q.y) {
        return false;
    }
    let apart = |from, to, [p, q]: [Point; 2]| {
        let hand = |r| RobustKernel::orient2d(from, to, r);
        let (p, q) = (hand(p), hand(q));
        p == q && p != Orientation::Collinear
    };
    !apart(a, b, [p, q]) && !apart(p, q, [a, b])
}

pub(super) fn cross(a: Point, b: Point) -> f64 {
    a.x * b.y - a.y * b.x
}
