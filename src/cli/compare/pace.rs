//! A pace as it is typed: a speed, or the name of a profile that one is kept in.

use std::str::FromStr;

use anyhow::bail;
use files::Folders;
use nav::Pace;
use plan::profile::{self, Profile};

/// `3kn`, or the name of a profile.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum PaceOrProfile {
    /// A speed.
    Pace(Pace),
    /// A profile's name; whether there is one is for [`PaceOrProfile::pace`] to find.
    Profile(String),
}

impl FromStr for PaceOrProfile {
    type Err = String;

    fn from_str(text: &str) -> Result<PaceOrProfile, String> {
        match (text.parse::<Pace>(), Profile::named(text)) {
            (Ok(pace), _) => Ok(PaceOrProfile::Pace(pace)),
            (Err(_), Ok(profile)) => Ok(PaceOrProfile::Profile(profile.name().to_owned())),
            (Err(error), Err(_)) => Err(error.to_string()),
        }
    }
}

impl PaceOrProfile {
    /// The pace that is meant.
    ///
    /// # Errors
    /// Where there is no profile of that name, or none can be read.
    pub(crate) fn pace(&self) -> anyhow::Result<Pace> {
        let name = match self {
            PaceOrProfile::Pace(pace) => return Ok(*pace),
            PaceOrProfile::Profile(name) => name,
        };
        let folders = Folders::of_user().ok();
        let profiles = folders.as_ref().map(files::open_profiles).transpose()?.unwrap_or_default();
        if let Some(pace) = profile::pace_of(&profiles, name) {
            return Ok(pace);
        }
        let names: Vec<&str> = profiles.iter().map(Profile::name).collect();
        let there = if names.is_empty() { "none yet".to_owned() } else { names.join(", ") };
        bail!(
            "there is no profile “{name}” with trips; there are: {there}; or write a pace such as 3kn"
        )
    }
}
