//! What is said of a start in a word.

use std::fmt;

/// How a start does, the best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Verdict {
    /// Within the limits, without a wait, and not slow.
    Good,
    /// Within the limits, but so much longer than the day's best as the limits call slow.
    Slow,
    /// Within the limits, with a wait on the way.
    HeldUp,
    /// Not within the limits, or it makes no way.
    Refused,
}

impl Verdict {
    /// All of them, the best first.
    pub const ALL: [Verdict; 4] = [Verdict::Good, Verdict::Slow, Verdict::HeldUp, Verdict::Refused];

    /// Whether it keeps within the limits.
    pub const fn is_acceptable(self) -> bool {
        !matches!(self, Verdict::Refused)
    }

    /// Its shade: the fuller the better, so that a strip reads in one colour.
    pub const fn shade(self) -> char {
        match self {
            Verdict::Good => '█',
            Verdict::Slow => '▓',
            Verdict::HeldUp => '▒',
            Verdict::Refused => '·',
        }
    }

    /// Its shade in signs of every keyboard.
    pub const fn ascii(self) -> char {
        match self {
            Verdict::Good => '#',
            Verdict::Slow => '=',
            Verdict::HeldUp => '-',
            Verdict::Refused => '.',
        }
    }
}

/// `good`, `slow`, `held up`, `refused`.
impl fmt::Display for Verdict {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Verdict::Good => "good",
            Verdict::Slow => "slow",
            Verdict::HeldUp => "held up",
            Verdict::Refused => "refused",
        })
    }
}
