//! Files written whole or not at all.

use std::fs::{self, File, OpenOptions};
use std::io::{self, BufWriter, Write};
use std::path::{Path, PathBuf};

use tempfile::{Builder, NamedTempFile};

use crate::error::shown;
use crate::{FileError, Why};

/// Whether a file that is there already is overwritten.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Overwrite {
    /// It is.
    Yes,
    /// It is left alone, and that is an error.
    No,
}

/// Puts `contents` in the place of the file at `path`, in one step and for good.
///
/// The new file is written beside the old one, brought to the disk, and renamed; whatever fails
/// before that leaves the old file whole, and nothing lies about; what an earlier program left that was
/// ended while it wrote there is cleared away. A link is followed and stays a
/// link; the permissions of the old file are kept; a file that is marked read-only is left alone.
/// What is no file, such as a pipe or a terminal, is written to as it stands.
///
/// # Errors
/// [`FileError`] when it cannot be written, or when a file is there that is not to be overwritten.
pub fn save_bytes(path: &Path, contents: &[u8], overwrite: Overwrite) -> Result<(), FileError> {
    save_with(path, overwrite, |new| new.write_all(contents))
}

/// As [`save_bytes`], for text.
///
/// # Errors
/// As [`save_bytes`].
pub fn save_text(path: &Path, contents: &str, overwrite: Overwrite) -> Result<(), FileError> {
    save_bytes(path, contents.as_bytes(), overwrite)
}

/// As [`save_bytes`], for files that belong together: all of them are saved, or none is. Only where the very
/// last step fails, that of naming what is on the disk already, may files that were to be overwritten
/// be new before it.
///
/// # Errors
/// As [`save_bytes`], for the first that cannot be saved.
pub fn save_all(files: &[(PathBuf, Vec<u8>)], overwrite: Overwrite) -> Result<(), FileError> {
    let mut waiting = Vec::with_capacity(files.len());
    for (path, _) in files {
        can_save(path, overwrite)?;
    }
    for (path, contents) in files {
        match Target::of(path, overwrite)? {
            Target::File(target) => {
                let new = Beside::written(target, |new| new.write_all(contents));
                waiting.push((path, new.map_err(|error| unwritable(path, error))?));
            }
            Target::Stream(_) => save_bytes(path, contents, overwrite)?,
        }
    }
    let mut fresh: Vec<PathBuf> = Vec::new();
    for (path, new) in waiting {
        let (target, is_fresh) = (new.target.clone(), !new.target.exists());
        if let Err(error) = new.put(overwrite) {
            // They came a moment ago and are nobody else's.
            fresh.iter().for_each(|path| drop(fs::remove_file(path)));
            return Err(unwritable(path, error));
        }
        fresh.extend(Some(target).filter(|_| is_fresh));
    }
    Ok(())
}

/// Says what would be refused, before work is done for it.
///
/// # Errors
/// [`FileError`] when the folder is missing, or when something is there that is not to be overwritten.
pub fn can_save(path: &Path, overwrite: Overwrite) -> Result<(), FileError> {
    Target::of(path, overwrite).map(drop)
}

/// As [`save_bytes`], for contents that `write` puts out.
pub(crate) fn save_with(
    path: &Path,
    overwrite: Overwrite,
    write: impl FnOnce(&mut dyn Write) -> io::Result<()>,
) -> Result<(), FileError> {
    match Target::of(path, overwrite)? {
        Target::File(target) => Beside::written(target, write)
            .and_then(|new| new.put(overwrite))
            .map_err(|error| unwritable(path, error)),
        Target::Stream(target) => {
            let written =
                OpenOptions::new().write(true).open(target).and_then(|mut to| write(&mut to));
            written.map_err(|error| FileError::new(path, Why::Unwritten(error)))
        }
    }
}

fn unwritable(path: &Path, error: io::Error) -> FileError {
    let there = error.kind() == io::ErrorKind::AlreadyExists;
    FileError::new(path, if there { Why::Exists } else { Why::Unwritable(error) })
}

/// What stands at a path, links followed.
enum Target {
    /// A file, or nothing yet.
    File(PathBuf),
    /// A pipe, a terminal or another device: there is nothing in it to be kept or replaced.
    Stream(PathBuf),
}

