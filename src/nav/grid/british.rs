//! The British National Grid.

use super::letters::{check_used, in_block, place_in_block, unknown};
use super::ostn15::Ostn15;
use super::plane::{Cell, Plane};
use super::{Accuracy, FromGrid, GridError, GridPoint, OnGrid, ReferenceError};
use crate::datum::as_one;
use crate::{
    Datum, Etrs89, Latitude, Longitude, Osgb36, Position, SevenParameter, TransverseMercator,
};

/// The British National Grid, OSGB36 (EPSG:27700).
///
/// From and to WGS 84, taken as one with ETRS89, by the published shift OSTN15 (ETRS89 is the
/// datum of satellite positions corrected for Europe; the two are 0.9 m apart by 2026, and
/// the shift's own 0.1 m is against ETRS89). OSTN15 covers 0 to 700 km east and 0 to 1,250 km
/// north and all of its nodes are filled, far offshore by extrapolation. Beyond them, up to
/// 500 km around the lettered squares, positions go by the seven-parameter change, and
/// their [`Accuracy`] says so; there the two may differ by its 5 m, so that a line across
/// the edge has a step, and a point within 5 m of it may come back by the other of the two.
///
/// Convergence and scale are counted on WGS 84, the datum of bearings in this program; from
/// those of OSGB36 they differ by up to 10 arc seconds and one millionth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BritishNational {
    airy: TransverseMercator<Osgb36>,
    etrs: TransverseMercator<Etrs89>,
}

/// The same projection of another datum.
fn national_projection<D: Datum>() -> TransverseMercator<D> {
    // A guide to coordinate systems in Great Britain, annex A.
    TransverseMercator::known(
        Latitude::clamped(49.0),
        Longitude::wrapped(-2.0),
        0.999_601_271_7,
        GridPoint::metres(400_000.0, -100_000.0),
    )
}

const CHANGE: SevenParameter<crate::Wgs84, Osgb36> = SevenParameter::WGS84_TO_OSGB36;
const BY_SEVEN: Accuracy = Accuracy::SevenParameter { error: CHANGE.error() };
const EXTENT: &str = "0 to 700,000 east and 0 to 1,300,000 north are the British National Grid";

/// How many positions are projected before they are shifted: some kilobytes.
const TOGETHER: usize = 256;

impl BritishNational {
    /// The grid.
    pub fn new() -> BritishNational {
        BritishNational { airy: national_projection(), etrs: national_projection() }
    }
}

impl Default for BritishNational {
    fn default() -> Self {
        Self::new()
    }
}

/// Where the grid's numbers have a meaning at all: its squares and 500 km around them.
fn check_reach(point: GridPoint) -> Result<(), GridError> {
    let (easting, northing) = (point.easting.as_metres(), point.northing.as_metres());
    if (-5e5..12e5).contains(&easting) && (-5e5..18e5).contains(&northing) {
        return Ok(());
    }
    Err(GridError::Outside { easting, northing, extent: EXTENT })
}

/// The point of ETRS89 on the grid's projection that the shift moves to a point of the grid.
fn unshifted(table: &Ostn15, point: GridPoint) -> Option<GridPoint> {
    let (easting, northing) = (point.easting.as_metres(), point.northing.as_metres());
    // The point may lie beyond the last node though the one it came from does not.
    let (mut found, mut shift) = (point, table.shift_near(easting, northing));
    // Neighbouring nodes differ by some centimetres in a kilometre, so each round leaves a
    // ten-thousandth of the error before it.
    for _ in 0..5 {
        found = GridPoint::metres(easting - shift.east, northing - shift.north);
        shift = table.shift_near(found.easting.as_metres(), found.northing.as_metres());
    }
    table.shift(found.easting.as_metres(), found.northing.as_metres()).map(|_| found)
}

