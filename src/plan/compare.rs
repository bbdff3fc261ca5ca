//! A recorded track held against a route: where and when each point was passed, where the group left
//! the line, and the pace that it made over the ground and through the water.
//!
//! A track is made fit first ([`Cleaning`]): times in order, no wild fixes, nothing made up across gaps.
//! Fixes are taken together over ten seconds, and the way is measured between places twenty metres
//! apart at least, since every fix errs and a way from fix to fix is too long. With fixes a second apart
//! that err by s metres east and north, each on its own, what is left is s²/4000 of the way too much: a
//! thousandth at two metres, two hundredths at nine. Errors that hold on for longer than ten seconds add
//! more the more they change over twenty metres; a bend closer than that is cut.

mod clean;
mod figures;
mod line;
mod pass;
mod plane;
mod progress;
mod sample;
mod stray;
#[cfg(test)]
mod tests;
mod times;
mod water;

pub use clean::{BELIEVED, Cleaning, ERRS_M, FASTEST_KN, GAP_S, GapWhy};
pub use figures::{Figures, Gap, Mean, Stage, Stop};
pub use sample::{STEP_M, STOP_S, STOP_WITHIN_M, TOGETHER_S};
pub use stray::{Beside, Stray};
pub use times::Times;
pub use water::{SQUARE_M, StreamKnown};

use jiff::{SignedDuration, Timestamp};
use nav::Length;

use crate::Route;
use crate::track::Track as Recorded;
use crate::unrolled::Ground;
use clean::{Cleaned, Timed};
use line::{Line, Nearest};
use plane::{Plane, metres};
use progress::Progress;
use sample::Samples;
use water::Water;

/// What counts as leaving the plan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settings {
    /// Farther than this from the line is off it, and no nearer than this to a point is not by it.
    pub off: Length,
    /// For so long at least.
    pub off_for: SignedDuration,
}

/// Two hundred metres, two minutes.
impl Default for Settings {
    fn default() -> Settings {
        Settings { off: 200.0 * Length::METRE, off_for: SignedDuration::from_mins(2) }
    }
}

/// Why a track cannot be compared.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum CompareError {
    /// Fewer than two fixes.
    #[error("the track has {used} usable fixes of {fixes}; at least two are needed")]
    TooFew {
        /// How many there are.
        fixes: usize,
        /// How many of them can be used.
        used: usize,
    },
    /// A route without a leg.
    #[error("the route has {0} points; a track is compared with a route of at least two")]
    NoLegs(usize),
    /// A route near a pole.
    #[error("the route lies within half a degree of a pole, where no track is compared")]
    NearPole,
    /// A track elsewhere.
    #[error(
        "the track comes no nearer to the route than {:.0} km; it belongs to another route, \
         or to another track of the file", .0.as_kilometres()
    )]
    Elsewhere(Length),
}

/// Farther away than this everywhere, a track is of another route.
const ELSEWHERE_M: f64 = 50_000.0;

/// How a point of the route was passed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Passing {
    /// How near the track came in its order along the route; nothing where no part of it is left.
    pub nearest: Option<Length>,
    /// Whether that is by it.
    pub passed: bool,
    /// When the group came, where times are known.
    pub arrives: Option<Timestamp>,
    /// When it went on: after its stops there.
    pub leaves: Option<Timestamp>,
}

/// What a track did against the plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// What was left out of the track.
    pub cleaning: Cleaning,
    /// Its first and last instant; nothing where it has no times.
    pub recorded: Option<(Timestamp, Timestamp)>,
    /// The way of all of it.
    pub whole: Figures,
    /// Its stops.
    pub stops: Vec<Stop>,
    /// Its gaps.
    pub gaps: Vec<Gap>,
    /// How each point of the route was passed.
    pub points: Vec<Passing>,
    /// The stages from point to point, of the points that were passed.
    pub stages: Vec<Stage>,
    /// From the first point that was passed to the last, or all of the track if fewer than two were.
    pub on_route: Figures,
    /// Where it left the line.
    pub strays: Vec<Stray>,
    /// Where the stream is known.
    pub stream: StreamKnown,
    /// The group's pace over the ground.
    pub ground_pace: Option<Mean>,
    /// Its pace through the water, where the stream is known.
    pub water_pace: Option<Mean>,
    /// The times of the plan; nothing where no departure is set.
    pub planned: Option<Times>,
    /// The times that the plan would have had from the start that was made.
    pub from_start: Option<Times>,
    /// Whether it runs along the route from its end to its beginning.
    pub runs_back: bool,
}

/// A track made ready.
struct Track<'a> {
    plane: &'a Plane,
    samples: Samples,
    breaks: Vec<GapWhy>,
    epoch: Option<Timestamp>,
}

/// Holds a track against a route.
///
/// # Errors
/// [`CompareError`] when there is nothing to compare.
pub fn compare(
    track: &Recorded,
    route: &Route,
    ground: &Ground<'_>,
    settings: &Settings,
) -> Result<Comparison, CompareError> {
    let [first, _, ..] = &route.points[..] else {
        return Err(CompareError::NoLegs(route.points.len()));
    };
    let plane = Plane::about(first.at.lon);
    let line = Line::of(route, &plane).ok_or(CompareError::NearPole)?;
    let cleaned = Cleaned::of(track, &plane);
    let cleaning = cleaned.cleaning;
    if cleaning.used < 2 {
        return Err(CompareError::TooFew { fixes: cleaning.fixes, used: cleaning.used });
    }
    let track = Track {
        samples: Samples::of(&cleaned),
        breaks: cleaned.breaks.iter().map(|(_, why)| *why).collect(),
        epoch: cleaned.epoch,
        plane: &plane,
    };
    drop(cleaned);
    let water = water::water(&track, &plane, ground);
    let matched = Matched::of(&track, &line, settings)?;
    Ok(matched.told(&track, &line, &water, (route, ground, settings), cleaning))
}

