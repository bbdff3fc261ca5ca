//! The user's own file of people and kit, for the sheet of the contact ashore.
//!
//! It is RON, versioned, and no part of any route: it is read for a sheet alone, and nothing here writes one.
//! What is left out is left for a pen. [`EXAMPLE`] is such a file.

mod format;
#[cfg(test)]
mod tests;

use paper::sheet::People;

use crate::read::{self, Kind};
use crate::{FileError, Source, Why};

/// Sixty boats with four people and the longest notes, each letter escaped, come to less.
const PEOPLE: Kind = Kind { what: "file of people", most: 4 << 20, hint: "" };

/// A file of people who do not exist.
pub const EXAMPLE: &str = include_str!("people/example.ron");

/// The people and kit in a file or on an input, their text cleaned.
///
/// # Errors
/// [`FileError`] when the file cannot be read or is not one of people; with line and column where it
/// is about the contents.
pub fn open_people<'a>(from: impl Into<Source<'a>>) -> Result<People, FileError> {
    let from = from.into();
    let path = from.path();
    let text = read::text(from, PEOPLE)?;
    format::read(&text).map_err(|wrong| {
        FileError::at(&path, &text, wrong.line, wrong.column, Why::Contents(wrong.message))
    })
}
