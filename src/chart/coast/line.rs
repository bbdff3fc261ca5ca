//! One line of a coast.

use super::points::{ROOM, Reader};
use super::{Coast, RUN, ShorePoint, flat, ground};
use crate::Point;
use bytemuck::{Pod, Zeroable};
use nav::Length;

/// The number of a line of a coast. It means nothing on another coast, nor on another level of
/// detail of the same one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct LineId(pub u32);

/// What a line of shore is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LineKind {
    /// A ring with land inside.
    Land,
    /// A ring with water inside, shut off from the sea.
    Lake,
    /// A shore that is open at both ends and encloses nothing.
    Open,
}

impl LineKind {
    const ALL: [LineKind; 3] = [LineKind::Land, LineKind::Lake, LineKind::Open];

    /// How it is stored.
    pub(super) fn code(self) -> u32 {
        self as u32
    }

    pub(super) fn from_code(code: u32) -> Option<LineKind> {
        LineKind::ALL.into_iter().find(|kind| kind.code() == code)
    }
}

/// A line as it is stored.
#[derive(Debug, Clone, Copy, PartialEq, Pod, Zeroable)]
#[repr(C)]
pub(crate) struct LineRecord {
    /// Where its vertices begin; there are `sides + 1`, a closed line repeats its first.
    pub(super) first: u32,
    pub(super) sides: u32,
    pub(super) first_run: u32,
    pub(super) feature: u32,
    /// The code of its kind.
    pub(super) kind: u32,
    /// Where its name lies among the names.
    pub(super) name_start: u32,
    pub(super) name_end: u32,
    /// Holds the place that the length's alignment takes.
    pub(super) spare: u32,
    /// Ground length in metres.
    pub(super) length: f64,
}

impl LineRecord {
    /// How many sides the run has that begins at vertex `first`, counted over all lines.
    pub(super) fn sides_from(&self, first: u32) -> usize {
        (self.sides - (first - self.first)).min(RUN as u32) as usize
    }

    pub(super) fn kind(&self) -> LineKind {
        LineKind::from_code(self.kind).unwrap_or(LineKind::Open)
    }

    pub(super) fn is_closed(&self) -> bool {
        self.kind() != LineKind::Open
    }
}

/// One line of a coast: its vertices, joined by sides. Side `i` leads from vertex `i` to vertex
/// `i + 1`; the last side of a closed line leads back to vertex 0.
#[derive(Debug, Clone, Copy)]
pub struct Line<'a> {
    coast: &'a Coast,
    id: LineId,
    record: &'a LineRecord,
}

impl<'a> Line<'a> {
    /// `id` is one of the coast's.
    pub(super) fn new(coast: &'a Coast, id: LineId) -> Line<'a> {
        Line { coast, id, record: &coast.lines[id.0 as usize] }
    }

    /// The coast that it is of.
    pub(super) fn coast(&self) -> &'a Coast {
        self.coast
    }

    /// Its number.
    #[must_use]
    pub fn id(&self) -> LineId {
        self.id
    }

    /// What it is.
    #[must_use]
    pub fn kind(&self) -> LineKind {
        self.record.kind()
    }

    /// Whether its last side leads back to its first vertex: land and lakes.
    #[must_use]
    pub fn is_closed(&self) -> bool {
        self.record.is_closed()
    }

    /// The name of the land, or empty.
    #[must_use]
    pub fn name(&self) -> &'a str {
        let range = self.record.name_start as usize..self.record.name_end as usize;
        let bytes = self.coast.names.get(range).unwrap_or_default();
        // A damaged file may hold what is no text.
        std::str::from_utf8(bytes).unwrap_or("")
    }

    /// What it is a line of, counted in the source: of a chart, the index into
    /// [`Chart::land`](crate::Chart::land), for an open line into
    /// [`Chart::shorelines`](crate::Chart::shorelines). A lake has the number of its land.
    #[must_use]
    pub fn feature(&self) -> u32 {
        self.record.feature
    }

    /// How many sides it has.
    #[must_use]
    pub fn sides(&self) -> u32 {
        self.record.sides
    }

    /// How many vertices it has; the first one of a closed line counts once.
    #[must_use]
    pub fn vertices(&self) -> u32 {
        if self.is_closed() { self.record.sides } else { self.record.sides + 1 }
    }

    /// A vertex, from 0 to [`sides`](Self::sides); beyond that the last one. On a closed line the
    /// last one is vertex 0 again.
    #[must_use]
    pub fn vertex(&self, index: u32) -> Point {
        self.coast.points.at((self.record.first + index.min(self.record.sides)) as usize)
    }

    /// Both ends of a side; of one beyond the last, the last vertex twice.
    #[must_use]
    pub fn side(&self, index: u32) -> [Point; 2] {
        [self.vertex(index), self.vertex(index.saturating_add(1))]
    }

    /// All vertices in order, a closed line's first one again at the end.
    pub fn points(&self) -> impl ExactSizeIterator<Item = Point> + '_ {
        let first = self.record.first as usize;
        let reader = Reader::new(&self.coast.points);
        (0..self.record.sides as usize + 1).map(move |index| reader.at(first + index))
    }

    /// The place at `part` (0 to 1) of a side, under its one name: a vertex is always part 0 of
    /// the side that it begins, but for the end of an open line, which is part 1 of the last.
    #[must_use]
    pub fn place(&self, side: u32, part: f64) -> ShorePoint {
        let side = side.min(self.record.sides.saturating_sub(1));
        let [a, b] = self.side(side);
        let part = if part.is_nan() { 0.0 } else { part.clamp(0.0, 1.0) };
        if part == 1.0 && (self.is_closed() || side + 1 < self.record.sides) {
            let side = if side + 1 == self.record.sides { 0 } else { side + 1 };
            return ShorePoint { line: self.id, side, part: 0.0, at: b };
        }
        let at = flat::along([a, b], part);
        ShorePoint { line: self.id, side, part, at }
    }

    /// Ground length of the whole line, by geodesics from vertex to vertex.
    #[must_use]
    pub fn length(&self) -> Length {
        Length::from_metres(self.record.length).unwrap_or(Length::ZERO)
    }

    /// Ground length from vertex 0 along the line to a place on it.
    #[must_use]
    pub fn length_to(&self, place: &ShorePoint) -> Length {
        let side = place.side.min(self.record.sides - 1);
        let run = side / RUN as u32;
        let record = &self.coast.runs[(self.record.first_run + run) as usize];
        let mut room = ROOM;
        let count = (side - run * RUN as u32) as usize + 1;
        let reader = Reader::new(&self.coast.points);
        let before = reader.read(record.first as usize, count, &mut room);
        let grid = &self.coast.grid;
        let last = [self.vertex(side), place.at];
        let metres = record.length + ground::length(grid, before) + ground::length(grid, &last);
        Length::from_metres(metres).unwrap_or(Length::ZERO)
    }
}
