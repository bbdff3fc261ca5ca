//! The way made between two instants, and the pace of it.

use jiff::{SignedDuration, Timestamp};
use nav::{Length, Position, Speed};

use super::clean::GapWhy;
use super::plane::metres;
use super::water::{Water, instant, seconds};
use super::{Passing, Track};

/// Moving time in which a pace is taken once for its spread, in seconds.
const BLOCK_S: f64 = 600.0;

/// A stop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stop {
    /// When it began.
    pub from: Timestamp,
    /// When it ended.
    pub to: Timestamp,
    /// Where it was.
    pub at: Position,
}

/// A gap, across which nothing is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gap {
    /// The last fix before it, where times are known.
    pub from: Option<Timestamp>,
    /// The first after it.
    pub to: Option<Timestamp>,
    /// Where it began.
    pub at: Position,
    /// The straight line across it: no way that was made.
    pub straight: Length,
    /// Why it is one.
    pub why: GapWhy,
}

/// The way made over some time.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Figures {
    /// The way over the ground, along the track; none across gaps, and none at stops.
    pub made: Length,
    /// The time in which it was made; none where the track has no times.
    pub moving: SignedDuration,
    /// The time at stops.
    pub stopped: SignedDuration,
    /// The time of gaps.
    pub unseen: SignedDuration,
    /// The straight lines across gaps.
    pub across: Length,
    /// The way through the water, as far as the stream is known.
    pub water: Length,
    /// The moving time in which it is known.
    pub water_time: SignedDuration,
}

impl Figures {
    /// The mean speed over the ground while moving; nothing where no time is known.
    #[must_use]
    pub fn over_ground(&self) -> Option<Speed> {
        speed(self.made, self.moving)
    }

    /// The mean speed through the water while moving where the stream is known; nothing where that is
    /// nowhere.
    #[must_use]
    pub fn through_water(&self) -> Option<Speed> {
        speed(self.water, self.water_time)
    }

    /// Whether the stream is known for all of it.
    #[must_use]
    pub fn is_water_whole(&self) -> bool {
        self.moving.as_secs() - self.water_time.as_secs() <= 1
    }
}

fn speed(length: Length, time: SignedDuration) -> Option<Speed> {
    let long = time > SignedDuration::ZERO;
    let speed = Speed::from_metres_per_second(length.as_metres() / time.as_secs_f64());
    speed.ok().filter(|_| long)
}

/// What was made between two points of the route that were passed, with none passed between them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stage {
    /// The point that it begins at, counted from 0.
    pub from: usize,
    /// The point that it ends at: one farther on, but where points between were not passed.
    pub to: usize,
    /// The length of the legs between them.
    pub planned: Length,
    /// When the group went on from the first, where times are known.
    pub departs: Option<Timestamp>,
    /// When it came to the last.
    pub arrives: Option<Timestamp>,
    /// The way between.
    pub figures: Figures,
    /// The farthest off the line between.
    pub off: Length,
}

/// A pace, and how steady it was.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mean {
    /// The mean over the moving time.
    pub speed: Speed,
    /// The standard deviation of the paces of ten minutes each about it, each weighed by its time.
    pub spread: Speed,
    /// Over how long.
    pub time: SignedDuration,
}

/// The figures of a time of the track.
pub(super) fn figures(track: &Track<'_>, water: &Water, (from, to): (f64, f64)) -> Figures {
    let all = &track.samples.all;
    let t = |index: usize| all.get(index).map_or(f64::MAX, |sample| sample.t);
    // How much of a stretch of the track lies in the time asked for.
    let part = |begin: f64, end: f64| {
        let within = end.min(to) - begin.max(from);
        if end > begin { (within / (end - begin)).clamp(0.0, 1.0) } else { 0.0 }
    };
    let (mut made, mut moving, mut wet, mut wet_time) = (0.0, 0.0, 0.0, 0.0);
    let steps = &track.samples.steps;
    let first = steps.partition_point(|&(_, end)| t(end as usize) <= from);
    for (number, &(begin, end)) in steps.iter().enumerate().skip(first) {
        let (begin, end) = (begin as usize, end as usize);
        if t(begin) >= to {
            break;
        }
        let (share, time) = (part(t(begin), t(end)), t(end) - t(begin));
        made += share * all[begin].at.away(all[end].at);
        moving += share * time;
        let through = water.steps.get(number).copied().unwrap_or(f64::NAN);
        if through.is_finite() {
            wet += share * through;
            wet_time += share * time;
        }
    }
    let stops = track.samples.stops.iter().map(|stop| (t(stop.first), t(stop.last)));
    let stopped: f64 = stops.map(|(begin, end)| part(begin, end) * (end - begin)).sum();
    let (mut unseen, mut across) = (0.0, 0.0);
    for (before, after) in track.gaps() {
        let share = part(before.t, after.t);
        unseen += share * (after.t - before.t);
        across += share * before.at.away(after.at);
    }
    let time = |t: f64| if track.epoch.is_some() { seconds(t) } else { SignedDuration::ZERO };
    Figures {
        made: metres(made),
        moving: time(moving),
        stopped: time(stopped),
        unseen: time(unseen),
        across: metres(across),
        water: metres(wet),
        water_time: time(wet_time),
    }
}

