//! Rhumb lines: the lines of one bearing, on the WGS 84 ellipsoid.
//!
//! A paddler holds one compass bearing, so a straight leg's bearing and length are the
//! rhumb's, and a chart on Mercator's projection shows it as a straight line.
//!
//! Two latitudes make the sum: the isometric latitude ψ, in which a rhumb is straight
//! against longitude, and the rectifying latitude μ, in which it is straight against
//! distance. Both are taken between two latitudes at once, as differences written out so
//! that nothing cancels: a leg along a parallel, or a finger's breadth off it, is as exact
//! as any other.
//!
//! **Accuracy**: some ten nanometres on the ellipsoid, but for lines that pass within a few
//! metres of a pole, where the longitude of a spiral's end hangs on the last digits of its start.
//!
//! **References**: C. F. F. Karney, On auxiliary latitudes, Survey Review 56 (2024), 165-180,
//! equations (A5) and (A6) for the series; The area of rhumb polygons, Studia Geophysica et
//! Geodaetica 68 (2024), 99-120, for the use of divided differences.

use crate::angle::sin_cos_degrees;
use crate::{Bearing, Length, Position, True};

mod meridian;

use meridian::{RADIUS, Span};

/// A rhumb line between two positions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// The length along the line, never negative.
    pub distance: Length,
    /// The one bearing that leads along it.
    pub bearing: Bearing<True>,
}

/// A rhumb line asked for farther than it goes: it ends at a pole.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error(
    "{:.0} m along this rhumb line is past the pole, which it reaches after {:.0} m",
    self.asked.as_metres(), self.to_pole.as_metres()
)]
pub struct PastPole {
    /// The distance that was asked for.
    pub asked: Length,
    /// The distance after which the line reaches the pole.
    pub to_pole: Length,
}

/// The rhumb line from one position to another, the shorter way round.
///
/// **Degenerate cases**: between points that coincide the length is zero and the bearing,
/// which then means nothing, is 0°. Between opposite meridians both ways are the same length:
/// the line runs east when the second longitude is the larger number, so that a line and its
/// reverse are one line. To and from a pole the line is the meridian.
///
/// ```
/// use nav::{Position, rhumb};
/// // RhumbSolve's own example: New York JFK to Singapore Changi,
/// // 103:34:58.2 and 18523563 m.
/// let jfk = Position::from_degrees(40.0 + 38.0 / 60.0 + 23.0 / 3600.0, -(73.0 + 46.0 / 60.0 + 44.0 / 3600.0))?;
/// let sin = Position::from_degrees(1.0 + 21.0 / 60.0 + 33.0 / 3600.0, 103.0 + 59.0 / 60.0 + 22.0 / 3600.0)?;
/// let line = rhumb::inverse(jfk, sin);
/// assert_eq!(line.distance.as_metres().round(), 18_523_563.0);
/// assert_eq!(line.bearing.to_string(), "104°T");
/// # Ok::<(), nav::OutOfRange>(())
/// ```
#[must_use]
pub fn inverse(from: Position, to: Position) -> Line {
    let span = Span::between(from.lat, to.lat);
    if span.touches_pole() {
        return along_meridian(span);
    }
    let east = to.lon.degrees_east_of(from.lon).to_radians();
    let north = span.isometric();
    Line {
        distance: Length::metres(RADIUS * east.hypot(north) * span.rectifying_by_isometric()),
        bearing: Bearing::wrapped(east.atan2(north).to_degrees()),
    }
}

/// To a pole the isometric latitude is infinite, and every longitude as good as the other's.
fn along_meridian(span: Span) -> Line {
    let north = RADIUS * span.rectifying();
    let bearing = if north < 0.0 { Bearing::NORTH.back() } else { Bearing::NORTH };
    Line { distance: Length::metres(north.abs()), bearing }
}

/// The end of the rhumb line that leaves `from` at `bearing` and is `distance` long; a negative
/// distance goes the other way.
///
/// # Errors
/// [`PastPole`] when the line ends at a pole before that. A line that is not a meridian winds
/// round the pole without end before it gets there, so that its last point has no longitude;
/// it is refused from and to the pole itself.
///
/// ```
/// use nav::{Bearing, Length, Position, rhumb};
/// let start = Position::from_degrees(57.155, -2.08)?;
/// let end = rhumb::direct(start, Bearing::from_degrees(90.0)?, 2.0 * Length::NAUTICAL_MILE)?;
/// assert_eq!(end.lat, start.lat); // due east holds the parallel
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn direct(
    from: Position,
    bearing: Bearing<True>,
    distance: Length,
) -> Result<Position, PastPole> {
    let radians = distance.as_metres() / RADIUS;
    if radians == 0.0 {
        return Ok(from);
    }
    let (sin, cos) = sin_cos_degrees(bearing.as_degrees());
    let past_pole =
        |to_pole: f64| PastPole { asked: distance, to_pole: Length::metres(to_pole * RADIUS) };
    let lat =
        meridian::northward(from.lat, radians * cos).map_err(|to_pole| past_pole(to_pole / cos))?;
    if sin == 0.0 {
        return Ok(Position::new(lat, from.lon));
    }
    let span = Span::between(from.lat, lat);
    if span.touches_pole() {
        let starts_there = from.lat.as_degrees().abs() == 90.0;
        return Err(past_pole(if starts_there { 0.0 } else { radians }));
    }
    let east = radians * sin / span.rectifying_by_isometric();
    Ok(Position::computed(lat.as_degrees(), from.lon.as_degrees() + east.to_degrees()))
}

#[cfg(test)]
mod tests;
