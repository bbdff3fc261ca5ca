//! What went wrong with a file, where in it, and the line to show for it.

use std::fmt;
use std::io;
use std::path::Path;

use annotate_snippets::renderer::DecorStyle;
use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet};
use chart::clean::clean;

/// Something wrong with a file. Its [`Display`](fmt::Display) is one line,
/// `file:line:column: what is wrong; what would be right`, harmless to show on a terminal.
#[derive(Debug)]
pub struct FileError {
    /// The file's name as it may be shown.
    pub file: String,
    /// Where in the file, if it is about its contents.
    pub place: Option<Place>,
    /// What is wrong.
    pub why: Why,
}

/// A place in a text, with the line that it is in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    /// The line, from one.
    pub line: usize,
    /// The column in characters, from one.
    pub column: usize,
    /// What the line holds about the column, cleaned, and where in it the column is, in bytes;
    /// nothing where the text is not kept.
    excerpt: Option<(String, usize)>,
}

/// What is wrong with a file.
#[derive(Debug, thiserror::Error)]
pub enum Why {
    /// There is none.
    #[error("there is no such file")]
    Missing,
    /// A folder, or something else that is not a file.
    #[error("this is a folder; a {0} is a file")]
    Folder(&'static str),
    /// It is there but not readable.
    #[error("cannot be read: {0}")]
    Unreadable(#[source] io::Error),
    /// Larger than any such file has reason to be.
    #[error("is larger than {} MB, the most that a {what} may have{hint}", most >> 20)]
    TooBig {
        /// What it should have been.
        what: &'static str,
        /// The bound in bytes.
        most: u64,
        /// What would be right instead, or empty.
        hint: &'static str,
    },
    /// A byte that is not part of UTF-8 text.
    #[error("the byte 0x{0:02X} is not part of UTF-8 text; a {1} is saved as UTF-8")]
    NotText(u8, &'static str),
    /// The contents are not what they should be.
    #[error("{0}")]
    Contents(String),
    /// A file is there that was not to be overwritten.
    #[error("is there already; --force overwrites it")]
    Exists,
    /// It could not be written; the file is as it was.
    #[error("cannot be saved, and is as it was: {0}")]
    Unwritable(#[source] io::Error),
    /// It is no file but a pipe or a device, and does not take what is written to it.
    #[error("cannot be written: {0}")]
    Unwritten(#[source] io::Error),
    /// The folder that it should lie in is not there.
    #[error("there is no folder {0}; make it first, or name another")]
    NoFolder(String),
    /// It is marked as not to be written.
    #[error("is marked read-only, and is as it was; to save here, allow writing first")]
    ReadOnly,
}

impl FileError {
    pub(crate) fn new(path: &Path, why: Why) -> FileError {
        FileError { file: shown(path), place: None, why }
    }

    /// An error at a line and column of `text`.
    pub(crate) fn at(path: &Path, text: &str, line: usize, column: usize, why: Why) -> FileError {
        let place = Place { line, column, excerpt: Some(excerpt(text, line, column)) };
        FileError { file: shown(path), place: Some(place), why }
    }

    /// An error at a line and column of a text that is not kept.
    pub(crate) fn located(path: &Path, line: usize, column: usize, why: Why) -> FileError {
        FileError { file: shown(path), place: Some(Place { line, column, excerpt: None }), why }
    }

    /// The error with the line that it is about and a mark under the place, for people; the
    /// single line of [`Display`](fmt::Display) where there is no line to show.
    #[must_use]
    pub fn block(&self, coloured: bool) -> String {
        let Some(Place { line, excerpt: Some((excerpt, at)), .. }) = &self.place else {
            return self.to_string();
        };
        let said = self.why.to_string();
        let end = excerpt.get(*at..).and_then(|rest| rest.chars().next()).map_or(0, char::len_utf8);
        let mark = AnnotationKind::Primary.span(*at..at + end);
        let snippet = Snippet::source(excerpt.as_str())
            .line_start(*line)
            .path(self.file.as_str())
            .annotation(mark);
        let report = &[Level::ERROR.primary_title(said.as_str()).element(snippet)];
        let renderer = if coloured { Renderer::styled() } else { Renderer::plain() };
        renderer.decor_style(DecorStyle::Ascii).render(report)
    }
}

impl fmt::Display for FileError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.place {
            Some(at) => write!(f, "{}:{}:{}: {}", self.file, at.line, at.column, self.why),
            None => write!(f, "{}: {}", self.file, self.why),
        }
    }
}

impl std::error::Error for FileError {}

/// A path's text as it may be shown: names of files can hold escape sequences too.
pub(crate) fn shown(path: &Path) -> String {
    clean(&path.to_string_lossy(), 4096)
}

/// How much of a line is shown on either side of the place.
const BESIDE: usize = 60;

/// The part of a line about a column, and the column's byte in it. A line may be the whole file.
fn excerpt(text: &str, line: usize, column: usize) -> (String, usize) {
    let line = text.lines().nth(line.saturating_sub(1)).unwrap_or("");
    let first = column.saturating_sub(1 + BESIDE);
    let part: String = line.chars().skip(first).take(2 * BESIDE).collect();
    let before = part.chars().take(column.saturating_sub(1 + first)).count();
    // Bars keep the white space at the ends, which places are counted by.
    let cleaned = clean(&format!("|{}|", part.replace('\t', " ")), usize::MAX);
    let cleaned = cleaned.trim_matches('|').to_owned();
    let at = cleaned.chars().take(before).map(char::len_utf8).sum();
    (cleaned, at)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_line_names_file_place_and_reason() {
        let text = "(\n\tname: \"\u{1b}[2J\", lat: 91.5)";
        let why = Why::Contents("latitude 91.5 is not within -90 to 90 degrees".into());
        let error = FileError::at(Path::new("a\u{1b}b.ron"), text, 2, 22, why);
        assert_eq!(
            error.to_string(),
            "a\u{fffd}b.ron:2:22: latitude 91.5 is not within -90 to 90 degrees"
        );
        assert_eq!(
            error.block(false),
            "\
error: latitude 91.5 is not within -90 to 90 degrees
 --> a\u{fffd}b.ron:2:22
  |
2 |  name: \"\u{fffd}[2J\", lat: 91.5)
  |                      ^"
        );
    }

    #[test]
    fn a_line_without_end_is_shown_in_part() {
        let text = "x".repeat(100_000);
        let (part, at) = excerpt(&text, 1, 50_000);
        assert_eq!((part.len(), at), (2 * BESIDE, BESIDE));
        assert_eq!(excerpt("", 7, 9), (String::new(), 0));
        assert_eq!(excerpt("ab", 1, 3), ("ab".to_owned(), 2));
    }
}
