//! The states of a race.

use std::fmt;

/// How a race runs, the quietest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum RaceState {
    /// It lies down.
    Quiet,
    /// It runs.
    Running,
    /// It runs at its worst.
    Worst,
}

/// `quiet`, `running`, `at its worst`.
impl fmt::Display for RaceState {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            RaceState::Quiet => "quiet",
            RaceState::Running => "running",
            RaceState::Worst => "at its worst",
        })
    }
}
