//! What a program leaves that is ended while it writes: a hidden file beside the one that it would have become.

use std::ffi::OsStr;
use std::fs::{self, File};
use std::path::Path;
use std::time::Duration;

/// How the name of a file ends that is being written.
pub(super) const ENDING: &str = ".new";

/// How many letters or digits stand before that, thrown for each.
pub(super) const RANDOM: usize = 6;

/// So long after it was last written to a file may be one that was left.
const AGE: Duration = Duration::from_secs(60);

/// Removes what was left of earlier writing to `target`. What another program is writing just now is locked, or
/// young; what cannot be looked at or removed stays, since it hinders nothing.
pub(super) fn clear(target: &Path, folder: &Path) {
    let Some(name) = target.file_name() else { return };
    let Ok(entries) = fs::read_dir(folder) else { return };
    for entry in entries.flatten() {
        if is_one(&entry.file_name(), name) && is_left(&entry.path()) {
            let _ = fs::remove_file(entry.path());
        }
    }
}

/// Whether a name is one that this program gives to what is to become the file `of`.
fn is_one(name: &OsStr, of: &OsStr) -> bool {
    let (name, of) = (name.to_string_lossy(), of.to_string_lossy());
    let thrown = name
        .strip_prefix('.')
        .and_then(|rest| rest.strip_prefix(of.as_ref())?.strip_prefix('.')?.strip_suffix(ENDING));
    thrown.is_some_and(|it| it.len() == RANDOM && it.bytes().all(|b| b.is_ascii_alphanumeric()))
}

/// Whether nobody writes to it any more.
fn is_left(path: &Path) -> bool {
    let Ok(known) = fs::symlink_metadata(path) else { return false };
    let age = known.modified().ok().and_then(|at| at.elapsed().ok());
    known.is_file()
        && age.is_some_and(|age| age > AGE)
        && File::open(path).is_ok_and(|file| file.try_lock().is_ok())
}
