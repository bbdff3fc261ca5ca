//! A coast as FlatGeobuf: a stream, with the index before the features.
//!
//! The index needs every feature's box and size, which are found by making each feature twice: once
//! for the index, once for the file. So only one is in memory at a time.

use std::collections::BTreeMap;
use std::io::{self, Write};

use flatbuffers::FlatBufferBuilder;
use flatgeobuf::{
    Column, ColumnArgs, ColumnType, Crs, CrsArgs, Feature, FeatureArgs, Geometry, GeometryArgs,
    GeometryType, Header, HeaderArgs,
};
use nav::GridPoint;

use super::Bounds;
use super::header::MAGIC;
use super::tree::{Levels, Node, along_curve};
use crate::coast::{AGAIN, Coast, LineId, LineKind};

/// How many children a node of the index has.
const WIDTH: u16 = 16;

/// Writes the lines of `coast`: a polygon for each piece of land with its lakes, a line for each
/// open shore; longitude and latitude on WGS 84.
///
/// # Errors
/// Those of `into`; and [`InvalidData`](io::ErrorKind::InvalidData) where the coast's grid does not
/// reach a vertex, or a feature is larger than the format can say.
pub fn write(coast: &Coast, title: &str, mut into: impl Write) -> io::Result<()> {
    let mut pieces = pieces(coast);
    let mut maker = Maker { coast, builder: FlatBufferBuilder::new(), bounds: Bounds::NONE };
    let mut boxes = Vec::with_capacity(pieces.len());
    let mut whole = Bounds::NONE;
    for piece in &pieces {
        let size = maker.make(piece)?.len() as u64;
        whole = whole.and(&maker.bounds);
        boxes.push((maker.bounds, size));
    }
    let mut order: Vec<usize> = (0..pieces.len()).collect();
    order.sort_by_cached_key(|index| boxes.get(*index).map(|(bounds, _)| place(bounds, &whole)));
    pieces = order.iter().filter_map(|index| pieces.get(*index).cloned()).collect();
    let mut leaves = Vec::with_capacity(order.len());
    let mut offset = 0;
    for (bounds, size) in order.iter().filter_map(|index| boxes.get(*index)) {
        leaves.push(Node { bounds: *bounds, offset });
        offset += size;
    }
    into.write_all(&MAGIC)?;
    into.write_all(&head(&pieces, &whole, title))?;
    for node in index(leaves) {
        into.write_all(&node.to_bytes())?;
    }
    for piece in &pieces {
        into.write_all(maker.make(piece)?)?;
    }
    into.flush()
}

/// The lines of one feature, the outer ring first.
type Piece = Vec<LineId>;

fn pieces(coast: &Coast) -> Vec<Piece> {
    let mut pieces: BTreeMap<(bool, u32), Piece> = BTreeMap::new();
    for line in coast.lines().filter(|line| line.feature() != AGAIN) {
        let lines = pieces.entry((line.kind() == LineKind::Open, line.feature())).or_default();
        // The outer ring comes first, whichever way the coast has them.
        match line.kind() {
            LineKind::Lake => lines.push(line.id()),
            LineKind::Land | LineKind::Open => lines.insert(0, line.id()),
        }
    }
    pieces.into_values().collect()
}

/// Where a box's middle comes on the curve through `whole`.
fn place(bounds: &Bounds, whole: &Bounds) -> u32 {
    let cell = |low: f64, high: f64, from: f64, to: f64| {
        let part = ((low + high) / 2.0 - from) / (to - from);
        (part.clamp(0.0, 1.0) * f64::from(u16::MAX)) as u32
    };
    along_curve(
        cell(bounds.west, bounds.east, whole.west, whole.east),
        cell(bounds.south, bounds.north, whole.south, whole.north),
    )
}

/// All nodes of the index over `leaves`, the root first.
fn index(leaves: Vec<Node>) -> Vec<Node> {
    let Some(Levels { levels, width }) = Levels::new(leaves.len() as u64, WIDTH) else {
        return Vec::new();
    };
    let mut all = leaves;
    let mut below = all.clone();
    for children in levels.iter().rev().take(levels.len() - 1) {
        let starts = (children.start..).step_by(width as usize);
        let parent = |(group, first): (&[Node], u64)| Node {
            bounds: group.iter().fold(Bounds::NONE, |sum, node| sum.and(&node.bounds)),
            offset: first,
        };
        let parents: Vec<Node> = below.chunks(width as usize).zip(starts).map(parent).collect();
        all.splice(0..0, parents.iter().copied());
        below = parents;
    }
    all
}

