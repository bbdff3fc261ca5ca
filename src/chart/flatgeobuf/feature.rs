//! One feature: its table held against its own size, and its geometry read flat.

use flatgeobuf::{
    ColumnType, Feature, Geometry, GeometryType, size_prefixed_root_as_feature_with_opts,
};

use super::header::{Header, options};
use super::tree::Bounds;
use super::{FlatGeobufError, NODES_DEEP};
use crate::Point;
use crate::clean::{NAME, clean};
use crate::geojson::{Flat, Geometry as Taken};

/// What a feature came to.
pub(super) struct Read {
    pub(super) name: String,
    pub(super) geometries: Vec<Taken>,
    pub(super) bounds: Bounds,
    pub(super) vertices: usize,
}

/// Reads the feature in `table`, which begins with its size; `number` and `at` are for messages.
pub(super) fn read(
    table: &[u8],
    header: &Header,
    number: usize,
    at: u64,
) -> Result<Read, FlatGeobufError> {
    let broken = |why: String| FlatGeobufError::Broken { what: "the feature", at, why };
    let feature = size_prefixed_root_as_feature_with_opts(&options(table.len()), table)
        .map_err(|error| broken(error.to_string()))?;
    let mut gathered = Gathered { number, at, read: Read::nothing() };
    if let Some(geometry) = feature.geometry() {
        gathered.geometry(geometry, header.kind, 0)?;
    }
    let mut read = gathered.read;
    read.name = name(&feature, header).unwrap_or_default();
    Ok(read)
}

impl Read {
    fn nothing() -> Read {
        let (name, geometries) = Default::default();
        Read { name, geometries, bounds: Bounds::NONE, vertices: 0 }
    }
}

struct Gathered {
    number: usize,
    at: u64,
    read: Read,
}

impl Gathered {
    fn broken(&self, why: impl Into<String>) -> FlatGeobufError {
        FlatGeobufError::Broken {
            what: "the geometry of the feature",
            at: self.at,
            why: why.into(),
        }
    }

    fn geometry(
        &mut self,
        geometry: Geometry<'_>,
        otherwise: GeometryType,
        depth: usize,
    ) -> Result<(), FlatGeobufError> {
        if depth > NODES_DEEP {
            return Err(self.broken("collections within collections without an end in sight"));
        }
        let kind = match geometry.type_() {
            GeometryType::Unknown => otherwise,
            kind => kind,
        };
        let mut flat = Flat::default();
        let name = match kind {
            GeometryType::Point => (0, "Point"),
            GeometryType::MultiPoint => (1, "MultiPoint"),
            GeometryType::LineString => (1, "LineString"),
            GeometryType::MultiLineString => (2, "MultiLineString"),
            GeometryType::Polygon => (2, "Polygon"),
            GeometryType::MultiPolygon => (3, "MultiPolygon"),
            GeometryType::GeometryCollection => {
                let parts = geometry.parts();
                return parts
                    .iter()
                    .flatten()
                    .try_for_each(|part| self.geometry(part, GeometryType::Unknown, depth + 1));
            }
            other => {
                let kind = other.variant_name().unwrap_or("geometry of no known type");
                return Err(FlatGeobufError::Type { feature: self.number, kind });
            }
        };
        if kind == GeometryType::MultiPolygon {
            for part in geometry.parts().iter().flatten() {
                self.lines(part, true, &mut flat)?;
                flat.end_polygon();
            }
        } else {
            self.lines(geometry, name.0 == 2, &mut flat)?;
        }
        let (depth, kind) = (name.0, name.1.to_owned());
        flat.settle((!flat.positions.is_empty()).then_some(depth));
        self.read.geometries.push(Taken { kind, flat });
        Ok(())
    }

    /// The positions of a geometry, and where its lines end.
    fn lines(
        &mut self,
        geometry: Geometry<'_>,
        has_lines: bool,
        flat: &mut Flat,
    ) -> Result<(), FlatGeobufError> {
        let Some(xy) = geometry.xy() else { return Ok(()) };
        if xy.len() % 2 == 1 {
            return Err(self.broken("an odd count of coordinates"));
        }
        let before = flat.positions.len();
        flat.positions.reserve(xy.len() / 2);
        let mut numbers = xy.iter();
        while let (Some(lon), Some(lat)) = (numbers.next(), numbers.next()) {
            if !(-180.0..=180.0).contains(&lon) || !(-90.0..=90.0).contains(&lat) {
                return Err(FlatGeobufError::OutOfRange { feature: self.number, lon, lat });
            }
            let here = Bounds { west: lon, south: lat, east: lon, north: lat };
            self.read.bounds = self.read.bounds.and(&here);
            flat.positions.push(Point { x: lon, y: lat });
        }
        let count = xy.len() / 2;
        self.read.vertices += count;
        if !has_lines {
            return Ok(());
        }
        let ends = geometry.ends().filter(|ends| !ends.is_empty());
        let mut last = 0;
        for end in ends.iter().flatten() {
            let end = end as usize;
            if end < last || end > count {
                return Err(self.broken(format!("a line that ends at {end} of {count} positions")));
            }
            flat.end_line(before + end);
            last = end;
        }
        if ends.is_some() && last != count {
            return Err(self.broken(format!("its lines end at {last} of {count} positions")));
        }
        if ends.is_none() {
            flat.end_line(before + count);
        }
        Ok(())
    }
}

/// The name among the properties: pairs of a column's number and a value of the column's type.
fn name(feature: &Feature<'_>, header: &Header) -> Option<String> {
    let wanted = header.name_column?;
    let mut rest = feature.properties()?.bytes();
    while !rest.is_empty() {
        let (column, value) = rest.split_first_chunk::<2>()?;
        let column = u16::from_le_bytes(*column);
        let size = match *header.columns.get(usize::from(column))? {
            ColumnType::Byte | ColumnType::UByte | ColumnType::Bool => 1,
            ColumnType::Short | ColumnType::UShort => 2,
            ColumnType::Int | ColumnType::UInt | ColumnType::Float => 4,
            ColumnType::Long | ColumnType::ULong | ColumnType::Double => 8,
            _ => {
                let (length, value) = value.split_first_chunk::<4>()?;
                let text = value.get(..u32::from_le_bytes(*length) as usize)?;
                if column == wanted {
                    return std::str::from_utf8(text).ok().map(|text| clean(text, NAME));
                }
                rest = value.get(text.len()..)?;
                continue;
            }
        };
        rest = value.get(size..)?;
    }
    None
}
