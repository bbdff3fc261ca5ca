#![doc = include_str!("FORMAT.md")]

pub(crate) mod fields;
mod file;
mod grid;
mod locate;
#[cfg(test)]
mod tests;
mod write;

pub use file::{ChartFile, ShoreBeside};
pub use locate::Step;
pub use write::{write, write_with_shore_beside};

use crate::check::{self, Fault};
use crate::clean::{NOTE, clean};

/// The version that is written, and the only one that is read.
pub const VERSION: u32 = 1;

/// The most characters of a version that a message repeats.
const MOST_DIGITS: usize = 12;

/// The size, in bytes, above which a chart file is not read: such a shore belongs in a file
/// beside the chart.
pub const MOST_BYTES: u64 = 128 << 20;

/// Why a text is not a chart, and where in it; lines and columns are counted in characters from 1.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{line}:{column}: {why}")]
pub struct FormatError {
    /// The line.
    pub line: usize,
    /// The column.
    pub column: usize,
    /// What is wrong; what would be right.
    pub why: Why,
}

/// Why a text is not a chart.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Why {
    /// The bytes are not UTF-8.
    #[error("the byte 0x{byte:02X} is not part of UTF-8 text; a chart is saved as UTF-8")]
    NotText {
        /// The first byte that does not fit.
        byte: u8,
    },
    /// The text does not begin as a chart does.
    #[error("a chart begins with its version, `(version: {VERSION},`; this text begins otherwise")]
    NoVersion,
    /// The version is not one that is read.
    #[error("version {found} of the chart format; this program reads version {VERSION}")]
    Version {
        /// The version that the file gives.
        found: String,
    },
    /// The text cannot be read as RON, or not as a chart.
    #[error("{0}")]
    Syntax(String),
    /// The chart can be read, but not be right.
    #[error(transparent)]
    Chart(#[from] Fault),
}

impl FormatError {
    fn at(text: &str, byte: usize, why: Why) -> FormatError {
        let (line, column) = locate::line_and_column(text, byte);
        FormatError { line, column, why }
    }
}

/// Where in the text of a chart a value stands, by line and column in characters from 1: the end of
/// the way, or as far along it as the text goes.
pub fn line_and_column(text: &str, way: &[Step]) -> (usize, usize) {
    locate::line_and_column(text, locate::locate(text, way))
}

/// The text in the bytes of a chart file, without a byte order mark.
///
/// # Errors
/// [`Why::NotText`] at the first byte that is not part of UTF-8.
pub fn text_of(bytes: &[u8]) -> Result<&str, FormatError> {
    let bytes = bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes);
    std::str::from_utf8(bytes).map_err(|error| {
        let (valid, rest) = bytes.split_at(error.valid_up_to());
        let valid = std::str::from_utf8(valid).unwrap_or("");
        let byte = rest.first().copied().unwrap_or_default();
        FormatError::at(valid, valid.len(), Why::NotText { byte })
    })
}

/// The chart that a text holds: whole, or waiting for the shore file beside it.
///
/// # Errors
/// The first thing that is wrong: with the version, with the RON, then with the chart.
pub fn read(text: &str) -> Result<ChartFile, FormatError> {
    let (file, findings) = examine(text)?;
    match findings.into_iter().next() {
        Some(first) => Err(first),
        None => Ok(file),
    }
}

/// Everything that is wrong with the chart that a text holds, in the order of the format, and the
/// chart as far as it goes.
///
/// # Errors
/// When the text cannot be read as a chart at all, right or wrong.
pub fn examine(text: &str) -> Result<(ChartFile, Vec<FormatError>), FormatError> {
    check_version(text)?;
    let raw: file::File = ron::from_str(text).map_err(|error| syntax(text, &error))?;
    let file = ChartFile::try_from(raw).map_err(|(field, why)| {
        let byte = locate::locate(text, &[Step::Field(field)]);
        FormatError::at(text, byte, Why::Syntax(clean(&why, NOTE)))
    })?;
    let findings = check::faults(file.chart_as_written())
        .into_iter()
        .map(|finding| {
            let byte = locate::locate(text, &finding.way);
            FormatError::at(text, byte, Why::Chart(finding.fault))
        })
        .collect();
    Ok((file.turned(), findings))
}

/// The parser's error; where the text simply stops, that is said first.
fn syntax(text: &str, error: &ron::error::SpannedError) -> FormatError {
    let end = (error.span.end.line, error.span.end.col);
    let message = clean(&error.code.to_string(), NOTE);
    let at_end = end == locate::line_and_column(text, text.trim_end().len())
        || error.code == ron::Error::Eof;
    let why = if at_end {
        format!(
            "the text stops in the middle of the chart ({message}); it may have been cut off, or \
             a closing bracket is missing"
        )
    } else {
        message
    };
    let (line, column) = if at_end { end } else { (error.span.start.line, error.span.start.col) };
    FormatError { line, column, why: Why::Syntax(why) }
}

/// Looks at the version before anything else, so that a file of another version is not called
/// broken.
fn check_version(text: &str) -> Result<(), FormatError> {
    let at = locate::follow(text, &[Step::Field("version")])
        .map_err(|at| FormatError::at(text, at, Why::NoVersion))?;
    let rest = text.get(at..).unwrap_or("");
    let end = rest.find([',', ')', '\n']).unwrap_or(rest.len());
    let found = clean(rest.get(..end).unwrap_or(""), MOST_DIGITS);
    if found == VERSION.to_string() {
        return Ok(());
    }
    Err(FormatError::at(text, at, Why::Version { found }))
}