impl Target {
    fn of(path: &Path, overwrite: Overwrite) -> Result<Target, FileError> {
        let target = followed(path);
        let fail = |why| Err(FileError::new(path, why));
        let Ok(old) = fs::metadata(&target) else {
            let folder = folder_of(&target);
            if matches!(fs::metadata(&folder), Err(error) if error.kind() == io::ErrorKind::NotFound)
            {
                return fail(Why::NoFolder(shown(&folder)));
            }
            return Ok(Target::File(target));
        };
        if old.is_dir() {
            return fail(Why::Folder("saved file"));
        }
        if is_stream(&old) {
            return Ok(Target::Stream(target));
        }
        if overwrite == Overwrite::No {
            return fail(Why::Exists);
        }
        if old.permissions().readonly() {
            return fail(Why::ReadOnly);
        }
        if !old.is_file() {
            return Ok(Target::Stream(target));
        }
        Ok(Target::File(target))
    }
}

/// Whether what is written there goes on at once. A disk, which keeps it, is overwritten only when told so.
#[cfg(unix)]
fn is_stream(known: &fs::Metadata) -> bool {
    use std::os::unix::fs::FileTypeExt;
    let kind = known.file_type();
    kind.is_char_device() || kind.is_fifo() || kind.is_socket()
}

/// What is no file here is none of the program's business.
#[cfg(not(unix))]
fn is_stream(known: &fs::Metadata) -> bool {
    !known.is_file()
}

/// A new file on the disk, which waits to be put in its place.
struct Beside {
    new: NamedTempFile,
    target: PathBuf,
}

impl Beside {
    fn written(
        target: PathBuf,
        write: impl FnOnce(&mut dyn Write) -> io::Result<()>,
    ) -> io::Result<Beside> {
        let mut new = beside(&target, &folder_of(&target))?;
        let mut buffered = BufWriter::with_capacity(1 << 20, new.as_file_mut());
        write(&mut buffered)?;
        buffered.flush()?;
        drop(buffered);
        if let Ok(old) = fs::metadata(&target) {
            new.as_file().set_permissions(old.permissions())?;
        }
        new.as_file().sync_all()?;
        Ok(Beside { new, target })
    }

    fn put(self, overwrite: Overwrite) -> io::Result<()> {
        match overwrite {
            Overwrite::Yes => self.new.persist(&self.target),
            Overwrite::No => self.new.persist_noclobber(&self.target),
        }
        .map_err(|failed| failed.error)?;
        sync_folder(&folder_of(&self.target))
    }
}

/// A new hidden file in the folder of `target`, which removes itself unless it is renamed.
fn beside(target: &Path, folder: &Path) -> io::Result<NamedTempFile> {
    left_over::clear(target, folder);
    let prefix = format!(".{}.", target.file_name().unwrap_or_default().to_string_lossy());
    let mut builder = Builder::new();
    builder.prefix(&prefix).suffix(left_over::ENDING).rand_bytes(left_over::RANDOM);
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        // As any new file: what the user's mask leaves of this. The library's own is 0600.
        builder.permissions(fs::Permissions::from_mode(0o666));
    }
    let new = builder.tempfile_in(folder)?;
    // It says that the file is being written; where files cannot be locked, their age says so alone.
    let _ = new.as_file().try_lock();
    Ok(new)
}

/// The folder that a file lies in.
pub(crate) fn folder_of(file: &Path) -> PathBuf {
    match file.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder.to_path_buf(),
        _ => PathBuf::from("."),
    }
}

/// Where links lead from `path`, whether or not a file is there; `path` itself for a ring of links.
pub(crate) fn followed(path: &Path) -> PathBuf {
    let mut at = path.to_path_buf();
    // As many links as Linux follows.
    for _ in 0..40 {
        match fs::read_link(&at) {
            Ok(to) => at = folder_of(&at).join(to),
            Err(_) => return at,
        }
    }
    path.to_path_buf()
}

/// Brings the folder's entry for the new name to the disk.
#[cfg(unix)]
fn sync_folder(folder: &Path) -> io::Result<()> {
    File::open(folder)?.sync_all()
}

/// Folders cannot be opened for that here; the rename itself is as durable as the system makes it.
#[cfg(not(unix))]
fn sync_folder(_: &Path) -> io::Result<()> {
    Ok(())
}

mod left_over;
#[cfg(test)]
mod tests;
