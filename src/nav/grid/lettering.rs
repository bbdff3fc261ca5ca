//! The letters of a chart grid's squares.

use std::collections::HashSet;

use super::plane::{Cell, SQUARE};
use super::{GridPoint, ReferenceError};

/// How the squares of 100 km of a chart's grid are lettered: in rows over a rectangle, or not
/// at all.
#[derive(Debug, Clone, PartialEq)]
pub struct Lettering {
    south_west: Cell,
    /// From north to south, as they are read on paper; all of one length.
    rows: Vec<Vec<String>>,
}

/// Why a lettering cannot be.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum LetteringError {
    /// The corner is not a corner of a square.
    #[error("the lettering's corner {easting} {northing} is not on a multiple of 100,000 m")]
    Corner {
        /// Its easting in metres.
        easting: f64,
        /// Its northing in metres.
        northing: f64,
    },
    /// There is no square.
    #[error("the lettering names no square")]
    Empty,
    /// There are more squares than letters could name.
    #[error("the lettering has {0} rows or columns, 25 is the most")]
    TooMany(usize),
    /// The rows differ in length.
    #[error("row {row} of the lettering has {found} squares, the first has {expected}")]
    Ragged {
        /// Counted from the north, from 1.
        row: usize,
        /// How many it has.
        found: usize,
        /// How many the first row has.
        expected: usize,
    },
    /// A name is not one to three capital letters.
    #[error("the square name {0:?} is not one to three letters A to Z")]
    Name(String),
    /// A name stands for two squares.
    #[error("the square name {0} is given twice")]
    Twice(String),
}

impl Lettering {
    /// No letters: references are full coordinates.
    pub const NONE: Lettering = Lettering { south_west: Cell { column: 0, row: 0 }, rows: vec![] };

    /// Rows of names from north to south as on paper, each name after a space, over the
    /// rectangle of 100 km squares whose south-west corner is given.
    ///
    /// ```
    /// use nav::{GridPoint, Lettering};
    /// let corner = GridPoint::from_metres(600_000.0, 300_000.0)?;
    /// let two_by_two = Lettering::rows(corner, &["QA RA", "QB RB"])?;
    /// assert!(Lettering::rows(corner, &["QA RA", "QA RB"]).is_err());
    /// # assert_eq!(two_by_two.names().count(), 4);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    ///
    /// # Errors
    /// [`LetteringError`] when the corner is not on a multiple of 100 km, there are no names
    /// or rows of different lengths, or a name is not one to three letters or stands twice.
    pub fn rows<R: AsRef<str>>(
        south_west: GridPoint,
        rows: &[R],
    ) -> Result<Lettering, LetteringError> {
        let cell = corner(south_west)?;
        let rows: Vec<Vec<String>> = rows
            .iter()
            .map(|row| row.as_ref().split_whitespace().map(str::to_owned).collect())
            .collect();
        check_shape(&rows)?;
        let mut seen = HashSet::new();
        for name in rows.iter().flatten() {
            let letters = name.bytes().all(|b| b.is_ascii_uppercase());
            if !letters || name.len() > 3 {
                return Err(LetteringError::Name(name.clone()));
            }
            if !seen.insert(name) {
                return Err(LetteringError::Twice(name.clone()));
            }
        }
        Ok(Lettering { south_west: cell, rows })
    }

    /// Whether there are any letters.
    pub fn is_lettered(&self) -> bool {
        !self.rows.is_empty()
    }

    /// The south-west corner of the lettered rectangle.
    pub fn south_west(&self) -> GridPoint {
        self.south_west.corner()
    }

    /// The rows of names from north to south, each joined by spaces: what
    /// [`Lettering::rows`] takes.
    pub fn to_rows(&self) -> Vec<String> {
        self.rows.iter().map(|row| row.join(" ")).collect()
    }

    /// All names, from north to south and from west to east.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.rows.iter().flatten().map(String::as_str)
    }

    /// The name of a square.
    pub(super) fn name(&self, cell: Cell) -> Option<&str> {
        let up = usize::try_from(cell.row.checked_sub(self.south_west.row)?).ok()?;
        let along = usize::try_from(cell.column.checked_sub(self.south_west.column)?).ok()?;
        let row = self.rows.iter().rev().nth(up)?;
        row.get(along).map(String::as_str)
    }

    /// The square of a name.
    pub(super) fn find(&self, letters: &str) -> Result<Cell, ReferenceError> {
        for (up, row) in (0i64..).zip(self.rows.iter().rev()) {
            for (along, name) in (0i64..).zip(row) {
                if name == letters {
                    let Cell { column, row } = self.south_west;
                    return Ok(Cell { column: column + along, row: row + up });
                }
            }
        }
        let names: Vec<&str> = self.names().take(12).collect();
        let expected = format!("the chart's squares are {}", names.join(", "));
        Err(ReferenceError::Letters { letters: letters.to_owned(), expected })
    }
}

fn corner(south_west: GridPoint) -> Result<Cell, LetteringError> {
    let (easting, northing) = (south_west.easting.as_metres(), south_west.northing.as_metres());
    let whole = |metres: f64| metres % SQUARE == 0.0 && metres.abs() <= 1e7;
    if !whole(easting) || !whole(northing) {
        return Err(LetteringError::Corner { easting, northing });
    }
    Ok(Cell::of(south_west))
}

fn check_shape(rows: &[Vec<String>]) -> Result<(), LetteringError> {
    let expected = rows.first().map_or(0, Vec::len);
    if expected == 0 {
        return Err(LetteringError::Empty);
    }
    if rows.len().max(expected) > 25 {
        return Err(LetteringError::TooMany(rows.len().max(expected)));
    }
    for (row, names) in (1..).zip(rows) {
        if names.len() != expected {
            return Err(LetteringError::Ragged { row, found: names.len(), expected });
        }
    }
    Ok(())
}
