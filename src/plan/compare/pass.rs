//! When the group came by each point of the route.

use super::line::Line;
use super::plane::Spot;
use super::progress::Progress;
use super::sample::Samples;

/// How a point was passed, in seconds of the track.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Pass {
    /// How near the track came, in metres.
    pub(super) nearest: f64,
    /// When it came, and when it went on: the same but for a stop there. Nothing where it came no nearer
    /// than is asked.
    pub(super) visit: Option<(f64, f64)>,
}

/// The passes of all points, in order, none before the one before it.
pub(super) fn passes(
    samples: &Samples,
    line: &Line,
    progress: &Progress,
    within: f64,
) -> Vec<Pass> {
    let mut after = f64::MIN;
    let mut passes = Vec::with_capacity(line.points.len());
    for (point, &vertex) in line.points.iter().enumerate() {
        let window = window(line, progress, point);
        let Some(at) = line.vertices.get(vertex).copied() else { continue };
        let found = nearest(samples, window.clone(), at, after);
        let (nearest, visit) = match found {
            Some((away, t)) if away <= within => {
                let visit = visit(samples, window, &nearer(line, point, at), (t, after), within);
                after = visit.1;
                (away, Some(visit))
            }
            Some((away, _)) => (away, None),
            None => (f64::INFINITY, None),
        };
        passes.push(Pass { nearest, visit });
    }
    passes
}

/// The samples that belong to the halves of the legs that meet at a point.
fn window(line: &Line, progress: &Progress, point: usize) -> std::ops::Range<usize> {
    let at = |point: usize| line.points.get(point).copied();
    let here = at(point).unwrap_or(0);
    let before = point.checked_sub(1).and_then(at).unwrap_or(here);
    let next = at(point + 1).unwrap_or(here);
    progress.samples_on(half(line, before, here), half(line, here, next))
}

/// The vertex in the middle between two.
fn half(line: &Line, from: usize, to: usize) -> usize {
    let of = |vertex: usize| line.along.get(vertex).copied().unwrap_or_default();
    let middle = (of(from) + of(to)) / 2.0;
    from + line.along[from..=to].partition_point(|&along| along < middle)
}

/// How near the track comes to a place, and when, from a time on.
fn nearest(
    samples: &Samples,
    window: std::ops::Range<usize>,
    place: Spot,
    after: f64,
) -> Option<(f64, f64)> {
    let mut best: Option<(f64, f64)> = None;
    let piece = |sample: usize| samples.pieces.partition_point(|piece| piece.start <= sample);
    for index in window.clone() {
        let Some(from) = samples.all.get(index) else { break };
        let next = samples.all.get(index + 1).filter(|_| index + 1 < window.end);
        let to = next.filter(|_| piece(index) == piece(index + 1)).unwrap_or(from);
        let (part, away) = place.near_side(from.at, to.at);
        let t = from.t + (to.t - from.t) * part;
        if t >= after && best.is_none_or(|(least, _)| away < least) {
            best = Some((away, t));
        }
    }
    best
}

/// A point, and those before and after it in the route: a stop is at the nearest of them.
fn nearer(line: &Line, point: usize, at: Spot) -> [Spot; 3] {
    let spot = |point: Option<usize>| {
        let vertex = point.and_then(|point| line.points.get(point));
        vertex.and_then(|&vertex| line.vertices.get(vertex)).copied().unwrap_or(at)
    };
    [at, spot(point.checked_sub(1)), spot(Some(point + 1))]
}

/// From when to when the group is at a place that it is nearest to at `t`: with the stops that it makes
/// there before it goes away farther than `within`.
fn visit(
    samples: &Samples,
    window: std::ops::Range<usize>,
    &[place, before, next]: &[Spot; 3],
    (t, after): (f64, f64),
    within: f64,
) -> (f64, f64) {
    let near = |sample: &&super::clean::Timed| sample.at.away(place) <= within;
    let all = samples.all.get(window).unwrap_or_default();
    let here = all.partition_point(|sample| sample.t < t);
    let (earlier, later) = all.split_at(here);
    let first = earlier.iter().rev().take_while(near).last().map_or(t, |sample| sample.t);
    let last = later.iter().take_while(near).last().map_or(t, |sample| sample.t);
    let mut visit = (t, t);
    let begin = samples.stops.partition_point(|stop| samples.all[stop.last].t < first);
    for stop in samples.stops.iter().skip(begin) {
        let (from, to) = (samples.all[stop.first].t, samples.all[stop.last].t);
        if from > last {
            break;
        }
        let away = stop.at.away(place);
        if [before, next].iter().any(|other| stop.at.away(*other) < away) {
            continue;
        }
        visit = (visit.0.min(from).max(after), visit.1.max(to));
    }
    visit
}
