//! Runs: the pieces in which a coast is looked at.

use super::{Coast, LineId, RUN};
use crate::{Extent, Point};

/// A run as it is stored.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct RunRecord {
    pub(super) first: u32,
    pub(super) line: u32,
    /// Ground length of the line before it, in metres.
    pub(super) length: f64,
}

/// Up to [`RUN`] sides of one line that follow each other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Run<'a> {
    /// The line that they are of.
    pub line: LineId,
    /// The first of the sides.
    pub first_side: u32,
    /// Their ends: one more than there are sides.
    pub points: &'a [Point],
}

impl Run<'_> {
    /// The sides in order, with their numbers.
    pub fn sides(&self) -> impl Iterator<Item = (u32, [Point; 2])> + '_ {
        let ends = self.points.windows(2).map(|pair| [pair[0], pair[1]]);
        (self.first_side..).zip(ends)
    }
}

impl Coast {
    /// Hands every run that may reach into `extent` to `with`, line by line, without allocating.
    /// None that reaches into it is left out.
    pub fn for_runs_in(&self, extent: Extent, mut with: impl FnMut(Run<'_>)) {
        let (low, high) = (extent.min(), extent.max());
        for index in 0..self.runs.len() {
            let run = self.run(index);
            let apart = run.points.iter().all(|p| p.x < low.x)
                || run.points.iter().all(|p| p.x > high.x)
                || run.points.iter().all(|p| p.y < low.y)
                || run.points.iter().all(|p| p.y > high.y);
            if !apart {
                with(run);
            }
        }
    }

    pub(super) fn run(&self, index: usize) -> Run<'_> {
        let run = &self.runs[index];
        let line = &self.lines[run.line as usize];
        let first_side = run.first - line.first;
        let sides = (line.sides - first_side).min(RUN as u32);
        let first = run.first as usize;
        let points = &self.points[first..=first + sides as usize];
        Run { line: LineId(run.line), first_side, points }
    }

    /// Every run.
    pub(super) fn all_runs(&self) -> impl Iterator<Item = Run<'_>> {
        (0..self.runs.len()).map(|index| self.run(index))
    }
}
