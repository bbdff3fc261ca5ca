//! Areas.

use std::iter::Sum;
use std::ops::{Add, Sub};

/// An area, stored in square metres.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Area(f64);

impl Area {
    /// No area.
    pub const ZERO: Area = Area(0.0);

    /// For numbers computed in this crate.
    pub(crate) const fn square_metres(metres: f64) -> Area {
        Area(metres)
    }

    /// The area in square metres.
    #[must_use]
    pub const fn as_square_metres(self) -> f64 {
        self.0
    }

    /// The area in square kilometres.
    #[must_use]
    pub const fn as_square_kilometres(self) -> f64 {
        self.0 / 1e6
    }
}

impl Add for Area {
    type Output = Area;

    fn add(self, other: Area) -> Area {
        Area(self.0 + other.0)
    }
}

impl Sub for Area {
    type Output = Area;

    fn sub(self, other: Area) -> Area {
        Area(self.0 - other.0)
    }
}

impl Sum for Area {
    fn sum<I: Iterator<Item = Area>>(areas: I) -> Area {
        areas.fold(Area::ZERO, Add::add)
    }
}
