//! The pace that a group made on its trips, kept to plan the next ones with.

mod format;
#[cfg(test)]
mod tests;

pub use format::{read, write};

use chart::clean::clean;
use jiff::civil::Date;
use jiff::{SignedDuration, Timestamp};
use nav::leeway::Wind;
use nav::{Length, Pace, PaceUnit, Speed};

use crate::compare::{Comparison, Figures};
use crate::{Route, Weather};

/// The trips of one group.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    name: String,
    trips: Vec<Trip>,
}

/// A trip that was recorded. Lengths are whole metres, times whole seconds, speeds hundredths of a knot: as
/// they are written.
#[derive(Debug, Clone, PartialEq)]
pub struct Trip {
    /// The day, on the route's clock.
    pub date: Date,
    /// When its recording begins, by which it is known.
    pub began: Timestamp,
    /// What it was: the route's title or the track's name; may be empty.
    pub title: String,
    /// How long it moved.
    pub moving: SignedDuration,
    /// The way over the ground meanwhile.
    pub distance: Length,
    /// The mean pace over the ground.
    pub over_ground: Speed,
    /// The mean pace through the water where the stream is known, for how long, and its spread.
    pub through_water: Option<WaterPace>,
    /// The wind that the route was planned for, if it was for one.
    pub wind: Option<Wind>,
}

/// A pace through the water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaterPace {
    /// The mean.
    pub speed: Speed,
    /// Over how much of the moving time.
    pub time: SignedDuration,
    /// The standard deviation of the paces of ten minutes each.
    pub spread: Speed,
}

/// What a profile says of the next trip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OwnPace {
    /// The mean over the trips, each weighed by its hours.
    pub mean: Speed,
    /// That of the slowest trip.
    pub slowest: Speed,
    /// How many trips it is of.
    pub trips: usize,
    /// How many hours they moved.
    pub time: SignedDuration,
    /// Whether it is through the water; over the ground where no trip had a known stream.
    pub through_water: bool,
}

/// Why a trip is not kept.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ProfileError {
    /// A name that could be taken for a pace, or that is none.
    #[error("{0:?} is no name for a profile; it begins with a letter and has up to {most} characters", most = Profile::MOST_NAME)]
    Name(String),
    /// The same trip.
    #[error("the profile {profile:?} has this trip already, of {date}")]
    Twice {
        /// The profile's name.
        profile: String,
        /// The trip's day.
        date: Date,
    },
    /// More than a file holds.
    #[error("{what} are {most} at most")]
    TooMany {
        /// What there are too many of.
        what: &'static str,
        /// The bound.
        most: usize,
    },
    /// Nothing to keep.
    #[error("the track has no times, or no way that was made: there is no pace to keep")]
    NoPace,
}

impl Profile {
    /// The most characters in a name.
    pub const MOST_NAME: usize = 40;
    /// The most trips in a profile.
    pub const MOST_TRIPS: usize = 1000;
    /// The most profiles.
    pub const MOST: usize = 100;

    /// A profile without trips.
    ///
    /// # Errors
    /// [`ProfileError::Name`] when the name does not begin with a letter or is too long.
    pub fn named(name: &str) -> Result<Profile, ProfileError> {
        let name = clean(name.trim(), usize::MAX);
        let fits = name.chars().count() <= Profile::MOST_NAME;
        if !(fits && name.starts_with(char::is_alphabetic)) {
            return Err(ProfileError::Name(clean(&name, 60)));
        }
        Ok(Profile { name, trips: Vec::new() })
    }

    /// Its name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Whether it goes by this name, in capitals or not.
    #[must_use]
    pub fn is(&self, name: &str) -> bool {
        self.name.to_lowercase() == name.trim().to_lowercase()
    }

    /// Its trips, the earliest first.
    #[must_use]
    pub fn trips(&self) -> &[Trip] {
        &self.trips
    }

    /// Adds a trip; those that are there stay.
    ///
    /// # Errors
    /// [`ProfileError`] when it is there already, or there are too many.
    pub fn keep(&mut self, trip: Trip) -> Result<(), ProfileError> {
        let at = self.trips.partition_point(|other| other.began < trip.began);
        if self.trips.get(at).is_some_and(|other| other.began == trip.began) {
            return Err(ProfileError::Twice { profile: self.name.clone(), date: trip.date });
        }
        if self.trips.len() >= Profile::MOST_TRIPS {
            return Err(ProfileError::TooMany { what: "trips", most: Profile::MOST_TRIPS });
        }
        self.trips.insert(at, trip);
        Ok(())
    }

