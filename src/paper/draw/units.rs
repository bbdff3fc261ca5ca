//! Lengths on paper.

use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

/// A length on paper, in millimetres.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Mm(pub f64);

/// A size of type or the width of a line, in points of 1/72 inch.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Pt(pub f64);

/// Millimetres in an inch, by definition.
const MM_PER_INCH: f64 = 25.4;
/// Points in an inch, by definition.
const PT_PER_INCH: f64 = 72.0;

impl From<Pt> for Mm {
    fn from(length: Pt) -> Mm {
        Mm(length.0 * MM_PER_INCH / PT_PER_INCH)
    }
}

impl From<Mm> for Pt {
    fn from(length: Mm) -> Pt {
        Pt(length.0 * PT_PER_INCH / MM_PER_INCH)
    }
}

macro_rules! length {
    ($unit:ident) => {
        impl $unit {
            /// No length.
            pub const ZERO: $unit = $unit(0.0);

            /// The shorter of two.
            #[must_use]
            pub fn min(self, other: $unit) -> $unit {
                $unit(self.0.min(other.0))
            }

            /// The longer of two.
            #[must_use]
            pub fn max(self, other: $unit) -> $unit {
                $unit(self.0.max(other.0))
            }

            /// Without its sign.
            #[must_use]
            pub fn abs(self) -> $unit {
                $unit(self.0.abs())
            }
        }

        impl Add for $unit {
            type Output = $unit;
            fn add(self, other: $unit) -> $unit {
                $unit(self.0 + other.0)
            }
        }

        impl Sub for $unit {
            type Output = $unit;
            fn sub(self, other: $unit) -> $unit {
                $unit(self.0 - other.0)
            }
        }

        impl AddAssign for $unit {
            fn add_assign(&mut self, other: $unit) {
                self.0 += other.0;
            }
        }

        impl SubAssign for $unit {
            fn sub_assign(&mut self, other: $unit) {
                self.0 -= other.0;
            }
        }

        impl Neg for $unit {
            type Output = $unit;
            fn neg(self) -> $unit {
                $unit(-self.0)
            }
        }

        impl Mul<f64> for $unit {
            type Output = $unit;
            fn mul(self, factor: f64) -> $unit {
                $unit(self.0 * factor)
            }
        }

        impl Div<f64> for $unit {
            type Output = $unit;
            fn div(self, divisor: f64) -> $unit {
                $unit(self.0 / divisor)
            }
        }

        impl Div for $unit {
            type Output = f64;
            fn div(self, divisor: $unit) -> f64 {
                self.0 / divisor.0
            }
        }

        impl Sum for $unit {
            fn sum<I: Iterator<Item = $unit>>(lengths: I) -> $unit {
                lengths.fold($unit::ZERO, Add::add)
            }
        }
    };
}

length!(Mm);
length!(Pt);

/// A place on a page.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Spot {
    /// From the left edge.
    pub x: Mm,
    /// From the upper edge, downwards.
    pub y: Mm,
}

impl Spot {
    /// The place so many millimetres from the left and from the upper edge.
    #[must_use]
    pub const fn new(x: f64, y: f64) -> Spot {
        Spot { x: Mm(x), y: Mm(y) }
    }

    /// The place so much farther to the right and down.
    #[must_use]
    pub fn moved(self, right: Mm, down: Mm) -> Spot {
        Spot { x: self.x + right, y: self.y + down }
    }

    /// The place so far away in a direction, in degrees clockwise from the top of the page.
    #[must_use]
    pub fn towards(self, degrees: f64, far: Mm) -> Spot {
        let (sin, cos) = degrees.to_radians().sin_cos();
        self.moved(far * sin, far * -cos)
    }

    /// How far two places are apart.
    #[must_use]
    pub fn distance(self, other: Spot) -> Mm {
        Mm((self.x - other.x).0.hypot((self.y - other.y).0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_inch_is_an_inch() {
        assert_eq!(Mm::from(Pt(72.0)), Mm(25.4));
        assert_eq!(Pt::from(Mm(25.4)), Pt(72.0));
        let sum: Mm = [Mm(1.0), Mm(2.5)].into_iter().sum();
        assert_eq!(sum, Mm(3.5));
    }

    #[test]
    fn directions_run_clockwise_from_the_top() {
        let from = Spot::new(10.0, 10.0);
        for (degrees, x, y) in [(0.0, 10.0, 7.0), (90.0, 13.0, 10.0), (180.0, 10.0, 13.0)] {
            assert!(from.towards(degrees, Mm(3.0)).distance(Spot::new(x, y)) < Mm(1e-9));
        }
    }
}
