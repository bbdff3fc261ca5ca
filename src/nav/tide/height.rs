//! A height of tide, which is above a named level.

use std::ops::{Add, Sub};

use crate::Length;

/// A height of tide above the datum of its port, below it negative.
///
/// It is not a [`Length`]: heights above different datums do not mix, and two heights cannot be
/// added. Their difference is a length:
///
/// ```
/// use nav::{Length, tide::Height};
/// let high = Height::above_datum(4.0 * Length::METRE);
/// let low = Height::above_datum(0.5 * Length::METRE);
/// assert_eq!((high - low).as_metres(), 3.5);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Height(Length);

impl Height {
    /// The height that is `above` the datum.
    pub const fn above_datum(above: Length) -> Height {
        Height(above)
    }

    /// How far it is above the datum.
    pub const fn above(self) -> Length {
        self.0
    }

    /// For numbers computed in this crate.
    pub(crate) const fn metres(metres: f64) -> Height {
        Height(Length::metres(metres))
    }

    /// In metres above the datum.
    pub const fn as_metres(self) -> f64 {
        self.0.as_metres()
    }
}

impl Sub for Height {
    type Output = Length;
    fn sub(self, other: Height) -> Length {
        self.0 - other.0
    }
}

impl Add<Length> for Height {
    type Output = Height;
    fn add(self, rise: Length) -> Height {
        Height(self.0 + rise)
    }
}

impl Sub<Length> for Height {
    type Output = Height;
    fn sub(self, fall: Length) -> Height {
        Height(self.0 - fall)
    }
}
