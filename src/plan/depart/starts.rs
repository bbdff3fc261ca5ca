//! The starts of a day.

use std::sync::Arc;

use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use nav::Length;
use nav::tide::Turn;

use super::judge::Judge;
use super::{Every, Group, Lights, Reason, Start, Verdict};
use crate::Limits;

/// Times that differ by less are equal to who plans by the minute.
const EQUAL: SignedDuration = SignedDuration::from_secs(30);

/// Every start of a civil day, judged.
#[derive(Debug, Clone, PartialEq)]
pub struct Starts {
    /// The day, on the clock of `zone`.
    pub date: Date,
    /// When it begins.
    pub from: Timestamp,
    /// When the next one does.
    pub to: Timestamp,
    /// How far apart the starts are.
    pub every: Every,
    /// The clock that the day is one by.
    pub zone: TimeZone,
    /// What they are judged by.
    pub limits: Limits,
    /// The starts, in order.
    pub starts: Vec<Start>,
    /// Which is the best: the quickest acceptable, from launch to landing; of those within half a minute
    /// of the quickest, the earliest.
    pub best: Option<usize>,
    /// Which is the latest acceptable.
    pub latest: Option<usize>,
    /// The port whose tide is taken for the landing's.
    pub port: Option<LandingPort>,
    /// The high and low waters of the day there.
    pub waters: Vec<Turn>,
    /// The light at the launch.
    pub light: Lights,
    /// The first gate on the way, and when it is open in the day.
    pub gate: Option<GateHours>,
}

/// When a gate is open in a day.
#[derive(Debug, Clone, PartialEq)]
pub struct GateHours {
    /// Its name.
    pub name: Arc<str>,
    /// From when till when, in order, cut to the day.
    pub open: Vec<(Timestamp, Timestamp)>,
}

impl GateHours {
    /// Whether it is open at an instant of the day.
    pub fn is_open(&self, at: Timestamp) -> bool {
        self.open.iter().any(|(from, to)| (*from..=*to).contains(&at))
    }
}

/// The port nearest to the landing.
#[derive(Debug, Clone, PartialEq)]
pub struct LandingPort {
    /// Its name.
    pub name: String,
    /// How far from the landing it is, straight.
    pub away: Length,
    /// Whether the straight line to it crosses no land.
    pub clear: bool,
}

impl Starts {
    /// The best start.
    pub fn best(&self) -> Option<&Start> {
        self.starts.get(self.best?)
    }

    /// The latest acceptable start.
    pub fn latest(&self) -> Option<&Start> {
        self.starts.get(self.latest?)
    }

    /// The start that takes longest of those that land, whatever is said of them.
    pub fn slowest(&self) -> Option<&Start> {
        let landed = self.starts.iter().filter(|start| start.landing.is_some());
        landed.max_by_key(|start| start.landing.map(|landing| landing.took))
    }

    /// The runs of starts that are alike, in order.
    pub fn groups(&self) -> Vec<Group> {
        Group::all(&self.starts)
    }
}

/// Finds the best and the latest of starts that are refused or not, and says of the others whether they
/// are held up or slow.
fn compare(starts: &mut [Start], limits: &Limits) -> (Option<usize>, Option<usize>) {
    let took = |start: &Start| {
        start.landing.filter(|_| start.verdict.is_acceptable()).map(|landing| landing.took)
    };
    let quickest = starts.iter().filter_map(took).min();
    let latest = starts.iter().rposition(|start| start.verdict.is_acceptable());
    let Some(quickest) = quickest else { return (None, latest) };
    let best = starts.iter().position(|start| took(start).is_some_and(|it| it <= quickest + EQUAL));
    let slow_from = quickest + quickest * i32::from(limits.slow_percent) / 100;
    for start in starts {
        if let Some(took) = took(start).filter(|took| *took > slow_from) {
            start.reasons.push(Reason::Slow { longer: took - quickest });
            start.verdict = start.verdict.max(Verdict::Slow);
        }
    }
    (best, latest)
}

/// A day of starts that is still to be judged.
pub(super) struct Day {
    pub(super) date: Date,
    pub(super) from: Timestamp,
    pub(super) to: Timestamp,
    pub(super) every: Every,
    pub(super) zone: TimeZone,
    pub(super) port: Option<LandingPort>,
    pub(super) waters: Vec<Turn>,
    pub(super) gate: Option<GateHours>,
}

impl Day {
    /// Walks each start by `walk`, and judges it.
    pub(super) fn judged(self, judge: &Judge, walk: impl Fn(Timestamp) -> Start) -> Starts {
        let instants = self.every.instants(self.from, self.to);
        let mut starts: Vec<Start> = instants
            .map(|at| {
                let mut start = walk(at);
                judge.judge(&mut start);
                start
            })
            .collect();
        let (best, latest) = compare(&mut starts, &judge.limits);
        let Day { date, from, to, every, zone, port, waters, gate } = self;
        let (limits, light) = (judge.limits, judge.launch.clone());
        Starts {
            date,
            from,
            to,
            every,
            zone,
            limits,
            starts,
            best,
            latest,
            port,
            waters,
            light,
            gate,
        }
    }
}
