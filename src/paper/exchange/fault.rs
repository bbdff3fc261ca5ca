//! What is wrong with a foreign file, and where.

use std::io;

use nav::OutOfRange;

/// A place in a text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Place {
    /// The line, from one.
    pub line: usize,
    /// The column in characters, from one.
    pub column: usize,
}

impl Place {
    /// The beginning.
    pub(super) const START: Place = Place { line: 1, column: 1 };

    /// Where `text`, which begins here, ends.
    #[must_use]
    pub(super) fn after(self, text: &[u8]) -> Place {
        match text.iter().rposition(|&byte| byte == b'\n') {
            None => Place { column: self.column + characters(text), ..self },
            Some(last) => Place {
                line: self.line + text.iter().filter(|&&byte| byte == b'\n').count(),
                column: 1 + characters(text.get(last + 1..).unwrap_or_default()),
            },
        }
    }
}

/// How many characters begin in UTF-8 text.
fn characters(text: &[u8]) -> usize {
    text.iter().filter(|&&byte| byte & 0xC0 != 0x80).count()
}

/// What is wrong with a foreign file, and where. Its message is harmless to show.
#[derive(Debug, thiserror::Error)]
#[error("{}:{}: {why}", place.line, place.column)]
pub struct Fault {
    /// Where.
    pub place: Place,
    /// What is wrong; what would be right.
    pub why: Why,
}

/// What is wrong with a foreign file. Texts of the file in it are cleaned.
#[derive(Debug, thiserror::Error)]
pub enum Why {
    /// It cannot be read on.
    #[error("the file cannot be read on: {0}")]
    Read(#[source] io::Error),
    /// A byte that is not part of UTF-8 text.
    #[error("the byte 0x{0:02X} is not part of UTF-8 text; save the file as UTF-8")]
    NotText(u8),
    /// Text in another encoding.
    #[error("the file is in {0}; save it as UTF-8")]
    Encoding(String),
    /// A piece without an end in sight.
    #[error("a text or tag of more than {most} bytes; in a file of points none is so long")]
    Long {
        /// The bound.
        most: usize,
    },
    /// Nesting without an end in sight.
    #[error("nested more than {most} deep; a file of points is not")]
    Deep {
        /// The bound.
        most: usize,
    },
    /// More of something than is taken.
    #[error("more than {most} {what}; split the file")]
    Many {
        /// Of what.
        what: &'static str,
        /// The bound.
        most: usize,
    },
    /// A document type, which can define entities.
    #[error("a DOCTYPE, which GPX has no use for and which can make a file swell; take it out")]
    Doctype,
    /// An entity that XML itself does not define.
    #[error(
        "the entity &{0}; is not defined; XML itself has &amp; &lt; &gt; &quot; &apos; and numbers"
    )]
    Entity(String),
    /// Not XML.
    #[error("not XML: {0}")]
    Xml(String),
    /// The file is another format or version.
    #[error("this is <{0}>; a GPX file is a <gpx> of version 1.1 or 1.0")]
    Root(String),
    /// The file is over too soon.
    #[error("the file ends in the middle; it was cut off, or not written to its end")]
    Ends,
    /// Something follows the end.
    #[error("something follows the end of the file's contents; nothing may")]
    Follows,
    /// A coordinate is not given.
    #[error("{of} has no {what}; each has lat and lon")]
    Missing {
        /// Of what.
        of: &'static str,
        /// Which.
        what: &'static str,
    },
    /// A coordinate is not a number.
    #[error("the {what} “{text}” is not a number; write degrees with a point, such as 52.2412")]
    Number {
        /// Which.
        what: &'static str,
        /// What is there.
        text: String,
    },
    /// A coordinate is out of its range.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// A time that is none.
    #[error("“{0}” is not a time; write, say, 2026-06-14T09:30:00Z")]
    Time(String),
    /// Not CSV.
    #[error("{0}")]
    Csv(&'static str),
    /// A table without positions.
    #[error(
        "the first row names the columns: lat and lon, or reference, and beside them any of name, note, stop_min, time"
    )]
    NoHeader,
    /// References without a grid to read them on.
    #[error("references are read on the grid of a chart; name its file with --chart")]
    NoGrid,
    /// A column that is there twice.
    #[error("the column “{0}” is there twice, or another that means the same")]
    Twice(String),
    /// A row of another width than the header.
    #[error("cells in this row: {cells}, in the header: {columns}")]
    Cells {
        /// How many cells it has.
        cells: usize,
        /// How many there should be.
        columns: usize,
    },
    /// A reference that names no place on the grid.
    #[error("the reference “{text}”: {error}")]
    Reference {
        /// What is there.
        text: String,
        /// What is wrong with it.
        error: String,
    },
    /// A stop that is none.
    #[error("a stop of “{text}” is not within 0 and {most} whole minutes")]
    Stop {
        /// What is there.
        text: String,
        /// The most.
        most: i64,
    },
    /// A file that is held as a whole, and too large for that.
    #[error("the file is larger than {} MB, the most that is read of {what}", most >> 20)]
    Large {
        /// Of what.
        what: &'static str,
        /// The bound in bytes.
        most: usize,
    },
    /// Not GeoJSON.
    #[error("not GeoJSON (RFC 7946): {0}")]
    Json(String),
    /// Positions that are not on WGS 84.
    #[error(
        "the file is in the coordinate system “{0}”; RFC 7946 wants WGS 84 longitude and latitude: convert it first"
    )]
    System(String),
    /// What this program wrote about a route or a point is not as it wrote it.
    #[error("what this program wrote here about the route has changed: {0}; take it out")]
    Own(String),
}

impl Why {
    /// At a place.
    pub(super) const fn at(self, place: Place) -> Fault {
        Fault { place, why: self }
    }
}

/// A text of the file as an error shows it: cleaned and not long.
pub(super) fn shown(text: &str) -> String {
    chart::clean::clean(text, 40)
}
