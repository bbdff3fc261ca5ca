//! Waits before a leg: for a gate to open, or for a stream that lets the boat make its way.

use jiff::{SignedDuration, Timestamp};
use nav::passage::{Halt, NoHeading};

use super::{CourseLeg, GateOn, Waters};
use crate::passage::WaitFor;

/// How far apart the departures are at which a wait is tried. An opening that is shorter is no opening
/// for a group.
const STEP: SignedDuration = SignedDuration::from_mins(5);
/// How closely the end of a wait is found.
const CLOSE: SignedDuration = SignedDuration::from_secs(1);

/// A leg that was made.
pub(crate) trait Made: Sized {
    /// When it comes to the beginning of a stretch, or to the leg's end.
    fn comes(&self, stretch: usize) -> Timestamp;
}

/// Why the boat makes no way on a leg.
#[derive(Debug)]
pub(crate) enum Stopped {
    /// On its line.
    Halt(Halt),
    /// On one heading.
    NoHeading(NoHeading),
}

/// Why a leg cannot be left on at an instant.
#[derive(Debug)]
pub(crate) enum Held<'a> {
    /// The boat makes no way.
    Stopped(Stopped),
    /// It comes to a gate that is shut: which of the leg's, and when.
    Shut(&'a GateOn, Timestamp),
}

/// A leg on its way.
pub(crate) struct Left<M> {
    pub(crate) departs: Timestamp,
    /// What was waited for, if there was a wait.
    pub(crate) waited_for: Option<WaitFor>,
    pub(crate) made: M,
}

/// Leaves on a leg as soon as it can be made from `ready` on, after `longest` at most: as `make` makes it.
///
/// # Errors
/// What held it at `ready`, when it cannot be left on in time.
pub(crate) fn leave<'a, M: Made>(
    waters: &Waters<'_>,
    leg: &'a CourseLeg,
    (ready, longest): (Timestamp, SignedDuration),
    make: impl Fn(Timestamp) -> Result<M, Stopped>,
) -> Result<Left<M>, Held<'a>> {
    let attempt = |at: Timestamp| {
        let made = make(at).map_err(Held::Stopped)?;
        let shut = leg.gates.iter().find_map(|gate| {
            let comes = made.comes(gate.stretch);
            (waters.is_open(gate, comes) == Some(false)).then_some(Held::Shut(gate, comes))
        });
        shut.map_or(Ok(made), Err)
    };
    let held = match attempt(ready) {
        Ok(made) => return Ok(Left { departs: ready, waited_for: None, made }),
        Err(held) => held,
    };
    let mut last = ready;
    let latest = ready.checked_add(longest).unwrap_or(Timestamp::MAX);
    if stays_shut(waters, &held, || attempt(latest).err()) {
        return Err(held);
    }
    while last < latest {
        let at = last.checked_add(STEP).map_or(latest, |at| at.min(latest));
        if let Ok(made) = attempt(at) {
            let (departs, made) = earliest(last, (at, made), attempt);
            let waited_for = Some(match held {
                Held::Stopped(_) => WaitFor::Stream,
                Held::Shut(gate, _) => WaitFor::Gate(gate.name.clone()),
            });
            return Ok(Left { departs, waited_for, made });
        }
        last = at;
    }
    Err(held)
}

/// Whether a gate that held the group is still shut when it leaves as late as it may, and has not been
/// open meanwhile: who leaves later comes no sooner, so that no start between finds it open.
fn stays_shut<'a>(
    waters: &Waters<'_>,
    held: &Held<'a>,
    latest: impl FnOnce() -> Option<Held<'a>>,
) -> bool {
    let Held::Shut(gate, comes) = held else { return false };
    let opens = waters.opens(gate, *comes);
    let Some(Held::Shut(again, later)) = latest() else { return false };
    std::ptr::eq(*gate, again) && opens.is_none_or(|opens| later < opens)
}

/// The earliest departure between one that is held and one that is made, by halving.
fn earliest<M, H>(
    mut held: Timestamp,
    mut found: (Timestamp, M),
    attempt: impl Fn(Timestamp) -> Result<M, H>,
) -> (Timestamp, M) {
    while found.0.duration_since(held) > CLOSE {
        let middle = held + found.0.duration_since(held) / 2;
        match attempt(middle) {
            Ok(made) => found = (middle, made),
            Err(_) => held = middle,
        }
    }
    found
}
