//! The same passages by another way: positions walked in small steps of time, each with the stream at
//! its own place and instant, in plain numbers.

use chart::Point;
use jiff::{SignedDuration, Timestamp};
use nav::{Length, Position, rhumb};

use super::practice::PRACTICE;

const KNOT: f64 = 1852.0 / 3600.0;
/// A step, in seconds.
const STEP: f64 = 1.0;

/// East and north in metres a second at a place and an instant; still where nothing is known.
fn stream(at: Position, when: Timestamp) -> (f64, f64) {
    let on_grid = PRACTICE.chart.grid.forward(at).unwrap().point;
    let point = Point { x: on_grid.easting.as_metres(), y: on_grid.northing.as_metres() };
    let shares = PRACTICE.tides.shares(&PRACTICE.coast, point);
    FLOWS.at(&shares, when).map_or((0.0, 0.0), |stream| {
        let (sin, cos) = stream.set.as_degrees().to_radians().sin_cos();
        let rate = stream.drift.as_knots() * KNOT;
        (rate * sin, rate * cos)
    })
}

static FLOWS: std::sync::LazyLock<chart::water::Flows> = std::sync::LazyLock::new(|| {
    let [from, to] = ["2026-06-13T00:00Z", "2026-06-17T00:00Z"].map(super::instant);
    PRACTICE.tides.flows(from, to).unwrap()
});

fn later(departs: Timestamp, seconds: f64) -> Timestamp {
    departs + SignedDuration::from_secs_f64(seconds)
}

/// The seconds that it takes to go from one place to another, held on the line; nothing where the
/// boat makes no way.
pub(super) fn hold(from: Position, to: Position, knots: f64, departs: Timestamp) -> Option<f64> {
    let line = rhumb::inverse(from, to);
    let (sin, cos) = line.bearing.as_degrees().to_radians().sin_cos();
    let boat = knots * KNOT;
    let speed = |along: f64, seconds: f64| {
        let at = rhumb::direct(from, line.bearing, Length::from_metres(along).unwrap()).unwrap();
        let (east, north) = stream(at, later(departs, seconds));
        let (ahead, across) = (east * sin + north * cos, east * cos - north * sin);
        let speed = (boat * boat - across * across).sqrt() + ahead;
        // Under a tenth of a knot it is no way; nor is what is no number.
        (speed > 0.1 * KNOT).then_some(speed)
    };
    let length = line.distance.as_metres();
    let (mut along, mut seconds) = (0.0, 0.0);
    loop {
        let half = along + speed(along, seconds)? * STEP / 2.0;
        let step = speed(half.min(length), seconds + STEP / 2.0)? * STEP;
        if along + step >= length {
            return Some(seconds + STEP * (length - along) / step);
        }
        (along, seconds) = (along + step, seconds + STEP);
    }
}
