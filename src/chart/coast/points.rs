//! The vertices: as they are given, or as whole ticks from an origin.

use super::{RUN, Slab};
use crate::Point;

/// A vertex in ticks east and north of the origin.
pub type Ticks = [i32; 2];

/// The origin and the size of a tick.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    /// Where both ticks are 0.
    pub origin: Point,
    /// Metres in a tick.
    pub tick: f64,
}

impl Scale {
    /// The finest scale on which all of an extent can be written.
    #[must_use]
    pub fn for_extent(extent: crate::Extent) -> Scale {
        // Half of all whole numbers on either side of the middle, and some room.
        let reach = (extent.width().max(extent.height()) / 2.0).max(1.0);
        Scale { origin: extent.center(), tick: reach / f64::from(i32::MAX - 16) }
    }

    /// The nearest ticks to a point, held to what can be written.
    #[must_use]
    pub fn ticks(&self, p: Point) -> Ticks {
        // A cast to an integer holds what is out of its range to the nearest that is in it.
        let near = |v: f64, origin: f64| ((v - origin) / self.tick).round() as i32;
        [near(p.x, self.origin.x), near(p.y, self.origin.y)]
    }

    /// The point of some ticks.
    #[must_use]
    pub fn point(&self, [x, y]: Ticks) -> Point {
        Point {
            x: self.origin.x + f64::from(x) * self.tick,
            y: self.origin.y + f64::from(y) * self.tick,
        }
    }
}

/// Vertices.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Points {
    /// As they are given.
    Exact(Vec<Point>),
    /// In ticks: half the room.
    Ticks(Scale, Slab<Ticks>),
}

/// Room for the vertices of a run.
pub(super) type Room = [Point; RUN + 1];

/// An empty room.
pub(super) const ROOM: Room = [Point { x: 0.0, y: 0.0 }; RUN + 1];

impl Points {
    pub(super) fn len(&self) -> usize {
        match self {
            Points::Exact(points) => points.len(),
            Points::Ticks(_, ticks) => ticks.len(),
        }
    }

    /// A vertex that there is.
    pub(super) fn at(&self, index: usize) -> Point {
        match self {
            Points::Exact(points) => points[index],
            Points::Ticks(scale, ticks) => scale.point(ticks[index]),
        }
    }
}

/// The vertices, ready to be read in runs.
#[derive(Clone, Copy)]
pub(super) enum Reader<'a> {
    Exact(&'a [Point]),
    Ticks(Scale, &'a [Ticks]),
}

impl<'a> Reader<'a> {
    pub(super) fn new(points: &'a Points) -> Reader<'a> {
        match points {
            Points::Exact(points) => Reader::Exact(points),
            Points::Ticks(scale, ticks) => Reader::Ticks(*scale, ticks),
        }
    }

    /// Vertices from `first` on, at most as many as there is room for.
    pub(super) fn read<'r>(&self, first: usize, count: usize, room: &'r mut Room) -> &'r [Point]
    where
        'a: 'r,
    {
        match self {
            Reader::Exact(points) => &points[first..first + count],
            Reader::Ticks(scale, ticks) => {
                let filled = &mut room[..count];
                for (point, ticks) in filled.iter_mut().zip(&ticks[first..first + count]) {
                    *point = scale.point(*ticks);
                }
                filled
            }
        }
    }

    pub(super) fn at(&self, index: usize) -> Point {
        match self {
            Reader::Exact(points) => points[index],
            Reader::Ticks(scale, ticks) => scale.point(ticks[index]),
        }
    }
}
