//! A line laid flat, for choosing among its parts; nothing that is printed is measured on it.

use nav::{Longitude, Position};

/// The vertices of a line in the plane of latitude and longitude, in degrees of latitude, with the
/// longitudes shrunk by the cosine of the line's middle latitude. It is laid out without a break
/// across the 180th meridian.
#[derive(Debug)]
pub(super) struct Flat {
    points: Vec<(f64, f64)>,
    /// By how much longitudes shrink.
    shrink: f64,
}

/// A place on a line, ordered along it: which side, and how far along that side.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub(super) struct Place {
    /// From zero.
    pub side: usize,
    /// From 0 to 1.
    pub part: f64,
}

impl Flat {
    pub(super) fn of(line: impl Iterator<Item = Position> + Clone) -> Flat {
        let latitudes = line.clone().map(|at| at.lat.as_degrees());
        let (south, north) = latitudes
            .fold((90.0_f64, -90.0_f64), |(south, north), lat| (south.min(lat), north.max(lat)));
        // Not to nothing, even where all of the line is at a pole.
        let shrink = f64::midpoint(south, north).to_radians().cos().max(1e-9);
        let mut turns = 0.0;
        let mut before: Option<f64> = None;
        let points = line.map(|at| {
            let lon = at.lon.as_degrees();
            turns += turn(lon - before.unwrap_or(lon));
            before = Some(lon);
            ((lon + turns) * shrink, at.lat.as_degrees())
        });
        Flat { points: points.collect(), shrink }
    }

    /// The vertices.
    pub(super) fn points(&self) -> &[(f64, f64)] {
        &self.points
    }

    /// The place of the line nearest to `at`, and how far from it that is, in degrees of latitude.
    pub(super) fn nearest(&self, at: Position) -> Option<(Place, f64)> {
        let (lon, lat) = (at.lon.as_degrees(), at.lat.as_degrees());
        let whole = 360.0 * self.shrink;
        let places = self.points.windows(2).enumerate().filter_map(|(side, ends)| {
            let &[from, to] = ends else { return None };
            // A line may go round the Earth: the point is met on the turn that this side is on.
            let middle = f64::midpoint(from.0, to.0);
            let turns = ((middle - lon * self.shrink) / whole).round();
            let point = ((lon + 360.0 * turns) * self.shrink, lat);
            let (part, square) = beside((from, to), point);
            Some((Place { side, part }, square))
        });
        let nearest = places.min_by(|one, other| one.1.total_cmp(&other.1));
        nearest.map(|(place, square)| (place, square.sqrt()))
    }

    /// The diagonal of the box that holds the line, in degrees of latitude.
    pub(super) fn extent(&self) -> f64 {
        let (mut least, mut most) = ((f64::MAX, f64::MAX), (f64::MIN, f64::MIN));
        for &(x, y) in &self.points {
            least = (least.0.min(x), least.1.min(y));
            most = (most.0.max(x), most.1.max(y));
        }
        (most.0 - least.0).hypot(most.1 - least.1)
    }

    /// The length of a side, in degrees of latitude.
    pub(super) fn side(&self, side: usize) -> f64 {
        match self.points.get(side..side + 2) {
            Some([from, to]) => ((to.0 - from.0).powi(2) + (to.1 - from.1).powi(2)).sqrt(),
            _ => 0.0,
        }
    }

    /// The place that lies this part of the way from one place to a later one.
    pub(super) fn between(&self, from: Place, to: Place, part: f64) -> Place {
        let stretch = |side: usize| {
            let begins = if side == from.side { from.part } else { 0.0 };
            let ends = if side == to.side { to.part } else { 1.0 };
            (begins, (ends - begins).max(0.0) * self.side(side))
        };
        let mut left = part * (from.side..=to.side).map(|side| stretch(side).1).sum::<f64>();
        for side in from.side..=to.side {
            let (begins, length) = stretch(side);
            if left <= length && length > 0.0 {
                return Place { side, part: begins + left / self.side(side) };
            }
            left -= length;
        }
        to
    }

    /// Where a place is on the Earth.
    pub(super) fn position(&self, place: Place) -> Option<Position> {
        let (from, to) = (self.points.get(place.side)?, self.points.get(place.side + 1)?);
        let mix = |from: f64, to: f64| from + (to - from) * place.part;
        let lon = Longitude::wrapping(mix(from.0, to.0) / self.shrink).ok()?;
        Position::from_degrees(mix(from.1, to.1), lon.as_degrees()).ok()
    }
}

/// The whole turn that brings a step of longitude under half a turn.
fn turn(step: f64) -> f64 {
    if step > 180.0 {
        -360.0
    } else if step < -180.0 {
        360.0
    } else {
        0.0
    }
}

/// How far along a side the point of it lies that is nearest to `point`, and the square of its distance.
pub(super) fn beside(side: ((f64, f64), (f64, f64)), point: (f64, f64)) -> (f64, f64) {
    let (from, to) = side;
    let (east, north) = (to.0 - from.0, to.1 - from.1);
    let (x, y) = (point.0 - from.0, point.1 - from.1);
    let length = east * east + north * north;
    let part = if length > 0.0 { ((x * east + y * north) / length).clamp(0.0, 1.0) } else { 0.0 };
    let (x, y) = (x - part * east, y - part * north);
    (part, x * x + y * y)
}
