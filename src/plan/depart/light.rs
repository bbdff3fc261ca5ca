//! The light of civil twilight at a place over some days.

use jiff::{SignedDuration, Timestamp};
use nav::sun::{Altitude, Crossing, Way, crossings, sky};
use nav::{DateOutside, Position};

/// How far on either side of a stretch of time the sun is followed: in the high north and south the next
/// dusk may be further away, and then counts as none.
const BEYOND: SignedDuration = SignedDuration::from_hours(48);

/// How much light there is at an instant, by civil twilight.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Light {
    /// It is light, and civil twilight ends so much later.
    Left(SignedDuration),
    /// It is light, and stays so for two days and more.
    AllDay,
    /// It is dark, and civil twilight ended so long ago.
    Gone(SignedDuration),
    /// It is dark, and has been for two days and more.
    NoDay,
}

/// How dark it is, by whichever of the two ends of the night is nearer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Dark {
    /// Civil twilight ended so long ago.
    After(SignedDuration),
    /// Civil twilight begins so much later.
    Before(SignedDuration),
    /// Neither lies within two days.
    AllDay,
}

/// What the sky is like.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sky {
    /// The sun is up.
    Day,
    /// Civil twilight.
    Twilight,
    /// Darker than civil twilight.
    Dark,
}

/// Every rise and set, and every beginning and end of civil twilight, at a place over some days.
#[derive(Debug, Clone, PartialEq)]
pub struct Lights {
    twilight: Along,
    sun: Along,
}

/// The sun's going through one altitude.
#[derive(Debug, Clone, PartialEq)]
struct Along {
    crossings: Vec<Crossing>,
    /// Whether the sun is above it before the first.
    above_before: bool,
}

impl Along {
    fn of(
        place: Position,
        altitude: Altitude,
        from: Timestamp,
        to: Timestamp,
    ) -> Result<Along, DateOutside> {
        let crossings = crossings(place, altitude, from, to)?;
        let above_before = match crossings.first() {
            Some(first) => first.way == Way::Setting,
            None => sky(place, from)?.altitude > altitude,
        };
        Ok(Along { crossings, above_before })
    }

    /// How many crossings come up to an instant, that one included.
    fn before(&self, at: Timestamp) -> usize {
        self.crossings.partition_point(|crossing| crossing.at <= at)
    }

    fn is_above(&self, at: Timestamp) -> bool {
        let last = self.before(at).checked_sub(1).and_then(|last| self.crossings.get(last));
        last.map_or(self.above_before, |last| last.way == Way::Rising)
    }
}

impl Lights {
    /// The light at `place` from one instant to another, and two days beyond both ends.
    ///
    /// # Errors
    /// [`DateOutside`] before 1900 and after 2100.
    pub fn over(place: Position, from: Timestamp, to: Timestamp) -> Result<Lights, DateOutside> {
        let from = from.checked_sub(BEYOND).map_err(|_| DateOutside { at: from })?;
        let to = to.checked_add(BEYOND).map_err(|_| DateOutside { at: to })?;
        let along = |altitude| Along::of(place, altitude, from, to);
        Ok(Lights { twilight: along(Altitude::CIVIL)?, sun: along(Altitude::RISE_AND_SET)? })
    }

    /// The light at an instant.
    pub fn at(&self, at: Timestamp) -> Light {
        let (light, next) = (self.twilight.is_above(at), self.twilight.before(at));
        let crossings = &self.twilight.crossings;
        let apart = |other: Timestamp| at.duration_since(other).abs();
        if light {
            // The next to come is dusk.
            crossings.get(next).map_or(Light::AllDay, |dusk| Light::Left(apart(dusk.at)))
        } else {
            let dusk = next.checked_sub(1).and_then(|last| crossings.get(last));
            dusk.map_or(Light::NoDay, |dusk| Light::Gone(apart(dusk.at)))
        }
    }

    /// How dark it is at an instant; nothing when it is light.
    pub fn dark(&self, at: Timestamp) -> Option<Dark> {
        let since = match self.at(at) {
            Light::Left(_) | Light::AllDay => return None,
            Light::Gone(since) => Some(since),
            Light::NoDay => None,
        };
        // In the dark the next to come is dawn.
        let dawn = self.twilight.crossings.get(self.twilight.before(at));
        let until = dawn.map(|dawn| dawn.at.duration_since(at));
        Some(match (since, until) {
            (Some(since), None) => Dark::After(since),
            (Some(since), Some(until)) if since <= until => Dark::After(since),
            (_, Some(until)) => Dark::Before(until),
            (None, None) => Dark::AllDay,
        })
    }

    /// What the sky is like at an instant.
    pub fn sky(&self, at: Timestamp) -> Sky {
        match (self.sun.is_above(at), self.twilight.is_above(at)) {
            (true, _) => Sky::Day,
            (false, true) => Sky::Twilight,
            (false, false) => Sky::Dark,
        }
    }

    /// The beginnings and ends of civil twilight within a stretch of time.
    pub fn twilights(&self, from: Timestamp, to: Timestamp) -> impl Iterator<Item = Crossing> {
        let within = move |crossing: &&Crossing| (from..to).contains(&crossing.at);
        self.twilight.crossings.iter().filter(within).copied()
    }
}
