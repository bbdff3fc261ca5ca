//! Why a file is not a shore.

use crate::Point;

/// Why a file is not a shore, and where in it; lines and columns are counted in characters from 1.
#[derive(Debug, thiserror::Error)]
#[error("{line}:{column}: {why}")]
pub struct ImportError {
    /// The line; what is wrong ends here or shortly before.
    pub line: usize,
    /// The column.
    pub column: usize,
    /// What is wrong; what would be right.
    pub why: Why,
}

/// Why a file is not a shore.
#[derive(Debug, thiserror::Error)]
pub enum Why {
    /// The file cannot be read on.
    #[error("the file cannot be read on: {0}")]
    Read(#[source] std::io::Error),
    /// The progress function asked to stop.
    #[error("stopped before the end")]
    Cancelled,
    /// The text is not JSON, or not as GeoJSON wants it.
    #[error("not GeoJSON (RFC 7946): {0}")]
    Syntax(String),
    /// A string is not UTF-8.
    #[error("a text is not UTF-8; GeoJSON is saved as UTF-8")]
    NotText,
    /// A string or number has no end in sight.
    #[error(
        "a text or number of more than {} bytes; in a shore none is so long",
        super::json::LONGEST_TOKEN
    )]
    LongToken,
    /// Lists or objects are nested without an end in sight.
    #[error(
        "lists and objects nested more than {} deep; in a shore nothing is",
        super::json::DEEPEST
    )]
    TooDeep,
    /// There are more vertices than a chart takes.
    #[error("more than {0} vertices; cut the shore to the region or simplify it first")]
    TooLarge(usize),
    /// The type of an object is not one that stands here.
    #[error("an object of type \"{found}\" where {wanted} is wanted")]
    Type {
        /// The type.
        found: String,
        /// What would be right.
        wanted: &'static str,
    },
    /// The nesting of the coordinates is not that of the geometry's type.
    #[error("the coordinates of a {kind} are nested {found} deep; {wanted} deep is right")]
    Nesting {
        /// The geometry's type.
        kind: String,
        /// The depth of nesting above positions.
        found: usize,
        /// The depth that is right.
        wanted: usize,
    },
    /// The coordinates are not lists of positions.
    #[error(
        "a list that mixes numbers and lists, or lists of different depths; a position is \
         [longitude, latitude], a line or ring a list of positions"
    )]
    Mixed,
    /// A position lacks its latitude.
    #[error("a position of one number; [longitude, latitude] is right")]
    ShortPosition,
    /// A longitude or latitude is out of its range.
    #[error("the position [{lon}, {lat}] is out of range; RFC 7946 wants longitude -180 to 180, then \
             latitude -90 to 90, on WGS 84{}", hint(*.lon, *.lat))]
    OutOfRange {
        /// The first number.
        lon: f64,
        /// The second number.
        lat: f64,
    },
    /// The file says that it is on another datum or projected.
    #[error(
        "the file is in the coordinate system \"{0}\"; RFC 7946 wants WGS 84 longitude and \
         latitude: convert it first"
    )]
    CoordinateSystem(String),
    /// The grid does not reach a position.
    #[error(
        "{feature}: the position [{lon}, {lat}] is beyond the reach of the grid {grid}: {why}; \
         choose the grid of the region, or cut the shore to it"
    )]
    BeyondGrid {
        /// Which feature.
        feature: Feature,
        /// The longitude.
        lon: f64,
        /// The latitude.
        lat: f64,
        /// The grid.
        grid: String,
        /// The grid's own words.
        why: String,
    },
    /// A ring is not closed.
    #[error(
        "{feature}: a ring begins at [{}, {}] and does not return; its last position must repeat \
         the first", start.x, start.y
    )]
    NotClosed {
        /// Which feature.
        feature: Feature,
        /// The ring's first position: longitude, latitude.
        start: Point,
    },
    /// A ring crosses itself.
    #[error(
        "{feature}: a ring crosses itself at [{}, {}]; repair it, or have it mended or left out",
        at.x, at.y
    )]
    CrossesItself {
        /// Which feature.
        feature: Feature,
        /// Where: longitude, latitude.
        at: Point,
    },
    /// There is nothing to draw.
    #[error("no shore in it: {left_out}; polygons or lines are wanted")]
    Empty {
        /// What there was.
        left_out: super::LeftOut,
    },
}

/// What is perhaps the matter with numbers out of range.
fn hint(lon: f64, lat: f64) -> &'static str {
    if lat.abs() <= 180.0 && lon.abs() <= 90.0 {
        " (are latitude and longitude swapped?)"
    } else if lon.abs() > 360.0 || lat.abs() > 360.0 {
        " (are these metres of a projection? then convert them first)"
    } else {
        ""
    }
}

/// A feature by its number in the file, from 1, and its name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Feature {
    /// Its number.
    pub number: usize,
    /// Its name, or empty.
    pub name: String,
}

impl std::fmt::Display for Feature {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "feature {}", self.number)?;
        if !self.name.is_empty() {
            write!(f, " \"{}\"", self.name)?;
        }
        Ok(())
    }
}
