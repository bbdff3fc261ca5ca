//! The Universal Polar Stereographic grid of the polar areas, and its letters in MGRS.

use super::letters::{check_used, position, unknown};
use super::plane::{Cell, Plane};
use super::zone::Hemisphere;
use super::{Accuracy, FromGrid, GridError, GridPoint, OnGrid, ReferenceError};
use crate::conformal::{conformal, geodetic, parallel, secant};
use crate::{Convergence, Datum, Position, Wgs84};

/// Scale at the pole, and the false easting and northing of the pole in metres
/// (DMA TM 8358.2, section 3-2).
const SCALE: f64 = 0.994;
const FALSE: f64 = 2_000_000.0;
/// Farther from the pole than this, in metres, the grid is not used: about 60 degrees of
/// latitude, and 20 degrees beyond the polar areas.
const REACH: f64 = 3_300_000.0;
const E2: f64 = Wgs84::ELLIPSOID.eccentricity_squared();

/// The UPS grid around one pole on WGS 84: polar stereographic.
///
/// It serves from 84° N, and south of 80° S; it can be computed to about 60°. Grid north is
/// true north on the meridian of Greenwich.
///
/// **Accuracy**: closed formulas, some nanometres. Snyder, Map projections: a working manual,
/// USGS Professional Paper 1395 (1987), equations 21-33 to 21-40.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ups {
    pole: Hemisphere,
}

impl Ups {
    /// The grid around this hemisphere's pole.
    pub const fn new(pole: Hemisphere) -> Ups {
        Ups { pole }
    }

    /// Whose pole it lies around.
    pub const fn pole(&self) -> Hemisphere {
        self.pole
    }

    /// 1 in the north, -1 in the south: by it the south is the north in a mirror.
    fn side(&self) -> f64 {
        match self.pole {
            Hemisphere::North => 1.0,
            Hemisphere::South => -1.0,
        }
    }

    /// Metres on the grid for a unit of the stereographic projection of the sphere.
    fn unit() -> f64 {
        let e = E2.sqrt();
        // 2 a k₀ / √((1 + e)^(1 + e) (1 - e)^(1 - e)).
        let shape = ((1.0 + e).powf(1.0 + e) * (1.0 - e).powf(1.0 - e)).sqrt();
        2.0 * Wgs84::ELLIPSOID.a() * SCALE / shape
    }

    /// Letters of the two halves: the western columns, the eastern ones and the rows.
    const fn alphabet(&self) -> Alphabet {
        match self.pole {
            Hemisphere::North => Alphabet {
                halves: ('Y', 'Z'),
                west: b"RSTUXYZ",
                east: b"ABCFGHJ",
                rows: b"ABCDEFGHJKLMNP",
            },
            Hemisphere::South => Alphabet {
                halves: ('A', 'B'),
                west: b"JKLPQRSTUXYZ",
                east: b"ABCFGHJKLPQR",
                rows: b"ABCDEFGHJKLMNPQRSTUVWXYZ",
            },
        }
    }
}

/// DMA TM 8358.1, figure 3-6 and 3-7: squares of 100 km around a pole. The pole is the corner
/// of four, in the middle of the rows and between the halves.
struct Alphabet {
    halves: (char, char),
    west: &'static [u8],
    east: &'static [u8],
    rows: &'static [u8],
}

/// The pole's own column and row, of the square to its north-east.
const POLE: i64 = 20;

impl Alphabet {
    /// The row of the first letter.
    fn first_row(&self) -> i64 {
        // Two dozen letters at most.
        POLE - self.rows.len() as i64 / 2
    }

    /// The column of the first letter in the west.
    fn first_column(&self) -> i64 {
        POLE - self.west.len() as i64
    }

    fn letters(&self, cell: Cell) -> Option<String> {
        let at = |letters: &[u8], index: i64| {
            letters.get(usize::try_from(index).ok()?).map(|&letter| char::from(letter))
        };
        let (half, column) = if cell.column < POLE {
            (self.halves.0, at(self.west, cell.column - self.first_column())?)
        } else {
            (self.halves.1, at(self.east, cell.column - POLE)?)
        };
        let row = at(self.rows, cell.row - self.first_row())?;
        Some(format!("{half} {column}{row}"))
    }

    fn cell(&self, half: char, column: char, row: char) -> Option<Cell> {
        let column = if half == self.halves.0 {
            position(self.west, column)? + self.first_column()
        } else if half == self.halves.1 {
            position(self.east, column)? + POLE
        } else {
            return None;
        };
        Some(Cell { column, row: position(self.rows, row)? + self.first_row() })
    }
}

