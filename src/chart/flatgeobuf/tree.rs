//! The packed index: boxes in levels, the root first, each node's children beside each other.

use std::ops::Range;

use super::source::{Bytes, Window};

/// The bytes of a node: four numbers and an offset.
pub(super) const NODE: u64 = 40;

/// Where the levels of an index lie, counted in nodes; the root's first.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Levels {
    pub(super) levels: Vec<Range<u64>>,
    pub(super) width: u64,
}

impl Levels {
    /// The levels of an index over `count` features with `width` children at a node; nothing
    /// where they cannot be counted.
    pub(super) fn new(count: u64, width: u16) -> Option<Levels> {
        let width = u64::from(width);
        if count == 0 || width < 2 {
            return None;
        }
        let mut sizes = vec![count];
        let mut size = count;
        // The format gives even a single feature a root above it.
        while size > 1 || sizes.len() == 1 {
            size = size.div_ceil(width);
            sizes.push(size);
        }
        let mut start = 0u64;
        let mut levels = Vec::with_capacity(sizes.len());
        for size in sizes.into_iter().rev() {
            let end = start.checked_add(size)?;
            levels.push(start..end);
            start = end;
        }
        start.checked_mul(NODE)?;
        Some(Levels { levels, width })
    }

    /// How many bytes the index takes.
    pub(super) fn bytes(&self) -> u64 {
        self.levels.last().map_or(0, |leaves| leaves.end * NODE)
    }
}

/// A rectangle of longitude and latitude.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Bounds {
    pub(crate) west: f64,
    pub(crate) south: f64,
    pub(crate) east: f64,
    pub(crate) north: f64,
}

impl Bounds {
    /// What holds nothing.
    pub(super) const NONE: Bounds = Bounds {
        west: f64::INFINITY,
        south: f64::INFINITY,
        east: f64::NEG_INFINITY,
        north: f64::NEG_INFINITY,
    };

    pub(crate) fn meets(&self, other: &Bounds) -> bool {
        self.west <= other.east
            && other.west <= self.east
            && self.south <= other.north
            && other.south <= self.north
    }

    fn holds(&self, other: &Bounds) -> bool {
        self.west <= other.west
            && other.east <= self.east
            && self.south <= other.south
            && other.north <= self.north
    }

    pub(super) fn and(self, other: &Bounds) -> Bounds {
        Bounds {
            west: self.west.min(other.west),
            south: self.south.min(other.south),
            east: self.east.max(other.east),
            north: self.north.max(other.north),
        }
    }
}

/// A node as it is stored.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Node {
    pub(super) bounds: Bounds,
    /// Of a leaf: where its feature lies after the first; of others: their first child.
    pub(super) offset: u64,
}

impl Node {
    pub(super) fn to_bytes(self) -> [u8; NODE as usize] {
        let Bounds { west, south, east, north } = self.bounds;
        let mut bytes = [0; NODE as usize];
        let words = [west, south, east, north].map(f64::to_le_bytes);
        let words = words.into_iter().chain([self.offset.to_le_bytes()]);
        for (place, word) in bytes.chunks_exact_mut(8).zip(words) {
            place.copy_from_slice(&word);
        }
        bytes
    }

    fn of(bytes: &[u8]) -> Node {
        let mut words = [[0; 8]; 5];
        for (word, place) in words.iter_mut().zip(bytes.chunks_exact(8)) {
            word.copy_from_slice(place);
        }
        let [west, south, east, north, offset] = words;
        let [west, south, east, north] = [west, south, east, north].map(f64::from_le_bytes);
        Node { bounds: Bounds { west, south, east, north }, offset: u64::from_le_bytes(offset) }
    }
}

/// A feature that the index names.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Leaf {
    pub(super) bounds: Bounds,
    /// Where it lies, counted from the first feature.
    pub(super) offset: u64,
}

/// The features whose boxes meet one of `wanted`, by their places in the file.
///
/// # Errors
/// In words, where the index is none.
pub(super) fn search<B: Bytes + ?Sized>(
    from: &B,
    at: u64,
    levels: &Levels,
    features: u64,
    wanted: &[Bounds],
) -> Result<Vec<Leaf>, String> {
    let mut window = Window::new(from);
    let mut found = Vec::new();
    // The first child in each node's stead, with the box that must hold it.
    let mut open: Vec<(u64, Option<Bounds>)> = vec![(0, None)];
    for (depth, level) in levels.levels.iter().enumerate() {
        let is_leaf = depth + 1 == levels.levels.len();
        let below = levels.levels.get(depth + 1).cloned().unwrap_or_default();
        let mut next = Vec::new();
        for (first, parent) in open {
            let end = (first + levels.width).min(level.end);
            let bytes = window.bytes(at + first * NODE, (end - first) * NODE, true);
            let bytes = bytes.map_err(|error| format!("it cannot be read: {error}"))?;
            for (number, bytes) in (first..).zip(bytes.chunks_exact(NODE as usize)) {
                let Node { bounds, offset } = Node::of(bytes);
                if parent.is_some_and(|parent| !parent.holds(&bounds)) {
                    return Err(format!("the box of node {number} is not within its parent's"));
                }
                if is_leaf && offset >= features {
                    return Err(format!("node {number} points outside the features"));
                }
                let child = below.start + (number - level.start) * levels.width;
                if !is_leaf && offset != child {
                    return Err(format!("node {number} points to {offset}, not {child}"));
                }
                // The root is always opened, so that its box is held against what is in it.
                if depth > 0 && !wanted.iter().any(|wanted| wanted.meets(&bounds)) {
                    continue;
                }
                if is_leaf {
                    found.push(Leaf { bounds, offset });
                } else {
                    next.push((child, Some(bounds)));
                }
            }
        }
        open = next;
    }
    found.sort_unstable_by_key(|leaf| leaf.offset);
    if found.windows(2).any(|pair| pair[0].offset == pair[1].offset) {
        return Err("two of its nodes point to one feature".to_owned());
    }
    Ok(found)
}

/// The place of a point on a curve that fills the square of 65,536 cells a side (Hilbert 1891):
/// neighbours on it are neighbours on the plane.
pub(super) fn along_curve(mut x: u32, mut y: u32) -> u32 {
    let mut along = 0;
    let mut side = 1u32 << 15;
    while side > 0 {
        let (right, up) = (u32::from(x & side > 0), u32::from(y & side > 0));
        along += side * side * ((3 * right) ^ up);
        if up == 0 {
            if right == 1 {
                (x, y) = (0xFFFF - x, 0xFFFF - y);
            }
            (x, y) = (y, x);
        }
        side /= 2;
    }
    along
}
