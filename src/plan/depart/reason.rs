//! Why a start is not good.

mod words;

use std::sync::Arc;

use jiff::{SignedDuration, Timestamp};
use nav::Speed;
use nav::passage::NoHeading;
use nav::tide::Height;

use super::Dark;
use crate::RaceState;

/// Why a start is slow, held up or refused.
#[derive(Debug, Clone, PartialEq)]
pub enum Reason {
    /// The boat makes no way along its line.
    NoWay {
        /// On which leg, from zero.
        leg: usize,
        /// When.
        at: Timestamp,
        /// How fast the water runs there; nothing where it is not known, and the wind alone is too much.
        drift: Option<Speed>,
    },
    /// What sets the boat across its line is faster than the boat.
    CannotHold {
        /// On which leg, from zero.
        leg: usize,
        /// When.
        at: Timestamp,
        /// How fast the water runs there, if that is known.
        drift: Option<Speed>,
    },
    /// A crossing has no heading.
    NoHeading {
        /// On which leg, from zero.
        leg: usize,
        /// When it is set out on.
        at: Timestamp,
        /// Why.
        why: NoHeading,
    },
    /// The group has not landed after so long.
    Endless {
        /// How long.
        after: SignedDuration,
    },
    /// A race is met in a worse state than the limits accept.
    Race {
        /// Its name.
        name: Arc<str>,
        /// The state.
        state: RaceState,
        /// When the group is in it.
        from: Timestamp,
        /// Until when.
        to: Timestamp,
    },
    /// It is dark when the group leaves.
    LeavesInTheDark(Dark),
    /// It is dark when the group lands.
    LandsInTheDark(Dark),
    /// Less light is left at the landing than the limits want.
    LittleLight {
        /// What is left.
        left: SignedDuration,
        /// What is wanted.
        least: SignedDuration,
    },
    /// A gate is shut, for longer than the limits have the group wait.
    Shut {
        /// Its name.
        gate: Arc<str>,
        /// When the group would come to it.
        at: Timestamp,
        /// How long it is until it opens, as far as that is known.
        wait: Option<SignedDuration>,
    },
    /// The water runs faster than the limits accept.
    Drift {
        /// On which leg, from zero.
        leg: usize,
        /// How fast.
        rate: Speed,
    },
    /// The tide stands lower at the landing than the limits want.
    LowWater {
        /// How high it stands.
        height: Height,
        /// What is wanted.
        least: Height,
    },
    /// The day is longer than the limits accept.
    LongDay {
        /// How long it is.
        time: SignedDuration,
    },
    /// The start is within the limits, with a wait.
    HeldUp {
        /// Where the longest wait is: the gate, or nothing where it is for the stream.
        gate: Option<Arc<str>>,
        /// How long all waits are together.
        wait: SignedDuration,
    },
    /// The start is within the limits, and slow.
    Slow {
        /// How much longer it is than the day's best.
        longer: SignedDuration,
    },
}

/// What kind of reason it is, the weightiest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// The boat makes no way, or cannot hold its line, or never lands.
    NoWay,
    /// A race.
    Race,
    /// A gate that is shut for too long.
    Shut,
    /// The dark, or too little light.
    Light,
    /// The water's rate.
    Drift,
    /// The height of tide at the landing.
    Height,
    /// A day that is too long.
    LongDay,
    /// A wait within the limits.
    HeldUp,
    /// Longer than the best.
    Slow,
}

impl Kind {
    /// All of them, the weightiest first.
    pub const ALL: [Kind; 9] = [
        Kind::NoWay,
        Kind::Race,
        Kind::Shut,
        Kind::Light,
        Kind::Drift,
        Kind::Height,
        Kind::LongDay,
        Kind::HeldUp,
        Kind::Slow,
    ];

    /// Its mark in a cell of a strip: a letter of every keyboard.
    pub const fn mark(self) -> char {
        match self {
            Kind::NoWay => 'n',
            Kind::Race => 'r',
            Kind::Shut => 'g',
            Kind::Light => 'd',
            Kind::Drift => 'f',
            Kind::Height => 'h',
            Kind::LongDay => 'l',
            Kind::HeldUp => 'w',
            Kind::Slow => 's',
        }
    }

