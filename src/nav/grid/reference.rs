//! Grid references: writing them, and reading them in every usual form.

use super::plane::{Cell, Plane, SQUARE};
use super::point::side_of;
use super::{Figures, GridError, GridPoint, Square};
use crate::Length;

/// What is wrong with a text that was meant as a grid reference.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ReferenceError {
    /// There is nothing.
    #[error("no grid reference was given")]
    Empty,
    /// There is a sign that no reference has.
    #[error("{0:?} has no place in a grid reference")]
    Character(char),
    /// There are letters alone.
    #[error("no figures follow the letters {0}")]
    NoFigures(String),
    /// The figures cannot be halved into easting and northing.
    #[error(
        "an odd number of figures, {0}: as many are needed for the easting as for the northing"
    )]
    OddFigures(usize),
    /// The two groups of figures differ in length.
    #[error("{easting} figures of easting and {northing} of northing: as many are needed of each")]
    Uneven {
        /// Figures of the easting.
        easting: usize,
        /// Figures of the northing.
        northing: usize,
    },
    /// There are more figures than ten.
    #[error("{0} figures are too many: a grid reference has 2, 4, 6, 8 or 10")]
    TooManyFigures(usize),
    /// A full coordinate is not a number.
    #[error("{0:?} is not a number of metres")]
    NotMetres(String),
    /// There are more groups of figures than two.
    #[error("{0} groups of figures: a grid reference has an easting and a northing")]
    Groups(usize),
    /// A letter is left out of the alphabet of this grid's squares.
    #[error("the letter {0} is not used in this grid's letters")]
    LetterNotUsed(char),
    /// The letters name no square.
    #[error("the letters {letters} name no square of this grid: {expected}")]
    Letters {
        /// As they were given.
        letters: String,
        /// What they could be.
        expected: String,
    },
    /// The grid has no letters.
    #[error("this grid has no letters, but {0} was given: give full easting and northing")]
    Unlettered(String),
    /// The letters are missing and there is no place from which the nearest square can be told.
    #[error("the letters of the square are missing, and there is no place near which to look")]
    NothingNear,
    /// The reference names a place outside the grid.
    #[error("{easting} {northing} is outside the grid: {extent}")]
    Outside {
        /// Easting in metres.
        easting: f64,
        /// Northing in metres.
        northing: f64,
        /// Where the grid is.
        extent: &'static str,
    },
    /// The reference is of another zone than the grid's.
    #[error("the reference is in zone {written}, this grid is of zone {grid}")]
    OtherZone {
        /// The zone of the reference.
        written: String,
        /// The zone of the grid.
        grid: String,
    },
    /// A full reference over the whole Earth needs its zone.
    #[error(
        "the zone is missing: a reference on this grid begins with its zone, as in 30V WL 060 571"
    )]
    NoZone,
}

/// The reference of `point`, truncated: the letters of its square and the figures of the
/// smaller square in it; the full coordinates in whole metres on a grid without letters.
pub(super) fn write(
    grid: &dyn Plane,
    point: GridPoint,
    figures: Figures,
) -> Result<String, GridError> {
    if !grid.has_letters() {
        let (easting, northing) = point.whole(1.0);
        return Ok(format!("{easting} {northing}"));
    }
    let letters = grid.letters(Cell::of(point), point).ok_or(GridError::Outside {
        easting: point.easting.as_metres(),
        northing: point.northing.as_metres(),
        extent: grid.extent(),
    })?;
    let side = figures.side().as_metres();
    let (east, north) = point.whole(side);
    // A whole number by construction: 10 to 100,000.
    let in_square = (SQUARE / side) as i64;
    let (east, north) = (east.rem_euclid(in_square), north.rem_euclid(in_square));
    let width = figures.each();
    Ok(format!("{letters} {east:0width$} {north:0width$}"))
}

/// The square that `text` names on `grid`; `near` tells which, where letters are left out.
pub(super) fn read(
    grid: &dyn Plane,
    text: &str,
    near: Option<GridPoint>,
) -> Result<Square, ReferenceError> {
    match Written::read(text)? {
        Written::Full { point, side } => {
            if grid.holds(point) {
                return Ok(Square { south_west: point, side: Length::metres(side) });
            }
            Err(outside(grid, point))
        }
        Written::Figures { letters, east, north, each } => {
            let inner = Inner { east, north, side: side_of(each) };
            let cell = if letters.is_empty() {
                nearest(grid, inner, near.ok_or(ReferenceError::NothingNear)?)?
            } else if grid.has_letters() {
                grid.cell(&letters, near)?
            } else {
                return Err(ReferenceError::Unlettered(letters));
            };
            Ok(inner.square_in(cell))
        }
    }
}

fn outside(grid: &dyn Plane, point: GridPoint) -> ReferenceError {
    ReferenceError::Outside {
        easting: point.easting.as_metres(),
        northing: point.northing.as_metres(),
        extent: grid.extent(),
    }
}

