//! A shore file is written: the directory first, so that it can go out as a stream.

use std::io::{self, Write};

use bytemuck::{Pod, Zeroable};

use super::super::detail::{Level, Shores};
use super::super::parts::{self, Sections};
use super::super::{Builder, Coast, Line};
use super::directory::{ALIGNMENT, ENTRY, Entry, HEAD, Head, Part};
use super::{About, SCALE};

/// The numbers of a level.
#[derive(Debug, Clone, Copy, PartialEq, Pod, Zeroable)]
#[repr(C)]
pub(super) struct LevelHead {
    pub(super) arrays: parts::Head,
    pub(super) tolerance: f64,
    pub(super) left_out: u64,
}

/// Writes a shore with its levels of detail.
///
/// # Errors
/// Those of `into`.
pub fn write(shores: &Shores, about: &About, mut into: impl Write) -> io::Result<()> {
    let full = Level { tolerance: 0.0, left_out: 0, coast: shores.full().clone() };
    let levels: Vec<Level> = std::iter::once(&full).chain(shores.levels()).map(in_ticks).collect();
    let about = about.to_bytes();
    let mut heads = Vec::new();
    let mut sections = Vec::new();
    for level in &levels {
        let Some(section) = level.coast.sections() else { continue };
        let (tolerance, left_out) = (level.tolerance, level.left_out as u64);
        heads.push(LevelHead { arrays: section.head, tolerance, left_out });
        sections.push(section);
    }
    let mut all: Vec<(Part, u32, &[u8])> = vec![(Part::About, 0, &about)];
    for ((number, head), section) in (0..).zip(&heads).zip(&sections) {
        let Sections { points, lines, names, runs, tree, cells, .. } = *section;
        all.push((Part::Level, number, bytemuck::bytes_of(head)));
        all.extend([
            (Part::Points, number, points),
            (Part::Lines, number, lines),
            (Part::Names, number, names),
            (Part::Runs, number, runs),
            (Part::Tree, number, tree),
            (Part::Cells, number, cells),
        ]);
    }
    let mut at = aligned(HEAD + all.len() * ENTRY);
    let mut entries = Vec::with_capacity(all.len());
    for (part, level, bytes) in &all {
        entries.push(Entry {
            what: *part as u32,
            level: *level,
            start: at as u64,
            bytes: bytes.len() as u64,
            checksum: crc32fast::hash(bytes),
            spare: 0,
        });
        at = aligned(at + bytes.len());
    }
    into.write_all(bytemuck::bytes_of(&Head::new(&entries, at as u64)))?;
    into.write_all(bytemuck::cast_slice(&entries))?;
    fill(&mut into, HEAD + all.len() * ENTRY)?;
    for (_, _, bytes) in &all {
        into.write_all(bytes)?;
        fill(&mut into, bytes.len())?;
    }
    into.flush()
}

fn aligned(at: usize) -> usize {
    at.next_multiple_of(ALIGNMENT)
}

/// Noughts up to where the next part begins.
fn fill(into: &mut impl Write, written: usize) -> io::Result<()> {
    let missing = aligned(written) - written;
    into.write_all([0; ALIGNMENT].get(..missing).unwrap_or_default())
}

/// The level in ticks, if it is not yet: the vertices of a level are some of those of the full
/// shore, which is, so that none moves.
fn in_ticks(level: &Level) -> Level {
    if level.coast.sections().is_some() {
        return level.clone();
    }
    let coast: &Coast = &level.coast;
    let mut builder = Builder::in_ticks(coast.grid().clone(), SCALE).without_lengths();
    for line in coast.lines() {
        builder.line(line.kind(), line.feature(), line.name(), Line::points(&line));
    }
    Level { coast: builder.finish().into(), ..level.clone() }
}
