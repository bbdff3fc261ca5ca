//! Lengths and speeds.

use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub};

use jiff::SignedDuration;

use crate::OutOfRange;

/// A length or a signed offset along a line, stored in metres.
///
/// Numbers from outside come in through [`Length::from_metres`] and its kin, which refuse
/// NaN; numbers written in code are multiples of a unit.
///
/// ```
/// use nav::Length;
/// let leg = 2.5 * Length::NAUTICAL_MILE;
/// assert_eq!(leg.as_metres(), 4630.0);
/// assert!(Length::from_metres(f64::NAN).is_err());
/// ```
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Length(f64);

impl Length {
    /// No length.
    pub const ZERO: Length = Length(0.0);
    /// One metre.
    pub const METRE: Length = Length(1.0);
    /// One kilometre, 1,000 m.
    pub const KILOMETRE: Length = Length(1000.0);
    /// The international nautical mile, 1,852 m exactly (IHO S-32; SI brochure, table 8 of its 8th edition).
    pub const NAUTICAL_MILE: Length = Length(1852.0);

    /// A length of `metres`.
    ///
    /// # Errors
    /// [`OutOfRange`] when `metres` is not finite.
    pub fn from_metres(metres: f64) -> Result<Length, OutOfRange> {
        OutOfRange::finite("length in metres", metres).map(Length)
    }

    /// A length of `kilometres`.
    ///
    /// # Errors
    /// [`OutOfRange`] when `kilometres` is not finite.
    pub fn from_kilometres(kilometres: f64) -> Result<Length, OutOfRange> {
        OutOfRange::finite("length in kilometres", kilometres)?;
        Length::from_metres(kilometres * 1000.0)
    }

    /// A length of `miles` international nautical miles.
    ///
    /// # Errors
    /// [`OutOfRange`] when `miles` is not finite.
    pub fn from_nautical_miles(miles: f64) -> Result<Length, OutOfRange> {
        OutOfRange::finite("length in nautical miles", miles)?;
        Length::from_metres(miles * 1852.0)
    }

    /// In metres.
    pub const fn as_metres(self) -> f64 {
        self.0
    }

    /// In kilometres.
    pub const fn as_kilometres(self) -> f64 {
        self.0 / 1000.0
    }

    /// In international nautical miles.
    pub const fn as_nautical_miles(self) -> f64 {
        self.0 / 1852.0
    }

    /// Its size without its sign.
    #[must_use]
    pub const fn abs(self) -> Length {
        Length(self.0.abs())
    }

    /// The length of the diagonal of a right angle with these two sides.
    #[must_use]
    pub fn hypot(self, other: Length) -> Length {
        Length(self.0.hypot(other.0))
    }

    /// The smaller of two.
    #[must_use]
    pub const fn min(self, other: Length) -> Length {
        Length(self.0.min(other.0))
    }

    /// The larger of two.
    #[must_use]
    pub const fn max(self, other: Length) -> Length {
        Length(self.0.max(other.0))
    }

    /// For numbers computed in this crate, which are finite by their construction.
    pub(crate) const fn metres(metres: f64) -> Length {
        Length(metres)
    }
}

impl Add for Length {
    type Output = Length;
    fn add(self, other: Length) -> Length {
        Length(self.0 + other.0)
    }
}

impl AddAssign for Length {
    fn add_assign(&mut self, other: Length) {
        self.0 += other.0;
    }
}

impl Sub for Length {
    type Output = Length;
    fn sub(self, other: Length) -> Length {
        Length(self.0 - other.0)
    }
}

impl Neg for Length {
    type Output = Length;
    fn neg(self) -> Length {
        Length(-self.0)
    }
}

impl Mul<f64> for Length {
    type Output = Length;
    fn mul(self, factor: f64) -> Length {
        Length(self.0 * factor)
    }
}

impl Mul<Length> for f64 {
    type Output = Length;
    fn mul(self, length: Length) -> Length {
        Length(self * length.0)
    }
}

impl Div<f64> for Length {
    type Output = Length;
    fn div(self, divisor: f64) -> Length {
        Length(self.0 / divisor)
    }
}

impl Div for Length {
    type Output = f64;
    fn div(self, other: Length) -> f64 {
        self.0 / other.0
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Length>>(lengths: I) -> Length {
        lengths.fold(Length::ZERO, Add::add)
    }
}

/// A speed, never negative, stored in metres per second.
///
/// ```
/// use nav::{Length, Speed};
/// let pace = Speed::from_knots(3.0).unwrap();
/// let time = (Length::NAUTICAL_MILE / pace).unwrap();
/// assert_eq!(time.as_secs(), 20 * 60);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Speed(f64);

impl Speed {
    /// One knot: one international nautical mile in an hour.
    pub const KNOT: Speed = Speed(1852.0 / 3600.0);

    const MOST: f64 = 1000.0 * 1852.0 / 3600.0;

    /// A speed of `knots`.
    ///
    /// # Errors
    /// [`OutOfRange`] when `knots` is not within 0 to 1,000.
    pub fn from_knots(knots: f64) -> Result<Speed, OutOfRange> {
        OutOfRange::check("speed in knots", knots, (0.0, 1000.0), "0 to 1,000 kn")
            .map(|knots| Speed(knots * Speed::KNOT.0))
    }

    /// A speed of `kmh` kilometres an hour.
    ///
    /// # Errors
    /// [`OutOfRange`] when it is not within 0 to 1,000 knots.
    pub fn from_kmh(kmh: f64) -> Result<Speed, OutOfRange> {
        OutOfRange::check("speed in km/h", kmh, (0.0, Self::MOST * 3.6), "0 to 1,852 km/h")
            .map(|kmh| Speed(kmh / 3.6))
    }

    /// A speed of `mps` metres per second.
    ///
    /// # Errors
    /// [`OutOfRange`] when it is not within 0 to 1,000 knots, 514.4 m/s.
    pub fn from_metres_per_second(mps: f64) -> Result<Speed, OutOfRange> {
        OutOfRange::check("speed in m/s", mps, (0.0, Self::MOST), "0 to 514.4 m/s").map(Speed)
    }

    /// In knots.
    pub const fn as_knots(self) -> f64 {
        self.0 / Speed::KNOT.0
    }

    /// In kilometres an hour.
    pub const fn as_kmh(self) -> f64 {
        self.0 * 3.6
    }

    /// In metres per second.
    pub const fn as_metres_per_second(self) -> f64 {
        self.0
    }

    /// For numbers computed in this crate, which are finite and no less than nothing by their construction.
    pub(crate) const fn metres_per_second(mps: f64) -> Speed {
        Speed(mps)
    }

    /// The length covered in `time` at this speed.
    #[must_use]
    pub fn over(self, time: SignedDuration) -> Length {
        Length(self.0 * time.as_secs_f64())
    }
}

impl Div<Speed> for Length {
    /// The time that a length takes; nothing when the speed is zero, or too small for the
    /// time to be counted.
    type Output = Option<SignedDuration>;
    fn div(self, speed: Speed) -> Option<SignedDuration> {
        if speed.0 == 0.0 {
            return None;
        }
        SignedDuration::try_from_secs_f64(self.0 / speed.0).ok()
    }
}
