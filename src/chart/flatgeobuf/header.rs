//! The head of a file: what it says it holds, held against its size.

use flatbuffers::VerifierOptions;
use flatgeobuf::{Crs, GeometryType, size_prefixed_root_as_header_with_opts};

use super::source::{Bytes, Window};
use super::tree::Levels;
use super::{FlatGeobufError, cut_short};
use crate::clean::{NAME, clean};

/// What every file begins with; the fourth byte is the version, the last a patch level.
pub(super) const MAGIC: [u8; 8] = *b"fgb\x03fgb\x00";

/// The largest head, in bytes: names, columns and a coordinate system.
const LARGEST: u64 = 10 << 20;

/// The least that a feature takes: its size, and a table without anything.
const LEAST_FEATURE: u64 = 12;

/// What a file holds and where.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Header {
    pub(super) kind: GeometryType,
    /// How many features there are; 0 where it is not said.
    pub(super) count: u64,
    /// The index, if there is one.
    pub(super) index: Option<Levels>,
    /// The column with the name, if there is one.
    pub(super) name_column: Option<u16>,
    /// The types of all columns.
    pub(super) columns: Vec<flatgeobuf::ColumnType>,
    /// Where the index begins.
    pub(super) index_at: u64,
    /// Where the features begin.
    pub(super) features_at: u64,
}

/// How much of a table the verifier looks at: no more tables than there can be in so many bytes.
pub(super) fn options(bytes: usize) -> VerifierOptions {
    VerifierOptions {
        max_depth: 64,
        max_tables: (bytes / 4).max(16),
        max_apparent_size: bytes.saturating_mul(4).max(1 << 10),
        ignore_missing_null_terminator: false,
    }
}

impl Header {
    pub(super) fn read<B: Bytes + ?Sized>(from: &B) -> Result<Header, FlatGeobufError> {
        let size = from.size();
        let mut window = Window::new(from);
        let start = window.bytes(0, 12.min(size), false).map_err(FlatGeobufError::Read)?;
        let [f, g, b, version, p, q, r, ..] = *start else {
            return Err(FlatGeobufError::NotFlatGeobuf);
        };
        if [f, g, b, p, q, r] != *b"fgbfgb" {
            return Err(FlatGeobufError::NotFlatGeobuf);
        }
        if version > MAGIC[3] {
            return Err(FlatGeobufError::Version(version));
        }
        let length = start.get(8..12).and_then(|four| four.try_into().ok());
        let length: [u8; 4] = length.ok_or_else(|| cut_short("the head", 8, 4, size))?;
        let length = u64::from(u32::from_le_bytes(length));
        let broken = |why: String| FlatGeobufError::Broken { what: "the head", at: 8, why };
        if !(4..=LARGEST).contains(&length) {
            return Err(broken(format!("it takes {length} bytes; from 4 to {LARGEST} are right")));
        }
        let table = window
            .bytes(8, 4 + length, false)
            .map_err(|_| cut_short("the head", 12, length, size))?;
        let head = size_prefixed_root_as_header_with_opts(&options(table.len()), table)
            .map_err(|error| broken(error.to_string()))?;
        if let Some(crs) = head.crs().and_then(foreign) {
            return Err(FlatGeobufError::CoordinateSystem(crs));
        }
        let columns = head.columns();
        let names = columns.iter().flatten().map(|column| column.name());
        let names: Vec<String> = names.map(str::to_lowercase).collect();
        let name_column = names.iter().position(|name| name == "name");
        let index_at = 12 + length;
        let count = head.features_count();
        let index = match head.index_node_size() {
            0 => None,
            _ if count == 0 => None,
            1 => return Err(broken("an index with 1 branch at a node; 2 at least".to_owned())),
            width => Some(Levels::new(count, width).filter(|levels| levels.bytes() <= size)),
        };
        let too_many = FlatGeobufError::TooMany { claimed: count, size };
        let index = match index {
            Some(None) => return Err(too_many),
            Some(levels) => levels,
            None => None,
        };
        let features_at = index_at + index.as_ref().map_or(0, Levels::bytes);
        let room = size.checked_sub(features_at);
        let held = room.is_some_and(|room| count <= room / LEAST_FEATURE);
        if !held {
            return Err(too_many);
        }
        Ok(Header {
            kind: head.geometry_type(),
            count,
            index,
            name_column: name_column.and_then(|column| u16::try_from(column).ok()),
            columns: columns.iter().flatten().map(|column| column.type_()).collect(),
            index_at,
            features_at,
        })
    }
}

/// The name of a coordinate system, unless it is WGS 84 longitude and latitude.
fn foreign(crs: Crs<'_>) -> Option<String> {
    let text = crs.wkt().unwrap_or_default();
    let geographic = text.trim_start().starts_with("GEOG");
    let own_text = geographic && (text.contains("WGS 84") || text.contains("WGS_1984"));
    let string = crs.code_string().unwrap_or_default();
    let own = match (crs.code(), string) {
        (4326 | 4979, _) | (0, "CRS84" | "CRS84h" | "4326") => true,
        (0, "") => own_text || (text.is_empty() && crs.name().is_none_or(|n| n.contains("WGS 84"))),
        _ => false,
    };
    let code = || match (crs.code(), string) {
        (0, "") => crs.name().unwrap_or("without a code").to_owned(),
        (0, string) => format!("{}:{string}", crs.org().unwrap_or("?")),
        (code, _) => format!("{}:{code}", crs.org().unwrap_or("EPSG")),
    };
    (!own).then(|| clean(&code(), NAME))
}
