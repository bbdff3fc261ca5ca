//! From a position on the ellipsoid to the transverse Mercator projection of the conformal sphere.
//!
//! Everything is in sines and cosines, so that the poles are places as any other, and without a
//! branch as far as a projection is mostly used, so that many positions are worked together.

use super::series::{Complex, Doubled};
use crate::angle::sin_cos_degrees;
use crate::{Datum, Longitude, Position};

/// How far from the meridian [`OnSphere::near`] serves: the greatest of its two tangents.
const NEAR: f64 = 0.07;

/// A position on the conformal sphere, about a central meridian.
#[derive(Debug, Clone, Copy)]
pub(super) struct OnSphere {
    /// The latitude on the ellipsoid, in radians, with its sine and cosine.
    lat: f64,
    sin_lat: f64,
    cos_lat: f64,
    /// Of the longitude east of the meridian.
    sin_lon: f64,
    cos_lon: f64,
    /// The cosine of the geodetic latitude times the tangent of the conformal one: with the
    /// cosine itself it is the direction of the conformal latitude.
    sin_conformal: f64,
    /// The cosine of the transverse latitude, by the same measure.
    spread: f64,
}

impl OnSphere {
    #[inline]
    pub(super) fn of<D: Datum>(e2: f64, position: Position<D>, meridian: Longitude) -> OnSphere {
        let (sin_lat, cos_lat) = sin_cos_degrees(position.lat.as_degrees());
        let east = position.lon.as_degrees() - meridian.as_degrees();
        let (sin_lon, cos_lon) = sin_cos_degrees(east);
        // Karney (2011), equations (7) and (8), times the cosine of the latitude; the hyperbolic
        // functions of small numbers are their series, cut off under 1e-18 for the Earth.
        let x = e2 * sin_lat * odd(e2 * sin_lat * sin_lat);
        let square = x * x;
        let sinh = x * (1.0 + square * (1.0 / 6.0 + square / 120.0));
        let cosh = 1.0 + square * (0.5 + square * (1.0 / 24.0 + square / 720.0));
        let sin_conformal = sin_lat * cosh - sinh;
        let across = cos_lat * cos_lon;
        let spread = (sin_conformal * sin_conformal + across * across).sqrt();
        let lat = position.lat.as_radians();
        OnSphere { lat, sin_lat, cos_lat, sin_lon, cos_lon, sin_conformal, spread }
    }

    /// The hyperbolic sine of the easting on the sphere.
    #[inline]
    fn sinh(&self) -> f64 {
        self.cos_lat * self.sin_lon / self.spread
    }

    /// Gauss-Schreiber coordinates, equation (10).
    pub(super) fn place(&self) -> Complex {
        let (near, tangents) = self.near();
        if tangents <= NEAR {
            return near;
        }
        let northing = self.sin_conformal.atan2(self.cos_lat * self.cos_lon);
        Complex { re: northing, im: self.sinh().asinh() }
    }

    /// The same when the second number is not over [`NEAR`], which is so within some degrees of
    /// the meridian: by series of small angles, without a branch.
    #[inline]
    pub(super) fn near(&self) -> (Complex, f64) {
        // The angle from the geodetic latitude to the northing.
        let across = self.sin_conformal - self.sin_lat * self.cos_lon;
        let along = self.cos_lat * self.cos_lat * self.cos_lon + self.sin_lat * self.sin_conformal;
        let turn = self.cos_lat * across / along;
        let z = -turn * turn;
        let angle = turn * odd(z);
        // The hyperbolic tangent of half the easting.
        let sinh = self.sinh();
        let half = sinh / (1.0 + (1.0 + sinh * sinh).sqrt());
        let easting = 2.0 * half * odd(half * half);
        // Beyond a quarter turn the tangent is small again.
        let tangents = if along > 0.0 { turn.abs().max(half.abs()) } else { f64::INFINITY };
        (Complex { re: self.lat + angle, im: easting }, tangents)
    }

    /// Whether the second number of [`near`](Self::near) lets its first stand.
    #[inline]
    pub(super) fn is_near(tangents: f64) -> bool {
        tangents <= NEAR
    }

    /// The functions of its coordinates that the series are made of.
    #[inline]
    pub(super) fn doubled(&self) -> Doubled {
        let up = 1.0 / self.spread;
        let single = (self.sin_conformal * up, self.cos_lat * self.cos_lon * up);
        Doubled::from_single(single, self.sinh())
    }

    /// The direction of grid north on the sphere, equation (25).
    pub(super) fn turned(&self) -> Complex {
        let conformal = self.sin_conformal.hypot(self.cos_lat);
        Complex { re: conformal * self.cos_lon, im: self.sin_conformal * self.sin_lon }
    }

    /// Length on the sphere's plane over that on the ellipsoid, in equatorial radii, equation (25).
    pub(super) fn scale(&self, e2: f64) -> f64 {
        (1.0 - e2 * self.sin_lat * self.sin_lat).sqrt() / self.spread
    }
}

/// 1 + z/3 + z²/5 + …: by x² it makes the inverse hyperbolic tangent of x, by -x² its arc tangent;
/// to [`NEAR`] cut off under 1e-18.
#[inline]
fn odd(z: f64) -> f64 {
    let tail = 1.0 / 11.0 + z * (1.0 / 13.0 + z / 15.0);
    1.0 + z * (1.0 / 3.0 + z * (0.2 + z * (1.0 / 7.0 + z * (1.0 / 9.0 + z * tail))))
}
