//! One start and what comes of it.

use std::sync::Arc;

use jiff::{SignedDuration, Timestamp};
use nav::Speed;
use nav::tide::Height;

use super::{Light, Reason, Verdict};
use crate::RaceState;

/// A start, the passage that it leads to as far as that is made, and what is to be said of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Start {
    /// When the group leaves.
    pub at: Timestamp,
    /// How it does.
    pub verdict: Verdict,
    /// Why it is not good: of a refused start all that refuses it, the weightiest first.
    pub reasons: Vec<Reason>,
    /// The legs that are made, in order.
    pub legs: Vec<LegTime>,
    /// The landing; nothing where the group does not get there.
    pub landing: Option<Landing>,
    /// All waits together.
    pub waited: SignedDuration,
    /// The time in which the stream sets against the group.
    pub against: SignedDuration,
    /// The most that the water runs, wherever it is known.
    pub worst_drift: Option<Drift>,
    /// The races met, in order.
    pub races: Vec<RaceMet>,
    /// The gates come to, in order.
    pub gates: Vec<GateMet>,
}

/// A leg of a passage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LegTime {
    /// When the group sets out on it.
    pub departs: Timestamp,
    /// When it gets to its end.
    pub arrives: Timestamp,
    /// How long of that it waits.
    pub waited: SignedDuration,
    /// How long the stream sets against it.
    pub against: SignedDuration,
}

impl LegTime {
    /// The time from end to end, waits included.
    pub fn time(&self) -> SignedDuration {
        self.arrives.duration_since(self.departs)
    }
}

/// How fast the water runs somewhere on the way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drift {
    /// Its rate.
    pub rate: Speed,
    /// On which leg, from zero.
    pub leg: usize,
    /// When.
    pub at: Timestamp,
}

/// A race on the way.
#[derive(Debug, Clone, PartialEq)]
pub struct RaceMet {
    /// Its name.
    pub name: Arc<str>,
    /// On which leg, from zero.
    pub leg: usize,
    /// When the group comes into it.
    pub from: Timestamp,
    /// When it leaves it.
    pub to: Timestamp,
    /// The worst state that it is in meanwhile; nothing where the chart does not say when it runs.
    pub state: Option<RaceState>,
}

/// A gate on the way.
#[derive(Debug, Clone, PartialEq)]
pub struct GateMet {
    /// Its name.
    pub name: Arc<str>,
    /// On which leg, from zero.
    pub leg: usize,
    /// When the group comes to it.
    pub at: Timestamp,
    /// How long it waits for it to open; zero where it is open.
    pub waited: SignedDuration,
}

/// The end of a passage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Landing {
    /// When.
    pub at: Timestamp,
    /// How long after the start.
    pub took: SignedDuration,
    /// The height of tide at the nearest port; nothing where no port is known.
    pub height: Option<Height>,
    /// The light that is left.
    pub light: Light,
}
