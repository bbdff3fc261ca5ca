//! Coordinates of any nesting, read flat: positions in one list, lines and polygons by their ends.
//!
//! The `coordinates` of a geometry may come before its `type`, so that the nesting is taken as it
//! comes and held against the type later.

use std::fmt;

use serde::de::{Deserializer, Error, SeqAccess, Visitor};

use super::{MOST_VERTICES, Why, parse::Context};
use crate::Point;

/// Positions and where lines and polygons end in them.
#[derive(Debug, Default)]
pub(super) struct Flat {
    /// How deep positions are nested: 0 a position alone, 1 a list of them, up to 3. None when
    /// there are no positions.
    pub(super) depth: Option<usize>,
    /// Longitude, latitude.
    pub(super) positions: Vec<Point>,
    /// Where each line or ring ends in `positions`.
    line_ends: Vec<usize>,
    /// Where each polygon ends in `line_ends`.
    polygon_ends: Vec<usize>,
}

impl Flat {
    /// The lines or rings.
    pub(super) fn lines(&self) -> impl Iterator<Item = &[Point]> {
        runs(&self.line_ends).filter_map(|run| self.positions.get(run))
    }

    /// The polygons, each by its rings.
    pub(super) fn polygons(&self) -> impl Iterator<Item = Vec<&[Point]>> {
        let lines: Vec<_> = self.lines().collect();
        runs(&self.polygon_ends).filter_map(move |run| lines.get(run).map(<[_]>::to_vec))
    }
}

fn runs(ends: &[usize]) -> impl Iterator<Item = std::ops::Range<usize>> + '_ {
    let starts = std::iter::once(&0).chain(ends);
    starts.zip(ends).map(|(start, end)| *start..*end)
}

/// What an element of a list turned out to be.
enum Element {
    Number(f64),
    /// A list whose positions are nested so deep, already stored; None if it holds none.
    List(Option<usize>),
}

/// Reads an element.
struct Reader<'a, 'b> {
    context: &'a mut Context<'b>,
    flat: &'a mut Flat,
}

/// Reads the value of `coordinates`.
pub(super) fn read<'de, D: Deserializer<'de>>(
    context: &mut Context<'_>,
    from: D,
) -> Result<Flat, D::Error> {
    let mut flat = Flat::default();
    match from.deserialize_any(Reader { context, flat: &mut flat })? {
        Element::Number(_) => Err(context.fail(Why::Mixed)),
        Element::List(depth) => {
            flat.depth = depth;
            Ok(flat)
        }
    }
}

impl<'de> serde::de::DeserializeSeed<'de> for Reader<'_, '_> {
    type Value = Element;

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<Element, D::Error> {
        from.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Reader<'_, '_> {
    type Value = Element;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("coordinates: numbers in nested lists")
    }

    fn visit_f64<E>(self, number: f64) -> Result<Element, E> {
        Ok(Element::Number(number))
    }

    fn visit_i64<E>(self, number: i64) -> Result<Element, E> {
        Ok(Element::Number(number as f64))
    }

    fn visit_u64<E>(self, number: u64) -> Result<Element, E> {
        Ok(Element::Number(number as f64))
    }

    fn visit_unit<E>(self) -> Result<Element, E> {
        Ok(Element::List(None))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Element, A::Error> {
        let Reader { context, flat } = self;
        let mut numbers = [0.0; 2];
        let mut count = 0;
        let mut inner = None;
        while let Some(element) =
            list.next_element_seed(Reader { context: &mut *context, flat: &mut *flat })?
        {
            match element {
                Element::Number(number) if inner.is_none() => {
                    // Height and what else may follow is left out.
                    if let Some(place) = numbers.get_mut(count) {
                        *place = number;
                    }
                    count += 1;
                }
                Element::List(None) => {}
                Element::List(depth) if count == 0 && (inner.is_none() || inner == depth) => {
                    inner = depth;
                }
                _ => return Err(context.fail(Why::Mixed)),
            }
        }
        if count > 0 {
            position(context, flat, numbers, count)?;
            return Ok(Element::List(Some(0)));
        }
        match inner {
            Some(0) => flat.line_ends.push(flat.positions.len()),
            Some(1) => flat.polygon_ends.push(flat.line_ends.len()),
            _ => {}
        }
        Ok(Element::List(inner.map(|depth| depth + 1)))
    }
}

/// Stores a position.
fn position<E: Error>(
    context: &mut Context<'_>,
    flat: &mut Flat,
    [lon, lat]: [f64; 2],
    count: usize,
) -> Result<(), E> {
    if count < 2 {
        return Err(context.fail(Why::ShortPosition));
    }
    if !(-180.0..=180.0).contains(&lon) || !(-90.0..=90.0).contains(&lat) {
        return Err(context.fail(Why::OutOfRange { lon, lat }));
    }
    context.vertices += 1;
    if context.vertices > MOST_VERTICES {
        return Err(context.fail(Why::TooLarge));
    }
    flat.positions.push(Point { x: lon, y: lat });
    Ok(())
}
