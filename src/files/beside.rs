//! Files put beside another one, under names of their own.

use std::fs;
use std::path::{Path, PathBuf};

use crate::{FileError, Overwrite, Why, save_bytes};

/// How many names are tried.
const MOST: usize = 999;

/// Saves what is made of a file beside it, and never over what somebody else put there.
#[derive(Debug, Default)]
pub struct Beside {
    /// What was saved last, and where.
    made: Option<(PathBuf, Vec<u8>)>,
}

impl Beside {
    /// Saves `bytes` beside `file` under its name with another ending, `day.pdf`, or else under the first such name
    /// that is free, `day-2.pdf`. What was saved by this value last, and is still as it was, is replaced.
    ///
    /// # Errors
    /// [`FileError`] when it cannot be saved; what is there is as it was.
    pub fn save(
        &mut self,
        file: &Path,
        ending: &str,
        bytes: Vec<u8>,
    ) -> Result<PathBuf, FileError> {
        let mut taken = None;
        for path in (1..=MOST).map(|number| named(file, number, ending)) {
            match save_bytes(&path, &bytes, self.overwrite(&path, &bytes)) {
                Ok(()) => {
                    self.made = Some((path.clone(), bytes));
                    return Ok(path);
                }
                Err(error @ FileError { why: Why::Exists | Why::Folder(_), .. }) => {
                    taken = Some(error);
                }
                Err(error) => return Err(error),
            }
        }
        Err(taken.unwrap_or_else(|| FileError::new(file, Why::Exists)))
    }

    /// Whether what stands there is this program's own, or the very same.
    fn overwrite(&self, path: &Path, bytes: &[u8]) -> Overwrite {
        let own =
            self.made.as_ref().filter(|(made, _)| made == path).map(|(_, own)| own.as_slice());
        let is = |expected: &[u8]| {
            let size = fs::metadata(path).is_ok_and(|known| known.len() == expected.len() as u64);
            size && fs::read(path).is_ok_and(|there| there == expected)
        };
        if own.is_some_and(is) || is(bytes) { Overwrite::Yes } else { Overwrite::No }
    }
}

/// `day.pdf`, `day-2.pdf`.
fn named(file: &Path, number: usize, ending: &str) -> PathBuf {
    let stem = file.file_stem().unwrap_or_default();
    let mut name = stem.to_os_string();
    if number > 1 {
        name.push(format!("-{number}"));
    }
    name.push(".");
    name.push(ending);
    file.with_file_name(name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_its_own_is_replaced_and_nothing_else_ever() {
        let folder = tempfile::tempdir().unwrap();
        let path = |name: &str| folder.path().join(name);
        let route = path("my day.ron");
        let mut cards = Beside::default();
        let mut save = |bytes: &[u8]| cards.save(&route, "pdf", bytes.to_vec()).unwrap();
        assert_eq!(save(b"one"), path("my day.pdf"));
        assert_eq!(save(b"two"), path("my day.pdf"));
        // Somebody writes on it.
        fs::write(path("my day.pdf"), "noted").unwrap();
        assert_eq!(save(b"three"), path("my day-2.pdf"));
        assert_eq!(save(b"four"), path("my day-2.pdf"));
        assert_eq!(fs::read(path("my day.pdf")).unwrap(), b"noted");
        // Another start knows of neither, but sees what is the same.
        let mut later = Beside::default();
        assert_eq!(later.save(&route, "pdf", b"four".to_vec()).unwrap(), path("my day-2.pdf"));
        fs::create_dir(path("my day-3.pdf")).unwrap();
        let mut another = Beside::default();
        assert_eq!(another.save(&route, "pdf", b"five".to_vec()).unwrap(), path("my day-4.pdf"));
        let nowhere = path("none/day.ron");
        let error = another.save(&nowhere, "pdf", Vec::new()).unwrap_err();
        assert!(error.to_string().contains("there is no folder"), "{error}");
    }
}
