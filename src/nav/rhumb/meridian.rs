//! Pieces of a meridian, measured in isometric and in rectifying latitude.

use std::f64::consts::FRAC_PI_2;

use crate::angle::sin_cos_degrees;
use crate::{Ellipsoid, Latitude};

/// The equatorial radius in metres.
const A: f64 = Ellipsoid::WGS84.a();
/// The third flattening.
const N: f64 = Ellipsoid::WGS84.third_flattening();
/// The eccentricity squared.
const E2: f64 = Ellipsoid::WGS84.eccentricity_squared();

/// The radius of the circle as long as the meridian, in metres: n to the sixth order.
pub(super) const RADIUS: f64 =
    A / (1.0 + N) * (1.0 + N * N * (1.0 / 4.0 + N * N * (1.0 / 64.0 + N * N / 256.0)));

/// What to add to the geodetic latitude φ for the rectifying latitude μ: factors of sin 2kφ
/// (Karney 2024, equation A5).
const TO_RECTIFYING: [f64; 6] = {
    let n2 = N * N;
    [
        N * (-3.0 / 2.0 + n2 * (9.0 / 16.0 - n2 * 3.0 / 32.0)),
        n2 * (15.0 / 16.0 + n2 * (-15.0 / 32.0 + n2 * 135.0 / 2048.0)),
        n2 * N * (-35.0 / 48.0 + n2 * 105.0 / 256.0),
        n2 * n2 * (315.0 / 512.0 - n2 * 189.0 / 512.0),
        -n2 * n2 * N * 693.0 / 1280.0,
        n2 * n2 * n2 * 1001.0 / 2048.0,
    ]
};

/// What to add to the rectifying latitude μ for the geodetic latitude φ: factors of sin 2kμ
/// (Karney 2024, equation A6).
const FROM_RECTIFYING: [f64; 6] = {
    let n2 = N * N;
    [
        N * (3.0 / 2.0 + n2 * (-27.0 / 32.0 + n2 * 269.0 / 512.0)),
        n2 * (21.0 / 16.0 + n2 * (-55.0 / 32.0 + n2 * 6759.0 / 4096.0)),
        n2 * N * (151.0 / 96.0 - n2 * 417.0 / 128.0),
        n2 * n2 * (1097.0 / 512.0 - n2 * 15543.0 / 2560.0),
        n2 * n2 * N * 8011.0 / 2560.0,
        n2 * n2 * n2 * 293_393.0 / 61_440.0,
    ]
};

/// The meridian between two latitudes.
#[derive(Debug, Clone, Copy)]
pub(super) struct Span {
    /// The second latitude less the first, in radians.
    length: f64,
    /// The latitude half way, in radians, with its cosine.
    middle: (f64, f64),
    start: (f64, f64),
    end: (f64, f64),
}

impl Span {
    pub(super) fn between(from: Latitude, to: Latitude) -> Span {
        let (from, to) = (from.as_degrees(), to.as_degrees());
        let middle = (from + to) / 2.0;
        Span {
            length: (to - from).to_radians(),
            middle: (middle.to_radians(), sin_cos_degrees(middle).1),
            start: sin_cos_degrees(from),
            end: sin_cos_degrees(to),
        }
    }

    /// Whether one of its ends is a pole.
    pub(super) fn touches_pole(&self) -> bool {
        self.start.1 == 0.0 || self.end.1 == 0.0
    }

    /// The second isometric latitude less the first, in radians.
    pub(super) fn isometric(&self) -> f64 {
        self.length * self.isometric_slope()
    }

    /// The second rectifying latitude less the first, in radians.
    pub(super) fn rectifying(&self) -> f64 {
        self.length * self.rectifying_slope()
    }

    /// How much rectifying latitude there is to a unit of isometric latitude over the span; on
    /// a parallel, where both are nothing, their limit: the parallel's radius by the meridian's.
    pub(super) fn rectifying_by_isometric(&self) -> f64 {
        self.rectifying_slope() / self.isometric_slope()
    }

    /// Isometric by geodetic latitude: the divided difference of ψ = asinh(tan φ) - e atanh(e sin φ).
    ///
    /// By the addition theorems the differences of both terms are one asinh and one atanh of
    /// sin φ2 - sin φ1, which is written as a product.
    fn isometric_slope(&self) -> f64 {
        let ((sin1, cos1), (sin2, cos2)) = (self.start, self.end);
        let sines = self.middle.1 * by_argument(f64::sin, self.length / 2.0);
        let sphere = 1.0 / (cos1 * cos2);
        let flattening = 1.0 / (1.0 - E2 * sin1 * sin2);
        let step = sines * self.length;
        sines
            * (sphere * by_argument(f64::asinh, step * sphere)
                - E2 * flattening * by_argument(f64::atanh, E2.sqrt() * step * flattening))
    }

    /// Rectifying by geodetic latitude: the divided difference of μ's series.
    fn rectifying_slope(&self) -> f64 {
        1.0 + series_slope(&TO_RECTIFYING, self.middle.0, self.length)
    }
}

/// The latitude that lies `step` of rectifying latitude, in radians, north of `from`.
///
/// # Errors
/// The rectifying latitude to the pole when `step` goes beyond.
pub(super) fn northward(from: Latitude, step: f64) -> Result<Latitude, f64> {
    let start = from.as_radians();
    let rectifying = start + series(&TO_RECTIFYING, start);
    let to_pole = FRAC_PI_2.copysign(step) - rectifying;
    // A step computed as far as the pole may come out too long by a rounding: some nanometres.
    if step.abs() > to_pole.abs() + 4.0 * f64::EPSILON {
        return Err(to_pole);
    }
    let length = step * (1.0 + series_slope(&FROM_RECTIFYING, rectifying + step / 2.0, step));
    Ok(Latitude::clamped(from.as_degrees() + length.to_degrees()))
}

/// Σ c_k sin 2kx.
fn series(factors: &[f64; 6], x: f64) -> f64 {
    (1..).zip(factors).map(|(k, c)| c * (2.0 * f64::from(k) * x).sin()).sum()
}

/// (Σ c_k sin 2kx over the step about `middle`) by the step: also right for no step at all.
fn series_slope(factors: &[f64; 6], middle: f64, step: f64) -> f64 {
    let slope = |(k, c): (i32, &f64)| {
        let k = f64::from(k);
        2.0 * k * c * (2.0 * k * middle).cos() * by_argument(f64::sin, k * step)
    };
    (1..).zip(factors).map(slope).sum()
}

/// f(x) / x for a function with f(0) = 0 and f'(0) = 1.
fn by_argument(f: fn(f64) -> f64, x: f64) -> f64 {
    if x == 0.0 { 1.0 } else { f(x) / x }
}
