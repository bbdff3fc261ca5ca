//! Directions, with the north they are counted from in their type.

use std::fmt;
use std::marker::PhantomData;
use std::ops::{Add, Neg, Sub};

use crate::OutOfRange;

/// A north that directions are counted from: [`True`], [`Grid`] or [`Magnetic`].
///
/// Sealed: there is no fourth north on this ship.
pub trait North: Copy + fmt::Debug + sealed::Sealed + 'static {
    /// The letter behind a bearing's three figures: `T`, `G` or `M`.
    const LETTER: char;
}

mod sealed {
    pub trait Sealed {}
}

macro_rules! north {
    ($(#[$doc:meta])* $name:ident, $letter:literal) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum $name {}
        impl sealed::Sealed for $name {}
        impl North for $name {
            const LETTER: char = $letter;
        }
    };
}

north!(
    /// Geographic north, along the meridian.
    True,
    'T'
);
north!(
    /// The north of a map's grid lines.
    Grid,
    'G'
);
north!(
    /// Where an undisturbed compass points.
    Magnetic,
    'M'
);

/// A direction, counted clockwise from the north `N`, from 0 up to but not including 360 degrees.
///
/// Two bearings of different norths do not mix; this does not compile:
///
/// ```compile_fail,E0308
/// use nav::{Bearing, Magnetic, True};
/// let chart: Bearing<True> = Bearing::from_degrees(47.0).unwrap();
/// let compass: Bearing<Magnetic> = chart;
/// ```
///
/// nor does this:
///
/// ```compile_fail,E0308
/// use nav::{Bearing, Magnetic, True};
/// let chart = Bearing::<True>::from_degrees(47.0).unwrap();
/// let compass = Bearing::<Magnetic>::from_degrees(51.0).unwrap();
/// let turn = chart.turn_to(compass);
/// ```
///
/// One becomes the other through what really lies between them. West variation is added,
/// east is taken off:
///
/// ```
/// use nav::{Bearing, True, Variation};
/// let chart = Bearing::<True>::from_degrees(47.0).unwrap();
/// let west_four = Variation::from_degrees_east(-4.0).unwrap();
/// let compass = chart.to_magnetic(west_four);
/// assert_eq!(compass.to_string(), "051°M");
/// assert_eq!(compass.to_true(west_four), chart);
/// ```
pub struct Bearing<N: North> {
    degrees: f64,
    north: PhantomData<N>,
}

impl<N: North> Bearing<N> {
    /// North itself.
    pub const NORTH: Bearing<N> = Bearing { degrees: 0.0, north: PhantomData };

    /// A bearing of `degrees`, any whole turns taken off.
    ///
    /// # Errors
    /// [`OutOfRange`] when `degrees` is not finite.
    pub fn from_degrees(degrees: f64) -> Result<Bearing<N>, OutOfRange> {
        OutOfRange::finite("bearing in degrees", degrees).map(Bearing::wrapped)
    }

    /// For numbers computed in this crate, which are finite by their construction.
    pub(crate) fn wrapped(degrees: f64) -> Bearing<N> {
        let turned = degrees.rem_euclid(360.0);
        // A tiny negative angle rounds up to 360 itself, which is north.
        Bearing { degrees: if turned >= 360.0 { 0.0 } else { turned }, north: PhantomData }
    }

    /// In degrees, from 0 up to but not including 360.
    pub const fn as_degrees(self) -> f64 {
        self.degrees
    }

    /// The opposite direction: the back bearing.
    ///
    /// ```
    /// use nav::{Bearing, Magnetic};
    /// let out = Bearing::<Magnetic>::from_degrees(47.0).unwrap();
    /// assert_eq!(out.back().to_string(), "227°M");
    /// ```
    #[must_use]
    pub fn back(self) -> Bearing<N> {
        // Exact for halves of a turn, so that back of back is the bearing itself to the last bit
        // wherever the sum can be held.
        if self.degrees < 180.0 {
            Bearing::wrapped(self.degrees + 180.0)
        } else {
            Bearing::wrapped(self.degrees - 180.0)
        }
    }

    /// The shorter turn from this bearing to `other`, clockwise positive.
    #[must_use]
    pub fn turn_to(self, other: Bearing<N>) -> Turn {
        Turn::wrapped(other.degrees - self.degrees)
    }

    /// This bearing turned clockwise by `turn`.
    #[must_use]
    pub fn turned(self, turn: Turn) -> Bearing<N> {
        Bearing::wrapped(self.degrees + turn.0)
    }

    /// Its three whole figures, as said over a radio: 0 to 359.
    #[must_use]
    pub fn figures(self) -> u16 {
        // In range by construction: rounds to 0..=360.
        (self.degrees.round() as u16) % 360
    }
}

impl Bearing<True> {
    /// The same direction counted from the grid lines of a map with this `convergence` at the place.
    #[must_use]
    pub fn to_grid(self, convergence: Convergence) -> Bearing<Grid> {
        Bearing::wrapped(self.degrees - convergence.0)
    }

    /// The same direction on a compass, with this `variation` at the place and date.
    #[must_use]
    pub fn to_magnetic(self, variation: Variation) -> Bearing<Magnetic> {
        Bearing::wrapped(self.degrees - variation.0)
    }
}

impl Bearing<Grid> {
    /// The same direction counted from true north.
    #[must_use]
    pub fn to_true(self, convergence: Convergence) -> Bearing<True> {
        Bearing::wrapped(self.degrees + convergence.0)
    }
}

impl Bearing<Magnetic> {
    /// The same direction counted from true north.
    #[must_use]
    pub fn to_true(self, variation: Variation) -> Bearing<True> {
        Bearing::wrapped(self.degrees + variation.0)
    }
}

// By hand, since a derive would ask the same of the north, which has no values.
impl<N: North> Clone for Bearing<N> {
    fn clone(&self) -> Self {
        *self
    }
}
impl<N: North> Copy for Bearing<N> {}
impl<N: North> PartialEq for Bearing<N> {
    fn eq(&self, other: &Self) -> bool {
        self.degrees == other.degrees
    }
}
impl<N: North> fmt::Debug for Bearing<N> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}°{}", self.degrees, N::LETTER)
    }
}

