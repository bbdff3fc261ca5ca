//! A start judged by the limits.

use chart::water::GaugeCurve;
use jiff::SignedDuration;

use super::{Landing, Light, Lights, Reason, Start, Verdict};
use crate::Limits;

/// What starts are judged by: the limits, the light at both ends, and the tide at the landing.
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
        self.wait(start);
        self.rest(start);
        start.reasons.sort_by_key(Reason::kind);
        if !start.reasons.is_empty() {
            start.verdict = Verdict::Refused;
        } else if start.waited >= SignedDuration::from_mins(1) {
            let gate = longest_at(start);
            start.verdict = Verdict::HeldUp;
            start.reasons.push(Reason::HeldUp { gate, wait: start.waited });
        }
    }

    fn races(&self, start: &mut Start) {
        let worst = self.limits.worst_race;
        let refused = start.races.iter().filter_map(|met| {
            let state = met.state.filter(|state| *state > worst)?;
            Some(Reason::Race { name: met.name.clone(), state, from: met.from, to: met.to })
        });
        start.reasons.extend(refused);
    }

    fn light(&self, start: &mut Start) {
        let Some(least) = self.limits.light_left else { return };
        if matches!(self.launch.at(start.at), Light::Gone(_) | Light::NoDay) {
            let before = self.launch.to_dawn(start.at);
            start.reasons.push(Reason::LeavesInTheDark { before });
        }
        start.reasons.extend(match start.landing.map(|landing| landing.light) {
            Some(Light::Left(left)) if left < least => Some(Reason::LittleLight { left, least }),
            Some(Light::Gone(after)) => Some(Reason::LandsInTheDark { after: Some(after) }),
            Some(Light::NoDay) => Some(Reason::LandsInTheDark { after: None }),
            _ => None,
        });
    }

    fn wait(&self, start: &mut Start) {
        if start.waited > self.limits.longest_wait {
            start.reasons.push(Reason::Wait { gate: longest_at(start), wait: start.waited });
        }
    }

    fn rest(&self, start: &mut Start) {
        let limits = &self.limits;
        let drift = start.worst_drift.zip(limits.greatest_drift);
        let drift = drift.filter(|(worst, most)| worst.rate > *most);
        start.reasons.extend(drift.map(|(it, _)| Reason::Drift {
            leg: it.leg,
            at: it.at,
            rate: it.rate,
        }));
        let Some(Landing { took, height, .. }) = start.landing else { return };
        let low = height.zip(limits.least_height).filter(|(height, least)| height < least);
        start.reasons.extend(low.map(|(height, least)| Reason::LowWater { height, least }));
        let long = limits.longest_day.filter(|longest| took > *longest);
        start.reasons.extend(long.map(|_| Reason::LongDay { time: took }));
    }
}

/// The gate that is waited at longest; nothing where it is the stream that is waited for.
fn longest_at(start: &Start) -> Option<std::sync::Arc<str>> {
    let waited = start.gates.iter().filter(|gate| gate.waited > SignedDuration::ZERO);
    waited.max_by_key(|gate| gate.waited).map(|gate| gate.name.clone())
}
