//! Where the plane of the whole world ends, and what closes a ring there.
//!
//! Files close Antarctica along the 180th meridian and 90° S, to have a ring around it. On World
//! Mercator that is a line along the edge of the plane, with land on its one hand and nothing on the other:
//! the ring is filled, and what closes it is no shore. It has no length, is never the nearest shore,
//! and no line is laid along it.

use super::Line;
use crate::{Extent, Point};

/// As far north and south as shores of the whole world reach, in degrees; what lies farther is put
/// there.
pub(super) const FARTHEST: f64 = 85.9;

/// The easting of the 180th meridian and the northing of the rim on World Mercator, in metres.
const EAST: f64 = 20_037_508.342_789_244;
const NORTH: f64 = 21_196_259.836_498_357;

/// Beyond this northing, 60°, no shore runs on along the 180th meridian: a side that does is the
/// cut of the ring around a pole.
const POLAR: f64 = 8_362_698.55;

/// What whole centimetres may move a place on the edge by, in metres.
const LEEWAY: f64 = 0.02;

/// The edge of a plane of the whole world.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Rim(());

impl Rim {
    /// That of a grid, if it is one of the whole world.
    #[inline]
    pub(crate) fn of(grid: &nav::Grid) -> Option<Rim> {
        matches!(grid, nav::Grid::WorldMercator(_)).then_some(Rim(()))
    }

    /// Whether a side closes a ring along the edge and so is no shore.
    #[inline]
    pub(crate) fn closes(self, [a, b]: [Point; 2]) -> bool {
        let on_rim = |p: Point| (p.y.abs() - NORTH).abs() <= LEEWAY;
        let cut = |p: Point| (p.x.abs() - EAST).abs() <= LEEWAY && p.y.abs() >= POLAR;
        a.y.abs().min(b.y.abs()) >= POLAR
            && ((on_rim(a) && on_rim(b)) || (cut(a) && cut(b) && (a.x < 0.0) == (b.x < 0.0)))
    }

    /// Whether a point lies within `leeway` metres of the edge, the 180th meridian at any latitude.
    #[inline]
    pub(crate) fn is_near(self, p: Point, leeway: f64) -> bool {
        (p.x.abs() - EAST).abs() < leeway || p.y.abs() > NORTH - leeway
    }

    /// The points of a ring as it lies on the ground, where both ends of what closes it along the
    /// edge are one place: without the points between them.
    pub(crate) fn without(self, ring: &[Point]) -> Vec<Point> {
        let repeats = ring.len() > 1 && ring.first() == ring.last();
        let count = ring.len() - usize::from(repeats);
        let closes = |index: usize| self.closes([ring[index % count], ring[(index + 1) % count]]);
        let between = |index: usize| closes(index + count - 1) && closes(index);
        (0..count).filter(|index| !between(*index)).map(|index| ring[index]).collect()
    }
}

impl Line<'_> {
    /// A side that closes the ring along the edge of the plane; nothing for all lines but those
    /// around a pole.
    pub(crate) fn closing_side(&self) -> Option<u32> {
        let rim = Rim::of(self.coast().grid()).filter(|_| self.is_closed())?;
        let mut found = None;
        for pole in [-1.0, 1.0] {
            let end = |x: f64, y: f64| Point { x: 2.0 * x * EAST, y: pole * NORTH + y };
            self.coast().for_runs_in(Extent::new(end(-1.0, -1.0), end(1.0, 1.0)), |run| {
                if run.line == self.id() && found.is_none() {
                    let closing = run.sides().find(|(_, ends)| rim.closes(*ends));
                    found = closing.map(|(side, _)| side);
                }
            });
        }
        found
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use nav::{Grid, Position, WorldMercator};

    /// The numbers are those of the grid.
    #[test]
    fn the_edge_is_where_the_grid_has_it() {
        let grid = Grid::WorldMercator(WorldMercator::new());
        let at = |lat: f64| {
            let point = grid.forward(Position::from_degrees(lat, 180.0).unwrap()).unwrap().point;
            (point.easting.as_metres(), point.northing.as_metres())
        };
        for (found, known) in [
            (at(FARTHEST), (EAST, NORTH)),
            (at(60.0), (EAST, POLAR)),
            (at(-FARTHEST), (EAST, -NORTH)),
        ] {
            assert!((found.0.abs() - known.0).abs() < 1e-6, "{found:?}");
            assert!((found.1 - known.1).abs() < 0.01, "{found:?}");
        }
    }
}