/// Three figures, a degree sign and the north: `047°T`.
impl<N: North> fmt::Display for Bearing<N> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:03}°{}", self.figures(), N::LETTER)
    }
}

/// A turn from one direction to another of the same north: over -180 to 180 degrees, clockwise positive.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Turn(f64);

impl Turn {
    /// A turn of `degrees` clockwise, any whole turns taken off.
    ///
    /// # Errors
    /// [`OutOfRange`] when `degrees` is not finite.
    pub fn from_degrees(degrees: f64) -> Result<Turn, OutOfRange> {
        OutOfRange::finite("turn in degrees", degrees).map(Turn::wrapped)
    }

    /// For numbers written in this crate, which are within half a turn.
    pub(crate) const fn degrees(degrees: f64) -> Turn {
        Turn(degrees)
    }

    pub(crate) fn wrapped(degrees: f64) -> Turn {
        let turned = degrees.rem_euclid(360.0);
        Turn(if turned > 180.0 { turned - 360.0 } else { turned })
    }

    /// In degrees, clockwise positive.
    pub const fn as_degrees(self) -> f64 {
        self.0
    }
}

macro_rules! between_norths {
    ($(#[$doc:meta])* $name:ident, $quantity:literal) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
        pub struct $name(f64);

        impl $name {
            /// The two norths are one.
            pub const ZERO: $name = $name(0.0);

            /// An angle of `degrees`, east positive.
            ///
            /// # Errors
            /// [`OutOfRange`] when `degrees` is not within -180 to 180.
            pub fn from_degrees_east(degrees: f64) -> Result<$name, OutOfRange> {
                OutOfRange::check($quantity, degrees, (-180.0, 180.0), "-180 to 180 degrees")
                    .map($name)
            }

            /// For numbers computed in this crate.
            #[allow(dead_code, reason = "one of the two kinds may be computed in one place only")]
            pub(crate) const fn degrees_east(degrees: f64) -> $name {
                $name(degrees)
            }

            /// In degrees, east positive.
            pub const fn as_degrees_east(self) -> f64 {
                self.0
            }
        }

        impl Add for $name {
            type Output = $name;
            fn add(self, other: $name) -> $name {
                $name(self.0 + other.0)
            }
        }

        impl Sub for $name {
            type Output = $name;
            fn sub(self, other: $name) -> $name {
                $name(self.0 - other.0)
            }
        }

        impl Neg for $name {
            type Output = $name;
            fn neg(self) -> $name {
                $name(-self.0)
            }
        }

        /// Tenths of a degree and the side: `4.2°W`; `0.0°` where the two norths are one.
        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                let tenths = (self.0 * 10.0).round();
                let side = match tenths {
                    t if t > 0.0 => "E",
                    t if t < 0.0 => "W",
                    _ => "",
                };
                write!(f, "{:.1}°{side}", tenths.abs() / 10.0)
            }
        }
    };
}

between_norths!(
    /// The angle from true north to grid north at a place, positive where grid north lies east of true north.
    ///
    /// This is the convergence of the meridians as the field's tables give it (DMA TM 8358.2,
    /// chapter 2: grid north minus true north): positive east of the central meridian in
    /// the northern hemisphere. A grid bearing is the true bearing less the convergence.
    Convergence,
    "convergence"
);
between_norths!(
    /// The angle from true north to magnetic north at a place and date, positive where magnetic
    /// north lies east of true north: magnetic variation, which geophysics calls declination.
    Variation,
    "variation"
);

#[cfg(test)]
mod tests;
