//! Shores made ready, kept in the program's cache folder.
//!
//! A name there is made of where the shore's file lies, how large it is and when it was last
//! changed; of one file only the last version is kept. All together stay within [`MOST_BYTES`]:
//! beyond, those made first go.

use std::fs::{self, File, Metadata};
use std::hash::{DefaultHasher, Hash, Hasher};
use std::path::{Path, PathBuf};
use std::time::UNIX_EPOCH;

use chart::coast::detail::Shores;
use chart::coast::file::{self, About, Trust};

use crate::mapped::map;
use crate::write::{Overwrite, save_with};
use crate::{FileError, Folders};

/// How many bytes all shores in the cache take, at the most: two world coasts in full detail and
/// what is made of regions.
pub(crate) const MOST_BYTES: u64 = 1 << 30;

/// The place of one shore in the cache.
#[derive(Debug)]
pub(crate) struct Kept {
    folder: PathBuf,
    /// What all versions of it begin with.
    of: String,
    path: PathBuf,
}

impl Kept {
    /// The place for the file at `path`, of which `known` is known.
    pub(crate) fn new(folders: &Folders, path: &Path, known: &Metadata) -> Kept {
        let mut hasher = DefaultHasher::new();
        fs::canonicalize(path).unwrap_or_else(|_| path.to_path_buf()).hash(&mut hasher);
        let of = format!("{:016x}-", hasher.finish());
        let changed = known.modified().ok().and_then(|time| time.duration_since(UNIX_EPOCH).ok());
        let changed = changed.unwrap_or_default();
        let (version, size) = (file::VERSION, known.len());
        let name = format!("{of}{size}-{}-{version}.{}", changed.as_nanos(), file::ENDING);
        let folder = folders.cache.join("shores");
        Kept { path: folder.join(name), folder, of }
    }

    /// The shore, if it is there; a broken one is taken away.
    pub(crate) fn open(&self) -> Option<(About, Shores)> {
        let bytes = map(&File::open(&self.path).ok()?).ok()?;
        match file::open(bytes, Trust::Cache) {
            Ok(opened) => Some(opened),
            Err(_) => {
                let _ = fs::remove_file(&self.path);
                None
            }
        }
    }

    /// Keeps a shore, in the place of an earlier version.
    pub(crate) fn keep(&self, shores: &Shores, about: &About) -> Result<(), FileError> {
        fs::create_dir_all(&self.folder)
            .map_err(|error| FileError::new(&self.folder, crate::Why::Unwritable(error)))?;
        save_with(&self.path, Overwrite::Yes, |new| file::write(shores, about, new))?;
        self.tidy();
        Ok(())
    }

    /// Takes away earlier versions, and what is beyond the bound. Failing to is no harm.
    fn tidy(&self) {
        let entries = fs::read_dir(&self.folder).into_iter().flatten().flatten();
        let mut others: Vec<(Option<std::time::SystemTime>, u64, PathBuf)> = entries
            .filter_map(|entry| {
                let known = entry.metadata().ok()?;
                Some((known.modified().ok(), known.len(), entry.path()))
            })
            .filter(|(.., path)| path.extension().is_some_and(|end| end == file::ENDING))
            .filter(|(.., path)| *path != self.path)
            .collect();
        others.sort();
        let own = fs::metadata(&self.path).map_or(0, |known| known.len());
        let mut sum: u64 = own + others.iter().map(|(_, size, _)| size).sum::<u64>();
        for (_, size, path) in others {
            let name = path.file_name().unwrap_or_default().to_string_lossy();
            if name.starts_with(&self.of) || sum > MOST_BYTES {
                let _ = fs::remove_file(&path);
                sum -= size;
            }
        }
    }
}
