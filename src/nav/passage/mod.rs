//! A passage in time: a line of stretches through a stream that changes while the boat is on its way.
//!
//! A leg is cut into [`Stretch`]es, along each of which the stream is everywhere what it is at its
//! middle. [`walk`] holds the line on every stretch, [`one_heading`] finds the one heading that brings
//! the boat to the line's end, and a [`Table`] answers many times of departure quickly.
//!
//! All three are reckoned in the plane, as on paper: along a stretch and the time that it takes, the
//! earth is flat. What the boat does through the water, its [`Boat`], stays the same on the way; where
//! nothing is known of the stream the water is taken to be still, and the time and length of it are
//! counted ([`Times::without_data`], [`Sums::length_without_data`]).
//!
//! A boat whose speed along its line falls to [`LEAST_WAY`] makes no way: it [`Halt`]s there, and
//! nothing is said of what becomes of it. So every passage ends.

mod boat;
mod hold;
mod one_heading;
mod piece;
mod sums;
mod table;
mod way;

pub use boat::Boat;
pub use hold::{Halt, Passed, Walk, Why, walk};
pub use one_heading::{Crossing, NoHeading, Offset, one_heading};
pub use sums::{SLACK, Sums, Times};
pub use table::{Swift, Table};

use crate::stream::Run;
use crate::{Bearing, Length, Speed, True};

/// The least speed along the line that counts as making way: a tenth of a knot, at which a nautical mile
/// takes ten hours.
pub const LEAST_WAY: Speed = Speed::metres_per_second(0.1 * Speed::KNOT.as_metres_per_second());

/// A piece of a line over the ground along which the stream is taken to be the same everywhere.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch<'a> {
    /// The way that it goes over the ground.
    pub track: Bearing<True>,
    /// Its length over the ground. A negative one counts as nothing.
    pub length: Length,
    /// Its water: so much of each of these streams, as in [`Run::blended`], which need not be made for
    /// it. Nothing is known of it where there is none, and outside the time that all of them have.
    pub water: Vec<(f64, &'a Run)>,
}

#[cfg(test)]
mod tests;
