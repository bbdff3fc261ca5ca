//! A start judged by the limits.

use chart::water::GaugeCurve;
use jiff::SignedDuration;

use super::{Light, Lights, Reason, Start, Verdict};
use crate::Limits;
use crate::passage::WaitFor;

/// A shorter wait is none to who plans by the minute.
const SHORTEST_WAIT: SignedDuration = SignedDuration::from_secs(30);

/// What starts are judged by: the limits, the light at both ends, and the tide at the landing. That no
/// wait is longer than the limits accept is the passage's own affair.
pub(super) struct Judge {
    pub(super) limits: Limits,
    pub(super) launch: Lights,
    pub(super) landing: Lights,
    /// At the landing's port.
    pub(super) tide: Option<GaugeCurve>,
}

impl Judge {
    /// Says of a start, which comes with no more than why it makes no way, what the limits have to say.
    pub(super) fn judge(&self, start: &mut Start) {
        if let Some(landing) = &mut start.landing {
            landing.height = self.tide.as_ref().and_then(|tide| tide.height(landing.at));
            landing.light = self.landing.at(landing.at);
        }
        self.races(start);
        self.light(start);
        self.rest(start);
        start.reasons.sort_by_key(Reason::kind);
        if !start.reasons.is_empty() {
            start.verdict = Verdict::Refused;
        } else if let Some((_, what)) = start.longest_wait()
            && start.waited() >= SHORTEST_WAIT
        {
            let gate = match what {
                WaitFor::Gate(gate) => Some(gate.clone()),
                WaitFor::Stream => None,
            };
            start.reasons.push(Reason::HeldUp { gate, wait: start.waited() });
            start.verdict = Verdict::HeldUp;
        }
    }

    fn races(&self, start: &mut Start) {
        let worst = self.limits.worst_race;
        let refused = start.races().into_iter().filter_map(|(_, met)| {
            let state = met.state.filter(|state| *state > worst)?;
            Some(Reason::Race { name: met.name, state, from: met.from, to: met.to })
        });
        start.reasons.extend(refused);
    }

    fn light(&self, start: &mut Start) {
        let Some(least) = self.limits.light_left else { return };
        start.reasons.extend(self.launch.dark(start.at).map(Reason::LeavesInTheDark));
        let Some(landing) = start.landing else { return };
        start.reasons.extend(self.landing.dark(landing.at).map(Reason::LandsInTheDark));
        if let Light::Left(left) = landing.light
            && left < least
        {
            start.reasons.push(Reason::LittleLight { left, least });
        }
    }

    fn rest(&self, start: &mut Start) {
        let limits = &self.limits;
        let drift = start.worst_drift().zip(limits.greatest_drift);
        let drift = drift.filter(|((rate, _), most)| rate > most);
        start.reasons.extend(drift.map(|((rate, leg), _)| Reason::Drift { leg, rate }));
        let Some(landing) = start.landing else { return };
        let low = landing.height.zip(limits.least_height).filter(|(height, least)| height < least);
        start.reasons.extend(low.map(|(height, least)| Reason::LowWater { height, least }));
        let long = limits.longest_day.filter(|longest| landing.took > *longest);
        start.reasons.extend(long.map(|_| Reason::LongDay { time: landing.took }));
    }
}
