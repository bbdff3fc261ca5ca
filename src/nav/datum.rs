//! Datums of national maps, and the change between two of them by seven parameters.

use std::marker::PhantomData;

use crate::{Datum, Ellipsoid, Length, Position, Wgs84};

/// European Terrestrial Reference System 1989 (EPSG:4258), fixed to the Eurasian plate.
///
/// WGS 84 moves away from it by about 2.5 cm a year, 0.9 m by 2026. This crate, like the
/// national agencies' own published transformations for mapping, takes the two as one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Etrs89 {}

impl Datum for Etrs89 {
    const NAME: &'static str = "ETRS89";
    const ELLIPSOID: Ellipsoid = Ellipsoid::GRS80;
}

/// Ordnance Survey of Great Britain 1936 (EPSG:4277).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Osgb36 {}

impl Datum for Osgb36 {
    const NAME: &'static str = "OSGB36";
    const ELLIPSOID: Ellipsoid = Ellipsoid::AIRY_1830;
}

/// The mapping adjustment of Ireland of 1975 (TM75, EPSG:4300).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ireland1975 {}

impl Datum for Ireland1975 {
    const NAME: &'static str = "TM75";
    const ELLIPSOID: Ellipsoid = Ellipsoid::AIRY_MODIFIED;
}

/// The same figures on the datum that is taken as one with the first.
pub(crate) fn as_one<A: Datum, B: Datum>(position: Position<A>) -> Position<B> {
    Position::new(position.lat, position.lon)
}

/// A change of datum by seven parameters, from `A` to `B`: a shift, small turns about the
/// three axes and a scale, in the position vector convention (EPSG method 9606).
///
/// Positions are taken to lie on the ellipsoid of their datum; a height of 100 m would change
/// the result by a centimetre at most.
///
/// ```
/// use nav::{Position, SevenParameter};
/// let here: Position = Position::from_degrees(57.155, -2.08)?;
/// let on_the_map = SevenParameter::WGS84_TO_OSGB36.apply(here);
/// assert!((on_the_map.lon.as_degrees() - here.lon.as_degrees()).abs() > 0.001);
/// # Ok::<(), nav::OutOfRange>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SevenParameter<A: Datum, B: Datum> {
    /// In metres along x, y and z.
    shift: [f64; 3],
    /// In arc seconds about x, y and z.
    turn: [f64; 3],
    /// In parts per million.
    scale: f64,
    /// In metres.
    error: f64,
    datums: PhantomData<(A, B)>,
}

impl SevenParameter<Wgs84, Osgb36> {
    /// A guide to coordinate systems in Great Britain (Ordnance Survey), section 6.6: good to
    /// about 5 m over Great Britain. At the 40 test points of OSTN15 it is 4.94 m off at most
    /// and 1.94 m on average.
    pub const WGS84_TO_OSGB36: SevenParameter<Wgs84, Osgb36> = SevenParameter {
        shift: [-446.448, 125.157, -542.060],
        turn: [-0.1502, -0.2470, -0.8421],
        scale: 20.4894,
        error: 5.0,
        datums: PhantomData,
    };
}

impl SevenParameter<Ireland1975, Wgs84> {
    /// EPSG:1954, after Ordnance Survey Ireland and Ordnance Survey of Northern Ireland, Making
    /// maps compatible with GPS (1999): good to 1 m over Ireland. It serves TM65 as well,
    /// which is one with TM75 to that accuracy (EPSG:1641).
    pub const IRELAND_1975_TO_WGS84: SevenParameter<Ireland1975, Wgs84> = SevenParameter {
        shift: [482.5, -130.6, 564.6],
        turn: [-1.042, -0.214, -0.631],
        scale: 8.15,
        error: 1.0,
        datums: PhantomData,
    };
}

impl<A: Datum, B: Datum> SevenParameter<A, B> {
    /// The most that it is off within the country it is for.
    pub const fn error(&self) -> Length {
        Length::metres(self.error)
    }

    /// The same place on the datum `B`.
    #[must_use]
    pub fn apply(&self, position: Position<A>) -> Position<B> {
        let [x, y, z] = geocentric(position);
        let [rx, ry, rz] = self.turn.map(|seconds| (seconds / 3600.0).to_radians());
        let scale = 1.0 + self.scale * 1e-6;
        let [tx, ty, tz] = self.shift;
        geographic([
            tx + scale * (x - rz * y + ry * z),
            ty + scale * (rz * x + y - rx * z),
            tz + scale * (-ry * x + rx * y + z),
        ])
    }

