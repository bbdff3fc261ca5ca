//! What does not change on the way: the boat's speed and the wind's push.

use crate::angle::sin_cos_degrees;
use crate::stream::{Vector, vector};
use crate::triangle::Stream;
use crate::{Bearing, Pace, Speed, True};

/// A group's speed through the water, rests and all, and the wind's push on it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Boat {
    speed: Speed,
    leeway: Stream,
}

impl Boat {
    /// A boat that goes steadily at this speed through the water, without wind.
    pub const fn new(speed: Speed) -> Boat {
        let still = Stream { set: Bearing::NORTH, drift: Speed::metres_per_second(0.0) };
        Boat { speed, leeway: still }
    }

    /// A group at its pace, without wind. Its rests are spread evenly over the time, as
    /// [`Pace::time_for`] does: with ten minutes in each hour it goes through the water at fifty
    /// sixtieths of its speed, and the stream carries it all the hour. In still water it takes exactly
    /// the time that the pace gives; headings are those of this slower boat, a little further into the
    /// stream than while it paddles, so that the line is held rests and all.
    ///
    /// ```
    /// use jiff::SignedDuration;
    /// use nav::{Pace, passage::Boat};
    /// let pace: Pace = "3 kn".parse()?;
    /// let boat = Boat::at_pace(pace.with_rest_per_hour(SignedDuration::from_mins(10))?);
    /// assert!((boat.speed().as_knots() - 2.5).abs() < 1e-12);
    /// # Ok::<(), nav::PaceError>(())
    /// ```
    pub fn at_pace(pace: Pace) -> Boat {
        let hour = 3600.0;
        let paddling = (hour - pace.rest_per_hour().as_secs_f64()) / hour;
        Boat::new(Speed::metres_per_second(pace.speed().as_metres_per_second() * paddling))
    }

    /// The same boat pushed by the wind, see [`Leeway::drift`](crate::leeway::Leeway::drift).
    #[must_use]
    pub const fn with_leeway(self, leeway: Stream) -> Boat {
        Boat { leeway, ..self }
    }

    /// Its speed through the water, rests and all.
    pub const fn speed(self) -> Speed {
        self.speed
    }

    /// The wind's push.
    pub const fn leeway(self) -> Stream {
        self.leeway
    }

    /// The wind's push as a vector.
    pub(super) fn push(self) -> Vector {
        vector(self.leeway.set, self.leeway.drift.as_metres_per_second())
    }
}

/// A direction to take vectors apart by: along it, and across it to the right.
#[derive(Debug, Clone, Copy)]
pub(super) struct Axes {
    sin: f64,
    cos: f64,
}

impl Axes {
    pub(super) fn of(track: Bearing<True>) -> Axes {
        let (sin, cos) = sin_cos_degrees(track.as_degrees());
        Axes { sin, cos }
    }

    /// East and north as along and across.
    pub(super) fn onto(self, (east, north): Vector) -> Vector {
        (east * self.sin + north * self.cos, east * self.cos - north * self.sin)
    }

    /// Along and across as east and north.
    pub(super) fn back(self, (along, across): Vector) -> Vector {
        (along * self.sin + across * self.cos, along * self.cos - across * self.sin)
    }
}