/// The track in its order along the line.
struct Matched {
    passes: Vec<pass::Pass>,
    /// The time between the first and the last point that was passed.
    time: (f64, f64),
    /// The first sample of that time.
    first: usize,
    /// The nearest place of the line for each sample from there on.
    off: Vec<Nearest>,
    runs_back: bool,
}

impl Matched {
    fn of(track: &Track<'_>, line: &Line, settings: &Settings) -> Result<Matched, CompareError> {
        let samples = &track.samples;
        let whole = line.sides_of(0..line.legs());
        let away = |sample: &Timed| line.nearest(sample.at, whole.clone()).map(|it| it.away);
        // Within 50 km the first sample tells.
        let close = samples.all.iter().filter_map(away);
        let mut nearest = f64::INFINITY;
        for away in close {
            nearest = nearest.min(away);
            if nearest < ELSEWHERE_M {
                break;
            }
        }
        if nearest >= ELSEWHERE_M {
            return Err(CompareError::Elsewhere(metres(nearest)));
        }
        let progress = Progress::of(samples, line, false);
        let passes = pass::passes(samples, line, &progress, settings.off.as_metres());
        let visits = || passes.iter().filter_map(|pass| pass.visit);
        let passed = visits().count();
        let end = |sample: Option<&Timed>| sample.map_or(0.0, |sample| sample.t);
        let (begin, last) = (end(samples.all.first()), end(samples.all.last()));
        let time = match (visits().next(), visits().next_back()) {
            (Some(left), Some(came)) if passed > 1 => (left.1, came.0),
            _ => (begin, last),
        };
        let first = samples.all.partition_point(|sample| sample.t < time.0);
        let beyond = samples.all.partition_point(|sample| sample.t <= time.1);
        let off = stray::off_line(samples, line, &progress, first..beyond.max(first));
        let runs_back = 2 * passed < passes.len()
            && 2.0 * Progress::of(samples, line, true).cost < progress.cost;
        Ok(Matched { passes, time, first, off, runs_back })
    }

    fn told(
        &self,
        track: &Track<'_>,
        line: &Line,
        water: &Water,
        (route, ground, settings): (&Route, &Ground<'_>, &Settings),
        cleaning: Cleaning,
    ) -> Comparison {
        let points = figures::passings(track, &self.passes);
        let along = |point: usize| {
            let vertex = line.points.get(point).copied().unwrap_or_default();
            line.along.get(vertex).copied().unwrap_or_default()
        };
        let stages =
            figures::stages(track, water, &self.passes, along, |time| self.farthest(track, time));
        let ends = (track.samples.all.first(), track.samples.all.last());
        let all = (ends.0.map_or(0.0, |it| it.t), ends.1.map_or(0.0, |it| it.t));
        // Of a track without times the time is counted in fixes.
        let least = track.epoch.map_or(1.0, |_| settings.off_for.as_secs_f64());
        let limit = settings.off.as_metres();
        let (ground_pace, water_pace) = figures::means(track, water, self.time);
        let start = points.first().and_then(|first| first.leaves);
        let times = times::Plan::of(route, ground);
        Comparison {
            cleaning,
            recorded: track.instant(all.0).zip(track.instant(all.1)),
            whole: figures::figures(track, water, all),
            stops: track.stops(),
            gaps: track.gaps_told(),
            stages,
            on_route: figures::figures(track, water, self.time),
            strays: stray::strays(track, line, (self.first, &self.off), (limit, least)),
            stream: water.known,
            ground_pace,
            water_pace,
            planned: times.planned(),
            from_start: start.and_then(|start| times.leaving(start)),
            runs_back: self.runs_back,
            points,
        }
    }

    /// How far off the line the track was at most in a time.
    fn farthest(&self, track: &Track<'_>, (from, to): (f64, f64)) -> f64 {
        let samples = track.samples.all.get(self.first..).unwrap_or_default();
        let begin = samples.partition_point(|sample| sample.t < from);
        let end = samples.partition_point(|sample| sample.t <= to);
        let within = self.off.get(begin..end.min(self.off.len())).unwrap_or_default();
        within.iter().map(|near| near.away).fold(0.0, f64::max)
    }
}

impl Track<'_> {
    /// The samples before and after each gap.
    fn gaps(&self) -> impl Iterator<Item = (Timed, Timed)> {
        let pairs = self.samples.pieces.iter().zip(self.samples.pieces.iter().skip(1));
        pairs.filter_map(|(before, after)| {
            let last = self.samples.all.get(before.end.checked_sub(1)?)?;
            Some((*last, *self.samples.all.get(after.start)?))
        })
    }

    /// A place of the track beside the line.
    fn beside(&self, line: &Line, t: f64, near: Nearest) -> Option<Beside> {
        let at = self.samples.at(t)?;
        Some(Beside {
            when: self.instant(t),
            at: self.plane.position(at.x, at.y)?,
            leg: line.leg_of(near.side),
            along: line.along_leg(near),
        })
    }
}
