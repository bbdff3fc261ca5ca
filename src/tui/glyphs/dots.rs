//! How a character cell is cut into dots, and the characters that show them.

use ratatui::symbols::braille::BRAILLE;
use ratatui::symbols::pixel::{OCTANTS, QUADRANTS, SEXTANTS};
use std::str::FromStr;

/// A set of characters that draws dots.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum DotSet {
    /// Two by four small dots; in every common font.
    #[default]
    Braille,
    /// Two by four blocks (Unicode 16).
    Octant,
    /// Two by three blocks (Unicode 13).
    Sextant,
    /// Two by two blocks.
    Quadrant,
    /// One by two blocks.
    HalfBlock,
    /// One dot.
    Dot,
    /// Characters of a typewriter.
    Ascii,
}

/// A name that belongs to no dot set.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnknownDots(String);

impl std::fmt::Display for UnknownDots {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let names: Vec<_> = DotSet::ALL.iter().map(|set| set.name()).collect();
        write!(f, "no dots are called '{}'; there are {}", self.0, names.join(", "))
    }
}

impl std::error::Error for UnknownDots {}

impl FromStr for DotSet {
    type Err = UnknownDots;

    fn from_str(name: &str) -> Result<DotSet, UnknownDots> {
        let found = DotSet::ALL.into_iter().find(|set| set.name() == name);
        found.ok_or_else(|| UnknownDots(name.to_owned()))
    }
}

impl DotSet {
    /// All sets, the finest first.
    pub const ALL: [DotSet; 7] = [
        DotSet::Braille,
        DotSet::Octant,
        DotSet::Sextant,
        DotSet::Quadrant,
        DotSet::HalfBlock,
        DotSet::Dot,
        DotSet::Ascii,
    ];

    /// Its name on the command line and in settings.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            DotSet::Braille => "braille",
            DotSet::Octant => "octant",
            DotSet::Sextant => "sextant",
            DotSet::Quadrant => "quadrant",
            DotSet::HalfBlock => "half-block",
            DotSet::Dot => "dot",
            DotSet::Ascii => "ascii",
        }
    }

    /// How many dots a cell is wide and high.
    #[must_use]
    pub fn size(self) -> (u8, u8) {
        match self {
            DotSet::Braille | DotSet::Octant => (2, 4),
            DotSet::Sextant => (2, 3),
            DotSet::Quadrant => (2, 2),
            DotSet::HalfBlock | DotSet::Ascii => (1, 2),
            DotSet::Dot => (1, 1),
        }
    }

    /// Whether its dots are blocks that fill the cell when all are set.
    #[must_use]
    pub fn is_blocks(self) -> bool {
        matches!(self, DotSet::Octant | DotSet::Sextant | DotSet::Quadrant | DotSet::HalfBlock)
    }

    /// The character that shows the given dots: row after row, the first dot in the lowest bit.
    #[must_use]
    pub fn glyph(self, dots: u8) -> char {
        let index = usize::from(dots);
        match self {
            _ if dots == 0 => ' ',
            DotSet::Braille => BRAILLE[index],
            DotSet::Octant => OCTANTS[index],
            DotSet::Sextant => SEXTANTS[index & 63],
            DotSet::Quadrant => QUADRANTS[index & 15],
            DotSet::HalfBlock => [' ', '▀', '▄', '█'][index & 3],
            DotSet::Dot => '•',
            DotSet::Ascii => [' ', '\'', '.', ':'][index & 3],
        }
    }
}

/// The size of a glyph in dots and the dots set in it, if it is one that draws dots.
pub(crate) fn dots_of(glyph: char) -> Option<(u8, u8, u8)> {
    let at =
        |table: &[char]| table.iter().position(|g| *g == glyph).and_then(|i| u8::try_from(i).ok());
    let found = |size: (u8, u8), table: &[char]| at(table).map(|bits| (size.0, size.1, bits));
    found((2, 4), &BRAILLE)
        .or_else(|| found((2, 2), &QUADRANTS))
        .or_else(|| found((2, 3), &SEXTANTS))
        .or_else(|| found((2, 4), &OCTANTS))
}
