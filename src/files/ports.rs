//! Port files on the disk.

use std::path::Path;

use chart::Chart;
use chart::port::{self, MOST_BYTES, PortFile};

use crate::charts::{CHART, chart_of};
use crate::coasts::Holds;
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
    port::read(&text).map_err(|error| wrong(&path, &text, error))
}

fn wrong(path: &Path, text: &str, error: port::PortFileError) -> FileError {
    FileError::at(path, text, error.line, error.column, Why::Contents(error.why))
}

/// What tides can be told from.
#[derive(Debug)]
pub enum Water {
    /// A chart with its ports and streams.
    Chart(Box<Chart>),
    /// One port.
    Port(Box<PortFile>),
}

/// The chart or the port in a file or on an input, whichever it is: a chart names its grid, a port
/// file never does.
///
/// # Errors
/// [`FileError`] as of [`open_chart`](crate::open_chart) and [`open_port`].
pub fn open_water<'a>(from: impl Into<Source<'a>>) -> Result<Water, FileError> {
    let from = from.into();
    if let Source::File(path) = &from
        && Holds::of(path) != Holds::Chart
    {
        return Ok(Water::Chart(Box::new(crate::open_chart(*path)?)));
    }
    let path = from.path();
    let text = read::text(from, CHART)?;
    match port::read(&text) {
        Ok(port) => Ok(Water::Port(Box::new(port))),
        Err(error) if !text.contains("grid:") => Err(wrong(&path, &text, error)),
        Err(_) => chart_of(&path, &text).map(|chart| Water::Chart(Box::new(chart))),
    }
}
