//! Krüger's two series and their sum.

use std::ops::{Add, Mul, Sub};

/// A complex number: northing along its real part, easting along its imaginary one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Complex {
    pub(super) re: f64,
    pub(super) im: f64,
}

impl Complex {
    pub(super) fn modulus(self) -> f64 {
        (self.re * self.re + self.im * self.im).sqrt()
    }

    /// The angle from the real axis.
    pub(super) fn argument(self) -> f64 {
        self.im.atan2(self.re)
    }

    /// Its mirror in the real axis.
    pub(super) fn conjugate(self) -> Complex {
        Complex { re: self.re, im: -self.im }
    }

    fn scaled(self, factor: f64) -> Complex {
        Complex { re: self.re * factor, im: self.im * factor }
    }
}

impl Add for Complex {
    type Output = Complex;
    fn add(self, other: Complex) -> Complex {
        Complex { re: self.re + other.re, im: self.im + other.im }
    }
}

impl Sub for Complex {
    type Output = Complex;
    fn sub(self, other: Complex) -> Complex {
        Complex { re: self.re - other.re, im: self.im - other.im }
    }
}

impl Mul for Complex {
    type Output = Complex;
    fn mul(self, other: Complex) -> Complex {
        Complex {
            re: self.re * other.re - self.im * other.im,
            im: self.re * other.im + self.im * other.re,
        }
    }
}

/// A point moved by a series, and how the series turns and stretches there.
pub(super) struct Sum {
    /// z + Σ cⱼ sin 2jz.
    pub(super) moved: Complex,
    /// Its derivative, 1 + Σ 2j cⱼ cos 2jz.
    pub(super) slope: Complex,
}

/// 2j for the derivative's terms.
const TWICE_J: [f64; 6] = [2.0, 4.0, 6.0, 8.0, 10.0, 12.0];

/// The coefficients c₁ to c₆ of z + Σ cⱼ sin 2jz.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Series([f64; 6]);

impl Series {
    /// From the conformal sphere to the plane: Karney (2011), equation (35).
    pub(super) fn forward(n: f64) -> Series {
        Series([
            n * poly(
                n,
                [1.0 / 2.0, -2.0 / 3.0, 5.0 / 16.0, 41.0 / 180.0, -127.0 / 288.0, 7891.0 / 37800.0],
            ),
            n.powi(2)
                * poly(
                    n,
                    [
                        13.0 / 48.0,
                        -3.0 / 5.0,
                        557.0 / 1440.0,
                        281.0 / 630.0,
                        -1_983_433.0 / 1_935_360.0,
                    ],
                ),
            n.powi(3)
                * poly(n, [61.0 / 240.0, -103.0 / 140.0, 15061.0 / 26880.0, 167_603.0 / 181_440.0]),
            n.powi(4) * poly(n, [49561.0 / 161_280.0, -179.0 / 168.0, 6_601_661.0 / 7_257_600.0]),
            n.powi(5) * poly(n, [34729.0 / 80640.0, -3_418_889.0 / 1_995_840.0]),
            n.powi(6) * (212_378_941.0 / 319_334_400.0),
        ])
    }

    /// From the plane to the conformal sphere: Karney (2011), equation (36), signs turned.
    pub(super) fn inverse(n: f64) -> Series {
        Series([
            -n * poly(
                n,
                [
                    1.0 / 2.0,
                    -2.0 / 3.0,
                    37.0 / 96.0,
                    -1.0 / 360.0,
                    -81.0 / 512.0,
                    96199.0 / 604_800.0,
                ],
            ),
            -n.powi(2)
                * poly(
                    n,
                    [
                        1.0 / 48.0,
                        1.0 / 15.0,
                        -437.0 / 1440.0,
                        46.0 / 105.0,
                        -1_118_711.0 / 3_870_720.0,
                    ],
                ),
            -n.powi(3) * poly(n, [17.0 / 480.0, -37.0 / 840.0, -209.0 / 4480.0, 5569.0 / 90720.0]),
            -n.powi(4) * poly(n, [4397.0 / 161_280.0, -11.0 / 504.0, -830_251.0 / 7_257_600.0]),
            -n.powi(5) * poly(n, [4583.0 / 161_280.0, -108_847.0 / 3_991_680.0]),
            -n.powi(6) * (20_648_693.0 / 638_668_800.0),
        ])
    }

    /// The point alone, without how the series turns and stretches there.
    #[inline]
    pub(super) fn moved(&self, z: Complex, doubled: Doubled) -> Complex {
        let Doubled { sine, cosine } = doubled;
        let twice = cosine.scaled(2.0);
        let zero = Complex { re: 0.0, im: 0.0 };
        let (mut b1, mut b2) = (zero, zero);
        for c in self.0.into_iter().rev() {
            (b1, b2) = (Complex { re: c, im: 0.0 } + twice * b1 - b2, b1);
        }
        z + sine * b1
    }

    /// Both sums at once by Clenshaw's recurrence, from the sine and cosine of 2z alone.
    pub(super) fn sum(&self, z: Complex, doubled: Doubled) -> Sum {
        let Doubled { sine, cosine } = doubled;
        let twice = cosine.scaled(2.0);
        let zero = Complex { re: 0.0, im: 0.0 };
        let (mut b1, mut b2, mut d1, mut d2) = (zero, zero, zero, zero);
        for (c, twice_j) in self.0.into_iter().zip(TWICE_J).rev() {
            (b1, b2) = (Complex { re: c, im: 0.0 } + twice * b1 - b2, b1);
            (d1, d2) = (Complex { re: twice_j * c, im: 0.0 } + twice * d1 - d2, d1);
        }
        let one = Complex { re: 1.0, im: 0.0 };
        Sum { moved: z + sine * b1, slope: one + cosine * d1 - d2 }
    }
}

