//! Coordinates of any nesting, read flat: positions in one list, lines by their ends.
//!
//! The `coordinates` of a geometry may come before its `type`, so that the nesting is taken as it comes.

use std::fmt;

use nav::Position;
use serde::de::{
    Deserialize, DeserializeSeed, Deserializer, Error, IgnoredAny, SeqAccess, Visitor,
};

/// Positions and where lines end in them.
#[derive(Debug, Default)]
pub(super) struct Nested {
    /// How deep positions are nested: 0 a position alone, 1 a list of them, and so on. None without positions.
    pub(super) depth: Option<usize>,
    pub(super) positions: Vec<Position>,
    ends: Vec<usize>,
    /// Whether positions have heights.
    pub(super) heights: usize,
}

impl Nested {
    /// The lists of positions.
    pub(super) fn lines(&self) -> impl Iterator<Item = &[Position]> {
        let starts = std::iter::once(&0).chain(&self.ends);
        starts.zip(&self.ends).filter_map(|(&start, &end)| self.positions.get(start..end))
    }
}

impl<'de> Deserialize<'de> for Nested {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Nested, D::Error> {
        let mut nested = Nested::default();
        match d.deserialize_any(Level(&mut nested))? {
            Found::Number(_) => Err(D::Error::custom(MIXED)),
            Found::Nothing => Ok(nested),
            Found::Depth(depth) => {
                nested.depth = Some(depth);
                Ok(nested)
            }
        }
    }
}

const MIXED: &str = "coordinates are numbers in nested lists: a position is [longitude, latitude], a line a list of positions";

enum Found {
    Number(f64),
    Nothing,
    Depth(usize),
}

/// A number, or a list of one level.
struct Level<'a>(&'a mut Nested);

impl<'de> DeserializeSeed<'de> for Level<'_> {
    type Value = Found;

    fn deserialize<D: Deserializer<'de>>(self, d: D) -> Result<Found, D::Error> {
        d.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Level<'_> {
    type Value = Found;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("numbers in nested lists")
    }

    fn visit_f64<E>(self, number: f64) -> Result<Found, E> {
        Ok(Found::Number(number))
    }

    fn visit_i64<E>(self, number: i64) -> Result<Found, E> {
        Ok(Found::Number(number as f64))
    }

    fn visit_u64<E>(self, number: u64) -> Result<Found, E> {
        Ok(Found::Number(number as f64))
    }

    fn visit_unit<E>(self) -> Result<Found, E> {
        Ok(Found::Nothing)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<Found, A::Error> {
        let Level(nested) = self;
        let mut inner = None;
        let mut first = true;
        while let Some(found) = seq.next_element_seed(Level(nested))? {
            match found {
                Found::Number(lon) if first => return position(nested, lon, seq),
                Found::Number(_) => return Err(A::Error::custom(MIXED)),
                Found::Nothing => {}
                Found::Depth(depth) if inner.is_none_or(|inner| inner == depth) => {
                    inner = Some(depth)
                }
                Found::Depth(_) => return Err(A::Error::custom(MIXED)),
            }
            first = false;
        }
        if inner == Some(0) {
            nested.ends.push(nested.positions.len());
        }
        Ok(inner.map_or(Found::Nothing, |depth| Found::Depth(depth + 1)))
    }
}

/// A position whose longitude has been read.
fn position<'de, A: SeqAccess<'de>>(
    nested: &mut Nested,
    lon: f64,
    mut seq: A,
) -> Result<Found, A::Error> {
    let short = || A::Error::custom("a position of one number; [longitude, latitude] is right");
    let lat: f64 = seq.next_element()?.ok_or_else(short)?;
    let at = Position::from_degrees(lat, lon).map_err(|error| {
        A::Error::custom(format!("{error}; in GeoJSON a position is [longitude, latitude]"))
    })?;
    nested.positions.push(at);
    if seq.next_element::<IgnoredAny>()?.is_some() {
        nested.heights += 1;
        while seq.next_element::<IgnoredAny>()?.is_some() {}
    }
    Ok(Found::Depth(0))
}
