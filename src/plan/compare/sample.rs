//! The track without its noise: means over some seconds, stops, and steps of the way.

use std::ops::Range;

use super::clean::{Cleaned, Timed};
use super::plane::Spot;

/// Over so many seconds fixes are taken together: their mean errs less than each.
pub const TOGETHER_S: f64 = 10.0;
/// The way is measured between places so far apart at least, in metres.
pub const STEP_M: f64 = 20.0;
/// Within so many metres of one place...
pub const STOP_WITHIN_M: f64 = 30.0;
/// ...for so many seconds at least, a group has stopped.
pub const STOP_S: f64 = 180.0;
/// Two stops at one place with no more than so many seconds between them are one.
const ONE_STOP_S: f64 = 60.0;

/// A stop: at the samples of a range, its last included.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stopped {
    pub(super) first: usize,
    pub(super) last: usize,
    pub(super) at: Spot,
}

/// The samples of a track.
#[derive(Debug, Default)]
pub(super) struct Samples {
    pub(super) all: Vec<Timed>,
    /// Pieces without a gap.
    pub(super) pieces: Vec<Range<usize>>,
    pub(super) stops: Vec<Stopped>,
    /// The way, step by step, from one sample to another; none at a stop.
    pub(super) steps: Vec<(u32, u32)>,
}

impl Samples {
    pub(super) fn of(cleaned: &Cleaned) -> Samples {
        let mut samples = Samples::default();
        let timed = cleaned.epoch.is_some();
        for piece in cleaned.pieces() {
            let begin = samples.all.len();
            let fixes = cleaned.fixes.get(piece).unwrap_or_default();
            if timed {
                together(fixes, &mut samples.all);
            } else {
                samples.all.extend_from_slice(fixes);
            }
            let piece = begin..samples.all.len();
            let stops = if timed { stops(&samples.all, piece.clone()) } else { Vec::new() };
            samples.walk(piece.clone(), &stops);
            samples.stops.extend(stops);
            samples.pieces.push(piece);
        }
        samples
    }

    /// The steps of a piece, from stop to stop.
    fn walk(&mut self, piece: Range<usize>, stops: &[Stopped]) {
        let begins = std::iter::once(piece.start).chain(stops.iter().map(|stop| stop.last));
        let ends = stops.iter().map(|stop| stop.first).chain([piece.end.saturating_sub(1)]);
        for (begin, end) in begins.zip(ends) {
            let mut from = begin;
            for to in begin + 1..=end {
                let far = self.all[from].at.away(self.all[to].at) >= STEP_M;
                if far || to == end {
                    self.steps.push((from as u32, to as u32));
                    from = to;
                }
            }
        }
    }

    /// Where the track is at a time between two samples.
    pub(super) fn at(&self, t: f64) -> Option<Spot> {
        let after = self.all.partition_point(|sample| sample.t < t);
        let to = self.all.get(after).or(self.all.last())?;
        let Some(from) = after.checked_sub(1).and_then(|before| self.all.get(before)) else {
            return Some(to.at);
        };
        let part = if to.t > from.t { (t - from.t) / (to.t - from.t) } else { 1.0 };
        Some(from.at.towards(to.at, part.clamp(0.0, 1.0)))
    }
}

/// The means of the fixes of some seconds; the first and the last stand alone, since they are the ends.
fn together(fixes: &[Timed], to: &mut Vec<Timed>) {
    let [first, between @ .., last] = fixes else {
        to.extend_from_slice(fixes);
        return;
    };
    to.push(*first);
    let mut rest = between;
    while let Some(begin) = rest.first() {
        let until = begin.t + TOGETHER_S;
        let count = rest.iter().take_while(|fix| fix.t < until).count().max(1);
        let (group, further) = rest.split_at(count);
        to.push(mean(group, *begin));
        rest = further;
    }
    to.push(*last);
}

/// The mean of fixes; sums are taken from the first, so that they stay small.
fn mean(group: &[Timed], origin: Timed) -> Timed {
    let part = 1.0 / group.len() as f64;
    let sum = |of: fn(&Timed) -> f64| -> f64 {
        of(&origin) + part * group.iter().map(|fix| of(fix) - of(&origin)).sum::<f64>()
    };
    let at =
        Spot { x: sum(|fix| fix.at.x), y: sum(|fix| fix.at.y), scale: sum(|fix| fix.at.scale) };
    Timed { t: sum(|fix| fix.t), at }
}

fn stops(samples: &[Timed], piece: Range<usize>) -> Vec<Stopped> {
    let mut stops: Vec<Stopped> = Vec::new();
    let mut from = piece.start;
    while from < piece.end {
        let Some(stop) = stop_at(samples, from, piece.end) else {
            from += 1;
            continue;
        };
        from = stop.last + 1;
        match stops.last_mut() {
            Some(before) if is_one(samples, before, &stop) => before.last = stop.last,
            _ => stops.push(stop),
        }
    }
    stops
}

fn is_one(samples: &[Timed], before: &Stopped, stop: &Stopped) -> bool {
    samples[stop.first].t - samples[before.last].t <= ONE_STOP_S
        && before.at.away(stop.at) <= STOP_WITHIN_M
}

/// The stop that begins about a sample, if one does.
fn stop_at(samples: &[Timed], from: usize, end: usize) -> Option<Stopped> {
    let near = |centre: Spot, first: usize| {
        samples[first..end].iter().take_while(|it| it.at.away(centre) <= STOP_WITHIN_M).count()
    };
    let lasts = |first: usize, last: usize| samples[last].t - samples[first].t >= STOP_S;
    let last = from + near(samples[from].at, from).checked_sub(1)?;
    if !lasts(from, last) {
        return None;
    }
    // About its own middle, whose edge lies closer to where the group stood.
    let at = mean(&samples[from..=last], samples[from]).at;
    let last = from + near(at, from).checked_sub(1)?;
    let close = |index: &usize| samples[*index].at.away(at) <= STOP_WITHIN_M / 2.0;
    let (first, last) = ((from..=last).find(close)?, (from..=last).rev().find(close)?);
    lasts(first, last).then_some(Stopped { first, last, at })
}
