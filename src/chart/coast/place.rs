//! A place on the shore.

use super::LineId;
use crate::Point;

/// A place on the shore: a line, a side of it, and how far along that side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShorePoint {
    /// The line.
    pub line: LineId,
    /// The side, counted from 0.
    pub side: u32,
    /// How much of the side lies before it, from 0 to 1. A vertex is part 0 of the side that it
    /// begins; only the end of an open line is part 1 of its last side.
    pub part: f64,
    /// Where it lies.
    pub at: Point,
}
