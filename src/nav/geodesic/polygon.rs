//! What a ring of geodesics encloses.

use geographiclib_rs::{Geodesic, PolygonArea, Winding};

use crate::area::Area;
use crate::{Length, Position};

/// What a ring of geodesics measures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Polygon {
    /// The length of its sides, the closing one among them.
    pub perimeter: Length,
    /// The area within, never negative, whichever way round the ring runs.
    pub area: Area,
}

/// The perimeter and area of the ring whose corners are given, the first not repeated, on the
/// WGS 84 ellipsoid.
///
/// The ring must not cross itself and encloses less than half the Earth; it may enclose a pole or cross
/// the antimeridian.
///
/// **Accuracy**: 20 nanometres and 0.1 m² for each corner, given the corners.
///
/// **Reference**: C. F. F. Karney, Algorithms for geodesics, Journal of Geodesy 87 (2013), 43-55,
/// section 6.
///
/// ```
/// use nav::{Position, geodesic};
/// // A square degree at the equator.
/// let corners = [(0.0, 0.0), (0.0, 1.0), (1.0, 1.0), (1.0, 0.0)];
/// let corners = corners.map(|(lat, lon)| Position::from_degrees(lat, lon).unwrap());
/// let degree = geodesic::polygon(corners);
/// assert_eq!(degree.area.as_square_kilometres().round(), 12_309.0);
/// assert_eq!(degree.perimeter.as_metres().round(), 443_771.0);
/// ```
#[must_use]
pub fn polygon(ring: impl IntoIterator<Item = Position>) -> Polygon {
    let ellipsoid = Geodesic::wgs84();
    let mut sum = PolygonArea::new(&ellipsoid, Winding::CounterClockwise);
    for corner in ring {
        sum.add_point(corner.lat.as_degrees(), corner.lon.as_degrees());
    }
    let (perimeter, area, _) = sum.compute(true);
    Polygon { perimeter: Length::metres(perimeter), area: Area::square_metres(area.abs()) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ring(corners: &[(f64, f64)]) -> Polygon {
        polygon(corners.iter().map(|&(lat, lon)| Position::from_degrees(lat, lon).unwrap()))
    }

    /// GeographicLib's test suite (MIT), "Planimeter0": lengths to 1e-4 m (the last to 1 m),
    /// areas to 1 m². From memory; geographiclib 2.1 for Python gives the same digits.
    #[test]
    fn published_polygons() {
        for (corners, perimeter, area) in [
            (
                &[(89.0, 0.0), (89.0, 90.0), (89.0, 180.0), (89.0, -90.0)][..],
                631819.8745,
                24_952_305_678.0,
            ),
            (
                &[(-89.0, 0.0), (-89.0, 90.0), (-89.0, 180.0), (-89.0, -90.0)],
                631819.8745,
                24_952_305_678.0,
            ),
            (&[(0.0, -1.0), (-1.0, 0.0), (0.0, 1.0), (1.0, 0.0)], 627598.2731, 24_619_419_146.0),
            (&[(90.0, 0.0), (0.0, 0.0), (0.0, 90.0)], 30_022_685.0, 63_758_202_715_511.0),
        ] {
            let found = ring(corners);
            let off = (found.perimeter.as_metres() - perimeter).abs();
            assert!(off <= if perimeter > 1e7 { 1.0 } else { 1e-4 }, "{corners:?}: {found:?}");
            let off = (found.area.as_square_metres() - area).abs();
            assert!(off <= 1.0, "{corners:?}: {found:?}");
        }
    }

    #[test]
    fn the_way_round_is_no_matter() {
        let there = [(57.0, -3.0), (57.0, -2.0), (58.0, -2.5)];
        let back = [(57.0, -3.0), (58.0, -2.5), (57.0, -2.0)];
        let (there, back) = (ring(&there), ring(&back));
        assert!((there.area - back.area).as_square_metres().abs() < 1e-3);
    }

    #[test]
    fn a_ring_may_cross_the_antimeridian() {
        let across = ring(&[(60.0, 179.0), (60.0, -179.0), (61.0, -179.0), (61.0, 179.0)]);
        let elsewhere = ring(&[(60.0, 9.0), (60.0, 11.0), (61.0, 11.0), (61.0, 9.0)]);
        assert!((across.area - elsewhere.area).as_square_metres().abs() < 1.0);
    }

    #[test]
    fn rings_without_an_inside_enclose_nothing() {
        for corners in [&[][..], &[(57.0, -3.0)], &[(57.0, -3.0), (58.0, -3.0)]] {
            assert!(ring(corners).area.as_square_metres() < 1e-3, "{corners:?}");
        }
    }
}
