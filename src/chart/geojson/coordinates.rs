//! Coordinates of any nesting, read flat: positions in one list, lines and polygons by their ends.
//!
//! The `coordinates` of a geometry may come before its `type`, so that the nesting is taken as it
//! comes and held against the type later.

use std::io::Read;

use super::json::Json;
use super::{ImportError, Why};
use crate::Point;

/// Positions and where lines and polygons end in them.
#[derive(Debug, Default)]
pub(crate) struct Flat {
    /// How deep positions are nested: 0 a position alone, 1 a list of them, up to 3. None when
    /// there are no positions.
    pub(crate) depth: Option<usize>,
    /// Longitude, latitude.
    pub(crate) positions: Vec<Point>,
    /// Where each line or ring ends in `positions`.
    line_ends: Vec<usize>,
    /// Where each polygon ends in `line_ends`.
    polygon_ends: Vec<usize>,
}

impl Flat {
    /// Ends a line or ring before the position of that number.
    pub(crate) fn end_line(&mut self, at: usize) {
        self.line_ends.push(at);
    }

    /// Ends a polygon after the last ring.
    pub(crate) fn end_polygon(&mut self) {
        self.polygon_ends.push(self.line_ends.len());
    }

    /// Says how deep the positions are nested.
    pub(crate) fn settle(&mut self, depth: Option<usize>) {
        self.depth = depth;
    }

    /// The lines or rings.
    pub(crate) fn lines(&self) -> impl Iterator<Item = &[Point]> {
        runs(&self.line_ends).filter_map(|run| self.positions.get(run))
    }

    /// The polygons, each by its rings.
    pub(crate) fn polygons(&self) -> impl Iterator<Item = Vec<&[Point]>> {
        let lines: Vec<_> = self.lines().collect();
        runs(&self.polygon_ends).filter_map(move |run| lines.get(run).map(<[_]>::to_vec))
    }
}

fn runs(ends: &[usize]) -> impl Iterator<Item = std::ops::Range<usize>> + '_ {
    let starts = std::iter::once(&0).chain(ends);
    starts.zip(ends).map(|(start, end)| *start..*end)
}

/// Reads positions into a [`Flat`].
pub(super) struct Reader<'a, 'p, R> {
    pub(super) json: &'a mut Json<'p, R>,
    /// How many more positions the file may have.
    pub(super) left: &'a mut usize,
    /// How many it may have in all.
    pub(super) most: usize,
    pub(super) flat: Flat,
}

impl<R: Read> Reader<'_, '_, R> {
    /// The value of `coordinates`.
    pub(super) fn read(mut self) -> Result<Flat, ImportError> {
        match self.json.need("coordinates")? {
            b'[' => {
                self.json.enter()?;
                self.flat.depth = self.list()?;
            }
            b'n' => self.json.word("null")?,
            b'-' | b'0'..=b'9' => {
                self.json.number()?;
                return Err(self.json.fail(Why::Mixed));
            }
            _ => return Err(self.no_coordinates()),
        }
        Ok(self.flat)
    }

    fn no_coordinates(&mut self) -> ImportError {
        self.json.take();
        self.json.syntax("coordinates are numbers in nested lists")
    }

    /// A list after its bracket: how deep positions are nested in it, if there are any.
    fn list(&mut self) -> Result<Option<usize>, ImportError> {
        let mut inner = None;
        let mut first = true;
        while self.json.goes_on(b']', first, "a list")? {
            let depth = match self.json.need("a list")? {
                b'-' | b'0'..=b'9' if first => {
                    self.position()?;
                    return Ok(Some(0));
                }
                b'[' => {
                    self.json.enter()?;
                    self.list()?
                }
                b'n' => {
                    self.json.word("null")?;
                    None
                }
                b'-' | b'0'..=b'9' => {
                    self.json.number()?;
                    return Err(self.json.fail(Why::Mixed));
                }
                _ => return Err(self.no_coordinates()),
            };
            first = false;
            if depth.is_some() && inner.is_some() && depth != inner {
                return Err(self.json.fail(Why::Mixed));
            }
            inner = inner.or(depth);
        }
        match inner {
            Some(0) => self.flat.end_line(self.flat.positions.len()),
            Some(1) => self.flat.end_polygon(),
            _ => {}
        }
        Ok(inner.map(|depth| depth + 1))
    }

    /// A position whose first number is next, to the end of its list.
    fn position(&mut self) -> Result<(), ImportError> {
        let lon = self.json.number()?;
        if !self.json.goes_on(b']', false, "a list")? {
            return Err(self.json.fail(Why::ShortPosition));
        }
        let lat = self.coordinate()?;
        // Height and what else may follow is left out.
        while self.json.goes_on(b']', false, "a list")? {
            self.coordinate()?;
        }
        if !(-180.0..=180.0).contains(&lon) || !(-90.0..=90.0).contains(&lat) {
            return Err(self.json.fail(Why::OutOfRange { lon, lat }));
        }
        *self.left =
            self.left.checked_sub(1).ok_or_else(|| self.json.fail(Why::TooLarge(self.most)))?;
        self.flat.positions.push(Point { x: lon, y: lat });
        Ok(())
    }

    fn coordinate(&mut self) -> Result<f64, ImportError> {
        match self.json.need("a list")? {
            b'[' | b'n' => Err(self.json.fail(Why::Mixed)),
            b'"' | b'{' => Err(self.no_coordinates()),
            _ => self.json.number(),
        }
    }
}
