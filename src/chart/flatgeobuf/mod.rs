//! Shores from FlatGeobuf ([flatgeobuf.org](https://flatgeobuf.org), version 3), and to it.
//!
//! A file is a head, an index of boxes, and features. What is read lies where the index says: of a
//! file of gigabytes only the features whose boxes meet what is wanted are read, and of the index
//! only the nodes on the way to them.
//!
//! Nothing that the file says is believed before it is held against the file: counts and lengths
//! against its size before anything is set aside for them, tables by their verifier, the index
//! while it is walked. A wrong index is passed over and the file read from end to end, which the
//! [`Outcome`] says.
//!
//! Polygons, lines and what else there is become a shore as in [GeoJSON](crate::geojson).

mod fault;
mod feature;
mod header;
mod reach;
mod source;
#[cfg(test)]
mod tests;
mod tree;
mod write;

use std::io;
use std::ops::ControlFlow;

pub use fault::FlatGeobufError;
pub use source::Bytes;
pub(crate) use tree::Bounds;
pub use write::write;

use crate::Extent;
use crate::geojson::{
    BadRings, Gatherer, Geometry, Import, MOST_VERTICES, Take, Why, clipped, joined,
};
use feature::Read;
use header::Header;
use source::Window;
use tree::Leaf;

/// How deep collections may lie in collections.
const NODES_DEEP: usize = 16;

/// How a file was read.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Outcome {
    /// Features that were read.
    pub features: usize,
    /// Features that the file says it has; 0 where it does not say.
    pub of: u64,
    /// What is wrong with the index, if it was passed over.
    pub wrong_index: Option<String>,
}

fn cut_short(what: &'static str, at: u64, wanted: u64, size: u64) -> FlatGeobufError {
    FlatGeobufError::CutShort { what, at, wanted, size }
}

/// The shore in a FlatGeobuf file, on a grid: all of it, or what is about `within`.
///
/// Within an extent, rings are closed along a rectangle of longitude and latitude around it, with a
/// margin of a tenth on each side, and lines end there. `progress` is called with each feature, with
/// the bytes passed so far, and may break the reading off.
///
/// # Errors
/// [`FlatGeobufError`] where the file stops to be a shore on that grid.
pub fn read<B: Bytes + ?Sized>(
    from: &B,
    grid: &nav::Grid,
    bad: BadRings,
    within: Option<Extent>,
    progress: impl FnMut(u64) -> ControlFlow<()>,
) -> Result<(Import, Outcome), FlatGeobufError> {
    let mut gatherer = Gatherer::new(grid, bad);
    let around = within.map(|extent| reach::around(grid, extent));
    let wanted = around.iter().flat_map(reach::parts).collect::<Vec<_>>();
    let mut take = |name, mut geometries: Vec<Geometry>| {
        if let Some(around) = &around {
            for geometry in &mut geometries {
                let Geometry { kind, flat } = geometry;
                let whole =
                    Geometry { kind: std::mem::take(kind), flat: joined(std::mem::take(flat)) };
                *geometry = clipped(whole, around);
            }
        }
        gatherer.take(name, geometries)
    };
    let outcome = features(from, &wanted, MOST_VERTICES, progress, &mut take)?;
    Ok((gatherer.import()?, outcome))
}

/// Hands the features that meet one of `wanted` to `take`; all of them if nothing is wanted.
///
/// `progress` is told the bytes passed so far and may break the reading off.
pub(crate) fn features<B: Bytes + ?Sized>(
    from: &B,
    wanted: &[Bounds],
    most_vertices: usize,
    progress: impl FnMut(u64) -> ControlFlow<()>,
    take: &mut Take<'_>,
) -> Result<Outcome, FlatGeobufError> {
    let header = Header::read(from)?;
    let room = from.size() - header.features_at;
    let outcome = Outcome { of: header.count, ..Outcome::default() };
    let window = Window::new(from);
    let mut reading =
        Reading { window, header: &header, outcome, left: most_vertices, most_vertices, progress };
    if let Some(levels) = header.index.as_ref().filter(|_| !wanted.is_empty()) {
        match tree::search(from, header.index_at, levels, room, wanted) {
            Ok(leaves) => {
                reading.named(&leaves, take)?;
                return Ok(reading.outcome);
            }
            Err(why) => reading.outcome.wrong_index = Some(why),
        }
    }
    reading.all(from.size(), wanted, take)?;
    Ok(reading.outcome)
}

struct Reading<'a, B: ?Sized, P> {
    window: Window<'a, B>,
    header: &'a Header,
    outcome: Outcome,
    /// How many more vertices may come.
    left: usize,
    most_vertices: usize,
    progress: P,
}

impl<B: Bytes + ?Sized, P: FnMut(u64) -> ControlFlow<()>> Reading<'_, B, P> {
    /// The features that the index names.
    fn named(&mut self, leaves: &[Leaf], take: &mut Take<'_>) -> Result<(), FlatGeobufError> {
        for Leaf { bounds, offset } in leaves {
            let at = self.header.features_at + offset;
            let (read, _) = self.feature(at)?;
            // A box that is too small stands for others that were not looked at.
            if read.vertices > 0 && bounds.and(&read.bounds) != *bounds {
                let why = "its box in the index does not hold it; write the file again".to_owned();
                return Err(FlatGeobufError::Broken { what: "the feature", at, why });
            }
            self.give(read, take)?;
        }
        Ok(())
    }

    /// All features, one after the other.
    fn all(
        &mut self,
        size: u64,
        wanted: &[Bounds],
        take: &mut Take<'_>,
    ) -> Result<(), FlatGeobufError> {
        let (mut at, mut number) = (self.header.features_at, 0);
        while at < size && (self.header.count == 0 || number < self.header.count) {
            let (read, next) = self.feature(at)?;
            if wanted.is_empty() || wanted.iter().any(|wanted| wanted.meets(&read.bounds)) {
                self.give(read, take)?;
            }
            (at, number) = (next, number + 1);
        }
        if number < self.header.count {
            return Err(cut_short("the next feature", at, 4, size));
        }
        Ok(())
    }

    fn give(&mut self, read: Read, take: &mut Take<'_>) -> Result<(), FlatGeobufError> {
        self.outcome.features += 1;
        self.left =
            self.left.checked_sub(read.vertices).ok_or(Why::TooLarge(self.most_vertices))?;
        Ok(take(read.name, read.geometries)?)
    }

    /// The feature at a place, and where the next one begins.
    fn feature(&mut self, at: u64) -> Result<(Read, u64), FlatGeobufError> {
        if (self.progress)(at).is_break() {
            return Err(FlatGeobufError::Cancelled);
        }
        let size = self.window.size();
        let short = |wanted| {
            move |error: io::Error| match error.kind() {
                io::ErrorKind::UnexpectedEof => cut_short("a feature", at, wanted, size),
                _ => FlatGeobufError::Read(error),
            }
        };
        let length = self.window.bytes(at, 4, true).map_err(short(4))?;
        let length = length.try_into().map(u32::from_le_bytes).unwrap_or_default();
        let whole = 4 + u64::from(length);
        let table = self.window.bytes(at, whole, true).map_err(short(whole))?;
        let read = feature::read(table, self.header, self.outcome.features + 1, at)?;
        Ok((read, at + whole))
    }
}
