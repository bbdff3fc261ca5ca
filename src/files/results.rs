//! What was answered in practice, kept for the next time.

use std::fs;
use std::path::{Path, PathBuf};

use practice::memory::{self, Answered, Record};

use crate::profiles::locked;
use crate::read::{self, Kind};
use crate::{FileError, Folders, Overwrite, Source, Why, save_text};

/// As many results as a record may have, each with a long title, come to less.
const RESULTS: Kind = Kind { what: "record of practice", most: 96 << 20, hint: "" };

impl Folders {
    /// The record of practice; it may not be there yet.
    #[must_use]
    pub fn results(&self) -> PathBuf {
        self.data.join("results.csv")
    }
}

/// What this user has answered; nothing before the first.
///
/// # Errors
/// [`FileError`] when it cannot be read, with line and column where it is about the contents.
pub fn open_results(folders: &Folders) -> Result<Record, FileError> {
    match open_record(&folders.results()) {
        Err(FileError { why: Why::Missing, .. }) => Ok(Record::default()),
        opened => opened,
    }
}

/// The record of practice in a file.
///
/// # Errors
/// As [`open_results`], and where there is no such file.
pub fn open_record(path: &Path) -> Result<Record, FileError> {
    let text = read::text(Source::from(path), RESULTS)?;
    memory::read(&text).map_err(|error| {
        FileError::at(path, &text, error.line, error.column, Why::Contents(error.message))
    })
}

/// Adds a result and gives the record. The file is written whole, with every other result in it as it was, also
/// where another program keeps one at the same time.
///
/// # Errors
/// [`FileError`] when it cannot be read or written, or is full; the file is as it was.
pub fn keep_result(folders: &Folders, answered: Answered) -> Result<Record, FileError> {
    let path = folders.results();
    let fail = |why| FileError::new(&path, why);
    fs::create_dir_all(&folders.data).map_err(|error| fail(Why::Unwritable(error)))?;
    let _lock = locked(&path).map_err(|error| fail(Why::Unwritable(error)))?;
    let mut record = open_results(folders)?;
    if !record.keep(answered) {
        let most = Record::MOST;
        let full =
            format!("has {most} results, the most that are kept; move it away to begin anew");
        return Err(fail(Why::Contents(full)));
    }
    save_text(&path, &memory::write(&record), Overwrite::Yes)?;
    Ok(record)
}

#[cfg(test)]
mod tests;
