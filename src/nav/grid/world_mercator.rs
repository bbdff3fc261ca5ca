//! World Mercator: the whole Earth but its poles on one plane.

use std::f64::consts::PI;

use super::plane::{Cell, Plane};
use super::reference::{self, Written};
use super::{
    Accuracy, Figures, FromGrid, Grid, GridError, GridPoint, OnGrid, ReferenceError, Square,
};
use crate::conformal::{conformal, geodetic, parallel};
use crate::{Convergence, Datum, Position, Wgs84};

/// The equatorial radius in metres.
const A: f64 = Wgs84::ELLIPSOID.a();
const E2: f64 = Wgs84::ELLIPSOID.eccentricity_squared();
/// The farthest latitude from the equator, in degrees: there a metre is 114 of the grid's.
const FARTHEST: f64 = 89.5;
/// Eastings are taken as far as this from Greenwich, in metres: two whole turns.
const TURNS: f64 = 4.0 * PI * A;
const EXTENT: &str = "it reaches from 89.5° S to 89.5° N";

/// World Mercator on WGS 84 (EPSG:3395): a line of one bearing is a straight line on it.
///
/// It reaches from 89.5° S to 89.5° N. A position's easting is that of a longitude from -180 to
/// 180 degrees; a point may lie up to two turns east or west, so that a line that crosses the
/// antimeridian can be kept in one piece.
///
/// Its metres are not metres on the ground: its scale is 1 on the equator alone, 2 at 60
/// degrees. It has no letters of its own: its references are those of MGRS.
///
/// **Accuracy**: closed formulas, some nanometres on the ground. IOGP, Guidance note 7-2
/// (2019), section 3.5.1, Mercator variant A, with the conformal latitude for its series.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct WorldMercator(());

impl WorldMercator {
    /// The grid.
    pub const fn new() -> WorldMercator {
        WorldMercator(())
    }

    /// The reference of a point on MGRS.
    pub(super) fn reference(
        &self,
        point: GridPoint,
        figures: Figures,
    ) -> Result<String, GridError> {
        Grid::Mgrs.reference_at(self.inverse(point)?.position, figures)
    }

    /// The letters of a point's square of 100 km on MGRS.
    pub(super) fn square_letters(&self, point: GridPoint) -> Option<String> {
        let position = self.inverse(point).ok()?.position;
        let grid = Grid::Mgrs.at(position);
        grid.square_letters(grid.forward(position).ok()?.point)
    }

    /// The square that a text names: full coordinates on this grid, or a reference on MGRS,
    /// whose square is laid here by its middle, upright and as great as its scale makes it.
    pub(super) fn square(
        &self,
        text: &str,
        near: Option<GridPoint>,
    ) -> Result<Square, ReferenceError> {
        if matches!(Written::read(text)?, Written::Full { .. }) {
            return reference::read(self, text, near);
        }
        let near = near.and_then(|point| self.inverse(point).ok()).map(|there| there.position);
        let found = Grid::Mgrs.find(text, near)?;
        let middle = found.square.centre();
        let laid = found.grid.inverse(middle).and_then(|there| self.forward(there.position));
        let laid = laid.map_err(|_| ReferenceError::Outside {
            easting: middle.easting.as_metres(),
            northing: middle.northing.as_metres(),
            extent: EXTENT,
        })?;
        let side = found.square.side * laid.scale;
        let south_west = GridPoint {
            easting: laid.point.easting - side / 2.0,
            northing: laid.point.northing - side / 2.0,
        };
        Ok(Square { south_west, side })
    }
}

impl Plane for WorldMercator {
    fn forward(&self, position: Position) -> Result<OnGrid, GridError> {
        let lat = position.lat.as_degrees();
        if lat.abs() > FARTHEST {
            return Err(GridError::NearPole { lat });
        }
        let tau = position.lat.as_radians().tan();
        let northing = A * conformal(E2, tau).asinh();
        Ok(OnGrid {
            point: GridPoint::metres(A * position.lon.as_radians(), northing),
            convergence: Convergence::degrees_east(0.0),
            scale: parallel(E2, tau),
            accuracy: Accuracy::Projection,
        })
    }

