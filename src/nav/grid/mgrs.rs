//! The letters of the Military Grid Reference System over a UTM zone.
//!
//! DMA TM 8358.1, Datums, ellipsoids, grids and grid reference systems (1990), chapter 3, with
//! the lettering that goes with WGS 84 (its "AA" scheme). A reference begins with the zone's
//! number and the letter of the band of latitude, then two letters name the square of 100 km.

use super::letters::{check_used, position, unknown};
use super::plane::Cell;
use super::{GridPoint, Hemisphere, ReferenceError, UtmZone};

/// Bands of 8 degrees from 80° S, the last of 12.
const BANDS: &[u8; 20] = b"CDEFGHJKLMNPQRSTUVWX";
/// Columns from 100 km east, in zones 1, 4, 7..., 2, 5, 8... and 3, 6, 9...
const COLUMNS: [&[u8; 8]; 3] = [b"ABCDEFGH", b"JKLMNPQR", b"STUVWXYZ"];
/// Rows from the equator in odd zones; in even zones they begin five letters on.
const ROWS: &[u8; 20] = b"ABCDEFGHJKLMNPQRSTUV";
const ROWS_ROUND: i64 = 20;

const EXPECTED: &str =
    "a band of latitude C to X and two letters for the square follow the zone, as in 30V WL";

/// The letter of the band that a latitude in degrees lies in; nothing in the polar areas.
pub(super) fn band(lat: f64) -> Option<char> {
    if !(-80.0..=84.0).contains(&lat) {
        return None;
    }
    // 0 to 20; band X takes the last four degrees too.
    let index = (((lat + 80.0) / 8.0).floor() as usize).min(BANDS.len() - 1);
    BANDS.get(index).map(|&letter| char::from(letter))
}

/// South and north edge in degrees of a band.
fn band_edges(letter: char) -> Option<(f64, f64)> {
    let index = position(BANDS, letter)?;
    // 0 to 19.
    let south = index as f64 * 8.0 - 80.0;
    Some((south, if letter == 'X' { 84.0 } else { south + 8.0 }))
}

/// The two letters of a square of 100 km; nothing outside the zone's eight columns.
pub(super) fn square(zone: UtmZone, cell: Cell) -> Option<String> {
    let columns = COLUMNS[usize::from((zone.number() - 1) % 3)];
    let column = columns.get(usize::try_from(cell.column - 1).ok()?)?;
    let row = (cell.row + first_row(zone)).rem_euclid(ROWS_ROUND);
    let row = ROWS.get(usize::try_from(row).ok()?)?;
    Some([*column, *row].into_iter().map(char::from).collect())
}

/// The place in the row letters at which the zone begins at the equator.
fn first_row(zone: UtmZone) -> i64 {
    if zone.number().is_multiple_of(2) { 5 } else { 0 }
}

/// What stands before the figures of a reference on MGRS.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Head {
    /// The zone's number and the letter of the band, which may be left out beside a known zone.
    pub(super) zone: Option<(u8, char)>,
    /// The two letters of the square.
    pub(super) square: (char, char),
}

impl Head {
    /// `30VWL`, or `WL` alone.
    pub(super) fn read(letters: &str) -> Result<Head, ReferenceError> {
        let digits = letters.bytes().take_while(u8::is_ascii_digit).count();
        let (number, rest) = letters.split_at(digits);
        check_used(rest, &['I', 'O'])?;
        let wrong = || unknown(letters, EXPECTED);
        let rest: Vec<char> = rest.chars().collect();
        match (number, rest.as_slice()) {
            ("", &[column, row]) => Ok(Head { zone: None, square: (column, row) }),
            (_, &[band, column, row]) => {
                let number: u8 = number.parse().map_err(|_| wrong())?;
                if !(1..=60).contains(&number) {
                    return Err(unknown(letters, "zones are numbered 1 to 60"));
                }
                band_edges(band).ok_or_else(wrong)?;
                Ok(Head { zone: Some((number, band)), square: (column, row) })
            }
            _ => Err(wrong()),
        }
    }

    /// The zone that the reference begins with, in the hemisphere of its band.
    pub(super) fn utm_zone(&self) -> Result<UtmZone, ReferenceError> {
        let (number, band) = self.zone.ok_or(ReferenceError::NoZone)?;
        if band == 'X' && matches!(number, 32 | 34 | 36) {
            let expected = "zones 32, 34 and 36 end at 72° N, south of band X";
            return Err(unknown(&self.to_string(), expected));
        }
        let hemisphere = if band >= 'N' { Hemisphere::North } else { Hemisphere::South };
        UtmZone::new(number, hemisphere).map_err(|_| ReferenceError::NoZone)
    }

    /// The square of 100 km on the grid of `zone`.
    ///
    /// Rows repeat every 2,000 km. The band tells which is meant, and `northings` gives the
    /// least and greatest northing in metres of a band between two latitudes; without a band
    /// it is the row nearest to `near`. A square counts as in a band if any of it is: a
    /// reference may take its band from a point or from the square's corner.
    pub(super) fn cell(
        &self,
        zone: UtmZone,
        northings: impl Fn(f64, f64) -> Option<(f64, f64)>,
        near: Option<GridPoint>,
    ) -> Result<Cell, ReferenceError> {
        let letters = self.to_string();
        let columns = COLUMNS[usize::from((zone.number() - 1) % 3)];
        let column = position(columns, self.square.0).ok_or_else(|| {
            let (first, last) = (char::from(columns[0]), char::from(columns[7]));
            let number = zone.number();
            unknown(&letters, &format!("columns of zone {number} are lettered {first} to {last}"))
        })?;
        let letter = position(ROWS, self.square.1)
            .ok_or_else(|| unknown(&letters, "rows are lettered A to V"))?;
        let row = letter - first_row(zone);
        let row = match self.zone {
            Some((_, band)) => {
                let (low, high) = band_edges(band)
                    .and_then(|(south, north)| northings(south, north))
                    .ok_or_else(|| unknown(&letters, EXPECTED))?;
                let (lowest, highest) = (hundreds(low), hundreds(high));
                let row = lowest + (row - lowest).rem_euclid(ROWS_ROUND);
                if row > highest {
                    let expected =
                        format!("no such square touches band {band} of zone {}", zone.number());
                    return Err(unknown(&letters, &expected));
                }
                row
            }
            None => {
                let here = Cell::of(near.ok_or(ReferenceError::NoZone)?).row;
                let half = ROWS_ROUND / 2;
                here - half + (row - here + half).rem_euclid(ROWS_ROUND)
            }
        };
        Ok(Cell { column: column + 1, row })
    }
}

/// Whole hundreds of kilometres south of a northing.
fn hundreds(northing: f64) -> i64 {
    // Within 10,000 km of the equator.
    (northing / super::plane::SQUARE).floor() as i64
}

/// As it is read: `30VWL`.
impl std::fmt::Display for Head {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        if let Some((number, band)) = self.zone {
            write!(f, "{number}{band}")?;
        }
        write!(f, "{}{}", self.square.0, self.square.1)
    }
}
