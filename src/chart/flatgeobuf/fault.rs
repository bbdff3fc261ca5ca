//! Why a file is not a shore in FlatGeobuf.

use std::io;

use crate::geojson;

/// Why a file is not a shore in FlatGeobuf.
#[derive(Debug, thiserror::Error)]
pub enum FlatGeobufError {
    /// It cannot be read on.
    #[error("the file cannot be read on: {0}")]
    Read(#[source] io::Error),
    /// The progress function asked to stop.
    #[error("stopped before the end")]
    Cancelled,
    /// It does not begin as one.
    #[error("not FlatGeobuf: it does not begin with the format's eight bytes")]
    NotFlatGeobuf,
    /// It is of a version that is not read.
    #[error("version {0} of FlatGeobuf; this program reads up to version 3")]
    Version(u8),
    /// The file ends early.
    #[error("cut short: {what} at byte {at} takes {wanted} bytes, and the file has {size}")]
    CutShort {
        /// What should be there.
        what: &'static str,
        /// Where it should be.
        at: u64,
        /// How much it says it takes.
        wanted: u64,
        /// The size of the file.
        size: u64,
    },
    /// A table is not what it should be.
    #[error("{what} at byte {at} is broken: {why}")]
    Broken {
        /// The table.
        what: &'static str,
        /// Where it lies.
        at: u64,
        /// What is wrong.
        why: String,
    },
    /// It claims more features than its bytes can hold.
    #[error("it claims {claimed} features, which its {size} bytes cannot hold")]
    TooMany {
        /// How many it claims.
        claimed: u64,
        /// The size of the file.
        size: u64,
    },
    /// It is not on WGS 84.
    #[error(
        "the file is in the coordinate system \"{0}\"; longitude and latitude on WGS 84 \
         (EPSG:4326) are wanted: convert it first"
    )]
    CoordinateSystem(String),
    /// A position is none.
    #[error(
        "feature {feature}: the position [{lon}, {lat}] is out of range; longitude -180 to 180, \
         then latitude -90 to 90, on WGS 84 are wanted"
    )]
    OutOfRange {
        /// Which feature, in the order of the file, from 1; of those read where only some are.
        feature: usize,
        /// The first number.
        lon: f64,
        /// The second number.
        lat: f64,
    },
    /// A geometry of a type that is no shore that a chart can hold.
    #[error("feature {feature} is a {kind}; polygons and lines are wanted")]
    Type {
        /// Which feature.
        feature: usize,
        /// The type's name.
        kind: &'static str,
    },
    /// What is in it cannot be a shore.
    #[error(transparent)]
    Shore(#[from] geojson::Why),
}
