//! The plane on which a track and a route are held together: Mercator's, on which a straight leg is
//! straight and directions are true.

use nav::{Grid, GridPoint, Length, Longitude, Position, WorldMercator};

/// Half a turn of the Earth on the plane, in metres.
const HALF_TURN: f64 = std::f64::consts::PI * 6_378_137.0;

/// The plane, cut opposite the route, so that neither crosses its edge.
#[derive(Debug, Clone)]
pub(super) struct Plane {
    grid: Grid,
    /// The easting of the route's first point.
    middle: f64,
}

/// A place on the plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Spot {
    pub(super) x: f64,
    pub(super) y: f64,
    /// Metres of the plane to one on the ground there.
    pub(super) scale: f64,
}

impl Plane {
    pub(super) fn about(longitude: Longitude) -> Plane {
        let middle = HALF_TURN * longitude.as_degrees() / 180.0;
        Plane { grid: Grid::WorldMercator(WorldMercator::new()), middle }
    }

    /// Where a position is; nothing within half a degree of a pole.
    pub(super) fn spot(&self, at: Position) -> Option<Spot> {
        let there = self.grid.forward(at).ok()?;
        let (x, y) = (there.point.easting.as_metres(), there.point.northing.as_metres());
        let x = match x - self.middle {
            far if far > HALF_TURN => x - 2.0 * HALF_TURN,
            far if far < -HALF_TURN => x + 2.0 * HALF_TURN,
            _ => x,
        };
        Some(Spot { x, y, scale: there.scale })
    }

    /// The position of a place between others.
    pub(super) fn position(&self, x: f64, y: f64) -> Option<Position> {
        let point = GridPoint::from_metres(x, y).ok()?;
        Some(self.grid.inverse(point).ok()?.position)
    }
}

impl Spot {
    /// How far away another one is on the ground, in metres: by the mean of both scales, which is good to
    /// a millionth over ten kilometres outside the polar circles.
    pub(super) fn away(self, other: Spot) -> f64 {
        let (east, north) = self.to(other);
        east.hypot(north)
    }

    /// How far east and north another one is on the ground, in metres.
    pub(super) fn to(self, other: Spot) -> (f64, f64) {
        let scale = (self.scale + other.scale) / 2.0;
        ((other.x - self.x) / scale, (other.y - self.y) / scale)
    }

    /// The place at a part of the way to another.
    pub(super) fn towards(self, other: Spot, part: f64) -> Spot {
        let between = |a: f64, b: f64| a + (b - a) * part;
        Spot {
            x: between(self.x, other.x),
            y: between(self.y, other.y),
            scale: between(self.scale, other.scale),
        }
    }

    /// The part of the way from `a` to `b`, 0 to 1, at which this place is nearest, and how far it is
    /// from there, in metres on the ground.
    pub(super) fn near_side(self, a: Spot, b: Spot) -> (f64, f64) {
        let (dx, dy) = (b.x - a.x, b.y - a.y);
        let square = dx * dx + dy * dy;
        let along = ((self.x - a.x) * dx + (self.y - a.y) * dy) / square;
        let part = if square > 0.0 { along.clamp(0.0, 1.0) } else { 0.0 };
        (part, self.away(a.towards(b, part)))
    }
}

/// A length that was reckoned here, in metres.
pub(super) fn metres(metres: f64) -> Length {
    metres * Length::METRE
}
