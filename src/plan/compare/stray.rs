//! Where and when the track left the line, how far, and where it came back to it.

use jiff::Timestamp;
use nav::{Length, Position};

use super::Track;
use super::line::{Line, Nearest};
use super::plane::{Spot, metres};
use super::progress::Progress;
use super::sample::Samples;

/// A place of the track beside the route.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beside {
    /// When; nothing where the track has no times.
    pub when: Option<Timestamp>,
    /// Where the group was.
    pub at: Position,
    /// The leg that it was beside, counted from 0.
    pub leg: usize,
    /// How far along that leg.
    pub along: Length,
}

/// A time off the line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stray {
    /// Where it left the line: where it was farther off than is asked.
    pub left: Beside,
    /// Where it was farthest off.
    pub farthest: Beside,
    /// How far off it was there.
    pub off: Length,
    /// Whether that was to the right of the line, looking along the route.
    pub right: bool,
    /// Where it was back on the line; nothing of one that the track ends with.
    pub back: Option<Beside>,
}

/// The nearest place of the line for each sample of a range, of the legs that it belongs to and those
/// beside them.
pub(super) fn off_line(
    samples: &Samples,
    line: &Line,
    progress: &Progress,
    range: std::ops::Range<usize>,
) -> Vec<Nearest> {
    let nearest = |index: usize| {
        let (low, high) = progress.vertices_of(index);
        let legs = line.leg_of(low).saturating_sub(1)..(line.leg_of(high) + 2).min(line.legs());
        line.nearest(samples.all.get(index)?.at, line.sides_of(legs))
    };
    // Of a line with a side at least, as every route of two points has.
    range.map(|index| nearest(index).unwrap_or(Nearest { away: 0.0, side: 0, part: 0.0 })).collect()
}

/// A way off the line that is not over yet.
struct Out {
    left: (f64, Nearest),
    farthest: usize,
}

/// The times off the line for longer than is asked; of a track without times, for longer than one sample.
pub(super) fn strays(
    track: &Track<'_>,
    line: &Line,
    (first, off): (usize, &[Nearest]),
    (limit, least): (f64, f64),
) -> Vec<Stray> {
    let samples = &track.samples.all;
    let at = |index: usize| samples.get(first + index);
    let mut strays = Vec::new();
    let mut out: Option<Out> = None;
    let mut over = |out: Out, back: Option<(f64, Nearest)>, last: f64| {
        let lasts = back.map_or(last, |back| back.0) - out.left.0;
        let beside = |(t, near)| track.beside(line, t, near);
        let farthest = (at(out.farthest).map(|it| it.t), off.get(out.farthest).copied());
        let (Some(t), Some(near)) = farthest else { return };
        if lasts < least {
            return;
        }
        let here = track.samples.at(t);
        let found = beside(out.left).zip(beside((t, near))).zip(here);
        strays.extend(found.map(|((left, farthest), here): (_, Spot)| Stray {
            left,
            farthest,
            off: metres(near.away),
            right: line.is_right(near.side, here),
            back: back.and_then(beside),
        }));
    };
    for (index, near) in off.iter().enumerate() {
        let Some(sample) = at(index) else { break };
        let crossing = || {
            let before = index.checked_sub(1).and_then(|before| at(before).zip(off.get(before)));
            let (from, was) = before.unwrap_or((sample, near));
            let change = near.away - was.away;
            let part = if change == 0.0 { 1.0 } else { (limit - was.away) / change };
            (from.t + (sample.t - from.t) * part.clamp(0.0, 1.0), *near)
        };
        if near.away > limit {
            let now = out.get_or_insert_with(|| Out { left: crossing(), farthest: index });
            if off.get(now.farthest).is_some_and(|most| near.away > most.away) {
                now.farthest = index;
            }
        } else if let Some(out) = out.take() {
            over(out, Some(crossing()), sample.t);
        }
    }
    if let Some((out, last)) = out.zip(at(off.len().saturating_sub(1))) {
        over(out, None, last.t);
    }
    strays
}
