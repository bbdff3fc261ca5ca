//! Runs: the pieces in which a coast is looked at.

use super::line::LineRecord;
use super::points::{ROOM, Reader, Room};
use super::search::Search;
use super::tree::{Block, FAN, Some16, down, up};
use super::{Coast, LineId, Rim};
use crate::{Extent, Point};
use bytemuck::{Pod, Zeroable};
use std::ops::ControlFlow;

/// A run as it is stored.
#[derive(Debug, Clone, Copy, PartialEq, Pod, Zeroable)]
#[repr(C)]
pub(crate) struct RunRecord {
    pub(super) first: u32,
    pub(super) line: u32,
    /// Ground length of the line before it, in metres.
    pub(super) length: f64,
}

/// Up to [`RUN`](super::RUN) sides of one line that follow each other.
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

/// The arrays of a coast, found once for a query: a mapped file has to be asked where they are.
#[derive(Clone, Copy)]
pub(super) struct Arrays<'a> {
    pub(super) reader: Reader<'a>,
    pub(super) lines: &'a [LineRecord],
    pub(super) runs: &'a [RunRecord],
    pub(super) search: Search<'a>,
    /// The edge of the plane, if there is one.
    pub(super) rim: Option<Rim>,
}

impl<'a> Arrays<'a> {
    /// A run, its points read into `room` if they are not there to be borrowed.
    pub(super) fn run<'r>(&self, index: usize, room: &'r mut Room) -> Run<'r>
    where
        'a: 'r,
    {
        let run = &self.runs[index];
        let line = &self.lines[run.line as usize];
        let count = line.sides_from(run.first) + 1;
        let points = self.reader.read(run.first as usize, count, room);
        Run { line: LineId(run.line), first_side: run.first - line.first, points }
    }
}

impl Coast {
    pub(super) fn arrays(&self) -> Arrays<'_> {
        Arrays {
            reader: Reader::new(&self.points),
            lines: &self.lines,
            runs: &self.runs,
            search: Search { levels: &self.levels, blocks: &self.tree },
            rim: Rim::of(&self.grid),
        }
    }

    /// Hands every run to `with`, in the order of the lines.
    pub fn for_runs(&self, mut with: impl FnMut(Run<'_>)) {
        let arrays = self.arrays();
        let mut room = ROOM;
        for index in 0..arrays.runs.len() {
            with(arrays.run(index, &mut room));
        }
    }

    /// Hands every run that may reach into `extent` to `with`, in the order of the lines, without
    /// allocating. None that reaches into it is left out; some that only come near may be there.
    pub fn for_runs_in(&self, extent: Extent, mut with: impl FnMut(Run<'_>)) {
        let arrays = self.arrays();
        let mut room = ROOM;
        let window = Window::new(extent.min(), extent.max());
        // The walk is never broken off.
        let _ = arrays.search.visit(
            |block| window.meets(block),
            |index| {
                with(arrays.run(index, &mut room));
                ControlFlow::Continue(())
            },
        );
    }
}

/// What a sum of squares in `f32` can be too great by, and a little more.
pub(super) const SHORT: f32 = 1.0 - 1.0 / 1_048_576.0;

/// A rectangle, or a point, rounded outwards.
#[derive(Debug, Clone, Copy)]
pub(super) struct Window {
    west: f32,
    south: f32,
    east: f32,
    north: f32,
}

impl Window {
    pub(super) fn new(low: Point, high: Point) -> Window {
        Window { west: down(low.x), south: down(low.y), east: up(high.x), north: up(high.y) }
    }

    /// Which children of a block may have a point in it.
    pub(super) fn meets(&self, block: &Block) -> Some16 {
        Some16::of(|i| {
            (block.west[i] <= self.east)
                & (block.east[i] >= self.west)
                & (block.south[i] <= self.north)
                & (block.north[i] >= self.south)
        })
    }

    /// The squares of the distances to the children of a block, never too great.
    pub(super) fn squares(&self, block: &Block) -> [f32; FAN] {
        std::array::from_fn(|i| {
            let east = larger(block.west[i] - self.east, self.west - block.east[i]);
            let north = larger(block.south[i] - self.north, self.south - block.north[i]);
            let (east, north) = (larger(east, 0.0), larger(north, 0.0));
            // However far, it is not infinitely far.
            smaller((east * east + north * north) * SHORT, f32::MAX)
        })
    }
}

/// Which of some squares are no greater than a bound, with the squares.
pub(super) fn within(squares: [f32; FAN], bound: f32) -> (Some16, [f32; FAN]) {
    (Some16::of(|i| squares[i] <= bound), squares)
}

/// The larger of two; `b` if `a` is no number. One instruction, where `max` takes five.
pub(super) fn larger(a: f32, b: f32) -> f32 {
    if a > b { a } else { b }
}

/// The smaller of two; `b` if `a` is no number.
pub(super) fn smaller(a: f32, b: f32) -> f32 {
    if a < b { a } else { b }
}