/// The mean pace over the ground and through the water in a time of the track.
pub(super) fn means(
    track: &Track<'_>,
    water: &Water,
    (from, to): (f64, f64),
) -> (Option<Mean>, Option<Mean>) {
    let all = &track.samples.all;
    let (mut ground, mut through) = (Blocks::default(), Blocks::default());
    if track.epoch.is_none() {
        return (None, None);
    }
    for (number, &(begin, end)) in track.samples.steps.iter().enumerate() {
        let (Some(begin), Some(end)) = (all.get(begin as usize), all.get(end as usize)) else {
            continue;
        };
        let middle = (begin.t + end.t) / 2.0;
        if middle < from || middle > to {
            continue;
        }
        ground.add(begin.at.away(end.at), end.t - begin.t);
        let wet = water.steps.get(number).copied().unwrap_or(f64::NAN);
        if wet.is_finite() {
            through.add(wet, end.t - begin.t);
        }
    }
    (ground.mean(), through.mean())
}

/// Ways and times, ten minutes by ten minutes.
#[derive(Default)]
struct Blocks {
    full: Vec<(f64, f64)>,
    way: f64,
    time: f64,
}

impl Blocks {
    fn add(&mut self, way: f64, time: f64) {
        self.way += way;
        self.time += time;
        if self.time >= BLOCK_S {
            self.full.push((self.way, self.time));
            (self.way, self.time) = (0.0, 0.0);
        }
    }

    fn mean(mut self) -> Option<Mean> {
        if self.time > 0.0 {
            self.full.push((self.way, self.time));
        }
        let sum = |of: fn(&(f64, f64)) -> f64| self.full.iter().map(of).sum::<f64>();
        let (way, time) = (sum(|block| block.0), sum(|block| block.1));
        let mean = way / time;
        let square = |block: &(f64, f64)| block.1 * (block.0 / block.1 - mean).powi(2);
        let spread = (self.full.iter().map(square).sum::<f64>() / time).sqrt();
        Some(Mean {
            speed: Speed::from_metres_per_second(mean).ok()?,
            spread: Speed::from_metres_per_second(spread).ok()?,
            time: seconds(time),
        })
    }
}

impl Track<'_> {
    /// The instant of a time of the track; nothing where it has no times.
    pub(super) fn instant(&self, t: f64) -> Option<Timestamp> {
        self.epoch.map(|epoch| instant(epoch, t))
    }

    pub(super) fn stops(&self) -> Vec<Stop> {
        let stop = |stop: &super::sample::Stopped| {
            let at = |index: usize| self.instant(self.samples.all.get(index)?.t);
            Some(Stop {
                from: at(stop.first)?,
                to: at(stop.last)?,
                at: self.plane.position(stop.at.x, stop.at.y)?,
            })
        };
        self.samples.stops.iter().filter_map(stop).collect()
    }

    pub(super) fn gaps_told(&self) -> Vec<Gap> {
        let gap = |((before, after), why): ((super::clean::Timed, super::clean::Timed), GapWhy)| {
            Some(Gap {
                from: self.instant(before.t),
                to: self.instant(after.t),
                at: self.plane.position(before.at.x, before.at.y)?,
                straight: metres(before.at.away(after.at)),
                why,
            })
        };
        self.gaps().zip(self.breaks.iter().copied()).filter_map(gap).collect()
    }
}

/// The stages between the points that were passed.
pub(super) fn stages(
    track: &Track<'_>,
    water: &Water,
    passes: &[super::pass::Pass],
    along: impl Fn(usize) -> f64,
    off: impl Fn((f64, f64)) -> f64,
) -> Vec<Stage> {
    let passed: Vec<(usize, (f64, f64))> =
        passes.iter().enumerate().filter_map(|(point, pass)| Some((point, pass.visit?))).collect();
    let pairs = passed.iter().zip(passed.iter().skip(1));
    let pairs = pairs.map(|(&(from, left), &(to, came))| ((from, to), (left.1, came.0)));
    let stage = |((from, to), time): ((usize, usize), (f64, f64))| Stage {
        from,
        to,
        planned: metres(along(to) - along(from)),
        departs: track.instant(time.0),
        arrives: track.instant(time.1),
        figures: figures(track, water, time),
        off: metres(off(time)),
    };
    pairs.map(stage).collect()
}

/// How the points were passed.
pub(super) fn passings(track: &Track<'_>, passes: &[super::pass::Pass]) -> Vec<Passing> {
    let told = |pass: &super::pass::Pass| Passing {
        nearest: pass.nearest.is_finite().then(|| metres(pass.nearest)),
        passed: pass.visit.is_some(),
        arrives: pass.visit.and_then(|visit| track.instant(visit.0)),
        leaves: pass.visit.and_then(|visit| track.instant(visit.1)),
    };
    passes.iter().map(told).collect()
}
