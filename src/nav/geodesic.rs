//! Geodesics: the shortest lines on the ellipsoid.
//!
//! A straight leg of a route is not one of these: a paddler holds one compass bearing, and
//! the line of one bearing is the [rhumb](crate::rhumb). Over ten nautical miles the two
//! differ by less than a hand's breadth of length, over an ocean by many miles.
//!
//! **Reference**: C. F. F. Karney, Algorithms for geodesics, Journal of Geodesy 87 (2013),
//! 43-55, through the crate `geographiclib-rs`.

mod length;
mod polygon;
mod reach;
mod vertex;

pub use length::{LineLength, line_length};
pub use polygon::{Polygon, polygon};
pub use reach::Reach;
pub use vertex::Vertex;

use geographiclib_rs::{DirectGeodesic, Geodesic, InverseGeodesic};

use crate::{Bearing, Datum, Length, Position, True};

/// The shortest line between two positions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Inverse {
    /// The length of the line, never negative.
    pub distance: Length,
    /// The line's bearing as it leaves the first position.
    pub bearing_at_start: Bearing<True>,
    /// The line's bearing as it comes in at the second: onwards, not back.
    pub bearing_at_end: Bearing<True>,
}

/// Where a shortest line ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Direct {
    /// The position at the end.
    pub position: Position,
    /// The line's bearing as it comes in there: onwards, not back.
    pub bearing_at_end: Bearing<True>,
}

/// The shortest line from one position to another on the WGS 84 ellipsoid.
///
/// **Accuracy**: 20 nanometres, everywhere, also between nearly opposite points.
///
/// **Degenerate cases**: between points that coincide the length is zero and the bearings,
/// which then mean nothing, are 0° or 180°. At a pole a bearing counts from the meridian by
/// which the pole was named. Between exact antipodes on the equator the line over the north
/// pole is given; on exactly opposite meridians one of two equal lines.
///
/// ```
/// use nav::{Length, Position, geodesic};
/// // GeographicLib's own example: New York JFK to Paris CDG.
/// let jfk = Position::from_degrees(40.6, -73.8)?;
/// let cdg = Position::from_degrees(49.01666667, 2.55)?;
/// let line = geodesic::inverse(jfk, cdg);
/// assert_eq!(line.distance.as_metres().round(), 5_853_226.0);
/// assert_eq!(line.bearing_at_start.to_string(), "053°T");
/// # Ok::<(), nav::OutOfRange>(())
/// ```
#[must_use]
pub fn inverse(from: Position, to: Position) -> Inverse {
    inverse_on(&Geodesic::wgs84(), from, to)
}

/// The end of the shortest line that leaves `from` at `bearing` and is `distance` long,
/// on the WGS 84 ellipsoid; a negative distance goes the other way.
///
/// **Accuracy**: 20 nanometres. A line may be longer than half way round the earth; it is
/// then no longer the shortest between its ends.
///
/// ```
/// use nav::{Bearing, Length, Position, geodesic};
/// let start = Position::from_degrees(40.63972222, -73.77888889)?;
/// let end = geodesic::direct(start, Bearing::from_degrees(53.5)?, 5850.0 * Length::KILOMETRE);
/// // GeographicLib's own example gives 49.01467, 2.56106.
/// assert!((end.position.lat.as_degrees() - 49.01467).abs() < 0.5e-5);
/// assert!((end.position.lon.as_degrees() - 2.56106).abs() < 0.5e-5);
/// # Ok::<(), nav::OutOfRange>(())
/// ```
#[must_use]
pub fn direct(from: Position, bearing: Bearing<True>, distance: Length) -> Direct {
    let (lat, lon, end): (f64, f64, f64) = Geodesic::wgs84().direct(
        from.lat.as_degrees(),
        from.lon.as_degrees(),
        bearing.as_degrees(),
        distance.as_metres(),
    );
    Direct { position: Position::computed(lat, lon), bearing_at_end: Bearing::wrapped(end) }
}

/// The inverse problem on any ellipsoid, so that the published lines on old ones test it.
fn inverse_on<D: Datum>(ellipsoid: &Geodesic, from: Position<D>, to: Position<D>) -> Inverse {
    let (metres, start, end, _arc): (f64, f64, f64, f64) = ellipsoid.inverse(
        from.lat.as_degrees(),
        from.lon.as_degrees(),
        to.lat.as_degrees(),
        to.lon.as_degrees(),
    );
    Inverse {
        distance: Length::metres(metres),
        bearing_at_start: Bearing::wrapped(start),
        bearing_at_end: Bearing::wrapped(end),
    }
}

#[cfg(test)]
mod tests;
