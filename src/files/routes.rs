//! Routes on the disk.

use std::path::Path;

use plan::Route;

use crate::read::{self, Kind};
use crate::{FileError, Overwrite, Source, Why, save_text};

/// A thousand points with the longest notes, each letter escaped, come to less.
const ROUTE: Kind = Kind { what: "route", most: 8 << 20, hint: "" };

/// The route in a file or on an input.
///
/// # Errors
/// [`FileError`] when the file cannot be read or is not a route; with line and column where it
/// is about the contents.
pub fn open_route<'a>(from: impl Into<Source<'a>>) -> Result<Route, FileError> {
    let from = from.into();
    let path = from.path();
    let text = read::text(from, ROUTE)?;
    plan::format::read(&text).map_err(|error| {
        FileError::at(&path, &text, error.line, error.column, Why::Contents(error.message))
    })
}

/// Saves `route` in the file at `path`: whole, on the disk, or not at all.
///
/// # Errors
/// [`FileError`] when it cannot be saved; the file is as it was.
pub fn save_route(path: &Path, route: &Route) -> Result<(), FileError> {
    save_text(path, &plan::format::write(route), Overwrite::Yes)
}

#[cfg(test)]
mod tests;
