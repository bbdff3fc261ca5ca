//! One start and what comes of it.

use jiff::{SignedDuration, Timestamp};
use nav::Speed;
use nav::tide::Height;

use super::{Light, Reason, Verdict};
use crate::RaceState;
use crate::course::BriefLeg;
use crate::passage::{GatePassed, RaceMet, WaitFor};

/// A start, the passage that it leads to as far as that can be made, and what is to be said of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Start {
    /// When the group leaves.
    pub at: Timestamp,
    /// How it does.
    pub verdict: Verdict,
    /// Why it is not good: of a refused start all that refuses it, the weightiest first.
    pub reasons: Vec<Reason>,
    /// The legs that are made, in order.
    pub legs: Vec<BriefLeg>,
    /// The landing; nothing where the group does not get there.
    pub landing: Option<Landing>,
}

/// The end of a passage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Landing {
    /// When.
    pub at: Timestamp,
    /// How long after the start, stops and waits included.
    pub took: SignedDuration,
    /// The height of tide at the nearest port; nothing where no port is known.
    pub height: Option<Height>,
    /// The light that is left.
    pub light: Light,
}

impl Start {
    fn sum(&self, of: impl Fn(&BriefLeg) -> SignedDuration) -> SignedDuration {
        self.legs.iter().fold(SignedDuration::ZERO, |all, leg| all.saturating_add(of(leg)))
    }

    /// All waits together.
    pub fn waited(&self) -> SignedDuration {
        self.sum(|leg| leg.waited)
    }

    /// The longest wait, and what it is for.
    pub fn longest_wait(&self) -> Option<(SignedDuration, &WaitFor)> {
        let waits = self.legs.iter().filter_map(|leg| Some((leg.waited, leg.waited_for.as_ref()?)));
        waits.max_by_key(|(wait, _)| *wait)
    }

    /// The time in which the stream sets against the group.
    pub fn against(&self) -> SignedDuration {
        self.sum(|leg| leg.times.against)
    }

    /// The time in which nothing is known of the stream, and still water is reckoned with.
    pub fn without_data(&self) -> SignedDuration {
        self.sum(|leg| leg.times.without_data)
    }

    /// The most that the water runs, where it is known, and on which leg, from zero.
    pub fn worst_drift(&self) -> Option<(Speed, usize)> {
        let drifts = self.legs.iter().enumerate();
        let drifts = drifts.filter_map(|(leg, it)| Some((it.greatest?, leg)));
        drifts.reduce(|worst, next| if next.0 > worst.0 { next } else { worst })
    }

    /// The races met, in order, each with the leg on which it is entered, from zero. One that a point of
    /// the route lies in is met once, on both of its legs.
    pub fn races(&self) -> Vec<(usize, RaceMet)> {
        let mut all: Vec<(usize, RaceMet)> = Vec::new();
        for (index, leg) in self.legs.iter().enumerate() {
            for met in &leg.races {
                let before = all.iter_mut().rev().find(|(_, before)| before.race == met.race);
                let goes_on =
                    |to| index > 0 && met.from == leg.departs && self.ends(index - 1) == to;
                match before.filter(|(_, before)| goes_on(Some(before.to))) {
                    Some((_, before)) => {
                        before.to = met.to;
                        before.state = before.state.max(met.state);
                    }
                    None => all.push((index, met.clone())),
                }
            }
        }
        all
    }

    /// When a leg ends.
    fn ends(&self, leg: usize) -> Option<Timestamp> {
        self.legs.get(leg).map(|leg| leg.arrives)
    }

    /// The worst state of the races met; nothing within where none of them says when it runs, and
    /// nothing at all where none is met.
    pub fn worst_race(&self) -> Option<Option<RaceState>> {
        let states = self.legs.iter().flat_map(|leg| &leg.races);
        states.map(|met| met.state).max()
    }

    /// The gates passed, in order, each with its leg, from zero.
    pub fn gates(&self) -> impl Iterator<Item = (usize, &GatePassed)> {
        let legs = self.legs.iter().enumerate();
        legs.flat_map(|(leg, it)| it.gates.iter().map(move |gate| (leg, gate)))
    }
}
