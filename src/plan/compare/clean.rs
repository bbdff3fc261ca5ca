//! What a receiver wrote down, made fit to be measured: each fix that is left out is counted.

use std::ops::Range;

use jiff::Timestamp;

use super::plane::{Plane, Spot};
use crate::track::{Fix, Track};

/// The fastest that a kayak is taken to go over the ground, in knots: what is faster is no paddling.
pub const FASTEST_KN: f64 = 20.0;
/// How much farther than at that speed two fixes may be apart, in metres: so much they err.
pub const ERRS_M: f64 = 25.0;
/// With so many fixes in a row that agree with each other a jump is believed; with fewer they are wild.
pub const BELIEVED: usize = 5;
/// The longest time between two fixes of one piece of the track, in seconds.
pub const GAP_S: f64 = 300.0;

/// What was left out of a track, and why.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Cleaning {
    /// The fixes that the track has.
    pub fixes: usize,
    /// Those that have no time, where most have one; or those whose time was passed over, where most
    /// have none.
    pub untimed: usize,
    /// Those at the same time as another.
    pub same_time: usize,
    /// Those whose time lies before that of fixes recorded earlier: as few as put the rest in order.
    pub backwards: usize,
    /// Wild ones: nobody paddles there and back in that time.
    pub wild: usize,
    /// The fixes that are left.
    pub used: usize,
}

/// Why nothing is known of the way between two fixes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GapWhy {
    /// There was no fix for longer than five minutes.
    NoFix,
    /// The track goes on elsewhere, farther away than anybody paddles in that time.
    Jump,
    /// The receiver began anew, and the track has no times to tell how much later.
    Parted,
}

/// A fix that is used: seconds from the first one, and where.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Timed {
    pub(super) t: f64,
    pub(super) at: Spot,
}

/// A track without its faults: pieces of fixes in the order of their times.
#[derive(Debug)]
pub(super) struct Cleaned {
    /// The instant from which seconds are counted; nothing where the track has no times. What stands for
    /// seconds then is the number of the fix.
    pub(super) epoch: Option<Timestamp>,
    pub(super) fixes: Vec<Timed>,
    /// Where each piece but the first begins, and why.
    pub(super) breaks: Vec<(usize, GapWhy)>,
    pub(super) cleaning: Cleaning,
}

impl Cleaned {
    pub(super) fn of(track: &Track, plane: &Plane) -> Cleaned {
        let all = track.fixes();
        let timed = all.iter().filter(|fix| fix.micros().is_some()).count();
        let mut cleaning = Cleaning { fixes: all.len(), ..Cleaning::default() };
        let by_time = 2 * timed >= all.len() && timed > 0;
        cleaning.untimed = if by_time { all.len() - timed } else { timed };
        let mut cleaned =
            if by_time { in_time(all, plane, cleaning) } else { untimed(track, plane, cleaning) };
        cleaned.cleaning.used = cleaned.fixes.len();
        cleaned
    }

    /// The fixes of each piece.
    pub(super) fn pieces(&self) -> impl Iterator<Item = Range<usize>> {
        let begins = std::iter::once(0).chain(self.breaks.iter().map(|(at, _)| *at));
        let ends = self.breaks.iter().map(|(at, _)| *at).chain([self.fixes.len()]);
        begins.zip(ends).map(|(begin, end)| begin..end)
    }
}

/// Without times a wild fix cannot be told from a far one: all are taken, in their segments.
fn untimed(track: &Track, plane: &Plane, mut cleaning: Cleaning) -> Cleaned {
    let mut fixes = Vec::with_capacity(track.fixes().len());
    let mut breaks = Vec::new();
    for segment in track.segments() {
        if !fixes.is_empty() {
            breaks.push((fixes.len(), GapWhy::Parted));
        }
        for fix in segment {
            match plane.spot(fix.at) {
                Some(at) => fixes.push(Timed { t: fixes.len() as f64, at }),
                None => cleaning.wild += 1,
            }
        }
    }
    breaks.dedup_by_key(|(at, _)| *at);
    breaks.retain(|(at, _)| (1..fixes.len()).contains(at));
    Cleaned { epoch: None, fixes, breaks, cleaning }
}

fn in_time(all: &[Fix], plane: &Plane, mut cleaning: Cleaning) -> Cleaned {
    let kept = in_order(all, &mut cleaning);
    let first = kept.first().and_then(|&first| all.get(first as usize)?.micros());
    let first = first.unwrap_or_default();
    let timed = kept.iter().filter_map(|&index| {
        let fix = all.get(index as usize)?;
        let at = plane.spot(fix.at)?;
        Some(Timed { t: (fix.micros()? - first) as f64 * 1e-6, at })
    });
    let mut chain = Chain::default();
    timed.for_each(|fix| chain.push(fix));
    let (fixes, breaks) = chain.ended();
    cleaning.wild = kept.len() - fixes.len();
    // Seconds stay counted from the first fix in order, wild or not.
    let epoch = Timestamp::from_microsecond(first).ok();
    Cleaned { epoch, fixes, breaks, cleaning }
}

