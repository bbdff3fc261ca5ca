//! The signs of the chart. Shapes follow the habit of printed charts (IHO INT 1) as far as a
//! character cell allows: a cross for a rock under water, an asterisk for one that dries, a star
//! for a light. Each has a typewriter's stand-in.

use super::DotSet;
use crate::theme::Role;
use chart::model::{HazardKind, MarkKind, PlaceKind};

/// What a sign on the chart stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Sign {
    /// A waypoint without a number's glyph.
    Waypoint,
    /// A rock that dries.
    DryingRock,
    /// A rock under water.
    SunkenRock,
    /// A bank on which swell breaks.
    BreakingBank,
    /// A wreck.
    Wreck,
    /// Fixed fishing gear.
    FixedGear,
    /// A way that ships take.
    Fairway,
    /// A lit structure.
    Light,
    /// An unlit structure.
    Beacon,
    /// A floating mark.
    Buoy,
    /// A pile of stones.
    Cairn,
    /// A tower, chapel or chimney.
    Tower,
    /// A place to land.
    Landing,
    /// A settlement.
    Settlement,
    /// A hill.
    Hill,
    /// A place at which the tidal stream was measured.
    Station,
    /// A narrows that the stream shuts.
    Gate,
}

/// How a sign is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Symbol {
    /// The character.
    pub glyph: char,
    /// The typewriter's stand-in.
    pub ascii: char,
    /// The part it plays.
    pub role: Role,
    /// What it means, in the words of a legend.
    pub meaning: &'static str,
}

impl Symbol {
    /// The character to draw with the given dots.
    #[must_use]
    pub fn character(&self, dots: DotSet) -> char {
        match dots {
            DotSet::Ascii => self.ascii,
            _ => self.glyph,
        }
    }
}

impl Sign {
    /// All signs, in the order of a legend.
    pub const ALL: [Sign; 17] = [
        Sign::Waypoint,
        Sign::Landing,
        Sign::DryingRock,
        Sign::SunkenRock,
        Sign::BreakingBank,
        Sign::Wreck,
        Sign::FixedGear,
        Sign::Fairway,
        Sign::Light,
        Sign::Beacon,
        Sign::Buoy,
        Sign::Cairn,
        Sign::Tower,
        Sign::Settlement,
        Sign::Hill,
        Sign::Station,
        Sign::Gate,
    ];

    /// How it is drawn.
    #[must_use]
    pub fn symbol(self) -> Symbol {
        let (glyph, ascii, role, meaning) = match self {
            Sign::Waypoint => ('●', 'o', Role::Waypoint, "waypoint"),
            Sign::DryingRock => ('✱', '*', Role::Hazard, "rock that dries"),
            Sign::SunkenRock => ('✚', '+', Role::Hazard, "rock under water"),
            Sign::BreakingBank => ('≈', '%', Role::Hazard, "bank that breaks"),
            Sign::Wreck => ('‡', 'W', Role::Hazard, "wreck"),
            Sign::FixedGear => ('▦', '#', Role::Hazard, "fixed fishing gear"),
            Sign::Fairway => ('⇆', '=', Role::Hazard, "fairway"),
            Sign::Light => ('★', 'L', Role::Mark, "light"),
            Sign::Beacon => ('┸', 'B', Role::Mark, "beacon"),
            Sign::Buoy => ('◆', 'b', Role::Mark, "buoy"),
            Sign::Cairn => ('∴', 'c', Role::Mark, "cairn"),
            Sign::Tower => ('♜', 'T', Role::Mark, "tower"),
            Sign::Landing => ('△', '^', Role::Landing, "landing"),
            Sign::Settlement => ('■', '@', Role::Settlement, "settlement"),
            Sign::Hill => ('▴', 'A', Role::Name, "hill"),
            Sign::Station => ('◇', 'S', Role::Stream, "station of the tidal stream"),
            Sign::Gate => ('╫', 'G', Role::Stream, "tidal gate"),
        };
        Symbol { glyph, ascii, role, meaning }
    }

    /// The sign of a hazard.
    #[must_use]
    pub fn of_hazard(kind: HazardKind) -> Sign {
        match kind {
            HazardKind::DryingRock => Sign::DryingRock,
            HazardKind::SunkenRock => Sign::SunkenRock,
            HazardKind::BreakingBank => Sign::BreakingBank,
            HazardKind::Wreck => Sign::Wreck,
            HazardKind::FixedGear => Sign::FixedGear,
            HazardKind::Fairway => Sign::Fairway,
        }
    }

    /// The sign of a mark.
    #[must_use]
    pub fn of_mark(kind: MarkKind) -> Sign {
        match kind {
            MarkKind::Light => Sign::Light,
            MarkKind::Beacon => Sign::Beacon,
            MarkKind::Buoy => Sign::Buoy,
            MarkKind::Cairn => Sign::Cairn,
            MarkKind::Tower => Sign::Tower,
        }
    }

    /// The sign of a place, if its kind has one.
    #[must_use]
    pub fn of_place(kind: PlaceKind) -> Option<Sign> {
        match kind {
            PlaceKind::Settlement => Some(Sign::Settlement),
            PlaceKind::Hill => Some(Sign::Hill),
            _ => None,
        }
    }
}

/// The number of a waypoint, counted from one, as a single character: ringed figures up to
/// twenty. Larger ones have wide glyphs or none in common fonts and are written beside a dot.
#[must_use]
pub fn waypoint_number(number: usize, dots: DotSet) -> Option<char> {
    let figure = u32::try_from(number).ok()?;
    match (dots, figure) {
        (DotSet::Ascii, 1..=9) => char::from_digit(figure, 10),
        (DotSet::Ascii, _) => None,
        (_, 1..=20) => char::from_u32('①' as u32 + figure - 1),
        _ => None,
    }
}
