//! What a chart to be made shall be like, and the words for it.

use std::fmt::{Display, Formatter};
use std::str::FromStr;

use super::SIDES_KM;

/// What kind of coast.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Character {
    /// An archipelago with something of everything: long inlets, sounds, skerries.
    #[default]
    Mixed,
    /// A mainland behind hundreds of low islands and rocks, with leads between them.
    Skerries,
    /// A high mainland cut by long deep inlets with sills and narrows, islands before it.
    SeaLochs,
    /// A low mainland, barrier islands before it, tidal inlets and drying flats between.
    Lagoon,
    /// A steep straight mainland with few coves, stacks off its capes.
    Cliffs,
    /// A mainland parted by a wide river mouth with banks and channels.
    Estuary,
}

impl Character {
    /// All of them.
    pub const ALL: &'static [Character] = &[
        Character::Mixed,
        Character::Skerries,
        Character::SeaLochs,
        Character::Lagoon,
        Character::Cliffs,
        Character::Estuary,
    ];

    /// The word for it on the command line.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Character::Mixed => "mixed",
            Character::Skerries => "skerries",
            Character::SeaLochs => "sea-lochs",
            Character::Lagoon => "lagoon",
            Character::Cliffs => "cliffs",
            Character::Estuary => "estuary",
        }
    }

    /// Between which slopes the roughness of its longest shore lies, as
    /// [`measure::roughness`](crate::measure::roughness) has it, on charts of 20 km and more.
    ///
    /// Published are -0.02 for South Africa, as smooth a coast as there is, -0.13 for Australia and -0.25
    /// for the indented west coast of Britain (L. F. Richardson, General Systems Yearbook 6 (1961), as
    /// B. Mandelbrot, Science 156 (1967), has it; from memory), by dividers of tens and hundreds of
    /// kilometres: which kind of coast is like which of them is our own choice. Cliffs and the sides of
    /// an estuary are like Australia's coast, within 0.07; sounds, lochs, creeks and skerries go from there
    /// to Britain's and, where the shore is all islands and creeks, somewhat beyond.
    #[must_use]
    pub fn slopes(self) -> (f64, f64) {
        match self {
            Character::Mixed => (-0.27, -0.13),
            Character::Skerries => (-0.36, -0.13),
            Character::SeaLochs => (-0.27, -0.11),
            Character::Lagoon => (-0.32, -0.13),
            Character::Cliffs => (-0.20, -0.08),
            Character::Estuary => (-0.17, -0.07),
        }
    }
}

/// How exposed the coast is, how fast its streams run, how sparse its landings are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Difficulty {
    /// Streams of seven tenths, landings a quarter nearer to each other, half as many islands again
    /// before the coast.
    Gentle,
    /// The measure of the others.
    #[default]
    Moderate,
    /// Streams of a third more, landings at twice the distance, half as many islands.
    Hard,
}

impl Difficulty {
    /// All of them, the easiest first.
    pub const ALL: &'static [Difficulty] =
        &[Difficulty::Gentle, Difficulty::Moderate, Difficulty::Hard];

    /// The word for it on the command line.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Difficulty::Gentle => "gentle",
            Difficulty::Moderate => "moderate",
            Difficulty::Hard => "hard",
        }
    }

    /// How fast its streams are beside moderate ones.
    pub(super) fn streams(self) -> f64 {
        match self {
            Difficulty::Gentle => 0.7,
            Difficulty::Moderate => 1.0,
            Difficulty::Hard => 1.35,
        }
    }

    /// How far apart its landings are beside those of a moderate chart.
    pub(super) fn landings(self) -> f64 {
        match self {
            Difficulty::Gentle => 0.8,
            Difficulty::Moderate => 1.0,
            Difficulty::Hard => 2.0,
        }
    }

    /// How many islands lie before its coast beside those of a moderate chart.
    pub(super) fn shelter(self) -> f64 {
        match self {
            Difficulty::Gentle => 1.5,
            Difficulty::Moderate => 1.0,
            Difficulty::Hard => 0.5,
        }
    }
}

/// The mean range of spring tides.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct TideRange {
    centimetres: u32,
}

/// The least and the greatest range, in centimetres.
const RANGES: (u32, u32) = (50, 800);

impl TideRange {
    /// 1 m.
    pub const MICRO: TideRange = TideRange { centimetres: 100 };
    /// 3 m.
    pub const MESO: TideRange = TideRange { centimetres: 300 };
    /// 6 m.
    pub const MACRO: TideRange = TideRange { centimetres: 600 };
    /// 3.94 m, that of the built-in practice chart.
    pub const USUAL: TideRange = TideRange { centimetres: 394 };

    /// A range in metres, to the centimetre.
    ///
    /// # Errors
    /// [`WishError::Tide`] when it is not within 0.5 to 8 m.
    pub fn from_metres(metres: f64) -> Result<TideRange, WishError> {
        let centimetres = (metres * 100.0).round();
        let (least, most) = RANGES;
        if (f64::from(least)..=f64::from(most)).contains(&centimetres) {
            return Ok(TideRange { centimetres: centimetres as u32 });
        }
        Err(WishError::Tide(metres.to_string()))
    }

    /// The range in metres.
    #[must_use]
    pub fn as_metres(self) -> f64 {
        f64::from(self.centimetres) / 100.0
    }

    /// How large it is beside the usual one.
    pub(super) fn share(self) -> f64 {
        f64::from(self.centimetres) / f64::from(TideRange::USUAL.centimetres)
    }
}

