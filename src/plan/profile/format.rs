//! Profiles as a file in RON: a version, and under each name its trips.
//!
//! ```text
//! (
//!     version: 1,
//!     profiles: [
//!         (
//!             name: "Thursdays",
//!             trips: [
//!                 (
//!                     date: "2026-06-14",
//!                     began: "2026-06-14T08:02:11Z",
//!                     title: "Round the islands",
//!                     moving_s: 13512,
//!                     distance_m: 18234,
//!                     ground_kn: 2.62,
//!                     water: Some((kn: 2.95, s: 12900, spread_kn: 0.31)),
//!                     wind: Some((from_deg: 230.0, kn: 9.0)),
//!                 ),
//!             ],
//!         ),
//!     ],
//! )
//! ```

use jiff::SignedDuration;
use nav::leeway::Wind;
use nav::{Bearing, Length, Speed};
use ron::error::SpannedError;
use ron::ser::PrettyConfig;
use serde::{Deserialize, Serialize};

use super::{Profile, ProfileError, Trip, WaterPace};
use crate::format::FormatError;

const VERSION: u32 = 1;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    version: u32,
    profiles: Vec<ProfileFile>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct ProfileFile {
    name: String,
    trips: Vec<TripFile>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct TripFile {
    date: String,
    began: String,
    #[serde(default)]
    title: String,
    moving_s: u32,
    distance_m: u32,
    ground_kn: f64,
    #[serde(default)]
    water: Option<WaterFile>,
    #[serde(default)]
    wind: Option<WindFile>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct WaterFile {
    kn: f64,
    s: u32,
    spread_kn: f64,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct WindFile {
    from_deg: f64,
    kn: f64,
}

/// The profiles that the text of a file holds.
///
/// # Errors
/// [`FormatError`] with line and column where the text is not RON of this form, and at its beginning
/// where a value is out of its bounds or the version another.
pub fn read(text: &str) -> Result<Vec<Profile>, FormatError> {
    let file: File = ron::from_str(text).map_err(|error| placed(&error))?;
    let whole = |message: String| FormatError { line: 1, column: 1, message };
    if file.version != VERSION {
        let version = file.version;
        return Err(whole(format!("version {version} is not known; this program reads {VERSION}")));
    }
    if file.profiles.len() > Profile::MOST {
        let most = Profile::MOST;
        return Err(whole(ProfileError::TooMany { what: "profiles", most }.to_string()));
    }
    let mut profiles: Vec<Profile> = Vec::new();
    for ProfileFile { name, trips } in file.profiles {
        let mut profile = Profile::named(&name).map_err(|error| whole(error.to_string()))?;
        if profiles.iter().any(|other| other.is(profile.name())) {
            return Err(whole(format!("there are two profiles {:?}; join them", profile.name())));
        }
        for (number, trip) in (1..).zip(trips) {
            let within = |error: String| {
                whole(format!(
                    "trip {number} of profile {:?}: {error}",
                    chart::clean::clean(&name, 60)
                ))
            };
            let trip = trip.checked().map_err(within)?;
            profile.keep(trip).map_err(|error| within(error.to_string()))?;
        }
        profiles.push(profile);
    }
    Ok(profiles)
}

/// The text of a file that holds them.
///
/// # Errors
/// Never with profiles that keep their bounds.
pub fn write(profiles: &[Profile]) -> Result<String, ron::Error> {
    let profile = |profile: &Profile| ProfileFile {
        name: profile.name().to_owned(),
        trips: profile.trips().iter().map(TripFile::of).collect(),
    };
    let file = File { version: VERSION, profiles: profiles.iter().map(profile).collect() };
    Ok(ron::ser::to_string_pretty(&file, PrettyConfig::new())? + "\n")
}

fn placed(error: &SpannedError) -> FormatError {
    let at = error.span.start;
    FormatError { line: at.line, column: at.col, message: error.code.to_string() }
}

impl TripFile {
    fn of(trip: &Trip) -> TripFile {
        // What the conversion of units has left of hundredths and tenths.
        let knots = |speed: Speed| (speed.as_knots() * 100.0).round() / 100.0;
        let seconds = |time: SignedDuration| u32::try_from(time.as_secs()).unwrap_or(u32::MAX);
        let water = trip.through_water.map(|water| WaterFile {
            kn: knots(water.speed),
            s: seconds(water.time),
            spread_kn: knots(water.spread),
        });
        let wind = trip
            .wind
            .map(|wind| WindFile { from_deg: wind.from.as_degrees(), kn: knots(wind.speed) });
        TripFile {
            date: trip.date.to_string(),
            began: trip.began.to_string(),
            title: trip.title.clone(),
            moving_s: seconds(trip.moving),
            distance_m: trip.distance.as_metres().round() as u32,
            ground_kn: knots(trip.over_ground),
            water,
            wind,
        }
    }

    fn checked(self) -> Result<Trip, String> {
        let wrong = |what: &str, text: &str, such: &str| {
            format!("{what} {:?} is none; write it as {such}", chart::clean::clean(text, 60))
        };
        let knots = |knots| Speed::from_knots(knots).map_err(|error| error.to_string());
        let seconds = |seconds: u32| SignedDuration::from_secs(i64::from(seconds));
        if self.moving_s == 0 {
            return Err("moving_s is 0; a trip takes some time".to_owned());
        }
        let water = |water: WaterFile| {
            let (speed, spread) = (knots(water.kn)?, knots(water.spread_kn)?);
            Ok::<_, String>(WaterPace { speed, time: seconds(water.s.max(1)), spread })
        };
        let wind = |wind: WindFile| {
            let from = Bearing::from_degrees(wind.from_deg).map_err(|error| error.to_string())?;
            Ok::<_, String>(Wind { from, speed: knots(wind.kn)? })
        };
        Ok(Trip {
            date: self.date.parse().map_err(|_| wrong("date", &self.date, "2026-06-14"))?,
            began: self
                .began
                .parse()
                .map_err(|_| wrong("began", &self.began, "2026-06-14T08:02:11Z"))?,
            title: chart::clean::clean(&self.title, crate::Route::MOST_TITLE),
            moving: seconds(self.moving_s),
            distance: f64::from(self.distance_m) * Length::METRE,
            over_ground: knots(self.ground_kn)?,
            through_water: self.water.map(water).transpose()?,
            wind: self.wind.map(wind).transpose()?,
        })
    }
}
