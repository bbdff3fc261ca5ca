//! The Irish Grid and Irish Transverse Mercator.

use super::letters::{check_used, in_block, place_in_block, unknown};
use super::plane::{Cell, Plane};
use super::{Accuracy, FromGrid, GridError, GridPoint, OnGrid, ReferenceError};
use crate::datum::as_one;
use crate::{
    Etrs89, Ireland1975, Latitude, Longitude, Position, SevenParameter, TransverseMercator,
};

const CHANGE: SevenParameter<Ireland1975, crate::Wgs84> = SevenParameter::IRELAND_1975_TO_WGS84;
const BY_SEVEN: Accuracy = Accuracy::SevenParameter { error: CHANGE.error() };

/// A grid of Ireland reaches 500 km around its own 500 km.
fn check_reach(
    point: GridPoint,
    (west, south): (f64, f64),
    extent: &'static str,
) -> Result<(), GridError> {
    let (easting, northing) = (point.easting.as_metres(), point.northing.as_metres());
    let reach = -5e5..1e6;
    if reach.contains(&(easting - west)) && reach.contains(&(northing - south)) {
        return Ok(());
    }
    Err(GridError::Outside { easting, northing, extent })
}

/// The Irish Grid, TM75 (EPSG:29903), which TM65 (EPSG:29902) is one with to a metre.
///
/// From and to WGS 84 by seven parameters, good to 1 m over Ireland, and its [`Accuracy`] says
/// so. Convergence and scale are those of its own datum; from WGS 84's they differ by up to
/// 4 arc seconds and one millionth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Irish {
    projection: TransverseMercator<Ireland1975>,
}

const IRISH: &str = "0 to 500,000 east and north are the Irish Grid";

impl Irish {
    /// The grid.
    pub fn new() -> Irish {
        // EPSG:19972 (Irish Grid).
        let projection = TransverseMercator::known(
            Latitude::clamped(53.5),
            Longitude::wrapped(-8.0),
            1.000_035,
            GridPoint::metres(200_000.0, 250_000.0),
        );
        Irish { projection }
    }
}

impl Default for Irish {
    fn default() -> Self {
        Self::new()
    }
}

impl Plane for Irish {
    fn forward(&self, position: Position) -> Result<OnGrid, GridError> {
        let there = OnGrid::new(self.projection.forward(CHANGE.undo(position))?, BY_SEVEN);
        check_reach(there.point, (0.0, 0.0), IRISH)?;
        Ok(there)
    }

    fn inverse(&self, point: GridPoint) -> Result<FromGrid, GridError> {
        check_reach(point, (0.0, 0.0), IRISH)?;
        let there = self.projection.inverse(point)?;
        let (convergence, scale) = (there.convergence, there.scale);
        let position = CHANGE.apply(there.position);
        Ok(FromGrid { position, convergence, scale, accuracy: BY_SEVEN })
    }

    fn letters(&self, cell: Cell, _: GridPoint) -> Option<String> {
        in_block(cell.column, cell.row).map(String::from)
    }

    fn cell(&self, letters: &str, _: Option<GridPoint>) -> Result<Cell, ReferenceError> {
        check_used(letters, &['I'])?;
        let mut each = letters.chars();
        match (each.next().and_then(place_in_block), each.next()) {
            (Some((column, row)), None) => Ok(Cell { column, row }),
            _ => Err(unknown(letters, "its squares have one letter, A to Z without I")),
        }
    }

    fn covers(&self, cell: Cell) -> bool {
        in_block(cell.column, cell.row).is_some()
    }

    fn holds(&self, point: GridPoint) -> bool {
        self.covers(Cell::of(point))
    }

    fn extent(&self) -> &'static str {
        IRISH
    }
}

/// Irish Transverse Mercator, IRENET95 (EPSG:2157).
///
/// IRENET95 is ETRS89 in Ireland, which is taken as one with WGS 84. It has no letters: its
/// references are full coordinates.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct IrishTransverseMercator {
    projection: TransverseMercator<Etrs89>,
}

const ITM: &str = "400,000 to 900,000 east and 500,000 to 1,000,000 north are the grid";
const ITM_CORNER: (f64, f64) = (400_000.0, 500_000.0);

impl IrishTransverseMercator {
    /// The grid.
    pub fn new() -> IrishTransverseMercator {
        // EPSG:19962 (Irish Transverse Mercator).
        let projection = TransverseMercator::known(
            Latitude::clamped(53.5),
            Longitude::wrapped(-8.0),
            0.999_82,
            GridPoint::metres(600_000.0, 750_000.0),
        );
        IrishTransverseMercator { projection }
    }
}

impl Default for IrishTransverseMercator {
    fn default() -> Self {
        Self::new()
    }
}

impl Plane for IrishTransverseMercator {
    fn forward(&self, position: Position) -> Result<OnGrid, GridError> {
        let there = OnGrid::new(self.projection.forward(as_one(position))?, Accuracy::Projection);
        check_reach(there.point, ITM_CORNER, ITM)?;
        Ok(there)
    }

    fn inverse(&self, point: GridPoint) -> Result<FromGrid, GridError> {
        check_reach(point, ITM_CORNER, ITM)?;
        let there = self.projection.inverse(point)?;
        let (convergence, scale) = (there.convergence, there.scale);
        let position = as_one(there.position);
        Ok(FromGrid { position, convergence, scale, accuracy: Accuracy::Projection })
    }

    fn has_letters(&self) -> bool {
        false
    }

    fn letters(&self, _: Cell, _: GridPoint) -> Option<String> {
        None
    }

    fn cell(&self, letters: &str, _: Option<GridPoint>) -> Result<Cell, ReferenceError> {
        Err(ReferenceError::Unlettered(letters.to_owned()))
    }

    fn covers(&self, cell: Cell) -> bool {
        (4..9).contains(&cell.column) && (5..10).contains(&cell.row)
    }

    fn holds(&self, point: GridPoint) -> bool {
        self.covers(Cell::of(point))
    }

    fn extent(&self) -> &'static str {
        ITM
    }
}
