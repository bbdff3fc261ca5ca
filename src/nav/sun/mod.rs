//! The light: the sun's height, its rise, noon and set, and civil twilight at a place.
//!
//! The sun's place is that of J. Meeus, *Astronomical Algorithms*, 2nd edition (1998), chapter 25
//! (low accuracy) with the largest pulls of the planets, and sidereal time by chapter 12; instants of rise and set are roots of
//! its altitude, so that the sun's motion through the day is in them. Refraction at the horizon is
//! the almanacs' 34 minutes of arc: real air differs, by minutes of time where the sun rises
//! flat, and hills are not known of.

mod day;
mod place;

pub use day::{Crossing, Day, Daylight, Way, crossings, day};
pub(crate) use place::terrestrial_ahead;
pub use place::{Altitude, Sky, sky};

#[cfg(test)]
mod tests;