impl Default for TideRange {
    fn default() -> Self {
        TideRange::USUAL
    }
}

impl Display for TideRange {
    fn fmt(&self, f: &mut Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:.1} m", self.as_metres())
    }
}

/// What a chart to be made shall be like.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wishes {
    /// What it is called; without one the maker gives it a name.
    pub title: Option<String>,
    /// From west to east, in whole kilometres.
    pub width_km: u32,
    /// From south to north, in whole kilometres.
    pub height_km: u32,
    /// What kind of coast it is.
    pub character: Character,
    /// How far the tide rises and falls at mean springs.
    pub tide: TideRange,
    /// How much it asks of a paddler.
    pub difficulty: Difficulty,
}

impl Default for Wishes {
    /// A moderate archipelago of 30 by 22 km with the usual tide, which the maker names.
    fn default() -> Self {
        Self {
            title: None,
            width_km: 30,
            height_km: 22,
            character: Character::default(),
            tide: TideRange::default(),
            difficulty: Difficulty::default(),
        }
    }
}

/// A wish that cannot be understood.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum WishError {
    /// No such character.
    #[error("there is no character \"{0}\"; there are {all}", all = list(Character::ALL, Character::name))]
    Character(String),
    /// No such difficulty.
    #[error("there is no difficulty \"{0}\"; there are {all}", all = list(Difficulty::ALL, Difficulty::name))]
    Difficulty(String),
    /// No such range of tide.
    #[error("\"{0}\" is no range of tide; micro (1 m), meso (3 m), macro (6 m), or 0.5m to 8m")]
    Tide(String),
    /// No such size.
    #[error(
        "\"{0}\" is no size; width by height in whole kilometres, each {least} to {most}, as in 30x22",
        least = SIDES_KM.0, most = SIDES_KM.1
    )]
    Size(String),
}

fn list<T: Copy>(all: &[T], name: fn(T) -> &'static str) -> String {
    let names: Vec<&str> = all.iter().map(|one| name(*one)).collect();
    names.join(", ")
}

impl FromStr for Character {
    type Err = WishError;

    fn from_str(text: &str) -> Result<Self, WishError> {
        let mut all = Character::ALL.iter().copied();
        all.find(|one| one.name() == text).ok_or_else(|| WishError::Character(text.to_owned()))
    }
}

impl FromStr for Difficulty {
    type Err = WishError;

    fn from_str(text: &str) -> Result<Self, WishError> {
        let mut all = Difficulty::ALL.iter().copied();
        all.find(|one| one.name() == text).ok_or_else(|| WishError::Difficulty(text.to_owned()))
    }
}

impl FromStr for TideRange {
    type Err = WishError;

    /// `micro`, `meso`, `macro`, or metres with or without their unit: `3m`, `4.5 m`, `6`.
    fn from_str(text: &str) -> Result<Self, WishError> {
        match text {
            "micro" => return Ok(TideRange::MICRO),
            "meso" => return Ok(TideRange::MESO),
            "macro" => return Ok(TideRange::MACRO),
            _ => {}
        }
        let wrong = || WishError::Tide(text.to_owned());
        let number = text.strip_suffix('m').unwrap_or(text).trim_end();
        let metres = number.parse::<f64>().map_err(|_| wrong())?;
        TideRange::from_metres(metres).map_err(|_| wrong())
    }
}

/// Width and height in whole kilometres, from `30x22`.
///
/// # Errors
/// [`WishError::Size`] for anything else, and for a side not within [`SIDES_KM`].
pub fn size(text: &str) -> Result<(u32, u32), WishError> {
    let wrong = || WishError::Size(text.to_owned());
    let (width, height) = text.split_once('x').ok_or_else(wrong)?;
    let side = |text: &str| {
        let side = text.trim().parse::<u32>().ok();
        side.filter(|side| (SIDES_KM.0..=SIDES_KM.1).contains(side)).ok_or_else(wrong)
    };
    Ok((side(width)?, side(height)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_read_and_what_is_none_is_told_what_there_is() {
        for character in Character::ALL {
            assert_eq!(character.name().parse(), Ok(*character));
        }
        for difficulty in Difficulty::ALL {
            assert_eq!(difficulty.name().parse(), Ok(*difficulty));
        }
        let error = "fjord".parse::<Character>().unwrap_err().to_string();
        assert_eq!(
            error,
            "there is no character \"fjord\"; there are mixed, skerries, sea-lochs, lagoon, \
             cliffs, estuary"
        );
        let error = "easy".parse::<Difficulty>().unwrap_err().to_string();
        assert_eq!(error, "there is no difficulty \"easy\"; there are gentle, moderate, hard");
    }

    #[test]
    fn ranges_are_read_in_metres_or_as_words() {
        for (text, metres) in
            [("micro", 1.0), ("macro", 6.0), ("3m", 3.0), ("4.5 m", 4.5), ("8", 8.0)]
        {
            assert_eq!(text.parse::<TideRange>().unwrap().as_metres(), metres);
        }
        for text in ["", "m", "0.4", "8.1m", "NaN", "-3m", "3ft"] {
            let error = text.parse::<TideRange>().unwrap_err().to_string();
            assert!(error.ends_with("micro (1 m), meso (3 m), macro (6 m), or 0.5m to 8m"));
        }
    }

    #[test]
    fn sizes_are_width_by_height() {
        assert_eq!(size("30x22"), Ok((30, 22)));
        for text in ["30", "30x", "5x22", "30x81", "30 by 22", "-6x22"] {
            assert!(size(text).is_err(), "{text}");
        }
    }
}
