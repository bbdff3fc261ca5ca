//! A start from a passage that was walked.

use nav::Speed;
use nav::triangle::Stream;

use super::{Landing, Light, Reason, Start, Verdict};
use crate::Limits;
use crate::course::Brief;
use crate::passage::{HaltWhy, Halted};

/// The start that leads to a passage, with no more reasons than why it makes no way; not judged yet.
pub(super) fn start(passage: Brief) -> Start {
    let took = passage.arrives().map(|at| (at, at.duration_since(passage.departs)));
    let landing = took.map(|(at, took)| Landing { at, took, height: None, light: Light::NoDay });
    let endless = took.filter(|(_, took)| *took > Limits::MOST_DAY);
    let endless = endless.map(|_| Reason::Endless { after: Limits::MOST_DAY });
    let halted = passage.halt.as_ref().map(halted);
    Start {
        at: passage.departs,
        verdict: Verdict::Good,
        reasons: halted.into_iter().chain(endless).collect(),
        landing: landing.filter(|landing| landing.took <= Limits::MOST_DAY),
        legs: passage.legs,
    }
}

fn halted(halted: &Halted) -> Reason {
    let (leg, at) = (halted.leg, halted.at);
    match &halted.why {
        HaltWhy::NoWay(stream) => Reason::NoWay { leg, at, drift: rate(*stream) },
        HaltWhy::CannotHold(stream) => Reason::CannotHold { leg, at, drift: rate(*stream) },
        HaltWhy::NoHeading(why) => Reason::NoHeading { leg, at, why: *why },
        HaltWhy::Shut { gate, opens } => {
            let wait = opens.map(|opens| opens.duration_since(at));
            Reason::Shut { gate: gate.clone(), at, wait }
        }
    }
}

/// Nothing of water that is not known: it is the wind then.
fn rate(stream: Option<Stream>) -> Option<Speed> {
    stream.map(|stream| stream.drift)
}
