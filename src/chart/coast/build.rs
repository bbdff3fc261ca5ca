//! Making a coast from lines.

use super::cells::Cells;
use super::crew::{self, Alone, Crew};
use super::line::LineRecord;
use super::order::along_curve;
use super::points::{Points, ROOM, Reader, Scale, Ticks};
use super::runs::RunRecord;
use super::tree::{Block, FAN, Levels, around, grow};
use super::{Coast, LineKind, RUN, ground};
use crate::Point;

/// Gathers lines into a [`Coast`].
///
/// Vertices are counted in `u32`: lines for which that leaves no room are left out.
#[derive(Debug)]
pub struct Builder {
    grid: nav::Grid,
    gathered: Gathered,
    lines: Vec<LineRecord>,
    names: String,
    lengths: bool,
    left_out: usize,
}

/// Vertices while they are gathered.
#[derive(Debug)]
enum Gathered {
    Exact(Vec<Point>),
    Ticks(Scale, Vec<Ticks>),
}

impl Gathered {
    fn len(&self) -> usize {
        match self {
            Gathered::Exact(points) => points.len(),
            Gathered::Ticks(_, ticks) => ticks.len(),
        }
    }

    fn push(&mut self, point: Point) {
        match self {
            Gathered::Exact(points) => points.push(point),
            Gathered::Ticks(scale, ticks) => ticks.push(scale.ticks(point)),
        }
    }

    /// Repeats the vertex at `index` at the end.
    fn repeat(&mut self, index: usize) {
        match self {
            Gathered::Exact(points) => points.push(points[index]),
            Gathered::Ticks(_, ticks) => ticks.push(ticks[index]),
        }
    }

    fn same(&self, a: usize, b: usize) -> bool {
        match self {
            Gathered::Exact(points) => points[a] == points[b],
            Gathered::Ticks(_, ticks) => ticks[a] == ticks[b],
        }
    }

    fn truncate(&mut self, len: usize) {
        match self {
            Gathered::Exact(points) => points.truncate(len),
            Gathered::Ticks(_, ticks) => ticks.truncate(len),
        }
    }

    fn reader(&self) -> Reader<'_> {
        match self {
            Gathered::Exact(points) => Reader::Exact(points),
            Gathered::Ticks(scale, ticks) => Reader::Ticks(*scale, ticks),
        }
    }

    /// The vertices with the lines in another order; `lines` says where each lies from now on.
    fn ordered(self, lines: &mut [LineRecord]) -> Points {
        match self {
            Gathered::Exact(points) => Points::Exact(permuted(points, lines)),
            Gathered::Ticks(scale, ticks) => Points::Ticks(scale, permuted(ticks, lines).into()),
        }
    }
}

/// The stretches of `lines` one after the other.
fn permuted<T: Copy>(all: Vec<T>, lines: &mut [LineRecord]) -> Vec<T> {
    let in_order = lines.windows(2).all(|pair| pair[0].first < pair[1].first);
    if in_order {
        return all;
    }
    let mut placed = Vec::with_capacity(all.len());
    for line in lines {
        let first = line.first as usize;
        line.first = placed.len() as u32;
        placed.extend_from_slice(&all[first..=first + line.sides as usize]);
    }
    placed
}

impl Builder {
    /// An empty coast on the plane of `grid` that keeps its vertices as they are given.
    #[must_use]
    pub fn new(grid: nav::Grid) -> Builder {
        Builder::with(grid, Gathered::Exact(Vec::new()))
    }

    /// An empty coast that keeps its vertices in ticks, in half the room: each moves by up to half
    /// a tick, and what lies outside the scale to its edge.
    #[must_use]
    pub fn in_ticks(grid: nav::Grid, scale: Scale) -> Builder {
        Builder::with(grid, Gathered::Ticks(scale, Vec::new()))
    }

    fn with(grid: nav::Grid, gathered: Gathered) -> Builder {
        Builder {
            grid,
            gathered,
            lines: Vec::new(),
            names: String::new(),
            lengths: true,
            left_out: 0,
        }
    }

    /// Leaves out the ground lengths, which take most of the time: for a level of detail that is
    /// drawn and never measured. Its lines' lengths are nothing.
    #[must_use]
    pub fn without_lengths(self) -> Builder {
        Builder { lengths: false, ..self }
    }