impl Plane for Ups {
    fn forward(&self, position: Position) -> Result<OnGrid, GridError> {
        let side = self.side();
        let tau = side * position.lat.as_radians().tan();
        let tau_c = conformal(E2, tau);
        let (sin, cos) = position.lon.as_radians().sin_cos();
        // tan of half the conformal colatitude, without a difference of great numbers.
        let off = Self::unit() / (tau_c + secant(tau_c));
        if tau < 0.0 || off > REACH {
            return Err(GridError::NotPolar { lat: position.lat.as_degrees() });
        }
        let point = GridPoint::metres(FALSE + off * sin, FALSE - side * off * cos);
        let convergence = Convergence::degrees_east(side * position.lon.as_degrees());
        let scale = off / Wgs84::ELLIPSOID.a() * parallel(E2, tau);
        Ok(OnGrid { point, convergence, scale, accuracy: Accuracy::Projection })
    }

    fn inverse(&self, point: GridPoint) -> Result<FromGrid, GridError> {
        let side = self.side();
        let east = point.easting.as_metres() - FALSE;
        let toward_greenwich = side * (FALSE - point.northing.as_metres());
        let off = east.hypot(toward_greenwich);
        if off > REACH {
            let (easting, northing) = (point.easting.as_metres(), point.northing.as_metres());
            return Err(GridError::Outside { easting, northing, extent: self.extent() });
        }
        // At the pole itself the tangent has no end; this is a latitude of 90 degrees.
        let half = (off / Self::unit()).max(1e-18);
        let tau = geodetic(E2, (1.0 / half - half) / 2.0);
        let lon = east.atan2(toward_greenwich).to_degrees();
        let scale = half * Self::unit() / Wgs84::ELLIPSOID.a() * parallel(E2, tau);
        Ok(FromGrid {
            position: Position::computed(side * tau.atan().to_degrees(), lon),
            convergence: Convergence::degrees_east(side * lon),
            scale,
            accuracy: Accuracy::Projection,
        })
    }

    fn letters(&self, cell: Cell, _: GridPoint) -> Option<String> {
        self.alphabet().letters(cell)
    }

    fn cell(&self, letters: &str, _: Option<GridPoint>) -> Result<Cell, ReferenceError> {
        check_used(letters, &['I', 'O'])?;
        let alphabet = self.alphabet();
        let found = match letters.chars().collect::<Vec<_>>().as_slice() {
            &[half, column, row] => alphabet.cell(half, column, row),
            _ => None,
        };
        let (west, east) = alphabet.halves;
        found.ok_or_else(|| {
            let expected =
                format!("{west} or {east} and two letters for the square, as in {east} AH");
            unknown(letters, &expected)
        })
    }

    fn covers(&self, cell: Cell) -> bool {
        self.alphabet().letters(cell).is_some()
    }

    fn extent(&self) -> &'static str {
        "the lettered squares lie from 84° N and south of 80° S"
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Length;

    #[test]
    fn the_pole_is_a_point() {
        for (pole, lat) in [(Hemisphere::North, 90.0), (Hemisphere::South, -90.0)] {
            let grid = Ups::new(pole);
            for lon in [-180.0, -90.0, 0.0, 45.0, 180.0] {
                let there = grid.forward(Position::from_degrees(lat, lon).unwrap()).unwrap();
                let off = there.point.easting - Length::metres(FALSE);
                assert!(off.as_metres().abs() < 1e-6, "{there:?}");
                assert!((there.scale - SCALE).abs() < 1e-12, "{there:?}");
            }
            let back = grid.inverse(GridPoint::metres(FALSE, FALSE)).unwrap();
            assert_eq!(back.position.lat.as_degrees(), lat);
            assert!((back.scale - SCALE).abs() < 1e-12, "{back:?}");
        }
    }

    #[test]
    fn the_other_hemisphere_is_not_polar() {
        let grid = Ups::new(Hemisphere::North);
        for lat in [59.0, 0.0, -10.0, -90.0] {
            let error = grid.forward(Position::from_degrees(lat, 10.0).unwrap()).unwrap_err();
            assert_eq!(error, GridError::NotPolar { lat });
        }
        assert!(grid.inverse(GridPoint::metres(5_400_000.0, FALSE)).is_err());
    }
}
