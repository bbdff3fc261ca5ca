//! The paces that groups made, kept for the next trip.

use std::fs;
use std::path::PathBuf;
use std::thread;
use std::time::Duration;

use plan::profile::{Profile, ProfileError, Trip};

use crate::read::{self, Kind};
use crate::{FileError, Folders, Lock, Overwrite, RouteLock, Source, Why, save_text};

/// A hundred profiles of a thousand trips, each with the longest title, come to less.
const PROFILES: Kind = Kind { what: "file of profiles", most: 96 << 20, hint: "" };
/// How often the file is asked for while another program writes it, and how long is waited between: two seconds in all, since a
/// disk may be slow, and in tests as long as it takes.
const TRIES: usize = if cfg!(test) { 2400 } else { 40 };
const BETWEEN: Duration = Duration::from_millis(50);

impl Folders {
    /// The file of profiles; it may not be there yet.
    #[must_use]
    pub fn profiles(&self) -> PathBuf {
        self.data.join("profiles.ron")
    }
}

/// The profiles that this user has kept; none before the first.
///
/// # Errors
/// [`FileError`] when they cannot be read, with line and column where it is about the contents.
pub fn open_profiles(folders: &Folders) -> Result<Vec<Profile>, FileError> {
    let path = folders.profiles();
    let text = match read::text(Source::from(&path), PROFILES) {
        Ok(text) => text,
        Err(FileError { why: Why::Missing, .. }) => return Ok(Vec::new()),
        Err(error) => return Err(error),
    };
    plan::profile::read(&text).map_err(|error| {
        FileError::at(&path, &text, error.line, error.column, Why::Contents(error.message))
    })
}

/// Adds a trip to the profile of this name, which is made if it is not there, and gives the profile. The
/// file is written whole, with every other trip in it as it was, also where another program keeps one
/// at the same time.
///
/// # Errors
/// [`FileError`] when it cannot be read or written, or the trip is there already; the file is as it was.
pub fn keep_trip(folders: &Folders, name: &str, trip: Trip) -> Result<Profile, FileError> {
    let path = folders.profiles();
    let fail = |why| FileError::new(&path, why);
    let refused = |error: ProfileError| fail(Why::Contents(error.to_string()));
    fs::create_dir_all(&folders.data).map_err(|error| fail(Why::Unwritable(error)))?;
    let _lock = locked(&path).map_err(|error| fail(Why::Unwritable(error)))?;
    let mut profiles = open_profiles(folders)?;
    let number = match profiles.iter().position(|profile| profile.is(name)) {
        Some(number) => number,
        None if profiles.len() >= Profile::MOST => {
            let most = Profile::MOST;
            return Err(refused(ProfileError::TooMany { what: "profiles", most }));
        }
        None => {
            profiles.push(Profile::named(name).map_err(refused)?);
            profiles.len() - 1
        }
    };
    profiles[number].keep(trip).map_err(refused)?;
    let text =
        plan::profile::write(&profiles).map_err(|error| fail(Why::Contents(error.to_string())))?;
    save_text(&path, &text, Overwrite::Yes)?;
    Ok(profiles.swap_remove(number))
}

/// The right to write the file, waited for a little.
pub(crate) fn locked(path: &std::path::Path) -> std::io::Result<RouteLock> {
    for _ in 0..TRIES {
        match RouteLock::take(path) {
            Lock::Held(lock) => return Ok(lock),
            Lock::Busy(_) => thread::sleep(BETWEEN),
            Lock::Impossible(error) => return Err(error),
        }
    }
    Err(std::io::Error::other("another Strandline is writing it; try again"))
}

#[cfg(test)]
mod tests;