    fn inverse(&self, point: GridPoint) -> Result<FromGrid, GridError> {
        let (easting, northing) = (point.easting.as_metres(), point.northing.as_metres());
        let tau = geodetic(E2, (northing / A).sinh());
        let lat = tau.atan().to_degrees();
        // The last latitude comes back from its northing to within a rounding. Of a northing
        // as far as the stars the sinh overflows and the latitude is no number.
        let farthest = FARTHEST + 1e-12;
        if easting.abs() > TURNS || !(-farthest..=farthest).contains(&lat) {
            return Err(GridError::Outside { easting, northing, extent: EXTENT });
        }
        Ok(FromGrid {
            position: Position::computed(lat, (easting / A).to_degrees()),
            convergence: Convergence::degrees_east(0.0),
            scale: parallel(E2, tau),
            accuracy: Accuracy::Projection,
        })
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

    fn covers(&self, _: Cell) -> bool {
        false
    }

    fn extent(&self) -> &'static str {
        EXTENT
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn position(lat: f64, lon: f64) -> Position {
        Position::from_degrees(lat, lon).unwrap()
    }

    fn metres(point: GridPoint) -> (f64, f64) {
        (point.easting.as_metres(), point.northing.as_metres())
    }

    /// PROJ's World Mercator in Rust, an independent computation, over the whole grid.
    #[test]
    fn an_independent_library_has_the_same() {
        let proj = |text: &str| proj4rs::Proj::from_proj_string(text).unwrap();
        let longlat = proj("+proj=longlat +datum=WGS84 +type=crs");
        let mercator = proj("+proj=merc +lon_0=0 +k=1 +datum=WGS84 +type=crs");
        for step in -178..=178 {
            let place = position(f64::from(step) / 2.0, f64::from(step * 77 % 179));
            let mut theirs = (place.lon.as_radians(), place.lat.as_radians(), 0.0);
            proj4rs::transform::transform(&longlat, &mercator, &mut theirs).unwrap();
            let on = WorldMercator::new().forward(place).unwrap();
            let (easting, northing) = metres(on.point);
            // A nanometre for each of the grid's metres to one on the ground, both ways.
            let leeway = 4e-9 * on.scale;
            assert!((easting - theirs.0).abs() < 8e-9, "{place:?} {on:?} {theirs:?}");
            assert!((northing - theirs.1).abs() < leeway.max(8e-9), "{place:?} {on:?} {theirs:?}");
        }
    }

    /// Where a metre north is `scale` metres on the grid the projection is conformal: north and
    /// east are stretched alike.
    #[test]
    fn north_is_stretched_as_east_is() {
        for lat in [-89.0, -60.0, -12.0, 0.0, 33.0, 57.0, 80.0] {
            let at = |lat: f64| WorldMercator::new().forward(position(lat, 10.0)).unwrap();
            let (south, north) = (at(lat - 1e-4), at(lat + 1e-4));
            let line =
                crate::geodesic::inverse(position(lat - 1e-4, 10.0), position(lat + 1e-4, 10.0));
            let stretched = (north.point.northing - south.point.northing) / line.distance;
            // Within 11 m the scale changes by a square of 1e-4 degrees by its tangent's.
            assert!((stretched / at(lat).scale - 1.0).abs() < 2e-8, "{lat} {stretched}");
        }
    }

    #[test]
    fn eastings_may_run_on_past_the_antimeridian() {
        let grid = WorldMercator::new();
        let turn = 2.0 * PI * A;
        let (easting, northing) = metres(grid.forward(position(-17.0, -179.0)).unwrap().point);
        for easting in [easting, easting + turn, easting - turn] {
            let back = grid.inverse(GridPoint::metres(easting, northing)).unwrap().position;
            assert!((back.lon.as_degrees() + 179.0).abs() < 1e-12, "{back:?}");
            assert!((back.lat.as_degrees() + 17.0).abs() < 1e-13, "{back:?}");
        }
        assert!(grid.inverse(GridPoint::metres(2.1 * turn, northing)).is_err());
    }

    #[test]
    fn the_poles_are_out_of_reach() {
        let grid = WorldMercator::new();
        for lat in [89.5, -89.5] {
            let on = grid.forward(position(lat, 3.0)).unwrap();
            assert!(grid.inverse(on.point).is_ok());
            assert!((on.scale - 114.2).abs() < 0.1, "{on:?}");
            let beyond = position(lat * 1.0001, 3.0);
            let error = grid.forward(beyond).unwrap_err();
            assert_eq!(error, GridError::NearPole { lat: beyond.lat.as_degrees() });
            let (easting, northing) = metres(on.point);
            assert!(grid.inverse(GridPoint::metres(easting, northing * 1.001)).is_err());
            assert!(grid.inverse(GridPoint::metres(easting, northing * 1e9)).is_err());
        }
    }

    /// A reference is that of MGRS, and is read as a square that lies over the place.
    #[test]
    fn references_are_those_of_mgrs() {
        let grid = Grid::WorldMercator(WorldMercator::new());
        for (lat, lon) in [(59.153829, -2.893715), (-33.9, 18.4), (87.0, 100.0), (-85.0, -10.0)] {
            let place = position(lat, lon);
            let point = grid.forward(place).unwrap().point;
            let written = grid.reference(point, Figures::Ten).unwrap();
            assert_eq!(written, Grid::Mgrs.reference_at(place, Figures::Ten).unwrap());
            assert_eq!(written, grid.reference_at(place, Figures::Ten).unwrap());
            assert!(written.starts_with(&grid.square_letters(point).unwrap()), "{written}");
            let square = grid.parse_reference(&written, None).unwrap();
            // Half a metre of a square each way, and 1.5 times that along its diagonal.
            let off = metres(square.centre());
            let off = (off.0 - metres(point).0).hypot(off.1 - metres(point).1);
            assert!(off < 0.75 * square.side.as_metres(), "{written} {square:?} {point:?}");
            let found = grid.find(&written, None).unwrap();
            assert_eq!(found, Grid::Mgrs.find(&written, None).unwrap());
        }
        let near = grid.forward(position(59.15, -2.9)).unwrap().point;
        let alone = grid.parse_reference("060571", Some(near)).unwrap();
        assert_eq!(alone, grid.parse_reference("30VWL060571", None).unwrap());
        assert!(grid.parse_reference("060571", None).is_err());
        let full = grid.parse_reference("-322000, 8190000", None).unwrap();
        assert_eq!(metres(full.south_west), (-322_000.0, 8_190_000.0));
        assert!(grid.parse_reference("ZAH 00 00", None).is_err(), "at the pole itself");
    }
}