fn head(pieces: &[Piece], whole: &Bounds, title: &str) -> Vec<u8> {
    let mut builder = FlatBufferBuilder::new();
    let org = Some(builder.create_string("EPSG"));
    let crs = CrsArgs { org, code: 4326, ..CrsArgs::default() };
    let crs = Some(Crs::create(&mut builder, &crs));
    let name = Some(builder.create_string("name"));
    let column = ColumnArgs { name, type_: ColumnType::String, ..ColumnArgs::default() };
    let column = Column::create(&mut builder, &column);
    let columns = Some(builder.create_vector(&[column]));
    let envelope = [whole.west, whole.south, whole.east, whole.north];
    let envelope = (!pieces.is_empty()).then(|| builder.create_vector(&envelope));
    let name = Some(builder.create_string(title));
    let args = HeaderArgs {
        name,
        envelope,
        geometry_type: GeometryType::Unknown,
        columns,
        features_count: pieces.len() as u64,
        index_node_size: if pieces.is_empty() { 0 } else { WIDTH },
        crs,
        ..HeaderArgs::default()
    };
    let header = Header::create(&mut builder, &args);
    builder.finish_size_prefixed(header, None);
    builder.finished_data().to_vec()
}

/// Makes features, one at a time.
struct Maker<'a> {
    coast: &'a Coast,
    builder: FlatBufferBuilder<'static>,
    /// The box of the last one.
    bounds: Bounds,
}

impl Maker<'_> {
    fn make(&mut self, piece: &Piece) -> io::Result<&[u8]> {
        let invalid = |why: String| io::Error::new(io::ErrorKind::InvalidData, why);
        self.bounds = Bounds::NONE;
        let (mut xy, mut ends) = (Vec::new(), Vec::new());
        let mut name = "";
        let mut kind = LineKind::Open;
        for line in piece.iter().filter_map(|id| self.coast.line(*id)) {
            (name, kind) = if ends.is_empty() { (line.name(), line.kind()) } else { (name, kind) };
            for vertex in 0..=line.sides() {
                let point = line.vertex(vertex);
                let place = GridPoint::from_metres(point.x, point.y).map_err(|e| e.to_string());
                let place = place
                    .and_then(|point| self.coast.grid().inverse(point).map_err(|e| e.to_string()));
                let position = place.map_err(invalid)?.position;
                let (lat, lon) = (position.lat.as_degrees(), position.lon.as_degrees());
                self.bounds =
                    self.bounds.and(&Bounds { west: lon, south: lat, east: lon, north: lat });
                xy.extend([lon, lat]);
            }
            ends.push((xy.len() / 2) as u32);
        }
        // The sizes in a table are of 32 bits, the half of them signed.
        if xy.len() > 100_000_000 {
            return Err(invalid(format!("a feature of {} vertices", xy.len() / 2)));
        }
        let builder = &mut self.builder;
        builder.reset();
        let xy = Some(builder.create_vector(&xy));
        let ends = (ends.len() > 1).then(|| builder.create_vector(&ends));
        let type_ = match kind {
            LineKind::Open => GeometryType::LineString,
            LineKind::Land | LineKind::Lake => GeometryType::Polygon,
        };
        let geometry = GeometryArgs { ends, xy, type_, ..GeometryArgs::default() };
        let geometry = Some(Geometry::create(builder, &geometry));
        let mut properties = Vec::new();
        if !name.is_empty() {
            properties.extend(0u16.to_le_bytes());
            properties.extend((name.len() as u32).to_le_bytes());
            properties.extend(name.as_bytes());
        }
        let properties = (!properties.is_empty()).then(|| builder.create_vector(&properties));
        let feature = FeatureArgs { geometry, properties, ..FeatureArgs::default() };
        let feature = Feature::create(builder, &feature);
        builder.finish_size_prefixed(feature, None);
        Ok(builder.finished_data())
    }
}
