//! Exercise sets on the disk, with the chart that each is worked on.

use std::path::PathBuf;

use chart::Chart;
use practice::set::{Set, SetChart, place_of_chart, place_of_part, read};

use crate::charts::open_chart;
use crate::read::{self as reading, Kind};
use crate::write::folder_of;
use crate::{FileError, Source, Why};

/// Fifty parts with all kinds, and more comments than anybody writes, come to less.
const SET: Kind = Kind { what: "set of exercises", most: 1 << 20, hint: "" };

/// A set that was opened, with its chart.
#[derive(Debug, Clone)]
pub struct OpenedSet {
    /// The set.
    pub set: Set,
    /// The chart: the built-in one, one made, or the one beside the set's file.
    pub chart: Chart,
    /// The checksum of the chart: see [`sum_of`].
    pub sum: u32,
    /// Where it was read from, and the text, for what is found wrong with it later.
    file: (PathBuf, String),
}

impl OpenedSet {
    /// That its chart has not what the part of this number, from 0, asks for.
    #[must_use]
    pub fn lacks(&self, part: usize) -> FileError {
        let (path, text) = &self.file;
        let kinds = self.set.parts.get(part).map(|part| part.kinds.as_slice()).unwrap_or_default();
        let kinds: Vec<&str> = kinds.iter().map(|kind| kind.name()).collect();
        let why = format!(
            "the chart “{}” has not what it takes to ask for {}; take another chart or other kinds",
            self.chart.title,
            kinds.join(", ")
        );
        let (line, column) = place_of_part(text, part);
        FileError::at(path, text, line, column, Why::Contents(why))
    }
}

/// The checksum of a chart, by which it is known again: of all that it says, not of the spaces and comments of its file. Two charts
/// of one checksum are one in four thousand million.
#[must_use]
pub fn sum_of(chart: &Chart) -> u32 {
    crc32fast::hash(chart::format::write(chart).as_bytes())
}

/// The exercise set in a file or on an input, with its chart. A chart in a file is looked for from the folder of the set, or
/// from the working folder for an input.
///
/// # Errors
/// [`FileError`] when a file cannot be read or is not what it should be; with the name of the file that it is about, and
/// line and column where it is about the contents.
pub fn open_set<'a>(from: impl Into<Source<'a>>) -> Result<OpenedSet, FileError> {
    let from = from.into();
    let path = from.path();
    let text = reading::text(from, SET)?;
    let set = read(&text).map_err(|error| {
        FileError::at(&path, &text, error.line, error.column, Why::Contents(error.message))
    })?;
    let contents = |why: String| FileError::new(&path, Why::Contents(why));
    let chart = match &set.chart {
        SetChart::BuiltIn => chart::practice().map_err(|error| contents(error.to_string()))?,
        SetChart::Made { seed, wishes } => {
            chart::maker::make(*seed, wishes).map_err(|error| contents(error.to_string()))?
        }
        SetChart::Beside(name) => {
            open_chart(&folder_of(&path).join(name)).map_err(|error| match error.why {
                Why::Missing => {
                    let why = format!("there is no chart `{name}` beside the set");
                    let (line, column) = place_of_chart(&text);
                    FileError::at(&path, &text, line, column, Why::Contents(why))
                }
                _ => error,
            })?
        }
    };
    let sum = sum_of(&chart);
    Ok(OpenedSet { set, chart, sum, file: (path, text) })
}

#[cfg(test)]
mod tests;
