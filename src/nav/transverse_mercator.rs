//! The transverse Mercator projection of an ellipsoid, by Krüger's series to n⁶.
//!
//! The series in the third flattening n were found by L. Krüger (Konforme Abbildung des
//! Erdellipsoids in der Ebene, 1912) and carried to n⁶ and beyond by C. F. F. Karney,
//! Transverse Mercator with an accuracy of a few nanometers, J. Geodesy 85 (2011), 475-485,
//! [doi:10.1007/s00190-011-0445-3](https://doi.org/10.1007/s00190-011-0445-3); equation
//! numbers below are of that paper. What the series leave out is a few nanometres within
//! 3,900 km of the meridian and stays under a micrometre as far as [`TransverseMercator`] goes.

mod batch;
mod series;
mod sphere;

use std::marker::PhantomData;

use crate::conformal::{conformal, geodetic, parallel, secant};
use crate::grid::GridPoint;
use crate::{Convergence, Datum, Latitude, Length, Longitude, OutOfRange, Position};
use series::{Complex, Doubled, Series};
use sphere::OnSphere;

/// A transverse Mercator projection of positions on the datum `D`, with its origin, its scale
/// on the central meridian and its false coordinates.
///
/// **Range**: everywhere but two caps of about 40 degrees around the points on the equator
/// 90 degrees from the central meridian; across the poles too.
/// **Accuracy**: better than 1 µm from exact mathematics within that range (0.1 mm is asked
/// for within 6 degrees of the meridian).
///
/// ```
/// use nav::{GridPoint, Latitude, Longitude, Position, TransverseMercator, Wgs84};
/// let lat0 = Latitude::from_degrees(0.0)?;
/// let lon0 = Longitude::from_degrees(45.0)?;
/// let false_origin = GridPoint::from_metres(500_000.0, 0.0)?;
/// let zone_38 = TransverseMercator::<Wgs84>::new(lat0, lon0, 0.9996, false_origin)?;
/// let on_meridian = zone_38.forward(Position::from_degrees(73.0, 45.0)?)?;
/// assert!((on_meridian.point.easting.as_metres() - 500_000.0).abs() < 1e-6);
/// assert!((on_meridian.scale - 0.9996).abs() < 1e-15);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TransverseMercator<D: Datum> {
    lon0: Longitude,
    /// The rectifying radius times the scale on the meridian, in metres.
    radius: f64,
    /// The same over the equatorial radius: what turns the series' stretch into scale.
    stretch: f64,
    /// False coordinates of the point where the equator meets the central meridian, in metres.
    equator: (f64, f64),
    forward: Series,
    inverse: Series,
    datum: PhantomData<D>,
}

/// A point on the projection, with how grid north and the scale lie there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Projected {
    /// Its easting and northing.
    pub point: GridPoint,
    /// Grid north from true north, east positive.
    pub convergence: Convergence,
    /// Length on the grid over length on the ellipsoid.
    pub scale: f64,
}

/// A position read off the projection, with how grid north and the scale lie there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unprojected<D: Datum> {
    /// Its latitude and longitude.
    pub position: Position<D>,
    /// Grid north from true north, east positive.
    pub convergence: Convergence,
    /// Length on the grid over length on the ellipsoid.
    pub scale: f64,
}

/// The place is too far from the central meridian for this projection.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error(
    "the place is too far from the grid's central meridian {central_meridian}° (about 50° at the equator is the most)"
)]
pub struct TooFarFromMeridian {
    /// The central meridian in degrees, east positive.
    pub central_meridian: f64,
}

/// The most that a point may lie off the central meridian, in radii: exp(14) n⁷ radii is what
/// the first terms left out come to there, 0.3 µm.
const REACH: f64 = 1.0;

impl<D: Datum> TransverseMercator<D> {
    const E2: f64 = D::ELLIPSOID.eccentricity_squared();

    /// The projection about the meridian `lon0` with this scale on it, where the point at
    /// `lat0` on the meridian has the coordinates `false_origin`.
    ///
    /// # Errors
    /// [`OutOfRange`] when `scale` is not within 0.5 to 2.
    pub fn new(
        lat0: Latitude,
        lon0: Longitude,
        scale: f64,
        false_origin: GridPoint,
    ) -> Result<TransverseMercator<D>, OutOfRange> {
        OutOfRange::check("scale on the central meridian", scale, (0.5, 2.0), "0.5 to 2")?;
        Ok(Self::known(lat0, lon0, scale, false_origin))
    }

