//! Where things of this user's lie.

use std::fs;
use std::path::PathBuf;

use etcetera::base_strategy::{BaseStrategy, choose_base_strategy};

use crate::{FileError, Why};

/// The folders in which the program keeps things without being told a place.
///
/// On Unix these are the XDG folders (`XDG_DATA_HOME`, `XDG_STATE_HOME`, `XDG_CACHE_HOME`), on Windows the user's
/// application data.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Folders {
    /// What the user made and would miss: routes.
    pub data: PathBuf,
    /// What makes the next start pleasant: the session.
    pub state: PathBuf,
    /// What the user set up: keys.
    pub config: PathBuf,
    /// What can be made again: shores made ready to be opened at once.
    pub cache: PathBuf,
}

/// The system does not say where this user's things lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("this user has no home folder; name a route file to work on")]
pub struct NoHome;

impl Folders {
    /// This user's folders, as the environment says; nothing is made yet.
    ///
    /// # Errors
    /// [`NoHome`] when there is no home folder.
    pub fn of_user() -> Result<Folders, NoHome> {
        let base = choose_base_strategy().map_err(|_| NoHome)?;
        let data = base.data_dir().join("strandline");
        let state = base.state_dir().map_or_else(|| data.clone(), |state| state.join("strandline"));
        let config = base.config_dir().join("strandline");
        let cache = base.cache_dir().join("strandline");
        Ok(Folders { data, state, config, cache })
    }

    /// The file that a chart's route lies in when the user names none. Its folder is made.
    ///
    /// # Errors
    /// [`Why::Unwritable`] when the folder cannot be made.
    pub fn route_for(&self, chart_title: &str) -> Result<PathBuf, FileError> {
        let folder = self.data.join("routes");
        fs::create_dir_all(&folder).map_err(|e| FileError::new(&folder, Why::Unwritable(e)))?;
        Ok(folder.join(format!("{}.ron", slug(chart_title))))
    }

    /// The session's file; its folder may not be there yet.
    pub(crate) fn session(&self) -> PathBuf {
        self.state.join("session.ron")
    }
}

/// A title as the name of a file: letters and figures in lower case, hyphens between.
fn slug(title: &str) -> String {
    let lower = title.to_lowercase();
    let words: Vec<&str> =
        lower.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
    let slug: String = words.join("-").chars().take(60).collect();
    if slug.is_empty() { "chart".to_owned() } else { slug }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_chart_has_its_own_route_file() {
        let home = tempfile::tempdir().unwrap();
        let folders = Folders {
            data: home.path().join("d"),
            state: home.path().join("s"),
            config: home.path().join("c"),
            cache: home.path().join("x"),
        };
        for (title, name) in [
            ("Ternhaven Sound", "ternhaven-sound.ron"),
            ("../../etc/passwd", "etc-passwd.ron"),
            ("Ytre Øy: (north)", "ytre-øy-north.ron"),
            ("\u{1b}…", "chart.ron"),
        ] {
            let path = folders.route_for(title).unwrap();
            assert_eq!(path, home.path().join("d/routes").join(name));
        }
        assert!(slug(&"x".repeat(500)).len() == 60);
    }
}
