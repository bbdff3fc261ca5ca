//! The vector triangle: a boat through the water, the water over the ground, the boat over the ground.
//!
//! Solved in the plane, as on paper: for the length of a boat's path in the time that a stream
//! keeps its set and drift, the earth is flat.

use crate::angle::sin_cos_degrees;
use crate::{Bearing, Speed, True};

/// Water that moves: the direction that it goes to, and how fast.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stream {
    /// The direction that it sets towards.
    pub set: Bearing<True>,
    /// Its rate.
    pub drift: Speed,
}

/// What it takes to keep to a line over the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Steer {
    /// With this heading the boat goes along the line.
    MakesWay {
        /// The direction of the bow.
        heading: Bearing<True>,
        /// Along the line; nothing where the boat stems the stream and no more.
        ground_speed: Speed,
    },
    /// With this heading the boat stays on the line, and is carried backwards along it.
    SetBack {
        /// The direction of the bow.
        heading: Bearing<True>,
        /// How fast it goes astern.
        astern: Speed,
    },
    /// The stream across the line is faster than the boat: no heading keeps to the line.
    CannotHold,
}

/// A boat's way over the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MadeGood {
    /// The direction over the ground; none where the boat stands still.
    pub track: Option<Bearing<True>>,
    /// The speed over the ground.
    pub ground_speed: Speed,
}

/// The heading to steer and the speed over the ground for a boat that wants to go along `track`
/// at `speed` through the water.
///
/// Of the two headings that hold the line in a strong stream, the one that makes more way along it is
/// given. Exact but for rounding.
///
/// ```
/// use nav::{Bearing, Speed, triangle::{Steer, Stream, heading}};
/// // USCG deck examination: track 230°, 12.5 kn, current setting 180° at 1.7 kn. Steer 236°.
/// let degrees = |d| Bearing::from_degrees(d).unwrap();
/// let stream = Stream { set: degrees(180.0), drift: Speed::from_knots(1.7).unwrap() };
/// let steer = heading(degrees(230.0), Speed::from_knots(12.5).unwrap(), stream);
/// let Steer::MakesWay { heading, .. } = steer else { panic!() };
/// assert_eq!(heading.to_string(), "236°T");
/// ```
pub fn heading(track: Bearing<True>, speed: Speed, stream: Stream) -> Steer {
    let (boat, drift) = (speed.as_metres_per_second(), stream.drift.as_metres_per_second());
    let (sin, cos) = sin_cos_degrees(stream.set.as_degrees() - track.as_degrees());
    let (across, along) = (drift * sin, drift * cos);
    if across.abs() > boat {
        return Steer::CannotHold;
    }
    // Into the stream, so that what the boat makes across the line is what it is set across it. No
    // angle at all for a boat at rest in still water.
    let into = if across == 0.0 { 0.0 } else { (-across / boat).asin().to_degrees() };
    let heading = Bearing::wrapped(track.as_degrees() + into);
    let over_ground = ((boat - across) * (boat + across)).sqrt() + along;
    if over_ground < 0.0 {
        Steer::SetBack { heading, astern: Speed::metres_per_second(-over_ground) }
    } else {
        Steer::MakesWay { heading, ground_speed: Speed::metres_per_second(over_ground) }
    }
}

/// The track and speed over the ground of a boat that heads `heading` at `speed` through the water.
///
/// ```
/// use nav::{Bearing, Speed, triangle::{Stream, made_good}};
/// // The American Practical Navigator, 2002, article 711, example 1: 089°, 11.2 kn by plotting.
/// let degrees = |d| Bearing::from_degrees(d).unwrap();
/// let stream = Stream { set: degrees(140.0), drift: Speed::from_knots(2.0).unwrap() };
/// let made = made_good(degrees(80.0), Speed::from_knots(10.0).unwrap(), stream);
/// assert_eq!(made.track.unwrap().to_string(), "089°T");
/// assert!((made.ground_speed.as_knots() - 11.2).abs() < 0.1);
/// ```
pub fn made_good(heading: Bearing<True>, speed: Speed, stream: Stream) -> MadeGood {
    let (boat, water) = (vector(heading, speed), vector(stream.set, stream.drift));
    let (track, ground_speed) = direction(boat.0 + water.0, boat.1 + water.1);
    MadeGood { track, ground_speed }
}

/// What a boat must do through the water to go along a line at a given speed over the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Required {
    /// The direction of the bow; none where the stream alone does it.
    pub heading: Option<Bearing<True>>,
    /// The speed through the water.
    pub speed: Speed,
}

/// The heading and the speed through the water that make good `track` at `ground_speed`.
///
/// ```
/// use nav::{Bearing, Speed, triangle::{Stream, required}};
/// // The American Practical Navigator, 2002, article 711, example 3: 276°, 14.8 kn by plotting.
/// let degrees = |d| Bearing::from_degrees(d).unwrap();
/// let stream = Stream { set: degrees(185.0), drift: Speed::from_knots(3.0).unwrap() };
/// let required = required(degrees(265.0), Speed::from_knots(15.0).unwrap(), stream);
/// assert!((required.speed.as_knots() - 14.8).abs() < 0.05);
/// ```
pub fn required(track: Bearing<True>, ground_speed: Speed, stream: Stream) -> Required {
    let (ground, water) = (vector(track, ground_speed), vector(stream.set, stream.drift));
    let (heading, speed) = direction(ground.0 - water.0, ground.1 - water.1);
    Required { heading, speed }
}

/// East and north, in metres per second.
fn vector(bearing: Bearing<True>, speed: Speed) -> (f64, f64) {
    let (sin, cos) = sin_cos_degrees(bearing.as_degrees());
    let speed = speed.as_metres_per_second();
    (speed * sin, speed * cos)
}

fn direction(east: f64, north: f64) -> (Option<Bearing<True>>, Speed) {
    let speed = east.hypot(north);
    let bearing = (speed > 0.0).then(|| Bearing::wrapped(east.atan2(north).to_degrees()));
    (bearing, Speed::metres_per_second(speed))
}

#[cfg(test)]
mod tests;