    /// Adds a line. The points of a ring do not repeat the first one at the end; if they do, the
    /// repeated one is left out. `feature` is what [`Line::feature`](super::Line::feature) says.
    ///
    /// A line of one point is kept, as a side of no length; one of none is not. Points that are
    /// no numbers are left out.
    pub fn line(
        &mut self,
        kind: LineKind,
        feature: u32,
        name: &str,
        points: impl IntoIterator<Item = Point>,
    ) {
        let first = self.gathered.len();
        for point in points.into_iter().filter(|p| p.x.is_finite() && p.y.is_finite()) {
            self.gathered.push(point);
        }
        let last = self.gathered.len();
        if last == first {
            return;
        }
        let closed = kind != LineKind::Open;
        let repeats = last - first > 1 && self.gathered.same(first, last - 1);
        if (closed && !repeats) || last - first == 1 {
            self.gathered.repeat(first);
        }
        let end = self.gathered.len();
        if u32::try_from(end).is_err() || u32::try_from(self.names.len() + name.len()).is_err() {
            self.gathered.truncate(first);
            self.left_out += 1;
            return;
        }
        let name_start = self.names.len() as u32;
        self.names.push_str(name);
        self.lines.push(LineRecord {
            first: first as u32,
            sides: (end - first - 1) as u32,
            first_run: 0,
            feature,
            kind: kind.code(),
            name_start,
            name_end: self.names.len() as u32,
            spare: 0,
            length: 0.0,
        });
    }

    /// How many lines were left out, because there are more than four thousand million vertices.
    #[must_use]
    pub fn left_out(&self) -> usize {
        self.left_out
    }

    /// The coast of all lines.
    #[must_use]
    pub fn finish(self) -> Coast {
        let nothing = Coast::nothing(self.grid.clone());
        // Alone goes to the end.
        self.finish_by(&mut Alone).unwrap_or(nothing)
    }

    /// The coast of all lines, the same whatever the crew; nothing where `crew` breaks it off.
    #[must_use]
    pub fn finish_by(self, crew: &mut dyn Crew) -> Option<Coast> {
        let Builder { grid, gathered, mut lines, names, lengths, .. } = self;
        along_curve(&mut lines, gathered.reader());
        let points = gathered.ordered(&mut lines);
        let mut runs = runs(&mut lines);
        let parts = runs.len().div_ceil(PART);
        let made = crew::each(crew, parts, |part| {
            let runs = &runs[part * PART..runs.len().min((part + 1) * PART)];
            look_through(&grid, Reader::new(&points), &lines, runs, lengths)
        })?;
        let mut bottom = Vec::with_capacity(runs.len().div_ceil(FAN));
        for (runs, (lengths, blocks)) in runs.chunks_mut(PART).zip(made) {
            add_up(&mut lines, runs, &lengths);
            bottom.extend(blocks);
        }
        let levels = Levels::over(runs.len());
        let tree = grow(&levels, bottom);
        let mut coast = Coast {
            grid,
            points,
            lines: lines.into(),
            names: names.into_bytes().into(),
            runs: runs.into(),
            tree: tree.into(),
            levels,
            cells: Cells::default(),
        };
        coast.cells = Cells::of(&coast, crew)?;
        Some(coast)
    }
}

/// How many runs are looked through at once: whole blocks of the tree; in tests one alone.
const PART: usize = if cfg!(test) { FAN } else { FAN * 256 };

/// The runs of all lines, without ground lengths.
fn runs(lines: &mut [LineRecord]) -> Vec<RunRecord> {
    let mut runs = Vec::new();
    for (number, line) in (0..).zip(lines) {
        line.first_run = runs.len() as u32;
        let starts = (0..line.sides).step_by(RUN);
        runs.extend(starts.map(|start| RunRecord {
            first: line.first + start,
            line: number,
            length: 0.0,
        }));
    }
    runs
}

/// The ground lengths of runs, if they are asked for, and the blocks over them.
fn look_through(
    grid: &nav::Grid,
    reader: Reader<'_>,
    lines: &[LineRecord],
    runs: &[RunRecord],
    lengths: bool,
) -> (Vec<f64>, Vec<Block>) {
    let mut blocks = Vec::with_capacity(runs.len().div_ceil(FAN));
    let mut measured = Vec::new();
    let mut room = ROOM;
    for runs in runs.chunks(FAN) {
        let mut block = Block::EMPTY;
        for (child, run) in runs.iter().enumerate() {
            let sides = lines[run.line as usize].sides_from(run.first);
            let points = reader.read(run.first as usize, sides + 1, &mut room);
            block.set(child, around(points));
            if lengths {
                measured.push(ground::length(grid, points));
            }
        }
        blocks.push(block);
    }
    (measured, blocks)
}

/// Gives runs the ground lengths before them, and their lines what they come to.
fn add_up(lines: &mut [LineRecord], runs: &mut [RunRecord], lengths: &[f64]) {
    for (run, length) in runs.iter_mut().zip(lengths) {
        let line = &mut lines[run.line as usize];
        run.length = line.length;
        line.length += length;
    }
}
