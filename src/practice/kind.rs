//! The kinds of exercise, the skills that they train, and how hard they are.

use std::fmt;
use std::str::FromStr;

macro_rules! kinds {
    ($($(#[$doc:meta])* $kind:ident $name:literal $skill:ident $what:literal,)*) => {
        /// A kind of exercise.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Kind { $($(#[$doc])* $kind,)* }

        impl Kind {
            /// All of them, from the first that one learns.
            pub const ALL: &'static [Kind] = &[$(Kind::$kind),*];

            /// Its name on the command line and in files.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $(Kind::$kind => $name),* }
            }

            /// What it asks for, in a few words.
            #[must_use]
            pub const fn what(self) -> &'static str {
                match self { $(Kind::$kind => $what),* }
            }

            /// What it trains.
            #[must_use]
            pub const fn skill(self) -> Skill {
                match self { $(Kind::$kind => Skill::$skill),* }
            }
        }
    };
}

kinds! {
    /// The six-figure reference of a mark.
    Reference "reference" References "the six-figure reference of a mark",
    /// What stands at a reference.
    Find "find" References "the place of a reference",
    /// Coordinates cut to four, six or eight figures.
    Figures "figures" References "four, six or eight figures of coordinates",
    /// The letters of a square of 100 km.
    Letters "letters" References "the letters of a square",
    /// Latitude and longitude of a mark.
    LatLon "latlon" Positions "latitude and longitude of a mark",
    /// A bearing without instruments.
    ByEye "bearing-eye" Bearings "a bearing by eye",
    /// A bearing by protractor.
    Bearing "bearing" Bearings "a bearing by measuring",
    /// The bearing back.
    Back "back" Bearings "the back bearing",
    /// A bearing off the chart for the compass.
    ToMagnetic "to-magnetic" Norths "grid to magnetic",
    /// A bearing off the compass for the chart.
    ToGrid "to-grid" Norths "magnetic to grid",
    /// A distance without instruments.
    DistanceByEye "distance-eye" Distances "a distance by eye",
    /// A distance by the grid's squares.
    DistanceBySquares "squares" Distances "a distance by grid squares",
    /// A distance along the shore.
    AlongShore "shore" Distances "a distance along a shore",
    /// Time from distance and pace.
    Time "time" Pace "time from distance and pace",
    /// Distance from time and pace.
    Distance "distance" Pace "distance from time and pace",
    /// Height of tide by the rule of twelfths.
    Twelfths "twelfths" Tides "the height of tide by twelfths",
    /// A stream's rate by the 50/90 rule, between neaps and springs.
    Rate "rate" Streams "a stream's rate by the 50/90 rule",
    /// The heading that holds a line across a stream.
    Heading "heading" Streams "a heading across a stream",
    /// A position from two bearings.
    Fix "fix" Fixes "a fix from two bearings",
    /// Where a heading leads in a given time.
    Where "where" Fixes "where we shall be after a time",
    /// When to leave to be somewhere in time.
    Leave "leave" Plans "when we must leave",
    /// The wrong entry of a route card.
    Card "card" Plans "the error on a route card",
}

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// A name that no kind of exercise has.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("“{0}” is no kind of exercise; there is {names}", names = names())]
pub struct NoKind(pub String);

fn names() -> String {
    let names: Vec<&str> = Kind::ALL.iter().map(|kind| kind.name()).collect();
    names.join(", ")
}

impl FromStr for Kind {
    type Err = NoKind;

    fn from_str(text: &str) -> Result<Kind, NoKind> {
        let wanted = text.trim().to_lowercase();
        let found = Kind::ALL.iter().find(|kind| kind.name() == wanted);
        found.copied().ok_or_else(|| NoKind(text.to_owned()))
    }
}

/// What exercises train.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Skill {
    /// Grid references, both ways.
    References,
    /// Latitude and longitude.
    Positions,
    /// Directions on the chart.
    Bearings,
    /// True, grid and magnetic north.
    Norths,
    /// Distances on the chart.
    Distances,
    /// Distance, pace and time.
    Pace,
    /// Height of tide.
    Tides,
    /// Streams.
    Streams,
    /// Where we are and shall be.
    Fixes,
    /// Days as a whole.
    Plans,
}

impl Skill {
    /// All of them, in the order in which they are learnt.
    pub const ALL: &'static [Skill] = &[
        Skill::References,
        Skill::Positions,
        Skill::Bearings,
        Skill::Norths,
        Skill::Distances,
        Skill::Pace,
        Skill::Tides,
        Skill::Streams,
        Skill::Fixes,
        Skill::Plans,
    ];

    /// Its name: `grid references`.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Skill::References => "grid references",
            Skill::Positions => "latitude and longitude",
            Skill::Bearings => "bearings",
            Skill::Norths => "the three norths",
            Skill::Distances => "distances",
            Skill::Pace => "pace and time",
            Skill::Tides => "height of tide",
            Skill::Streams => "streams",
            Skill::Fixes => "fixes",
            Skill::Plans => "planning",
        }
    }
}

impl Skill {
    /// How many minutes a paper allows for a question of it by hand (common practice, no published source).
    #[must_use]
    pub const fn minutes(self) -> u16 {
        match self {
            Skill::Tides | Skill::Streams => 4,
            Skill::Fixes | Skill::Plans => 5,
            _ => 2,
        }
    }
}

impl fmt::Display for Skill {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// How hard a question is: rounder numbers and nearer places, or finer and farther ones.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Level {
    /// Round numbers, one step.
    #[default]
    First,
    /// Numbers as they come.
    Second,
    /// Everything at once.
    Third,
}

/// A number that no level has.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("“{0}” is no level; it is 1, 2 or 3")]
pub struct NoLevel(pub String);

impl Level {
    /// From the easiest.
    pub const ALL: [Level; 3] = [Level::First, Level::Second, Level::Third];

    /// 1 to 3.
    #[must_use]
    pub const fn number(self) -> u8 {
        self as u8 + 1
    }

    /// The level of a number.
    ///
    /// # Errors
    /// [`NoLevel`] unless it is 1, 2 or 3.
    pub fn from_number(number: u8) -> Result<Level, NoLevel> {
        let found = Level::ALL.into_iter().find(|level| level.number() == number);
        found.ok_or_else(|| NoLevel(number.to_string()))
    }

    /// The one of three that belongs to this level.
    pub(crate) fn of<T: Copy>(self, three: [T; 3]) -> T {
        three[self as usize]
    }
}

impl FromStr for Level {
    type Err = NoLevel;

    fn from_str(text: &str) -> Result<Level, NoLevel> {
        let number = text.trim().parse().map_err(|_| NoLevel(text.to_owned()))?;
        Level::from_number(number)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_lead_back_and_differ() {
        for kind in Kind::ALL {
            assert_eq!(kind.name().parse(), Ok(*kind));
        }
        assert!("nothing".parse::<Kind>().unwrap_err().to_string().contains("reference, find,"));
        assert_eq!("3".parse(), Ok(Level::Third));
        assert_eq!(
            "4".parse::<Level>().unwrap_err().to_string(),
            "“4” is no level; it is 1, 2 or 3"
        );
    }

    #[test]
    fn every_skill_is_trained() {
        for skill in Skill::ALL {
            assert!(Kind::ALL.iter().any(|kind| kind.skill() == *skill), "{skill}");
        }
    }
}