impl Plane for BritishNational {
    fn forward(&self, position: Position) -> Result<OnGrid, GridError> {
        let etrs = self.etrs.forward(as_one(position))?;
        let (easting, northing) = (etrs.point.easting.as_metres(), etrs.point.northing.as_metres());
        let shift = Ostn15::published().and_then(|table| table.shift(easting, northing));
        let (point, accuracy) = match shift {
            Some(by) => {
                let point = GridPoint::metres(easting + by.east, northing + by.north);
                (point, Accuracy::NationalShift)
            }
            None => (self.airy.forward(CHANGE.apply(position))?.point, BY_SEVEN),
        };
        check_reach(point)?;
        Ok(OnGrid { point, convergence: etrs.convergence, scale: etrs.scale, accuracy })
    }

    fn forward_all(
        &self,
        positions: &[Position],
        points: &mut Vec<GridPoint>,
    ) -> Result<(), GridError> {
        let Some(table) = Ostn15::published() else {
            for position in positions {
                points.push(self.forward(*position)?.point);
            }
            return Ok(());
        };
        let mut block = Vec::with_capacity(TOGETHER);
        for positions in positions.chunks(TOGETHER) {
            let from = points.len();
            block.clear();
            block.extend(positions.iter().map(|position| as_one::<_, Etrs89>(*position)));
            self.etrs.forward_all(&block, points)?;
            for (position, point) in positions.iter().zip(&mut points[from..]) {
                let (easting, northing) = (point.easting.as_metres(), point.northing.as_metres());
                *point = match table.shift(easting, northing) {
                    Some(by) => GridPoint::metres(easting + by.east, northing + by.north),
                    None => self.forward(*position)?.point,
                };
            }
        }
        Ok(())
    }

    fn inverse(&self, point: GridPoint) -> Result<FromGrid, GridError> {
        check_reach(point)?;
        let by_shift = Ostn15::published().and_then(|table| unshifted(table, point));
        if let Some(etrs) = by_shift {
            let there = self.etrs.inverse(etrs)?;
            return Ok(FromGrid {
                position: as_one(there.position),
                convergence: there.convergence,
                scale: there.scale,
                accuracy: Accuracy::NationalShift,
            });
        }
        let position = CHANGE.undo(self.airy.inverse(point)?.position);
        let etrs = self.etrs.forward(as_one(position))?;
        let (convergence, scale) = (etrs.convergence, etrs.scale);
        Ok(FromGrid { position, convergence, scale, accuracy: BY_SEVEN })
    }

    fn letters(&self, cell: Cell, _: GridPoint) -> Option<String> {
        if !self.covers(cell) {
            return None;
        }
        // Blocks of 500 km are lettered from 1,000 km west and 500 km south of the origin.
        let (column, row) = (cell.column + 10, cell.row + 5);
        let block = in_block(column / 5, row / 5)?;
        let square = in_block(column % 5, row % 5)?;
        Some([block, square].into_iter().collect())
    }

    fn cell(&self, letters: &str, _: Option<GridPoint>) -> Result<Cell, ReferenceError> {
        check_used(letters, &['I'])?;
        let expected = "its squares have two letters, from SV in the south-west to HP in the north";
        let &[block, square] = letters.chars().collect::<Vec<_>>().as_slice() else {
            return Err(unknown(letters, expected));
        };
        let (block, square) = place_in_block(block)
            .zip(place_in_block(square))
            .ok_or_else(|| unknown(letters, expected))?;
        let cell = Cell { column: block.0 * 5 + square.0 - 10, row: block.1 * 5 + square.1 - 5 };
        if self.covers(cell) { Ok(cell) } else { Err(unknown(letters, expected)) }
    }

    fn covers(&self, cell: Cell) -> bool {
        (0..7).contains(&cell.column) && (0..13).contains(&cell.row)
    }

    fn holds(&self, point: GridPoint) -> bool {
        self.covers(Cell::of(point))
    }

    fn extent(&self) -> &'static str {
        EXTENT
    }
}
