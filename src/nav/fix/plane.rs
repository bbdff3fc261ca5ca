//! Where lines cross on a plane: the beginning, and the sums of each step.

use super::{Lean, Sight};
use crate::angle::sin_cos_degrees;
use crate::geodesic;
use crate::{Bearing, Length, Position};

/// A plane about some marks, its origin the first of them.
pub(super) struct Plane {
    origin: Position,
}

impl Plane {
    pub(super) fn about(sights: &[Sight]) -> Plane {
        let north_pole = Position::computed(90.0, 0.0);
        Plane { origin: sights.first().map_or(north_pole, |sight| sight.mark) }
    }

    /// East and north of the origin in metres.
    fn point(&self, at: Position) -> (f64, f64) {
        let line = geodesic::inverse(self.origin, at);
        let (sin, cos) = sin_cos_degrees(line.bearing_at_start.as_degrees());
        let metres = line.distance.as_metres();
        (metres * sin, metres * cos)
    }

    pub(super) fn position(&self, (east, north): (f64, f64)) -> Position {
        let way = Bearing::wrapped(east.atan2(north).to_degrees());
        geodesic::direct(self.origin, way, Length::metres(east.hypot(north))).position
    }

    /// Where the lines come nearest to crossing, as if the plane were the Earth.
    pub(super) fn crossing(&self, sights: &[Sight]) -> (f64, f64) {
        let mut sums = Sums::default();
        for sight in sights {
            let (sin, cos) = sin_cos_degrees(sight.bearing.as_degrees());
            let (x, y) = self.point(sight.mark);
            sums.add(Lean { east: -cos, north: sin, off: sin * y - cos * x });
        }
        sums.solve()
    }
}

/// The sums of least squares for a step to the east and to the north.
#[derive(Debug, Default)]
pub(super) struct Sums {
    east: f64,
    both: f64,
    north: f64,
    off: (f64, f64),
}

impl Sums {
    pub(super) fn add(&mut self, lean: Lean) {
        self.east += lean.east * lean.east;
        self.both += lean.east * lean.north;
        self.north += lean.north * lean.north;
        self.off.0 += lean.east * lean.off;
        self.off.1 += lean.north * lean.off;
    }

    /// The step; its determinant is no zero while two lines cross.
    pub(super) fn solve(&self) -> (f64, f64) {
        self.solve_for(self.off)
    }

    /// The step that another off asks for.
    pub(super) fn solve_for(&self, off: (f64, f64)) -> (f64, f64) {
        let determinant = self.east * self.north - self.both * self.both;
        let east = off.0 * self.north - off.1 * self.both;
        let north = off.1 * self.east - off.0 * self.both;
        (east / determinant, north / determinant)
    }
}
