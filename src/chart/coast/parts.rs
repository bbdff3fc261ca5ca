//! A coast taken apart for a file, and put together from a mapped one.

use super::cells::{Cells, Frame};
use super::line::LineRecord;
use super::points::{Points, Scale, Ticks};
use super::runs::RunRecord;
use super::tree::{Block, Levels};
use super::{Coast, LineKind, RUN, Slab};
use crate::Point;
use bytemuck::{Pod, Zeroable};

/// The numbers that belong to the arrays as a whole.
#[derive(Debug, Clone, Copy, PartialEq, Pod, Zeroable)]
#[repr(C)]
pub(crate) struct Head {
    pub(crate) origin: [f64; 2],
    pub(crate) tick: f64,
    pub(crate) frame: Frame,
}

/// The arrays of a coast, to be read where they lie.
#[derive(Debug, Clone)]
pub(crate) struct Parts {
    pub(crate) head: Head,
    pub(crate) points: Slab<Ticks>,
    pub(crate) lines: Slab<LineRecord>,
    pub(crate) names: Slab<u8>,
    pub(crate) runs: Slab<RunRecord>,
    pub(crate) tree: Slab<Block>,
    pub(crate) cells: Slab<u64>,
}

/// The same arrays as bytes to be written, in the machine's own order. Each begins on a multiple
/// of eight bytes when it is read again.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Sections<'a> {
    pub(crate) head: Head,
    pub(crate) points: &'a [u8],
    pub(crate) lines: &'a [u8],
    pub(crate) names: &'a [u8],
    pub(crate) runs: &'a [u8],
    pub(crate) tree: &'a [u8],
    pub(crate) cells: &'a [u8],
}

/// What is wrong with the arrays of a coast.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub(crate) enum PartsError {
    /// The scale of the vertices is no scale.
    #[error("the origin or the tick of the vertices is no number, or the tick not above 0")]
    Scale,
    /// More vertices, runs or lines than are counted.
    #[error("{0} vertices are more than {max}", max = u32::MAX)]
    Vertices(usize),
    /// A line reaches beyond the vertices or names, or is of no kind.
    #[error("line {line}: {what}")]
    Line {
        /// Its number.
        line: usize,
        /// What is wrong with it.
        what: &'static str,
    },
    /// A run is not the one that its line has there.
    #[error("run {0} is not where its line has one")]
    Run(usize),
    /// An array has not as many elements as the others call for.
    #[error("{what}: {found} elements, {wanted} are called for")]
    Count {
        /// Which array.
        what: &'static str,
        /// How many there are.
        found: usize,
        /// How many there should be.
        wanted: u64,
    },
}

impl Coast {
    /// Its arrays as bytes; nothing for a coast whose vertices are not in ticks.
    pub(crate) fn sections(&self) -> Option<Sections<'_>> {
        let Points::Ticks(scale, points) = &self.points else { return None };
        let origin = [scale.origin.x, scale.origin.y];
        Some(Sections {
            head: Head { origin, tick: scale.tick, frame: self.cells.frame },
            points: points.as_bytes(),
            lines: self.lines.as_bytes(),
            names: self.names.as_bytes(),
            runs: self.runs.as_bytes(),
            tree: self.tree.as_bytes(),
            cells: self.cells.states.as_bytes(),
        })
    }

    /// The coast of arrays that may come from anywhere: afterwards no query reads beyond them.
    /// Whether they say what is true of the shore, only a checksum can tell.
    ///
    /// # Errors
    /// [`PartsError`] if they do not fit each other.
    pub(crate) fn from_parts(grid: nav::Grid, parts: Parts) -> Result<Coast, PartsError> {
        let Parts { head, points, lines, names, runs, tree, cells } = parts;
        let [x, y] = head.origin;
        let scale = Scale { origin: Point { x, y }, tick: head.tick };
        if !(x.is_finite() && y.is_finite() && scale.tick.is_finite() && scale.tick > 0.0) {
            return Err(PartsError::Scale);
        }
        if u32::try_from(points.len()).is_err() {
            return Err(PartsError::Vertices(points.len()));
        }
        check_lines(&lines, points.len(), names.len(), &runs)?;
        let levels = Levels::over(runs.len());
        fits("the tree", tree.len(), levels.blocks() as u64)?;
        fits("the cells of land", cells.len(), head.frame.words())?;
        let cells = Cells { frame: head.frame, states: cells };
        let points = Points::Ticks(scale, points);
        Ok(Coast { grid, points, lines, names, runs, tree, levels, cells })
    }
}

fn fits(what: &'static str, found: usize, wanted: u64) -> Result<(), PartsError> {
    if found as u64 == wanted { Ok(()) } else { Err(PartsError::Count { what, found, wanted }) }
}

/// Lines and runs: each line within the vertices and names, its runs where it says and no others.
fn check_lines(
    lines: &[LineRecord],
    points: usize,
    names: usize,
    runs: &[RunRecord],
) -> Result<(), PartsError> {
    let mut next_run = 0;
    for (number, line) in lines.iter().enumerate() {
        let wrong = |what| Err(PartsError::Line { line: number, what });
        if LineKind::from_code(line.kind).is_none() {
            return wrong("it is of no known kind");
        }
        if line.sides == 0 || u64::from(line.first) + u64::from(line.sides) >= points as u64 {
            return wrong("it has no sides, or vertices beyond the last");
        }
        if line.name_start > line.name_end || line.name_end as usize > names {
            return wrong("its name lies beyond the last");
        }
        if line.first_run as usize != next_run {
            return wrong("its runs do not follow those of the line before");
        }
        for start in (0..line.sides).step_by(RUN) {
            let run = runs.get(next_run).ok_or(PartsError::Run(next_run))?;
            if run.line as usize != number || run.first != line.first + start {
                return Err(PartsError::Run(next_run));
            }
            next_run += 1;
        }
    }
    fits("runs", runs.len(), next_run as u64)
}
