//! What lies within a distance of a vertex, and where a side leaves it.

use super::vertex::{A, Vertex, side};
use crate::{Datum, Length, OutOfRange, Wgs84};

/// How near to the distance asked for a crossing lies, in metres.
const NEAR: f64 = 1e-7;
/// More trials than any crossing takes: bisection alone would need fewer.
const TRIALS: usize = 100;

/// A distance in every direction, as a pair of dividers is opened to it: asks of vertices
/// whether they lie within it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reach {
    metres: f64,
    /// Squares of distances on the sphere of a vertex: below the first, all are within reach,
    /// from the second on, none.
    surely: (f64, f64),
}

impl Reach {
    /// The reach of `length`.
    ///
    /// # Errors
    /// [`OutOfRange`] when it is not within 1 m to 2,000 km.
    pub fn new(length: Length) -> Result<Reach, OutOfRange> {
        let bounds = (1.0, 2e6);
        let metres =
            OutOfRange::check("reach in metres", length.as_metres(), bounds, "1 m to 2,000 km")?;
        // A line on the sphere is shrunk by the equatorial or the polar radius, or between.
        let square = |radius: f64| 4.0 * (metres / (2.0 * radius)).sin().powi(2);
        let polar = Wgs84::ELLIPSOID.semi_minor().as_metres();
        // Moved apart by far more than rounding.
        let surely = (square(A) * (1.0 - 1e-9), square(polar) * (1.0 + 1e-9));
        Ok(Reach { metres, surely })
    }

    /// The distance that it reaches.
    #[must_use]
    pub const fn length(self) -> Length {
        Length::metres(self.metres)
    }

    /// Whether the geodesic from one vertex to the other is shorter than the reach.
    #[inline]
    #[must_use]
    pub fn holds(self, from: Vertex, to: Vertex) -> bool {
        let square = side(from, to).square;
        square < self.surely.0 || (square < self.surely.1 && self.beyond(from, to) < 0.0)
    }

    /// Where the side from `inside` to `outside` leaves the reach about `centre`, to a tenth of
    /// a micrometre; `outside` itself when both lie within.
    ///
    /// The side is taken as the section of the ellipsoid through its centre, which lies within
    /// 1 cm of the geodesic at 10 km and 1 m at 100 km.
    #[must_use]
    pub fn crossing(self, centre: Vertex, inside: Vertex, outside: Vertex) -> Vertex {
        let (mut low, mut high) =
            ((0.0, self.beyond(centre, inside)), (1.0, self.beyond(centre, outside)));
        if high.1 <= NEAR {
            return outside;
        }
        let mut part = self.first_trial(centre, inside, outside);
        let mut kept = 0;
        for _ in 0..TRIALS {
            let trial = inside.toward(outside, part);
            let beyond = self.beyond(centre, trial);
            if beyond.abs() <= NEAR {
                return trial;
            }
            // False position; an end that is kept twice counts half (the Illinois rule).
            if beyond < 0.0 {
                low = (part, beyond);
                high.1 *= if kept == 1 { 0.5 } else { 1.0 };
                kept = 1;
            } else {
                high = (part, beyond);
                low.1 *= if kept == -1 { 0.5 } else { 1.0 };
                kept = -1;
            }
            part = (low.0 * high.1 - high.0 * low.1) / (high.1 - low.1);
        }
        inside.toward(outside, part)
    }

    /// Metres from the reach about `centre` outwards to `vertex`.
    fn beyond(self, centre: Vertex, vertex: Vertex) -> f64 {
        centre.distance(vertex).as_metres() - self.metres
    }

    /// What part of the side lies within, were the Earth flat and alike in all directions.
    fn first_trial(self, centre: Vertex, inside: Vertex, outside: Vertex) -> f64 {
        let (run, off) = (outside.less(inside), inside.less(centre));
        let all = side(centre, outside);
        let wanted = all.square * (self.metres / all.metres).powi(2);
        let (a, b, c) = (run.dot(run), run.dot(off), off.dot(off) - wanted);
        let root = (b * b - a * c).max(0.0).sqrt();
        // The stable one of two forms of the positive root.
        let part = if b > 0.0 { -c / (b + root) } else { (root - b) / a };
        if part.is_finite() { part.clamp(0.0, 1.0) } else { 0.5 }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::{Bearing, Position, geodesic};

    fn at(lat: f64, lon: f64) -> Position {
        Position::from_degrees(lat, lon).unwrap()
    }

    fn end(from: Position, bearing: f64, metres: f64) -> Vertex {
        let bearing = Bearing::from_degrees(bearing).unwrap();
        Vertex::new(geodesic::direct(from, bearing, Length::metres(metres)).position)
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..Default::default() })]

        /// What is held is nearer than the reach by the general method; a crossing lies at the
        /// reach and between its ends.
        #[test]
        fn reaches_are_geodesic_distances(
            (lat, lon) in (-90.0..=90.0f64, -180.0..=180.0f64),
            (reach, near, far) in (1.0..1.5e6f64, 0.0..1.0f64, 1.0..1.2f64),
            (one, other) in (0.0..360.0f64, 0.0..360.0f64),
        ) {
            let centre = at(lat, lon);
            let (inside, outside) = (end(centre, one, reach * near), end(centre, other, reach * far));
            let reach = Reach::new(Length::metres(reach)).unwrap();
            let from = Vertex::new(centre);
            // The ends are rounded to some nanometres.
            prop_assert!(reach.holds(from, inside) || near > 1.0 - 1e-8);
            prop_assert!(!reach.holds(from, outside) || far < 1.0 + 1e-8);
            let crossing = reach.crossing(from, inside, outside);
            let off = geodesic::inverse(centre, crossing.position()).distance - reach.length();
            prop_assert!(off.as_metres().abs() < NEAR + 40e-9, "{:?}", off);
            let sides = inside.distance(crossing) + crossing.distance(outside);
            let side = inside.distance(outside);
            // By the square of how far the section lies off the geodesic over the side's length,
            // and the first goes by the square of the second.
            let longer = (sides - side).as_metres();
            prop_assert!(longer < 1e-6 + 0.2 * (side.as_metres() / 2e6).powi(3), "{}", longer);
        }
    }

    #[test]
    fn no_reach() {
        for metres in [0.0, 0.5, -3.0, f64::NAN, 3e6] {
            assert!(Reach::new(Length::metres(metres)).is_err(), "{metres}");
        }
        let error = Reach::new(Length::ZERO).unwrap_err();
        assert_eq!(error.to_string(), "reach in metres 0 is not within 1 m to 2,000 km");
    }

    #[test]
    fn ends_that_are_one_place() {
        let reach = Reach::new(Length::METRE).unwrap();
        let here = Vertex::new(at(57.0, -2.0));
        assert_eq!(reach.crossing(here, here, here), here);
        let there = end(at(57.0, -2.0), 30.0, 1.0);
        let crossing = reach.crossing(here, here, there);
        assert!(crossing.distance(there).as_metres() < 1e-6);
    }
}
