//! What there was on the way: with and against the stream, the most of it, and its mean.

use std::iter::Sum;

use jiff::{SignedDuration, Timestamp};

use super::boat::Axes;
use super::hold::duration;
use super::way::Way;
use crate::stream::{Greatest, Vector, stream};
use crate::triangle::Stream;
use crate::{Bearing, Length, Speed, True};

/// The rate under which a stream counts as slack: half a knot. Common practice, no published source.
pub const SLACK: Speed = Speed::metres_per_second(SLACK_MPS);

const SLACK_MPS: f64 = 0.5 * Speed::KNOT.as_metres_per_second();

/// The time of a passage by what the stream did. Each instant counts once.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Times {
    /// The stream set within 45° of the track.
    pub with: SignedDuration,
    /// The stream set within 45° of the way back.
    pub against: SignedDuration,
    /// The stream set across the track, in either of the quarters between.
    pub across: SignedDuration,
    /// The stream ran at less than [`SLACK`], wherever it set.
    pub slack: SignedDuration,
    /// Nothing is known of the stream.
    pub without_data: SignedDuration,
}

impl Times {
    /// All of it.
    pub fn whole(self) -> SignedDuration {
        let known = [self.with, self.against, self.across, self.slack];
        known.into_iter().fold(self.without_data, SignedDuration::saturating_add)
    }
}

impl Sum for Times {
    fn sum<I: Iterator<Item = Times>>(all: I) -> Times {
        all.fold(Times::default(), |a, b| Times {
            with: a.with.saturating_add(b.with),
            against: a.against.saturating_add(b.against),
            across: a.across.saturating_add(b.across),
            slack: a.slack.saturating_add(b.slack),
            without_data: a.without_data.saturating_add(b.without_data),
        })
    }
}

/// What there was on a stretch, a leg or a passage. Those of several are the sum of each's.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Sums {
    /// The time by what the stream did.
    pub times: Times,
    /// How far the boat went through the water.
    pub through_water: Length,
    /// How much of the line over the ground was passed while nothing was known of the stream.
    pub length_without_data: Length,
    /// The stream when it ran fastest, the first of equals; none where nothing is known.
    pub greatest: Option<Greatest>,
    /// How far the water went while it was known: east and north in metres.
    drifted: Vector,
}

/// What the stream does to a boat.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sort {
    With,
    Against,
    Across,
    Slack,
}

impl Sort {
    /// Of water that moves so much along and across the track.
    pub(super) fn of((along, across): Vector) -> Sort {
        if along * along + across * across < SLACK_MPS * SLACK_MPS {
            Sort::Slack
        } else if across.abs() > along.abs() {
            Sort::Across
        } else if along > 0.0 {
            Sort::With
        } else {
            Sort::Against
        }
    }
}

impl Times {
    /// More time of a sort; without data where there is none.
    pub(super) fn add(&mut self, sort: Option<Sort>, seconds: f64) {
        let time = match sort {
            Some(Sort::With) => &mut self.with,
            Some(Sort::Against) => &mut self.against,
            Some(Sort::Across) => &mut self.across,
            Some(Sort::Slack) => &mut self.slack,
            None => &mut self.without_data,
        };
        *time = time.saturating_add(duration(seconds));
    }
}

impl Sums {
    /// The mean stream over the time in which it is known: the set and drift that in as much time
    /// carry as far. Nothing where none is known.
    pub fn mean(&self) -> Option<Stream> {
        let seconds = (self.times.whole() - self.times.without_data).as_secs_f64();
        let mean = |total: f64| total / seconds;
        (seconds > 0.0).then(|| stream((mean(self.drifted.0), mean(self.drifted.1))))
    }

    /// So many seconds of a way along `track` that began at an instant, at the boat's speed.
    pub(super) fn add(
        &mut self,
        way: &Way,
        track: Bearing<True>,
        began: Timestamp,
        seconds: f64,
        boat: Speed,
    ) {
        self.through_water += Length::metres(boat.as_metres_per_second() * seconds);
        if !way.known {
            self.times.add(None, seconds);
            self.length_without_data += Length::metres(way.covered(seconds));
            return;
        }
        let mut from = 0.0;
        for to in changes(way.water, seconds) {
            let middle = way.water_after(f64::midpoint(from, to));
            self.times.add(Some(Sort::of(middle)), to - from);
            from = to;
        }
        let axes = Axes::of(track);
        let mean = axes.back(way.water_after(seconds / 2.0));
        self.drifted.0 += mean.0 * seconds;
        self.drifted.1 += mean.1 * seconds;
        // A straight line is furthest from the origin at one of its ends.
        for at in [0.0, seconds] {
            let stream = stream(axes.back(way.water_after(at)));
            let at = began.checked_add(duration(at)).unwrap_or(Timestamp::MAX);
            self.greatest = greater(self.greatest, Some(Greatest { at, stream }));
        }
    }

    fn and(self, other: Sums) -> Sums {
        Sums {
            times: [self.times, other.times].into_iter().sum(),
            through_water: self.through_water + other.through_water,
            length_without_data: self.length_without_data + other.length_without_data,
            greatest: greater(self.greatest, other.greatest),
            drifted: (self.drifted.0 + other.drifted.0, self.drifted.1 + other.drifted.1),
        }
    }
}

impl Sum for Sums {
    fn sum<I: Iterator<Item = Sums>>(all: I) -> Sums {
        all.fold(Sums::default(), Sums::and)
    }
}

fn greater(one: Option<Greatest>, other: Option<Greatest>) -> Option<Greatest> {
    match (one, other) {
        (Some(a), Some(b)) => Some(if b.stream.drift > a.stream.drift { b } else { a }),
        (a, b) => a.or(b),
    }
}

/// The instants within `seconds` at which water that changes evenly may go over from one sort to
/// another, in order, with the end: it crosses the lines between the quarters, or its rate the slack.
pub(super) fn changes((flow, change): (Vector, Vector), seconds: f64) -> impl Iterator<Item = f64> {
    // |flow + change·t|² = slack², of which the half of the middle coefficient is `half`.
    let square = change.0 * change.0 + change.1 * change.1;
    let half = flow.0 * change.0 + flow.1 * change.1;
    let root =
        (half * half - square * (flow.0 * flow.0 + flow.1 * flow.1 - SLACK_MPS * SLACK_MPS)).sqrt();
    let crossings = [
        -(flow.0 - flow.1) / (change.0 - change.1),
        -(flow.0 + flow.1) / (change.0 + change.1),
        (-half - root) / square,
        (-half + root) / square,
    ];
    // What never happens is no number, or infinite, or outside.
    let within = crossings.map(|at| if at > 0.0 && at < seconds { at } else { seconds });
    let mut ends = [within[0], within[1], within[2], within[3], seconds];
    ends.sort_by(f64::total_cmp);
    ends.into_iter()
}
