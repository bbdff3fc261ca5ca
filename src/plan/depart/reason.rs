//! Why a start is not good, in plain words.

use std::fmt::Write;
use std::sync::Arc;

use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use nav::tide::Height;
use nav::{Speed, text};

use crate::RaceState;

/// Why a start is slow, held up or refused.
#[derive(Debug, Clone, PartialEq)]
pub enum Reason {
    /// The boat makes no way along its line against the stream.
    NoWay {
        /// On which leg, from zero.
        leg: usize,
        /// When.
        at: Timestamp,
        /// How fast the water runs there.
        drift: Speed,
    },
    /// The stream across the line is faster than the boat.
    CannotHold {
        /// On which leg, from zero.
        leg: usize,
        /// When.
        at: Timestamp,
        /// How fast the water runs there.
        drift: Speed,
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
    /// Waits are longer than the limits accept.
    Wait {
        /// Where: the gate, or nothing where it is the stream that is waited for.
        gate: Option<Arc<str>>,
        /// How long all of them are together.
        wait: SignedDuration,
    },
    /// It is dark when the group leaves.
    LeavesInTheDark {
        /// How long before civil twilight begins; nothing where it does not.
        before: Option<SignedDuration>,
    },
    /// It is dark when the group lands.
    LandsInTheDark {
        /// How long after the end of civil twilight; nothing where there was none.
        after: Option<SignedDuration>,
    },
    /// Less light is left at the landing than the limits want.
    LittleLight {
        /// What is left.
        left: SignedDuration,
        /// What is wanted.
        least: SignedDuration,
    },
    /// The water runs faster than the limits accept.
    Drift {
        /// On which leg, from zero.
        leg: usize,
        /// When.
        at: Timestamp,
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
        /// Where: the gate, or nothing where it is the stream that is waited for.
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
    /// The dark, or too little light.
    Light,
    /// A wait that is too long.
    Wait,
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
        Kind::Light,
        Kind::Wait,
        Kind::Drift,
        Kind::Height,
        Kind::LongDay,
        Kind::HeldUp,
        Kind::Slow,
    ];

    /// Its mark in a cell of a strip, in a letter of every keyboard.
    pub const fn mark(self) -> char {
        match self {
            Kind::NoWay => 'n',
            Kind::Race => 'r',
            Kind::Light => 'd',
            Kind::Wait => 'w',
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
            Kind::Light => "dark, or too little light left",
            Kind::Wait | Kind::HeldUp => "wait",
            Kind::Drift => "fast water",
            Kind::Height => "low water at the landing",
            Kind::LongDay => "long day",
            Kind::Slow => "slow",
        }
    }
}

impl Reason {
    /// What kind it is.
    pub const fn kind(&self) -> Kind {
        match self {
            Reason::NoWay { .. } | Reason::CannotHold { .. } | Reason::Endless { .. } => {
                Kind::NoWay
            }
            Reason::Race { .. } => Kind::Race,
            Reason::Wait { .. } => Kind::Wait,
            Reason::LeavesInTheDark { .. }
            | Reason::LandsInTheDark { .. }
            | Reason::LittleLight { .. } => Kind::Light,
            Reason::Drift { .. } => Kind::Drift,
            Reason::LowWater { .. } => Kind::Height,
            Reason::LongDay { .. } => Kind::LongDay,
            Reason::HeldUp { .. } => Kind::HeldUp,
            Reason::Slow { .. } => Kind::Slow,
        }
    }

    /// The reason in words, with its figures and clock times: `meets Quelild Tumble at its worst, 11:20
    /// to 11:45`.
    pub fn words(&self, zone: &TimeZone) -> String {
        let clock = |at: Timestamp| text::clock(&at.to_zoned_datetime(zone.clone()));
        let mut words = self.gist(Figures::Own);
        let times = match self {
            Reason::NoWay { at, .. } | Reason::CannotHold { at, .. } | Reason::Drift { at, .. } => {
                format!(", {}", clock(*at))
            }
            Reason::Race { from, to, .. } => format!(", {} to {}", clock(*from), clock(*to)),
            _ => String::new(),
        };
        // Writing to a string cannot fail.
        let _ = words.write_str(&times);
        words
    }

    /// The same without clock times, for many starts of which this one is the worst: `makes no way on
    /// leg 3 against up to 3.4 kn`.
    pub fn at_worst(&self) -> String {
        self.gist(Figures::Worst)
    }