    /// What the mark says.
    pub const fn meaning(self) -> &'static str {
        match self {
            Kind::NoWay => "makes no way",
            Kind::Race => "race",
            Kind::Shut => "gate shut",
            Kind::Light => "dark, or too little light left",
            Kind::Drift => "fast water",
            Kind::Height => "low water at the landing",
            Kind::LongDay => "long day",
            Kind::HeldUp => "waits",
            Kind::Slow => "slow",
        }
    }

    /// The same where there is little room.
    pub const fn in_short(self) -> &'static str {
        match self {
            Kind::NoWay => "no way",
            Kind::Shut => "gate",
            Kind::Light => "dark",
            Kind::Drift => "fast",
            Kind::Height => "low water",
            Kind::LongDay => "long",
            Kind::Race | Kind::HeldUp | Kind::Slow => self.meaning(),
        }
    }
}

impl Reason {
    /// What kind it is.
    pub const fn kind(&self) -> Kind {
        match self {
            Reason::NoWay { .. }
            | Reason::CannotHold { .. }
            | Reason::NoHeading { .. }
            | Reason::Endless { .. } => Kind::NoWay,
            Reason::Race { .. } => Kind::Race,
            Reason::Shut { .. } => Kind::Shut,
            Reason::LeavesInTheDark(_) | Reason::LandsInTheDark(_) | Reason::LittleLight { .. } => {
                Kind::Light
            }
            Reason::Drift { .. } => Kind::Drift,
            Reason::LowWater { .. } => Kind::Height,
            Reason::LongDay { .. } => Kind::LongDay,
            Reason::HeldUp { .. } => Kind::HeldUp,
            Reason::Slow { .. } => Kind::Slow,
        }
    }

    /// Whether two reasons say the same but for their figures.
    pub fn is_like(&self, other: &Reason) -> bool {
        use Reason as R;
        match (self, other) {
            (R::NoWay { leg, .. }, R::NoWay { leg: to, .. })
            | (R::CannotHold { leg, .. }, R::CannotHold { leg: to, .. })
            | (R::NoHeading { leg, .. }, R::NoHeading { leg: to, .. })
            | (R::Drift { leg, .. }, R::Drift { leg: to, .. }) => leg == to,
            (R::Race { name, state, .. }, R::Race { name: to, state: to_state, .. }) => {
                name == to && state == to_state
            }
            (R::Shut { gate, .. }, R::Shut { gate: to, .. }) => gate == to,
            (R::HeldUp { gate, .. }, R::HeldUp { gate: to, .. }) => gate == to,
            (R::LeavesInTheDark(dark), R::LeavesInTheDark(to))
            | (R::LandsInTheDark(dark), R::LandsInTheDark(to)) => {
                std::mem::discriminant(dark) == std::mem::discriminant(to)
            }
            _ => std::mem::discriminant(self) == std::mem::discriminant(other),
        }
    }

    /// Of two that are alike, the one with the worse figures.
    #[must_use]
    pub fn worse(self, other: Reason) -> Reason {
        if other.weight() > self.weight() { other } else { self }
    }

    /// A number that grows with what is wrong, of reasons that are alike.
    fn weight(&self) -> f64 {
        let time = |time: &SignedDuration| time.as_secs_f64();
        let rate = |rate: &Option<Speed>| rate.map_or(f64::NEG_INFINITY, Speed::as_knots);
        match self {
            Reason::NoWay { drift, .. } | Reason::CannotHold { drift, .. } => rate(drift),
            Reason::NoHeading { .. } => 0.0,
            Reason::Drift { rate, .. } => rate.as_knots(),
            Reason::Endless { after } => time(after),
            Reason::Race { from, to, .. } => time(&to.duration_since(*from)),
            Reason::Shut { wait, .. } => wait.as_ref().map_or(f64::INFINITY, time),
            Reason::HeldUp { wait, .. } => time(wait),
            Reason::LeavesInTheDark(dark) | Reason::LandsInTheDark(dark) => match dark {
                Dark::After(long) | Dark::Before(long) => time(long),
                Dark::AllDay => f64::INFINITY,
            },
            Reason::LittleLight { left, .. } => -time(left),
            Reason::LowWater { height, .. } => -height.as_metres(),
            Reason::LongDay { time: long } | Reason::Slow { longer: long } => time(long),
        }
    }
}
