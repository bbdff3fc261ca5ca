//! Files written whole or not at all.

use std::fs::{self, File};
use std::io::{self, BufWriter, Write};
use std::path::{Path, PathBuf};

use tempfile::{Builder, NamedTempFile};

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
/// before that leaves the old file whole, and nothing lies about. A link is followed and stays a
/// link; the permissions of the old file are kept; a file that is marked read-only is left alone.
///
/// # Errors
/// [`FileError`] when it cannot be written, or when a file is there that is not to be overwritten.
pub fn save_text(path: &Path, contents: &str, overwrite: Overwrite) -> Result<(), FileError> {
    save_with(path, overwrite, |new| new.write_all(contents.as_bytes()))
}

/// As [`save_text`], for contents that `write` puts out.
pub(crate) fn save_with(
    path: &Path,
    overwrite: Overwrite,
    write: impl FnOnce(&mut dyn Write) -> io::Result<()>,
) -> Result<(), FileError> {
    let target = followed(path);
    match fs::metadata(&target) {
        Ok(old) if old.is_dir() => return Err(FileError::new(path, Why::Folder("saved file"))),
        Ok(_) if overwrite == Overwrite::No => return Err(FileError::new(path, Why::Exists)),
        Ok(old) if old.permissions().readonly() => return Err(FileError::new(path, Why::ReadOnly)),
        _ => {}
    }
    replace(&target, write, overwrite).map_err(|error| {
        let there = error.kind() == io::ErrorKind::AlreadyExists;
        FileError::new(path, if there { Why::Exists } else { Why::Unwritable(error) })
    })
}

fn replace(
    target: &Path,
    write: impl FnOnce(&mut dyn Write) -> io::Result<()>,
    overwrite: Overwrite,
) -> io::Result<()> {
    let folder = folder_of(target);
    let mut new = beside(target, &folder)?;
    let mut buffered = BufWriter::with_capacity(1 << 20, new.as_file_mut());
    write(&mut buffered)?;
    buffered.flush()?;
    drop(buffered);
    if let Ok(old) = fs::metadata(target) {
        new.as_file().set_permissions(old.permissions())?;
    }
    new.as_file().sync_all()?;
    match overwrite {
        Overwrite::Yes => new.persist(target),
        Overwrite::No => new.persist_noclobber(target),
    }
    .map_err(|failed| failed.error)?;
    sync_folder(&folder)
}

/// A new hidden file in the folder of `target`, which removes itself unless it is renamed.
fn beside(target: &Path, folder: &Path) -> io::Result<NamedTempFile> {
    let prefix = format!(".{}.", target.file_name().unwrap_or_default().to_string_lossy());
    let mut builder = Builder::new();
    builder.prefix(&prefix).suffix(".new");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        // As any new file: what the user's mask leaves of this. The library's own is 0600.
        builder.permissions(fs::Permissions::from_mode(0o666));
    }
    builder.tempfile_in(folder)
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

#[cfg(test)]
mod tests {
    use super::*;

    fn names(folder: &Path) -> Vec<String> {
        let mut names: Vec<_> = fs::read_dir(folder)
            .unwrap()
            .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
            .collect();
        names.sort();
        names
    }

    #[test]
    fn a_file_is_made_and_replaced_and_nothing_else_lies_about() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.ron");
        save_text(&path, "one", Overwrite::No).unwrap();
        save_text(&path, "two", Overwrite::Yes).unwrap();
        assert_eq!(fs::read_to_string(&path).unwrap(), "two");
        let error = save_text(&path, "three", Overwrite::No).unwrap_err();
        assert!(error.to_string().ends_with("a.ron: is there already; --force overwrites it"));
        assert!(
            replace(&path, |new| new.write_all(b"three"), Overwrite::No).is_err(),
            "even if it came just now"
        );
        assert_eq!(fs::read_to_string(&path).unwrap(), "two");
        assert_eq!(names(folder.path()), ["a.ron"]);
    }

    #[test]
    fn a_failure_on_the_way_leaves_the_old_file_whole() {
        let folder = tempfile::tempdir().unwrap();
        // The last step fails: a folder that is not empty stands where the file should go.
        let path = folder.path().join("a.ron");
        fs::create_dir(&path).unwrap();
        fs::write(path.join("x"), "old").unwrap();
        assert!(replace(&path, |new| new.write_all(b"new"), Overwrite::Yes).is_err());
        assert_eq!(fs::read_to_string(path.join("x")).unwrap(), "old");
        assert_eq!(names(folder.path()), ["a.ron"]);
        // The first step fails.
        let nowhere = folder.path().join("no/a.ron");
        let error = save_text(&nowhere, "new", Overwrite::Yes).unwrap_err();
        assert!(matches!(error.why, Why::Unwritable(_)), "{error}");
    }

    #[test]
    fn a_file_that_is_marked_read_only_is_left_alone() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.ron");
        fs::write(&path, "old").unwrap();
        let mut permissions = fs::metadata(&path).unwrap().permissions();
        permissions.set_readonly(true);
        fs::set_permissions(&path, permissions).unwrap();
        let error = save_text(&path, "new", Overwrite::Yes).unwrap_err();
        assert!(error.to_string().ends_with(
            "a.ron: is marked read-only, and is as it was; to save here, allow writing first"
        ));
        assert_eq!(fs::read_to_string(&path).unwrap(), "old");
    }

    #[cfg(unix)]
    #[test]
    fn permissions_are_kept_and_links_followed() {
        use std::os::unix::fs::{PermissionsExt, symlink};
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.ron");
        fs::write(&path, "old").unwrap();
        fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).unwrap();
        let link = folder.path().join("link.ron");
        symlink("a.ron", &link).unwrap();
        save_text(&link, "new", Overwrite::Yes).unwrap();
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
        assert_eq!(fs::read_to_string(&path).unwrap(), "new");
        assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o640);
        // A link to a file that is not there yet makes it.
        let hope = folder.path().join("hope.ron");
        symlink("b.ron", &hope).unwrap();
        save_text(&hope, "new", Overwrite::Yes).unwrap();
        assert_eq!(names(folder.path()), ["a.ron", "b.ron", "hope.ron", "link.ron"]);
    }
}