    /// The pace that it says to plan with: of the trips through water whose stream was known, or over the
    /// ground if there is none such; nothing without trips.
    #[must_use]
    pub fn pace(&self) -> Option<OwnPace> {
        let water = |trip: &Trip| trip.through_water.map(|water| (water.speed, water.time));
        let ground = |trip: &Trip| Some((trip.over_ground, trip.moving));
        let told = own_pace(self.trips.iter().filter_map(water), true);
        told.or_else(|| own_pace(self.trips.iter().filter_map(ground), false))
    }
}

/// The pace of the profile of this name, as a route has it; nothing where there is none, or it has no
/// trips.
#[must_use]
pub fn pace_of(profiles: &[Profile], name: &str) -> Option<Pace> {
    let pace = profiles.iter().find(|profile| profile.is(name))?.pace()?.to_plan_with();
    crate::written_pace(pace).ok()
}

/// The profile whose pace this is, rests apart; the first of several.
#[must_use]
pub fn of_pace(profiles: &[Profile], pace: Pace) -> Option<&Profile> {
    let is_its = |profile: &&Profile| {
        let own = profile.pace().map(|own| crate::written_pace(own.to_plan_with()));
        own.is_some_and(|own| own.is_ok_and(|own| own.speed() == pace.speed()))
    };
    profiles.iter().find(is_its)
}

fn own_pace(
    trips: impl Iterator<Item = (Speed, SignedDuration)> + Clone,
    through_water: bool,
) -> Option<OwnPace> {
    let way: Length = trips.clone().map(|(speed, time)| speed.over(time)).sum();
    let time = trips.clone().fold(SignedDuration::ZERO, |all, (_, time)| all.saturating_add(time));
    let mean = way.as_metres() / time.as_secs_f64();
    let slowest = trips.clone().map(|(speed, _)| speed).reduce(|a, b| if b < a { b } else { a })?;
    let mean = hundredths(Speed::from_metres_per_second(mean).ok()?);
    Some(OwnPace { mean, slowest, trips: trips.count(), time, through_water })
}

impl OwnPace {
    /// The mean as a pace, without rests: stops are the route's.
    #[must_use]
    pub const fn to_plan_with(&self) -> Pace {
        Pace::new(self.mean, PaceUnit::Knots)
    }
}

impl Trip {
    /// What is kept of a comparison.
    ///
    /// # Errors
    /// [`ProfileError::NoPace`] of a track without times or without a way.
    pub fn of(compared: &Comparison, route: &Route, title: &str) -> Result<Trip, ProfileError> {
        let Comparison { on_route: Figures { made, moving, .. }, .. } = compared;
        let (began, ground) =
            compared.recorded.zip(compared.ground_pace).ok_or(ProfileError::NoPace)?;
        let first = route.points.first().ok_or(ProfileError::NoPace)?;
        let own = route.departure.as_ref().map(|departure| departure.zone().clone());
        let zone = own.unwrap_or_else(|| crate::nautical_zone(first.at.lon));
        let water = compared.water_pace.map(|water| WaterPace {
            speed: hundredths(water.speed),
            time: whole(water.time),
            spread: hundredths(water.spread),
        });
        let moved = whole(*moving) > SignedDuration::ZERO;
        moved.then_some(()).ok_or(ProfileError::NoPace)?;
        Ok(Trip {
            date: began.0.to_zoned_datetime(zone).date(),
            began: Timestamp::from_second(began.0.as_second()).unwrap_or(began.0),
            title: clean(title, Route::MOST_TITLE),
            moving: whole(*moving),
            distance: made.as_metres().round() * Length::METRE,
            over_ground: hundredths(ground.speed),
            through_water: water.filter(|water| water.time > SignedDuration::ZERO),
            wind: route.wind.map(|Weather { wind, .. }| wind),
        })
    }
}

/// To hundredths of a knot.
fn hundredths(speed: Speed) -> Speed {
    Speed::from_knots((speed.as_knots() * 100.0).round() / 100.0).unwrap_or(speed)
}

/// To whole seconds.
fn whole(time: SignedDuration) -> SignedDuration {
    SignedDuration::from_secs(time.as_secs_f64().round() as i64)
}