/// The numbers of the most fixes whose times rise from one to the next: the longest increasing
/// subsequence (M. L. Fredman, On computing the length of longest increasing subsequences, Discrete
/// Mathematics 11, 1975), so that a single wrong time costs one fix and no more.
fn in_order(all: &[Fix], cleaning: &mut Cleaning) -> Vec<u32> {
    let time = |index: u32| all.get(index as usize).and_then(Fix::micros).unwrap_or(i64::MIN);
    // The last fix of the best run of each length, and the fix before each in its run.
    let mut tails: Vec<u32> = Vec::new();
    let mut before: Vec<u32> = vec![u32::MAX; all.len()];
    for (index, fix) in (0_u32..).zip(all) {
        let Some(when) = fix.micros() else { continue };
        let length = match tails.last() {
            Some(&last) if time(last) >= when => tails.partition_point(|&tail| time(tail) < when),
            _ => tails.len(),
        };
        match tails.get(length) {
            Some(&tail) if time(tail) == when => continue,
            Some(_) => tails[length] = index,
            None => tails.push(index),
        }
        before[index as usize] = length.checked_sub(1).map_or(u32::MAX, |less| tails[less]);
    }
    let next = |&index: &u32| before.get(index as usize).copied().filter(|&it| it != u32::MAX);
    let mut kept: Vec<u32> = std::iter::successors(tails.last().copied(), next).collect();
    kept.reverse();
    count_left_out(all, &kept, time, cleaning);
    kept
}

/// Counts what is not kept: at the time of a neighbour, or out of order.
fn count_left_out(all: &[Fix], kept: &[u32], time: impl Fn(u32) -> i64, cleaning: &mut Cleaning) {
    let mut beyond = 0;
    for (index, fix) in (0_u32..).zip(all) {
        let Some(when) = fix.micros() else { continue };
        if kept.get(beyond) == Some(&index) {
            beyond += 1;
            continue;
        }
        let beside = [beyond.checked_sub(1), Some(beyond)];
        let same = |at: Option<usize>| at.and_then(|at| kept.get(at)).map(|&it| time(it));
        if beside.into_iter().any(|at| same(at) == Some(when)) {
            cleaning.same_time += 1;
        } else {
            cleaning.backwards += 1;
        }
    }
}

/// Fixes that agree with each other so far, and others that may turn out to be the right ones.
///
/// A fix that nobody can have paddled to since the last one is held apart. If the next ones agree with
/// the last, it was wild; if [`BELIEVED`] of them agree with it, the track goes on there, and what was
/// before it is wild unless there are as many of those.
#[derive(Default)]
struct Chain {
    fixes: Vec<Timed>,
    breaks: Vec<(usize, GapWhy)>,
    rivals: Vec<Timed>,
}

impl Chain {
    fn push(&mut self, fix: Timed) {
        let Some(&last) = self.fixes.last() else {
            self.fixes.push(fix);
            return;
        };
        if agree(last, fix) {
            self.rivals.clear();
            self.take(fix);
            return;
        }
        if self.rivals.last().is_some_and(|&rival| !agree(rival, fix)) {
            self.rivals.clear();
        }
        self.rivals.push(fix);
        if self.rivals.len() < BELIEVED {
            return;
        }
        let began = self.breaks.last().map_or(0, |(at, _)| *at);
        if self.fixes.len() - began < BELIEVED {
            self.fixes.truncate(began);
        } else {
            self.breaks.push((self.fixes.len(), GapWhy::Jump));
        }
        let rivals = std::mem::take(&mut self.rivals);
        // The first goes on after a break, whatever lies before it.
        for (number, fix) in rivals.into_iter().enumerate() {
            if number == 0 { self.fixes.push(fix) } else { self.take(fix) }
        }
    }

    /// One that agrees with the last.
    fn take(&mut self, fix: Timed) {
        if self.fixes.last().is_some_and(|last| fix.t - last.t > GAP_S) {
            self.breaks.push((self.fixes.len(), GapWhy::NoFix));
        }
        self.fixes.push(fix);
    }

    fn ended(mut self) -> (Vec<Timed>, Vec<(usize, GapWhy)>) {
        self.breaks.retain(|(at, _)| (1..self.fixes.len()).contains(at));
        (self.fixes, self.breaks)
    }
}

/// Whether a boat can have gone from the one to the other.
fn agree(from: Timed, to: Timed) -> bool {
    let fastest = FASTEST_KN * 1852.0 / 3600.0;
    from.at.away(to.at) <= ERRS_M + fastest * (to.t - from.t)
}