/// The sine and cosine of 2z.
#[derive(Debug, Clone, Copy)]
pub(super) struct Doubled {
    sine: Complex,
    cosine: Complex,
}

impl Doubled {
    /// From z itself.
    pub(super) fn of(z: Complex) -> Doubled {
        let (sin, cos) = (2.0 * z.re).sin_cos();
        // What this loses of a small sinh is far below what the series' coefficients can show.
        let grown = (2.0 * z.im).exp();
        let (sinh, cosh) = ((grown - 1.0 / grown) / 2.0, (grown + 1.0 / grown) / 2.0);
        Doubled::from_parts(sin, cos, sinh, cosh)
    }

    /// From the sine and cosine of the real part of z and the hyperbolic sine of its imaginary one.
    #[inline]
    pub(super) fn from_single((sin, cos): (f64, f64), sinh: f64) -> Doubled {
        let cosh = (1.0 + sinh * sinh).sqrt();
        let (twice_sin, twice_cos) = (2.0 * sin * cos, (cos - sin) * (cos + sin));
        Doubled::from_parts(twice_sin, twice_cos, 2.0 * sinh * cosh, 1.0 + 2.0 * sinh * sinh)
    }

    /// From the functions of twice the real and twice the imaginary part.
    fn from_parts(sin: f64, cos: f64, sinh: f64, cosh: f64) -> Doubled {
        Doubled {
            sine: Complex { re: sin * cosh, im: cos * sinh },
            cosine: Complex { re: cos * cosh, im: -sin * sinh },
        }
    }
}

/// The rectifying radius over the equatorial one, to n⁶: Karney (2011), equation (14).
pub(super) fn rectifying_radius(n: f64) -> f64 {
    poly(n * n, [1.0, 1.0 / 4.0, 1.0 / 64.0, 1.0 / 256.0]) / (1.0 + n)
}

/// c₀ + c₁ x + c₂ x² + ..., by Horner's rule.
fn poly<const N: usize>(x: f64, coefficients: [f64; N]) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::conformal::conformal;

    /// The length of the meridian from the equator, in equatorial radii, by Simpson's rule.
    fn meridian(e2: f64, lat: f64) -> f64 {
        let radius = |lat: f64| (1.0 - e2) / (1.0 - e2 * lat.sin().powi(2)).powf(1.5);
        let steps = 2000;
        let step = lat / f64::from(steps);
        let sum: f64 = (0..steps)
            .map(|i| {
                let from = step * f64::from(i);
                radius(from) + 4.0 * radius(from + step / 2.0) + radius(from + step)
            })
            .sum();
        sum * step / 6.0
    }

    /// The most that the forward series misses the rectifying latitude by, and the inverse
    /// series misses the way back, on ellipsoids of this third flattening.
    fn misses(n: f64) -> (f64, f64) {
        let e2 = 4.0 * n / (1.0 + n).powi(2);
        let quarter = meridian(e2, std::f64::consts::FRAC_PI_2);
        let (mut forth, mut back) = (0.0_f64, 0.0_f64);
        for degrees in (1..90).map(f64::from) {
            let lat = degrees.to_radians();
            let rectifying = meridian(e2, lat) / quarter * std::f64::consts::FRAC_PI_2;
            let z = Complex { re: conformal(e2, lat.tan()).atan(), im: 0.0 };
            let there = Series::forward(n).sum(z, Doubled::of(z)).moved;
            forth = forth.max((there.re - rectifying).abs());
            let again = Series::inverse(n).sum(there, Doubled::of(there)).moved;
            back = back.max((again - z).modulus());
        }
        (forth, back)
    }

    /// Both series leave out the seventh power of n and no lower one: on ellipsoids ten and
    /// twenty times as flat as the Earth, where it shows, twice the flattening misses by 128
    /// times as much.
    #[test]
    fn what_is_left_out_is_of_the_seventh_order() {
        let ((forth, back), (forth2, back2)) = (misses(0.02), misses(0.04));
        assert!(forth < 1e-11 && back < 1e-11, "{forth} {back}");
        let seventh = 100.0..160.0;
        assert!(seventh.contains(&(forth2 / forth)), "{}", forth2 / forth);
        assert!(seventh.contains(&(back2 / back)), "{}", back2 / back);
    }

    #[test]
    fn rectifying_radius_is_the_meridians() {
        // Of the eighth order.
        for (n, bound) in [(0.02, 1e-14), (0.04, 1e-12)] {
            let quarter = meridian(4.0 * n / (1.0 + n) / (1.0 + n), std::f64::consts::FRAC_PI_2);
            let radius = quarter / std::f64::consts::FRAC_PI_2;
            assert!((rectifying_radius(n) - radius).abs() < bound, "{n}: {radius}");
        }
    }

    #[test]
    fn functions_of_the_doubled_argument_agree() {
        for (re, im) in [(0.9, 0.1), (-1.4, 0.9), (3.0, -0.5), (0.0, 0.0)] {
            let z = Complex { re, im };
            let (a, b) = (Doubled::of(z), Doubled::from_single(re.sin_cos(), im.sinh()));
            assert!((a.sine - b.sine).modulus() < 1e-14, "{z:?}");
            assert!((a.cosine - b.cosine).modulus() < 1e-14, "{z:?}");
        }
    }
}
