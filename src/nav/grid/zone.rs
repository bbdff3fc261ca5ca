//! The zones of the Universal Transverse Mercator grid.

use std::fmt;

use crate::{Longitude, OutOfRange, Position};

/// A half of the Earth.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Hemisphere {
    /// North of the equator, and the equator.
    North,
    /// South of the equator.
    South,
}

impl Hemisphere {
    /// The half that `position` lies in; the equator is the north's.
    pub fn of(position: Position) -> Hemisphere {
        if position.lat.as_degrees() < 0.0 { Hemisphere::South } else { Hemisphere::North }
    }
}

/// One of the 60 zones of UTM, in the northern or southern hemisphere: `30N`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct UtmZone {
    number: u8,
    hemisphere: Hemisphere,
}

impl UtmZone {
    /// The zone of this number, 1 to 60, counted east from 180 degrees.
    ///
    /// # Errors
    /// [`OutOfRange`] when there is no such number.
    pub fn new(number: u8, hemisphere: Hemisphere) -> Result<UtmZone, OutOfRange> {
        OutOfRange::check("UTM zone", f64::from(number), (1.0, 60.0), "1 to 60")?;
        Ok(UtmZone { number, hemisphere })
    }

    /// The zone that `position` is mapped in, with the exceptions of south-west Norway and
    /// Svalbard (DMA TM 8358.1, section 2-3); none in the polar areas, from 84° N and south
    /// of 80° S, which are mapped by UPS.
    pub fn of(position: Position) -> Option<UtmZone> {
        let (lat, lon) = (position.lat.as_degrees(), position.lon.as_degrees());
        if !(-80.0..84.0).contains(&lat) {
            return None;
        }
        // -180 to 180 makes 0 to 60; 180 degrees itself is the start of zone 1 again.
        let plain = ((lon + 180.0) / 6.0).floor() as u8 % 60 + 1;
        let number = match (lat, lon) {
            (56.0..64.0, 3.0..6.0) => 32,
            (72.0.., 0.0..9.0) => 31,
            (72.0.., 9.0..21.0) => 33,
            (72.0.., 21.0..33.0) => 35,
            (72.0.., 33.0..42.0) => 37,
            _ => plain,
        };
        Some(UtmZone { number, hemisphere: Hemisphere::of(position) })
    }

    /// 1 to 60.
    pub const fn number(self) -> u8 {
        self.number
    }

    /// Whether its northings are counted from the equator, or from 10,000 km south of it.
    pub const fn hemisphere(self) -> Hemisphere {
        self.hemisphere
    }

    /// The meridian in its middle.
    pub fn central_meridian(self) -> Longitude {
        Longitude::wrapped(f64::from(self.number) * 6.0 - 183.0)
    }

    /// `30N`, `7s`.
    pub(super) fn parse(text: &str) -> Option<UtmZone> {
        let text = text.trim();
        let hemisphere = match text.chars().last()? {
            'N' | 'n' => Hemisphere::North,
            'S' | 's' => Hemisphere::South,
            _ => return None,
        };
        let digits = &text[..text.len() - 1];
        if digits.is_empty() || !digits.bytes().all(|b| b.is_ascii_digit()) {
            return None;
        }
        UtmZone::new(digits.parse().ok()?, hemisphere).ok()
    }

    /// EPSG:32601 to 32660 in the north and 32701 to 32760 in the south.
    pub(super) fn from_epsg(code: u32) -> Option<UtmZone> {
        let hemisphere = match code {
            32601..=32660 => Hemisphere::North,
            32701..=32760 => Hemisphere::South,
            _ => return None,
        };
        UtmZone::new(u8::try_from(code % 100).ok()?, hemisphere).ok()
    }
}

/// `30N`, `07S`.
impl fmt::Display for UtmZone {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let side = match self.hemisphere {
            Hemisphere::North => 'N',
            Hemisphere::South => 'S',
        };
        write!(f, "{:02}{side}", self.number)
    }
}
