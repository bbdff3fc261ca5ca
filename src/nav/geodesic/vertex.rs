//! A position made ready for many distances.

use super::inverse;
use crate::angle::sin_cos_degrees;
use crate::{Datum, Length, Position, Wgs84};

/// The equatorial radius in metres.
pub(super) const A: f64 = Wgs84::ELLIPSOID.a();
const F: f64 = Wgs84::ELLIPSOID.flattening();
/// The first and the second eccentricity squared.
const E2: f64 = Wgs84::ELLIPSOID.eccentricity_squared();
const SECOND_E2: f64 = E2 / (1.0 - E2);

/// The square of the longest chord that is turned into a length by its curvature, on the sphere
/// of radius 1. On it a line is longer than its metres over the equatorial radius, at the most,
/// north on the equator, by their ratio to the polar radius: 101 km are always more than 100 km.
pub(super) const FARTHEST: f64 = {
    let radii = 101_000.0 / Wgs84::ELLIPSOID.semi_minor().as_metres();
    radii * radii
};

/// A vertex of a line: a position made ready for many distances.
///
/// It is the position on WGS 84 as a point in space, its axes shrunk so that the ellipsoid is a
/// sphere of radius 1. What takes long, the sines and cosines, is done once for each vertex and
/// not for each distance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Vertex {
    pub(super) x: f64,
    pub(super) y: f64,
    pub(super) z: f64,
}

impl Vertex {
    /// The vertex at `position`.
    #[inline]
    #[must_use]
    pub fn new(position: Position) -> Vertex {
        let (sin_lat, cos_lat) = sin_cos_degrees(position.lat.as_degrees());
        let (sin_lon, cos_lon) = sin_cos_degrees(position.lon.as_degrees());
        // Sine and cosine of the reduced latitude, the latitude on the sphere.
        let grown = 1.0 / (1.0 - E2 * sin_lat * sin_lat).sqrt();
        let off_axis = cos_lat * grown;
        Vertex { x: off_axis * cos_lon, y: off_axis * sin_lon, z: (1.0 - F) * sin_lat * grown }
    }

    /// Its position, to a nanometre.
    #[must_use]
    pub fn position(&self) -> Position {
        let off_axis = self.x.hypot(self.y);
        let lat = self.z.atan2((1.0 - F) * off_axis);
        Position::computed(lat.to_degrees(), self.y.atan2(self.x).to_degrees())
    }

    /// The length of the geodesic to `other`.
    ///
    /// **Accuracy**: 20 nanometres at any length. To 100 km it is the chord through the
    /// ellipsoid, lengthened as the curvature of the normal section at its middle asks; beyond,
    /// and nowhere else, it is [`inverse`](super::inverse).
    ///
    /// ```
    /// use nav::{Position, geodesic};
    /// let from = Position::from_degrees(57.155, -2.08)?;
    /// let to = Position::from_degrees(57.148, -2.06)?;
    /// let quick = geodesic::Vertex::new(from).distance(geodesic::Vertex::new(to));
    /// let off = quick - geodesic::inverse(from, to).distance;
    /// assert!(off.as_metres().abs() < 2e-8);
    /// # Ok::<(), nav::OutOfRange>(())
    /// ```
    #[must_use]
    pub fn distance(self, other: Vertex) -> Length {
        let Side { square, metres } = side(self, other);
        if square > FARTHEST {
            return inverse(self.position(), other.position()).distance;
        }
        Length::metres(metres)
    }

    /// The vertex at this part, 0 to 1, of the way to `other`: on the section of the ellipsoid
    /// through both and its centre, which is no geodesic, but within 1 cm of it at 10 km and 1 m
    /// at 100 km. Parts are those of the chord.
    #[must_use]
    pub fn toward(self, other: Vertex, part: f64) -> Vertex {
        let chord = other.less(self);
        let (x, y, z) = (self.x + part * chord.x, self.y + part * chord.y, self.z + part * chord.z);
        // Between opposite places there is no middle; either is as good.
        let up = 1.0 / (x * x + y * y + z * z).sqrt().max(1e-300);
        Vertex { x: x * up, y: y * up, z: z * up }
    }

    /// The step in space from `other`.
    pub(super) fn less(self, other: Vertex) -> Vertex {
        Vertex { x: self.x - other.x, y: self.y - other.y, z: self.z - other.z }
    }

    /// The product of two steps in space.
    pub(super) fn dot(self, other: Vertex) -> f64 {
        self.x * other.x + self.y * other.y + self.z * other.z
    }
}

/// What lies between two vertices.
pub(super) struct Side {
    /// The square of their distance on the sphere of radius 1.
    pub(super) square: f64,
    /// The length of the geodesic in metres, when the square is not over [`FARTHEST`].
    pub(super) metres: f64,
}