    fn gist(&self, figures: Figures) -> String {
        let up_to = figures.up_to();
        match self {
            Reason::NoWay { leg, drift, .. } => {
                format!("makes no way on leg {} against {up_to}{}", leg + 1, knots(*drift))
            }
            Reason::CannotHold { leg, drift, .. } => {
                format!("cannot hold the line of leg {} across {up_to}{}", leg + 1, knots(*drift))
            }
            Reason::Endless { after } => format!("has not landed after {}", text::duration(*after)),
            Reason::Race { name, state, .. } => format!("meets {name} {state}"),
            Reason::Wait { gate: Some(gate), wait } => {
                format!("{gate} shut, would wait {up_to}{}", text::duration(*wait))
            }
            Reason::Wait { gate: None, wait } => {
                format!("would wait {up_to}{} for the stream", text::duration(*wait))
            }
            Reason::LeavesInTheDark { .. }
            | Reason::LandsInTheDark { .. }
            | Reason::LittleLight { .. } => self.light(figures),
            Reason::Drift { leg, rate, .. } => {
                format!("water of {up_to}{} on leg {}", knots(*rate), leg + 1)
            }
            Reason::LowWater { height, least } => format!(
                "tide of {}{} at the landing, {} wanted",
                figures.down_to(),
                metres(*height),
                metres(*least)
            ),
            Reason::LongDay { time } => format!("a day of {up_to}{}", text::duration(*time)),
            Reason::HeldUp { gate: Some(gate), wait } => {
                format!("waits {up_to}{} for {gate}", text::duration(*wait))
            }
            Reason::HeldUp { gate: None, wait } => {
                format!("waits {up_to}{} for the stream", text::duration(*wait))
            }
            Reason::Slow { longer } => {
                format!("{up_to}{} longer than the best", text::duration(*longer))
            }
        }
    }

    fn light(&self, figures: Figures) -> String {
        let up_to = figures.up_to();
        match self {
            Reason::LeavesInTheDark { before: Some(time) } => {
                format!("leaves {up_to}{} before civil twilight begins", text::duration(*time))
            }
            Reason::LandsInTheDark { after: Some(time) } => {
                format!("lands {up_to}{} after the end of civil twilight", text::duration(*time))
            }
            Reason::LittleLight { left, least } => format!(
                "lands {}{} before the end of civil twilight, {} wanted",
                figures.down_to(),
                text::duration(*left),
                text::duration(*least)
            ),
            Reason::LandsInTheDark { after: None } => "lands in the dark of the season".to_owned(),
            _ => "leaves in the dark of the season".to_owned(),
        }
    }

    /// Whether two reasons say the same but for their figures.
    pub fn is_like(&self, other: &Reason) -> bool {
        use Reason::{CannotHold, Drift, HeldUp, NoWay, Race, Wait};
        match (self, other) {
            (NoWay { leg, .. }, NoWay { leg: to, .. })
            | (CannotHold { leg, .. }, CannotHold { leg: to, .. })
            | (Drift { leg, .. }, Drift { leg: to, .. }) => leg == to,
            (Race { name, state, .. }, Race { name: to, state: to_state, .. }) => {
                name == to && state == to_state
            }
            (Wait { gate, .. }, Wait { gate: to, .. })
            | (HeldUp { gate, .. }, HeldUp { gate: to, .. }) => gate == to,
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
        match self {
            Reason::NoWay { drift, .. }
            | Reason::CannotHold { drift, .. }
            | Reason::Drift { rate: drift, .. } => drift.as_knots(),
            Reason::Endless { after } => time(after),
            Reason::Race { from, to, .. } => time(&to.duration_since(*from)),
            Reason::Wait { wait, .. } | Reason::HeldUp { wait, .. } => time(wait),
            Reason::LeavesInTheDark { before: long } | Reason::LandsInTheDark { after: long } => {
                long.as_ref().map_or(f64::INFINITY, time)
            }
            Reason::LittleLight { left, .. } => -time(left),
            Reason::LowWater { height, .. } => -height.as_metres(),
            Reason::LongDay { time: long } | Reason::Slow { longer: long } => time(long),
        }
    }
}

/// Whose figures are written.
#[derive(Debug, Clone, Copy)]
enum Figures {
    /// A start's own.
    Own,
    /// The worst of many.
    Worst,
}

impl Figures {
    const fn up_to(self) -> &'static str {
        match self {
            Figures::Own => "",
            Figures::Worst => "up to ",
        }
    }

    const fn down_to(self) -> &'static str {
        match self {
            Figures::Own => "",
            Figures::Worst => "down to ",
        }
    }
}

fn knots(rate: Speed) -> String {
    format!("{:.1} kn", rate.as_knots())
}

fn metres(height: Height) -> String {
    // Adding nothing takes the sign off a zero.
    format!("{:.1} m", (height.as_metres() * 10.0).round() / 10.0 + 0.0)
}
