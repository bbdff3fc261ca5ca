//! A shore file is opened where it lies.

use std::sync::Arc;

use bytemuck::Pod;

use super::super::detail::{Level, Shores};
use super::super::parts::Parts;
use super::super::{Coast, SharedBytes, Slab};
use super::directory::{self, Entry, PARTS, Part, find, range};
use super::write::LevelHead;
use super::{About, ShoreFileError, Trust};

/// The shore in the bytes of a file, which it goes on reading where they lie.
///
/// # Errors
/// [`ShoreFileError`] for what is no shore file, or a broken one as far as `trust` looks.
pub fn open(bytes: SharedBytes, trust: Trust) -> Result<(About, Shores), ShoreFileError> {
    let entries = directory::read((*bytes).as_ref())?;
    if trust == Trust::Nothing {
        entries.iter().try_for_each(|entry| hold(&bytes, entry))?;
    }
    let about = find(&entries, Part::About, 0)?;
    hold(&bytes, about)?;
    let text = slab::<u8>(&bytes, about)?;
    let about = About::of_bytes(&text)?;
    let full = level(&bytes, &entries, 0)?;
    let count = entries.iter().map(|entry| entry.level).max().unwrap_or(0);
    let levels = (1..=count).map(|number| level(&bytes, &entries, number));
    let levels = levels.collect::<Result<Vec<Level>, _>>()?;
    Ok((about, Shores::new(full.coast, levels)))
}

/// Everything that is wrong with the bytes of a shore file.
#[must_use]
pub fn check(bytes: &[u8]) -> Vec<ShoreFileError> {
    match directory::read(bytes) {
        Ok(entries) => {
            let faults = entries.iter().filter_map(|entry| holds(bytes, entry).err());
            faults.collect()
        }
        Err(error) => vec![error],
    }
}

fn level(bytes: &SharedBytes, entries: &[Entry], number: u32) -> Result<Level, ShoreFileError> {
    let entry = |part| find(entries, part, number);
    // What the arrays hang on is held against its checksum before it is believed.
    for part in [Part::Level, Part::Lines, Part::Names, Part::Runs] {
        hold(bytes, entry(part)?)?;
    }
    let heads = slab::<LevelHead>(bytes, entry(Part::Level)?)?;
    let head = *heads.first().ok_or(ShoreFileError::Missing(Part::Level.name()))?;
    let parts = Parts {
        head: head.arrays,
        points: slab(bytes, entry(Part::Points)?)?,
        lines: slab(bytes, entry(Part::Lines)?)?,
        names: slab(bytes, entry(Part::Names)?)?,
        runs: slab(bytes, entry(Part::Runs)?)?,
        tree: slab(bytes, entry(Part::Tree)?)?,
        cells: slab(bytes, entry(Part::Cells)?)?,
    };
    let grid = nav::Grid::WorldMercator(nav::WorldMercator::new());
    let coast = Coast::from_parts(grid, parts).map_err(ShoreFileError::parts)?;
    let left_out = usize::try_from(head.left_out).unwrap_or(usize::MAX);
    Ok(Level { tolerance: head.tolerance, left_out, coast: Arc::new(coast) })
}

fn name(entry: &Entry) -> &'static str {
    PARTS.get(entry.what as usize).map_or("a part of no known kind", |(_, name)| name)
}

fn slab<T: Pod>(bytes: &SharedBytes, entry: &Entry) -> Result<Slab<T>, ShoreFileError> {
    let name = name(entry);
    Slab::mapped(bytes.clone(), range(entry, name)?).map_err(ShoreFileError::slab(name))
}

fn hold(bytes: &SharedBytes, entry: &Entry) -> Result<(), ShoreFileError> {
    holds((**bytes).as_ref(), entry)
}

fn holds(bytes: &[u8], entry: &Entry) -> Result<(), ShoreFileError> {
    let name = name(entry);
    let part = bytes.get(range(entry, name)?);
    let sum = part.map(crc32fast::hash);
    if sum == Some(entry.checksum) { Ok(()) } else { Err(ShoreFileError::Checksum(name)) }
}
