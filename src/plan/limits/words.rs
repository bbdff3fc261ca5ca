//! Limits by name: what each is called, what it means, how it is written and read.

use std::fmt;

use jiff::SignedDuration;
use nav::tide::Height;
use nav::{Length, Speed, text};

use super::{Limits, LimitsError, RaceState};

/// One of the limits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Limit {
    /// [`Limits::longest_wait`].
    Wait,
    /// [`Limits::light_left`].
    Light,
    /// [`Limits::worst_race`].
    Race,
    /// [`Limits::greatest_drift`].
    Drift,
    /// [`Limits::least_height`].
    Height,
    /// [`Limits::longest_day`].
    Day,
    /// [`Limits::slow_percent`].
    Slow,
}

/// Why a text sets no limit.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum LimitText {
    /// It cannot be read.
    #[error("“{text}” is no {limit}; write {right}")]
    Unread {
        /// What it was to set.
        limit: Limit,
        /// What was given.
        text: String,
        /// What would be right.
        right: &'static str,
    },
    /// It is out of its bounds.
    #[error(transparent)]
    Bounds(#[from] LimitsError),
}

impl Limit {
    /// All of them, in the order in which they are shown.
    pub const ALL: [Limit; 7] = [
        Limit::Race,
        Limit::Light,
        Limit::Wait,
        Limit::Drift,
        Limit::Height,
        Limit::Day,
        Limit::Slow,
    ];

    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            Limit::Wait => "longest wait",
            Limit::Light => "light left",
            Limit::Race => "worst race",
            Limit::Drift => "greatest drift",
            Limit::Height => "least height of tide",
            Limit::Day => "longest day",
            Limit::Slow => "slow",
        }
    }

    /// What it means, in a line.
    pub const fn meaning(self) -> &'static str {
        match self {
            Limit::Wait => "all waits together, at gates or for the stream",
            Limit::Light => {
                "from the landing to the end of civil twilight; no start before it begins"
            }
            Limit::Race => "the worst state in which a race may be met",
            Limit::Drift => "the most that the water may run, whichever way, anywhere on the way",
            Limit::Height => "at the landing, above the datum of the nearest port",
            Limit::Day => "from launch to landing, stops and waits included",
            Limit::Slow => "by how much longer than the day's best a start counts as slow",
        }
    }

    /// What may be written for it.
    pub const fn right(self) -> &'static str {
        match self {
            Limit::Wait => "minutes, 40 min, or 1 h 10",
            Limit::Light | Limit::Day => "minutes, 40 min, or 1 h 10, or none",
            Limit::Race => "quiet, running or worst",
            Limit::Drift => "knots, such as 3.5, or none",
            Limit::Height => "metres above datum, such as 1.2, or none",
            Limit::Slow => "hundredths, such as 25 %",
        }
    }
}

/// Its name.
impl fmt::Display for Limit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

impl Limits {
    /// How one of the limits is written: `1 h 00`, `running`, `3.5 kn`, `1.20 m`, `25 %`, `none`.
    pub fn written(&self, limit: Limit) -> String {
        let time = |time: Option<SignedDuration>| time.map(text::duration);
        let written = match limit {
            Limit::Wait => time(Some(self.longest_wait)),
            Limit::Light => time(self.light_left),
            Limit::Race => Some(self.worst_race.to_string()),
            Limit::Drift => {
                self.greatest_drift.map(|rate| format!("{} kn", plain(rate.as_knots())))
            }
            Limit::Height => self.least_height.map(|it| format!("{} m", plain(it.as_metres()))),
            Limit::Day => time(self.longest_day),
            Limit::Slow => Some(format!("{} %", self.slow_percent)),
        };
        written.unwrap_or_else(|| "none".to_owned())
    }

    /// These limits with one of them as it is written: what [`Limits::written`] gives, and what
    /// [`Limit::right`] says.
    ///
    /// # Errors
    /// [`LimitText`] when it cannot be read or is out of its bounds.
    pub fn with(self, limit: Limit, text: &str) -> Result<Limits, LimitText> {
        let word = text.trim().to_lowercase();
        let changed = match limit {
            Limit::Wait => time(&word).map(|longest_wait| Limits { longest_wait, ..self }),
            Limit::Light => or_none(&word, time).map(|light_left| Limits { light_left, ..self }),
            Limit::Race => race(&word).map(|worst_race| Limits { worst_race, ..self }),
            Limit::Drift => {
                or_none(&word, knots).map(|greatest_drift| Limits { greatest_drift, ..self })
            }
            Limit::Height => {
                or_none(&word, metres).map(|least_height| Limits { least_height, ..self })
            }
            Limit::Day => or_none(&word, time).map(|longest_day| Limits { longest_day, ..self }),
            Limit::Slow => percent(&word).map(|slow_percent| Limits { slow_percent, ..self }),
        };
        let unread = || LimitText::Unread { limit, text: text.to_owned(), right: limit.right() };
        Ok(changed.ok_or_else(unread)?.checked()?)
    }
}

/// A number without the zeros at its end.
fn plain(number: f64) -> String {
    let text = format!("{number:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn or_none<T>(word: &str, read: impl Fn(&str) -> Option<T>) -> Option<Option<T>> {
    if word == "none" { Some(None) } else { read(word).map(Some) }
}

fn time(word: &str) -> Option<SignedDuration> {
    text::parse_duration(word).ok()
}

fn race(word: &str) -> Option<RaceState> {
    match word {
        "quiet" => Some(RaceState::Quiet),
        "running" => Some(RaceState::Running),
        "worst" | "at its worst" => Some(RaceState::Worst),
        _ => None,
    }
}

/// A number, behind which its unit may stand.
fn number(word: &str, unit: &str) -> Option<f64> {
    let number = word.strip_suffix(unit).unwrap_or(word).trim().replace(',', ".");
    number.parse().ok().filter(|number: &f64| number.is_finite())
}

fn knots(word: &str) -> Option<Speed> {
    Speed::from_knots(number(word, "kn")?).ok()
}

fn metres(word: &str) -> Option<Height> {
    Length::from_metres(number(word, "m")?).ok().map(Height::above_datum)
}

fn percent(word: &str) -> Option<u16> {
    word.trim_end_matches('%').trim().parse().ok()
}
