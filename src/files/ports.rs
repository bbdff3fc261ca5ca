//! Port files on the disk.

use chart::port::{self, MOST_BYTES, PortFile};

use crate::read::{self, Kind};
use crate::{FileError, Source, Why};

const PORT: Kind = Kind { what: "port file", most: MOST_BYTES, hint: "" };

/// The port in a file or on an input, from which its tide is predicted.
///
/// # Errors
/// [`FileError`] when it cannot be read or is not a port file, with line and column.
pub fn open_port<'a>(from: impl Into<Source<'a>>) -> Result<PortFile, FileError> {
    let from = from.into();
    let path = from.path();
    let text = read::text(from, PORT)?;
    port::read(&text).map_err(|error| {
        FileError::at(&path, &text, error.line, error.column, Why::Contents(error.why))
    })
}
