//! How lines lie about a place, and the step that least squares ask for.

use super::{FARTHEST, FixError, Sight};
use crate::angle::sin_cos_degrees;
use crate::{Bearing, Length, Position, geodesic};

/// How a line lies about a place.
#[derive(Debug, Clone, Copy)]
pub(super) struct Lean {
    /// How the bearing changes, in radians a metre to the east and to the north.
    pub(super) east: f64,
    pub(super) north: f64,
    /// By how much it should, in radians.
    pub(super) off: f64,
}

impl Lean {
    /// How the line of a sight lies about a place.
    ///
    /// # Errors
    /// [`FixError`] for a place at the mark or too far from it.
    pub(super) fn of(sight: &Sight, at: Position) -> Result<Lean, FixError> {
        let line = geodesic::inverse(at, sight.mark);
        let metres = line.distance.as_metres();
        if line.distance > FARTHEST {
            return Err(FixError::TooFar);
        }
        if metres < 1e-3 {
            return Err(FixError::AtMark);
        }
        let (sin, cos) = sin_cos_degrees(line.bearing_at_start.as_degrees());
        let seen = line.bearing_at_start.turn_to(sight.bearing).as_degrees();
        let laid_off = line.bearing_at_end.back().turn_to(sight.bearing).as_degrees();
        // Both bearings turn alike as the boat moves: the line has two ends.
        let off = if seen.abs() <= laid_off.abs() { seen } else { laid_off };
        Ok(Lean { east: -cos / metres, north: sin / metres, off: off.to_radians() })
    }

    /// How far away the mark is, in metres.
    pub(super) fn metres(self) -> f64 {
        1.0 / self.east.hypot(self.north)
    }

    /// The same line as it runs on the plane about the place, for any error of the bearing: turned by the error, and as far
    /// aside as its sine says.
    pub(super) fn along_the_line(self) -> Lean {
        let (sin, cos) = self.off.sin_cos();
        Lean {
            east: self.east * cos + self.north * sin,
            north: self.north * cos - self.east * sin,
            off: sin,
        }
    }
}

/// The place so many metres east and north of one, and how far that is.
pub(super) fn moved(at: Position, (east, north): (f64, f64)) -> (Position, Length) {
    let way = Bearing::wrapped(east.atan2(north).to_degrees());
    let step = Length::metres(east.hypot(north));
    (geodesic::direct(at, way, step).position, step)
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

    /// How the turning itself changes on the way, which counts where bearings are off.
    pub(super) fn bend(&mut self, lean: Lean) {
        let Lean { east, north, off } = lean;
        self.east -= off * 2.0 * east * north;
        self.both -= off * (north * north - east * east);
        self.north += off * 2.0 * east * north;
    }

    /// Whether the step leads down to a least sum from wherever one begins.
    pub(super) fn is_a_bowl(&self) -> bool {
        // A hundredth of what a circle of the same width has: narrower ones throw a step far aside.
        let width = self.east + self.north;
        width > 0.0 && self.determinant() > 0.0025 * width * width
    }

    fn determinant(&self) -> f64 {
        self.east * self.north - self.both * self.both
    }

    /// The step; its determinant is no zero while two lines cross.
    pub(super) fn solve(&self) -> (f64, f64) {
        self.solve_for(self.off)
    }

    /// The step that another off asks for.
    pub(super) fn solve_for(&self, off: (f64, f64)) -> (f64, f64) {
        let determinant = self.determinant();
        let east = off.0 * self.north - off.1 * self.both;
        let north = off.1 * self.east - off.0 * self.both;
        (east / determinant, north / determinant)
    }
}
