//! The mean longitudes of moon and sun that tidal arguments are made of.

/// Seconds from 1970 to 1899 December 31, 12 h: the epoch of Schureman's table 1.
const EPOCH: f64 = -2_209_032_000.0;
/// Seconds in a Julian century of 36,525 days.
const CENTURY: f64 = 36_525.0 * 86_400.0;

/// Degrees from degrees, minutes and seconds.
const fn dms(degrees: f64, minutes: f64, seconds: f64) -> f64 {
    degrees + minutes / 60.0 + seconds / 3600.0
}

/// A mean longitude as a polynomial in centuries, in degrees.
type Polynomial = [f64; 4];

/// Moon's mean longitude s. Schureman, table 1, after Brown.
const S: Polynomial = [
    dms(270.0, 26.0, 14.72),
    1336.0 * 360.0 + 1_108_411.20 / 3600.0,
    9.09 / 3600.0,
    0.0068 / 3600.0,
];
/// Sun's mean longitude h. Table 1, after Newcomb.
const H: Polynomial = [dms(279.0, 41.0, 48.04), 129_602_768.13 / 3600.0, 1.089 / 3600.0, 0.0];
/// Longitude of the moon's perigee p. Table 1.
const P: Polynomial =
    [dms(334.0, 19.0, 40.87), 11.0 * 360.0 + 392_515.94 / 3600.0, -37.24 / 3600.0, -0.045 / 3600.0];
/// Longitude of the moon's ascending node N. Table 1.
const N: Polynomial =
    [dms(259.0, 10.0, 57.12), -(5.0 * 360.0 + 482_912.63 / 3600.0), 7.58 / 3600.0, 0.008 / 3600.0];
/// Longitude of the sun's perigee p₁. Table 1.
const P1: Polynomial = [dms(281.0, 13.0, 15.0), 6_189.03 / 3600.0, 1.63 / 3600.0, 0.012 / 3600.0];

fn value(polynomial: &Polynomial, t: f64) -> f64 {
    polynomial.iter().rev().fold(0.0, |sum, term| sum * t + term)
}

/// Degrees an hour.
fn rate(polynomial: &Polynomial, t: f64) -> f64 {
    let [_, first, second, third] = polynomial;
    (first + t * (2.0 * second + t * 3.0 * third)) / (CENTURY / 3600.0)
}

/// Doodson's six angles at an instant, or their rates: τ, s, h, p, N′ = -N, p₁.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Angles(pub(super) [f64; 6]);

impl Angles {
    /// In degrees, at so many seconds from 1970. τ counts from the moon's lower transit of
    /// Greenwich: fifteen degrees an hour from midnight, and h - s.
    pub(super) fn at(seconds: f64) -> Angles {
        let t = (seconds - EPOCH) / CENTURY;
        let hours = seconds.rem_euclid(86_400.0) / 3600.0;
        let (s, h) = (value(&S, t), value(&H, t));
        Angles([15.0 * hours + h - s, s, h, value(&P, t), -value(&N, t), value(&P1, t)])
    }

    /// Their rates in degrees an hour.
    pub(super) fn rates(seconds: f64) -> Angles {
        let t = (seconds - EPOCH) / CENTURY;
        let (s, h) = (rate(&S, t), rate(&H, t));
        Angles([15.0 + h - s, s, h, rate(&P, t), -rate(&N, t), rate(&P1, t)])
    }

    /// The longitudes of the moon's perigee and of its node, in degrees.
    pub(super) fn perigee_and_node(&self) -> (f64, f64) {
        (self.0[3], -self.0[4])
    }

    /// Their sum, each so many times.
    pub(super) fn times(&self, numbers: [i8; 6]) -> f64 {
        self.0.iter().zip(numbers).map(|(angle, number)| angle * f64::from(number)).sum()
    }
}
