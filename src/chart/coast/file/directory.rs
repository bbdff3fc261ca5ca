//! What lies where in a shore file.

use std::ops::Range;

use bytemuck::{Pod, Zeroable};

use super::{MAGIC, ShoreFileError, VERSION};

/// The first bytes of a file.
#[derive(Debug, Clone, Copy, PartialEq, Pod, Zeroable)]
#[repr(C)]
pub(super) struct Head {
    pub(super) magic: [u8; 8],
    pub(super) version: u32,
    /// 1, as the machine writes it.
    pub(super) one: u32,
    /// How many bytes the file has.
    pub(super) size: u64,
    /// How many entries the directory has.
    pub(super) entries: u32,
    /// Of the head with this as 0, and the directory.
    pub(super) checksum: u32,
}

/// A part of a file.
#[derive(Debug, Clone, Copy, PartialEq, Pod, Zeroable)]
#[repr(C)]
pub(super) struct Entry {
    /// What it is: the index of its name among [`NAMES`].
    pub(super) what: u32,
    /// Of which level of detail: 0 is the full shore.
    pub(super) level: u32,
    pub(super) start: u64,
    pub(super) bytes: u64,
    pub(super) checksum: u32,
    pub(super) spare: u32,
}

/// What a part is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Part {
    /// Title, source and the like.
    About,
    /// The numbers of a level.
    Level,
    Points,
    Lines,
    Names,
    Runs,
    Tree,
    Cells,
}

/// The parts in the order in which a level is written, and what messages call them.
pub(super) const PARTS: [(Part, &str); 8] = [
    (Part::About, "what the file says of itself"),
    (Part::Level, "the numbers of a level"),
    (Part::Points, "the vertices"),
    (Part::Lines, "the lines"),
    (Part::Names, "the names"),
    (Part::Runs, "the runs"),
    (Part::Tree, "the index"),
    (Part::Cells, "the cells of land"),
];

impl Part {
    pub(super) fn name(self) -> &'static str {
        PARTS.get(self as usize).map_or("a part", |(_, name)| name)
    }
}

/// Every part begins on a multiple of this: as memory is read.
pub(super) const ALIGNMENT: usize = 64;

/// A directory has few entries: a part for each level and kind.
const MOST_ENTRIES: u32 = 1 << 10;

pub(super) const HEAD: usize = size_of::<Head>();
pub(super) const ENTRY: usize = size_of::<Entry>();

impl Head {
    pub(super) fn new(entries: &[Entry], size: u64) -> Head {
        let count = entries.len() as u32;
        let head =
            Head { magic: MAGIC, version: VERSION, one: 1, size, entries: count, checksum: 0 };
        Head { checksum: head.sum(entries), ..head }
    }

    fn sum(self, entries: &[Entry]) -> u32 {
        let mut sum = crc32fast::Hasher::new();
        sum.update(bytemuck::bytes_of(&Head { checksum: 0, ..self }));
        sum.update(bytemuck::cast_slice(entries));
        sum.finalize()
    }
}

/// The directory of a file, held against its checksum and the file's size.
pub(super) fn read(bytes: &[u8]) -> Result<Vec<Entry>, ShoreFileError> {
    if bytes.get(..MAGIC.len()) != Some(&MAGIC) {
        return Err(ShoreFileError::NotShore);
    }
    let found = bytes.len() as u64;
    let head = bytes.get(..HEAD).ok_or(ShoreFileError::Size { found, said: HEAD as u64 })?;
    let head: Head = bytemuck::pod_read_unaligned(head);
    if head.one != 1 {
        return Err(ShoreFileError::ByteOrder);
    }
    if head.version != VERSION {
        return Err(ShoreFileError::Version(head.version));
    }
    if head.size != found {
        return Err(ShoreFileError::Size { found, said: head.size });
    }
    let end = HEAD + head.entries.min(MOST_ENTRIES) as usize * ENTRY;
    let damaged = ShoreFileError::Checksum("the directory");
    let entries = bytes.get(HEAD..end).ok_or_else(|| damaged.clone())?;
    let entries: Vec<Entry> =
        entries.chunks_exact(ENTRY).map(bytemuck::pod_read_unaligned).collect();
    if entries.len() != head.entries as usize || head.sum(&entries) != head.checksum {
        return Err(damaged);
    }
    Ok(entries)
}

/// Where a part lies.
pub(super) fn range(entry: &Entry, name: &'static str) -> Result<Range<usize>, ShoreFileError> {
    let broken =
        || ShoreFileError::Broken { what: name, why: "it lies beyond all files".to_owned() };
    let end = entry.start.checked_add(entry.bytes).ok_or_else(broken)?;
    let start = usize::try_from(entry.start).map_err(|_| broken())?;
    Ok(start..usize::try_from(end).map_err(|_| broken())?)
}

/// The part of a level, if there is exactly one.
pub(super) fn find(entries: &[Entry], part: Part, level: u32) -> Result<&Entry, ShoreFileError> {
    let mut found = entries.iter().filter(|e| (e.what, e.level) == (part as u32, level));
    match (found.next(), found.next()) {
        (Some(entry), None) => Ok(entry),
        _ => Err(ShoreFileError::Missing(part.name())),
    }
}
