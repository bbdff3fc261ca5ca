//! The time in which the stream of a stretch goes in a straight line from one vector to another.

use crate::stream::{Run, Vector};

/// From an instant to the next knot of any of the streams.
#[derive(Debug, Clone, Copy)]
pub(super) struct Piece {
    /// How long, in seconds; infinite after the last knot.
    pub(super) span: f64,
    /// The stream at its beginning, and its change in a second; none where nothing is known.
    pub(super) flow: Option<(Vector, Vector)>,
}

/// The piece that begins `now` seconds after the instant `origin`, in seconds from 1970.
///
/// Times are counted from the departure, since a number of seconds from 1970 has no more than a
/// quarter of a microsecond to it.
pub(super) fn piece(water: &[(f64, &Run)], origin: f64, now: f64) -> Piece {
    let (first, last) = known(water, origin);
    if now < first || now >= last {
        return Piece { span: if now < first { first - now } else { f64::INFINITY }, flow: None };
    }
    let (mut flow, mut change, mut to) = ((0.0, 0.0), (0.0, 0.0), last);
    for (part, run) in water {
        let knots = run.knots();
        let next = run.next_after(origin, now);
        // Both are there, since `now` is within the run's time.
        let Some([before, after]) = next.checked_sub(1).and_then(|at| knots.get(at..at + 2)) else {
            continue;
        };
        to = to.min(after.at - origin);
        let span = after.at - before.at;
        let slope = ((after.flow.0 - before.flow.0) / span, (after.flow.1 - before.flow.1) / span);
        let since = now - (before.at - origin);
        flow.0 += part * (before.flow.0 + slope.0 * since);
        flow.1 += part * (before.flow.1 + slope.1 * since);
        change.0 += part * slope.0;
        change.1 += part * slope.1;
    }
    Piece { span: to - now, flow: Some((flow, change)) }
}

/// The time that all of the streams have; none at all without a stream.
fn known(water: &[(f64, &Run)], origin: f64) -> (f64, f64) {
    let mut known = (f64::NEG_INFINITY, f64::INFINITY);
    for (_, run) in water {
        let (Some(first), Some(last)) = (run.knots().first(), run.knots().last()) else {
            return (f64::NEG_INFINITY, f64::NEG_INFINITY);
        };
        known = (known.0.max(first.at - origin), known.1.min(last.at - origin));
    }
    if water.is_empty() || known.0 >= known.1 {
        (f64::NEG_INFINITY, f64::NEG_INFINITY)
    } else {
        known
    }
}