    /// The place on the datum `A` from which [`apply`](Self::apply) comes to `position`, to far
    /// below a micrometre, but for the last degrees before a pole.
    #[must_use]
    pub fn undo(&self, position: Position<B>) -> Position<A> {
        // Datums lie some hundred metres apart and are turned against each other by a hundred
        // thousandth, so each round leaves a ten-thousandth of the error before it: from 100 m
        // to a micrometre in two, and far below in three.
        let mut found: Position<A> = as_one(position);
        for _ in 0..3 {
            let there = self.apply(found);
            found = Position::computed(
                found.lat.as_degrees() + (position.lat.as_degrees() - there.lat.as_degrees()),
                found.lon.as_degrees() + position.lon.degrees_east_of(there.lon),
            );
        }
        found
    }
}

/// Geocentric coordinates in metres of a position on its ellipsoid.
fn geocentric<D: Datum>(position: Position<D>) -> [f64; 3] {
    let e2 = D::ELLIPSOID.eccentricity_squared();
    let (sin_lat, cos_lat) = position.lat.as_radians().sin_cos();
    let (sin_lon, cos_lon) = position.lon.as_radians().sin_cos();
    let normal = D::ELLIPSOID.a() / (1.0 - e2 * sin_lat * sin_lat).sqrt();
    [normal * cos_lat * cos_lon, normal * cos_lat * sin_lon, normal * (1.0 - e2) * sin_lat]
}

/// The position under a point near the ellipsoid: B. R. Bowring, Transformation from spatial to
/// geographical coordinates, Survey Review 181 (1976), repeated once.
fn geographic<D: Datum>([x, y, z]: [f64; 3]) -> Position<D> {
    let (a, b) = (D::ELLIPSOID.a(), D::ELLIPSOID.semi_minor().as_metres());
    let e2 = D::ELLIPSOID.eccentricity_squared();
    let off_axis = x.hypot(y);
    let mut reduced = (z * a).atan2(off_axis * b);
    let mut lat = 0.0;
    for _ in 0..2 {
        let (sin, cos) = reduced.sin_cos();
        lat = (z + e2 / (1.0 - e2) * b * sin.powi(3)).atan2(off_axis - e2 * a * cos.powi(3));
        let (sin, cos) = lat.sin_cos();
        reduced = (b * sin).atan2(a * cos);
    }
    Position::computed(lat.to_degrees(), y.atan2(x).to_degrees())
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn apart<D: Datum>(a: Position<D>, b: Position<D>) -> f64 {
        let north = a.lat.as_degrees() - b.lat.as_degrees();
        let east = a.lon.degrees_east_of(b.lon) * a.lat.as_radians().cos();
        north.hypot(east) * 111_320.0
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..Default::default() })]

        #[test]
        fn undo_undoes(lat in -85.0..85.0f64, lon in -180.0..180.0f64) {
            let here = Position::<Wgs84>::from_degrees(lat, lon).unwrap();
            let british = SevenParameter::WGS84_TO_OSGB36;
            prop_assert!(apart(british.undo(british.apply(here)), here) < 1e-6);
            let irish = SevenParameter::IRELAND_1975_TO_WGS84;
            prop_assert!(apart(irish.apply(irish.undo(here)), here) < 1e-6);
        }

        #[test]
        fn geocentric_and_back(lat in -90.0..=90.0f64, lon in -180.0..=180.0f64) {
            let here = Position::<Wgs84>::from_degrees(lat, lon).unwrap();
            prop_assert!(apart(geographic(geocentric(here)), here) < 1e-8);
        }
    }

    /// An independent library, given the same parameters in the same convention.
    #[test]
    fn irish_change_agrees_with_an_independent_library() {
        let from = "+proj=longlat +a=6377340.189 +rf=299.3249646 +towgs84=482.5,-130.6,564.6,-1.042,-0.214,-0.631,8.15";
        let from = proj4rs::Proj::from_proj_string(from).unwrap();
        let to = proj4rs::Proj::from_proj_string("+proj=longlat +datum=WGS84").unwrap();
        for (lat, lon) in [(53.5, -8.0), (51.5, -10.2), (55.2, -6.1), (54.0, -9.9)] {
            let mut theirs = (f64::to_radians(lat), f64::to_radians(lon), 0.0);
            std::mem::swap(&mut theirs.0, &mut theirs.1);
            proj4rs::transform::transform(&from, &to, &mut theirs).unwrap();
            let ours = SevenParameter::IRELAND_1975_TO_WGS84
                .apply(Position::from_degrees(lat, lon).unwrap());
            let theirs =
                Position::from_degrees(theirs.1.to_degrees(), theirs.0.to_degrees()).unwrap();
            assert!(apart(ours, theirs) < 1e-4, "{ours:?} {theirs:?}");
        }
    }
}