/// A smaller square's place within whichever square of 100 km.
#[derive(Clone, Copy)]
struct Inner {
    east: u32,
    north: u32,
    side: f64,
}

impl Inner {
    fn square_in(self, cell: Cell) -> Square {
        let corner = cell.corner();
        let along =
            |start: Length, count: u32| start + Length::metres(f64::from(count) * self.side);
        let (easting, northing) =
            (along(corner.easting, self.east), along(corner.northing, self.north));
        Square { south_west: GridPoint { easting, northing }, side: Length::metres(self.side) }
    }
}

/// Which of the squares of 100 km around `near` brings the smaller one nearest to it.
fn nearest(grid: &dyn Plane, inner: Inner, near: GridPoint) -> Result<Cell, ReferenceError> {
    let here = Cell::of(near);
    let around = (-1..=1).flat_map(|up| (-1..=1).map(move |along| (along, up)));
    around
        .map(|(along, up)| Cell { column: here.column + along, row: here.row + up })
        .filter(|&cell| grid.covers(cell))
        .map(|cell| {
            let centre = inner.square_in(cell).centre();
            let off = (centre.easting - near.easting).hypot(centre.northing - near.northing);
            (off.as_metres(), cell)
        })
        .min_by(|(a, _), (b, _)| a.total_cmp(b))
        .map(|(_, cell)| cell)
        .ok_or_else(|| outside(grid, near))
}

/// A reference as it stands in a text, before a grid gives it meaning.
#[derive(Debug, PartialEq)]
pub(super) enum Written {
    /// The letters of a square, if any, and figures within it.
    Figures { letters: String, east: u32, north: u32, each: usize },
    /// Full coordinates, to a step of `side` metres.
    Full { point: GridPoint, side: f64 },
}

impl Written {
    /// Two groups of figures with a comma between, a decimal point or sign in one, or six or
    /// more figures in one are full coordinates; all else is letters and figures.
    pub(super) fn read(text: &str) -> Result<Written, ReferenceError> {
        let text = text.trim().to_ascii_uppercase();
        if text.is_empty() {
            return Err(ReferenceError::Empty);
        }
        let usual =
            |c: &char| c.is_ascii_alphanumeric() || c.is_whitespace() || ",.+-".contains(*c);
        if let Some(odd) = text.chars().find(|c| !usual(c)) {
            return Err(ReferenceError::Character(odd));
        }
        // Behind the last letter; letters are ASCII by now.
        let cut = text.rfind(|c: char| c.is_ascii_alphabetic()).map_or(0, |last| last + 1);
        let (head, tail) = text.split_at(cut);
        let groups: Vec<&str> =
            tail.split(|c: char| c.is_whitespace() || c == ',').filter(|g| !g.is_empty()).collect();
        let letters: String = head.chars().filter(|c| !c.is_whitespace()).collect();
        if let (true, &[easting, northing]) = (letters.is_empty(), groups.as_slice()) {
            let full = |group: &str| group.len() > 5 || group.contains(['.', '+', '-']);
            if tail.contains(',') || full(easting) || full(northing) {
                return Self::full(easting, northing);
            }
        }
        if let Some(odd) = text.chars().find(|c| ".+-".contains(*c)) {
            return Err(ReferenceError::Character(odd));
        }
        Self::figures(letters, &groups)
    }

    fn full(easting: &str, northing: &str) -> Result<Written, ReferenceError> {
        let decimals = |text: &str| text.split_once('.').map_or(0, |(_, decimals)| decimals.len());
        let metres = |text: &str| {
            let number = text.parse().ok().and_then(|number| Length::from_metres(number).ok());
            number.ok_or_else(|| ReferenceError::NotMetres(text.to_owned()))
        };
        let point = GridPoint { easting: metres(easting)?, northing: metres(northing)? };
        let finest = decimals(easting).max(decimals(northing)).min(9);
        // At most nine decimals, which i32 holds.
        Ok(Written::Full { point, side: 10f64.powi(-(finest as i32)) })
    }

    fn figures(letters: String, groups: &[&str]) -> Result<Written, ReferenceError> {
        let (east, north) = match *groups {
            [] => return Err(ReferenceError::NoFigures(letters)),
            [one] if one.len() % 2 == 1 => return Err(ReferenceError::OddFigures(one.len())),
            [one] => one.split_at(one.len() / 2),
            [east, north] if east.len() != north.len() => {
                let (easting, northing) = (east.len(), north.len());
                return Err(ReferenceError::Uneven { easting, northing });
            }
            [east, north] => (east, north),
            _ => return Err(ReferenceError::Groups(groups.len())),
        };
        let each = east.len();
        let (1..=5, Ok(east), Ok(north)) = (each, east.parse(), north.parse()) else {
            return Err(ReferenceError::TooManyFigures(2 * each));
        };
        Ok(Written::Figures { letters, east, north, each })
    }
}
