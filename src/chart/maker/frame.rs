//! A chart seen from the land: along the coast and off it.

use super::dice::{Dice, Xy};

/// On which side of the chart the mainland lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Side {
    South,
    West,
    North,
    East,
}

/// Which way a chart's mainland lies: places as metres along the coast and metres off the side of the
/// chart that is land.
#[derive(Debug, Clone, Copy)]
pub(super) struct Frame {
    side: Side,
    size: Xy,
}

impl Frame {
    /// Land along a long side of the chart, mostly.
    pub(super) fn along_coast(dice: &mut Dice, size: Xy) -> Self {
        let low_and_wide = size.0 >= size.1;
        let usual = dice.chance(0.8);
        Self::new(dice, size, low_and_wide == usual)
    }

    /// Land at a short side of the chart, mostly, so that what leads into it is long.
    pub(super) fn up_country(dice: &mut Dice, size: Xy) -> Self {
        let low_and_wide = size.0 > size.1;
        let usual = dice.chance(0.9);
        Self::new(dice, size, low_and_wide != usual)
    }

    fn new(dice: &mut Dice, size: Xy, north_or_south: bool) -> Self {
        let side = match (north_or_south, dice.chance(0.5)) {
            (true, true) => Side::South,
            (true, false) => Side::North,
            (false, true) => Side::West,
            (false, false) => Side::East,
        };
        Self { side, size }
    }

    /// How far along the coast and how far off the land's side a place is.
    pub(super) fn of(&self, at: Xy) -> Xy {
        match self.side {
            Side::South => at,
            Side::West => (at.1, at.0),
            Side::North => (at.0, self.size.1 - at.1),
            Side::East => (at.1, self.size.0 - at.0),
        }
    }

    /// The place so far along and so far off.
    pub(super) fn place(&self, along: f64, off: f64) -> Xy {
        match self.side {
            Side::South => (along, off),
            Side::West => (off, along),
            Side::North => (along, self.size.1 - off),
            Side::East => (self.size.0 - off, along),
        }
    }

    /// A direction given along and off the coast, of length 1.
    pub(super) fn way(&self, along: f64, off: f64) -> Xy {
        let length = (along * along + off * off).sqrt();
        let (along, off) = (along / length, off / length);
        match self.side {
            Side::South => (along, off),
            Side::West => (off, along),
            Side::North => (along, -off),
            Side::East => (-off, along),
        }
    }

    /// How long the coast's side of the chart is.
    pub(super) fn length(&self) -> f64 {
        match self.side {
            Side::South | Side::North => self.size.0,
            Side::West | Side::East => self.size.1,
        }
    }

    /// How far it is from the land's side to the sea's.
    pub(super) fn depth(&self) -> f64 {
        match self.side {
            Side::South | Side::North => self.size.1,
            Side::West | Side::East => self.size.0,
        }
    }
}
