//! Exercise sets on the disk, with the chart that each is worked on.

use chart::Chart;
use practice::set::{Set, SetChart, read};

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
    /// The text that it was read from.
    pub text: String,
    /// The chart: the built-in one, one made, or the one beside the set's file.
    pub chart: Chart,
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
        SetChart::Beside(name) => open_chart(&folder_of(&path).join(name))?,
    };
    Ok(OpenedSet { set, text, chart })
}

#[cfg(test)]
mod tests;