/// The chord of a geodesic and its length.
///
/// With the curvature κ at its middle a line of length s spans the chord c, where
///
/// s = c (1 + y/24 + 3y²/640 + 5y³/7168 + …) + κ κ″ s⁵/480 + …, y = κ²c²,
///
/// as its Taylor series about the middle gives. κ is by the second fundamental form that of the
/// normal section along the chord; on an ellipsoid it goes along a geodesic as the cube of the
/// distance from the centre to the tangent plane (Joachimsthal's theorem), which gives κ″. Left
/// out are terms in the torsion and κ′, which are e⁴ of the third term and under a nanometre at
/// 100 km.
#[inline]
pub(super) fn side(from: Vertex, to: Vertex) -> Side {
    let (dx, dy, dz) = (to.x - from.x, to.y - from.y, to.z - from.z);
    let square = dx * dx + dy * dy + dz * dz;
    // The chord of the ellipsoid itself, in equatorial radii.
    let chord = square - E2 * dz * dz;
    // The square of the third coordinate of the place on the sphere above the chord's middle.
    let middle = 0.25 * (from.z + to.z) * (from.z + to.z) * (1.0 + 0.25 * square);
    // Nothing to divide by when the two are one place.
    let y = square * square / ((chord + f64::MIN_POSITIVE) * (1.0 + SECOND_E2 * middle));
    let turning = SECOND_E2 * (dz * dz - middle * square);
    let longer = y * (1.0 / 24.0 - turning / 160.0 + y * (3.0 / 640.0 + y * (5.0 / 7168.0)));
    Side { square, metres: A * chord.sqrt() * (1.0 + longer) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Bearing, geodesic::direct};

    fn at(lat: f64, lon: f64) -> Position {
        Position::from_degrees(lat, lon).unwrap()
    }

    /// Against the general method at every latitude, in every direction, from a metre to where
    /// the short method ends. A micrometre is promised; what is seen is 3 nm of rounding, so
    /// that a term that is wrong shows.
    #[test]
    fn short_lines_are_those_of_the_general_method() {
        for metres in [1.0, 30.0, 1e3, 1e4, 5e4, 1e5] {
            for (lat, turn) in (-90..=90).flat_map(|lat| (0..36).map(move |turn| (lat, turn))) {
                let from = at(f64::from(lat), f64::from(turn) * 10.0 - 179.0);
                let bearing = Bearing::from_degrees(f64::from(turn) * 10.0 + 1.0).unwrap();
                let to = direct(from, bearing, Length::metres(metres)).position;
                let quick = side(Vertex::new(from), Vertex::new(to));
                assert!(quick.square < FARTHEST, "{metres} m from {from:?}");
                let off = quick.metres - inverse(from, to).distance.as_metres();
                assert!(off.abs() < 5e-9, "{off:e} m off at {from:?}, {metres} m on {bearing}");
            }
        }
    }

    #[test]
    fn long_lines_are_the_general_methods() {
        for (from, to) in [
            (at(57.0, -2.0), at(58.0, 3.0)),
            (at(0.0, 0.0), at(0.5, 179.7)),
            (at(90.0, 0.0), at(-90.0, 0.0)),
            (at(-17.0, 179.0), at(-16.0, -178.0)),
        ] {
            let quick = Vertex::new(from).distance(Vertex::new(to));
            let off = (quick - inverse(from, to).distance).as_metres();
            assert!(off.abs() < 20e-9, "{off:e} m off from {from:?} to {to:?}");
        }
    }

    /// How far the middle of a section lies off the middle of the geodesic.
    #[test]
    fn sections_lie_near_geodesics() {
        for (metres, leeway) in [(1e4, 0.01), (1e5, 1.0)] {
            for (lat, turn) in (-90..=90).flat_map(|lat| (0..36).map(move |turn| (lat, turn))) {
                let from = at(f64::from(lat), 7.0);
                let bearing = Bearing::from_degrees(f64::from(turn) * 10.0).unwrap();
                let end = |length| Vertex::new(direct(from, bearing, length).position);
                let start = Vertex::new(from);
                let middle = start.toward(end(Length::metres(metres)), 0.5);
                let off = middle.distance(end(start.distance(middle))).as_metres();
                assert!(off < leeway, "{off} m off at {from:?}, {metres} m on {bearing}");
            }
        }
    }

    #[test]
    fn no_length_and_odd_places() {
        for place in [at(90.0, 10.0), at(-90.0, -180.0), at(0.0, 0.0), at(57.155, -2.08)] {
            let vertex = Vertex::new(place);
            assert_eq!(vertex.distance(vertex), Length::ZERO);
            let back = vertex.position();
            assert!(inverse(back, place).distance.as_metres() < 2e-9, "{back:?}");
        }
        let middle = Vertex::new(at(0.0, 10.0)).toward(Vertex::new(at(0.0, 11.0)), 0.5);
        assert!(inverse(middle.position(), at(0.0, 10.5)).distance.as_metres() < 2e-9);
        // One pole by two meridians, one meridian by two names.
        let pole = Vertex::new(at(90.0, 0.0)).distance(Vertex::new(at(90.0, 90.0)));
        assert_eq!(pole, Length::ZERO);
        let antimeridian = Vertex::new(at(10.0, 180.0)).distance(Vertex::new(at(10.0, -180.0)));
        assert_eq!(antimeridian, Length::ZERO);
    }
}
