//! The Universal Transverse Mercator grid of one zone.

use super::mgrs::{Head, band, square};
use super::plane::{Cell, Plane};
use super::point::ON_THE_LINE;
use super::zone::{Hemisphere, UtmZone};
use super::{Accuracy, FromGrid, GridError, GridPoint, OnGrid, ReferenceError};
use crate::{Latitude, Position, TransverseMercator, Wgs84};

/// The UTM grid of one zone on WGS 84 (EPSG:326zz, EPSG:327zz).
///
/// It may be used beyond its zone, as far as the projection reaches: a chart lies on one grid.
/// Its references are those of MGRS, `30V WL 060 571`, as far as its eight columns of squares go.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Utm {
    zone: UtmZone,
    projection: TransverseMercator<Wgs84>,
}

impl Utm {
    /// The grid of `zone`.
    pub fn new(zone: UtmZone) -> Utm {
        // DMA TM 8358.2, section 2-2: scale 0.9996, false easting 500 km, false northing
        // nothing in the north and 10,000 km in the south.
        let false_northing = match zone.hemisphere() {
            Hemisphere::North => 0.0,
            Hemisphere::South => 1e7,
        };
        let projection = TransverseMercator::known(
            Latitude::clamped(0.0),
            zone.central_meridian(),
            0.9996,
            GridPoint::metres(500_000.0, false_northing),
        );
        Utm { zone, projection }
    }

    /// Its zone.
    pub const fn zone(&self) -> UtmZone {
        self.zone
    }

    /// The least and the greatest northing in metres between two latitudes, at the central
    /// meridian and as far off it as the lettered squares go.
    fn northings(&self, south: f64, north: f64) -> Option<(f64, f64)> {
        let middle = self.zone.central_meridian().as_degrees();
        let mut range: Option<(f64, f64)> = None;
        for lat in [south, north] {
            // The squares reach 400 km either way, which is 3.6 degrees on the equator.
            let reach = 3.6 / lat.to_radians().cos();
            for off in [0.0, reach] {
                let place = Position::computed(lat, middle + off);
                let northing = self.projection.forward(place).ok()?.point.northing.as_metres();
                let (low, high) = range.unwrap_or((northing, northing));
                range = Some((low.min(northing), high.max(northing)));
            }
        }
        range
    }
}

impl Plane for Utm {
    fn forward(&self, position: Position) -> Result<OnGrid, GridError> {
        Ok(OnGrid::new(self.projection.forward(position)?, Accuracy::Projection))
    }

    fn forward_all(
        &self,
        positions: &[Position],
        points: &mut Vec<GridPoint>,
    ) -> Result<(), GridError> {
        Ok(self.projection.forward_all(positions, points)?)
    }

    fn inverse(&self, point: GridPoint) -> Result<FromGrid, GridError> {
        Ok(FromGrid::new(self.projection.inverse(point)?, Accuracy::Projection))
    }

    fn letters(&self, cell: Cell, point: GridPoint) -> Option<String> {
        let lat = self.projection.inverse(point).ok()?.position.lat.as_degrees();
        // A point on the edge of two bands belongs to the northern one, however its latitude
        // came out of the projection: the rule of the grid lines, in degrees.
        let band = band(lat + ON_THE_LINE / 111_000.0)?;
        let square = square(self.zone, cell)?;
        Some(format!("{:02}{band} {square}", self.zone.number()))
    }

    fn cell(&self, letters: &str, near: Option<GridPoint>) -> Result<Cell, ReferenceError> {
        let head = Head::read(letters)?;
        match head.zone {
            Some((number, band)) if number != self.zone.number() => {
                Err(ReferenceError::OtherZone {
                    written: format!("{number}{band}"),
                    grid: self.zone.number().to_string(),
                })
            }
            _ => head.cell(self.zone, |south, north| self.northings(south, north), near),
        }
    }

    fn covers(&self, cell: Cell) -> bool {
        let middle = cell.centre();
        let lat = self.projection.inverse(middle).map(|there| there.position.lat.as_degrees());
        square(self.zone, cell).is_some() && lat.is_ok_and(|lat| (-81.0..85.0).contains(&lat))
    }

    fn extent(&self) -> &'static str {
        "100,000 to 900,000 east, from 80° S to 84° N, are the zone's lettered squares"
    }
}