    /// The same for numbers written in this crate.
    pub(crate) fn known(
        lat0: Latitude,
        lon0: Longitude,
        scale: f64,
        false_origin: GridPoint,
    ) -> TransverseMercator<D> {
        let n = D::ELLIPSOID.third_flattening();
        let rectifying = series::rectifying_radius(n) * scale;
        let radius = D::ELLIPSOID.a() * rectifying;
        let forward = Series::forward(n);
        let tau0 = conformal(Self::E2, lat0.as_radians().tan());
        let origin = Complex { re: tau0.atan(), im: 0.0 };
        let xi0 = forward.sum(origin, Doubled::of(origin)).moved.re;
        let false_origin = (false_origin.easting.as_metres(), false_origin.northing.as_metres());
        TransverseMercator {
            lon0,
            radius,
            stretch: rectifying,
            equator: (false_origin.0, false_origin.1 - radius * xi0),
            forward,
            inverse: Series::inverse(n),
            datum: PhantomData,
        }
    }

    /// The meridian that is a straight line north on the grid.
    pub const fn central_meridian(&self) -> Longitude {
        self.lon0
    }

    /// The grid point of `position`, with convergence and scale there.
    ///
    /// # Errors
    /// [`TooFarFromMeridian`] outside the projection's range.
    pub fn forward(&self, position: Position<D>) -> Result<Projected, TooFarFromMeridian> {
        let sphere = OnSphere::of(Self::E2, position, self.lon0);
        let place = sphere.place();
        if place.im.abs() > REACH {
            return Err(self.too_far());
        }
        let sum = self.forward.sum(place, sphere.doubled());
        // The sphere's convergence, equation (25), less what the series turns, (23) and (24).
        let convergence = (sphere.turned() * sum.slope.conjugate()).argument();
        let scale = self.stretch * sum.slope.modulus() * sphere.scale(Self::E2);
        Ok(Projected {
            point: self.on_grid(sum.moved),
            convergence: Convergence::degrees_east(convergence.to_degrees()),
            scale,
        })
    }

    /// The grid point of a point of the plane, which the series came to.
    #[inline]
    fn on_grid(&self, moved: Complex) -> GridPoint {
        GridPoint {
            easting: Length::metres(self.equator.0 + self.radius * moved.im),
            northing: Length::metres(self.equator.1 + self.radius * moved.re),
        }
    }

    /// The position of the grid point `point`, with convergence and scale there.
    ///
    /// # Errors
    /// [`TooFarFromMeridian`] outside the projection's range.
    pub fn inverse(&self, point: GridPoint) -> Result<Unprojected<D>, TooFarFromMeridian> {
        let plane = Complex {
            re: (point.northing.as_metres() - self.equator.1) / self.radius,
            im: (point.easting.as_metres() - self.equator.0) / self.radius,
        };
        // The series move a point by less than a hundredth of a radius within the reach.
        if plane.im.abs() > REACH + 0.01 || plane.re.abs() > std::f64::consts::PI + 0.01 {
            return Err(self.too_far());
        }
        let sum = self.inverse.sum(plane, Doubled::of(plane));
        let (sin_xi, cos_xi) = sum.moved.re.sin_cos();
        let sinh_eta = sum.moved.im.sinh();
        // At a pole the spread is nothing; this keeps the tangent of its latitude finite.
        let spread = (sinh_eta * sinh_eta + cos_xi * cos_xi).sqrt().max(1e-18);
        let tau = geodetic(Self::E2, sin_xi / spread);
        let lon = sinh_eta.atan2(cos_xi).to_degrees() + self.lon0.as_degrees();
        // Equations (31) and (32): the inverse series' slope counts the other way.
        let turned = Complex { re: cos_xi * secant(sinh_eta), im: sin_xi * sinh_eta };
        let convergence = (turned * sum.slope).argument();
        let scale = self.stretch / sum.slope.modulus() * parallel(Self::E2, tau) * spread;
        Ok(Unprojected {
            position: Position::computed(tau.atan().to_degrees(), lon),
            convergence: Convergence::degrees_east(convergence.to_degrees()),
            scale,
        })
    }

    fn too_far(&self) -> TooFarFromMeridian {
        TooFarFromMeridian { central_meridian: self.lon0.as_degrees() }
    }
}

#[cfg(test)]
mod tests;
