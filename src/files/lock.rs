//! One writer for a route.

use std::fmt;
use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use jiff::Timestamp;

use crate::write::{folder_of, followed};

/// The right to write a route, held until it is dropped.
///
/// It is an operating system's lock on a hidden file beside the route, `.NAME.lock`, which says
/// who holds it. The lock goes with the process, however that ends: what a crash leaves behind
/// is a file without a lock, which the next one takes over.
#[derive(Debug)]
pub struct RouteLock {
    path: PathBuf,
    /// The open file is the lock.
    _file: File,
}

/// What came of asking for a lock.
#[derive(Debug)]
pub enum Lock {
    /// Held; the route may be written while this value lives.
    Held(RouteLock),
    /// Another program holds it: the route may only be read.
    Busy(Holder),
    /// No lock can be kept here, say in a folder that may not be written: only read.
    Impossible(io::Error),
}

/// Who holds a lock, as far as the lock file says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Holder {
    /// The number of the process.
    pub process: Option<u32>,
    /// Since when.
    pub since: Option<Timestamp>,
}

impl fmt::Display for Holder {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("open in another Strandline")?;
        if let Some(process) = self.process {
            write!(f, ", process {process}")?;
        }
        if let Some(since) = self.since {
            write!(f, ", since {} UTC", since.strftime("%Y-%m-%d %H:%M"))?;
        }
        Ok(())
    }
}

impl RouteLock {
    /// Asks for the right to write the route at `path`, without waiting. Links are followed: two
    /// names of one file have one lock.
    pub fn take(path: &Path) -> Lock {
        let route = followed(path);
        let name = route.file_name().unwrap_or_default().to_string_lossy();
        let path = folder_of(&route).join(format!(".{name}.lock"));
        // The holder before may remove the file between our opening and locking it; then what
        // we hold is not the file that others will find, and we ask again.
        for _ in 0..10 {
            match open(&path).and_then(|file| claim(file, &path)) {
                Ok(Some(lock)) => return lock,
                Ok(None) => {}
                Err(error) => return Lock::Impossible(error),
            }
        }
        Lock::Busy(Holder::default())
    }
}

impl Drop for RouteLock {
    fn drop(&mut self) {
        // Removed while the lock is held, so that it is ours that goes. Failing to is harmless.
        let _ = fs::remove_file(&self.path);
    }
}

fn open(path: &Path) -> io::Result<File> {
    OpenOptions::new().read(true).write(true).create(true).truncate(false).open(path)
}

/// The lock, if the open file is free; nothing if it is no longer the one at `path`.
fn claim(mut file: File, path: &Path) -> io::Result<Option<Lock>> {
    match file.try_lock() {
        Ok(()) => {}
        Err(TryLockError::WouldBlock) => return Ok(Some(Lock::Busy(holder(&mut file)))),
        Err(TryLockError::Error(error)) => return Err(error),
    }
    if !is_at(&file, path) {
        return Ok(None);
    }
    file.set_len(0)?;
    file.seek(SeekFrom::Start(0))?;
    write!(file, "{} {}", std::process::id(), Timestamp::now())?;
    Ok(Some(Lock::Held(RouteLock { path: path.to_path_buf(), _file: file })))
}

/// Who wrote himself into the lock file.
fn holder(file: &mut File) -> Holder {
    let mut text = String::new();
    // On some systems a locked file cannot be read; then nobody is named.
    let _ = file.take(100).read_to_string(&mut text);
    let mut words = text.split_whitespace();
    Holder {
        process: words.next().and_then(|word| word.parse().ok()),
        since: words.next().and_then(|word| word.parse().ok()),
    }
}

/// Whether the open file is the one that is found at `path`.
#[cfg(unix)]
fn is_at(file: &File, path: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    match (file.metadata(), fs::metadata(path)) {
        (Ok(open), Ok(found)) => (open.dev(), open.ino()) == (found.dev(), found.ino()),
        _ => false,
    }
}

/// Elsewhere an open file cannot be removed, so that it is.
#[cfg(not(unix))]
fn is_at(_: &File, _: &Path) -> bool {
    true
}

#[cfg(test)]
mod tests;
