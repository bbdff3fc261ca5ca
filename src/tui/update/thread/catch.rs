//! What a cursor catches: the first anchor, a waypoint, the shore.

use chart::Point;
use chart::coast::Near;
use chart::trace::{Anchor, Kind, Trace, Way, patient};
use nav::{Length, geodesic};

use crate::State;
use crate::state::{Caught, CaughtOn};

/// An anchor this near to a waypoint's shore is on it, in metres: a waypoint is rounded, its
/// shore is not.
const SAME: f64 = 0.5;

/// What a cursor at `point` catches; nothing where the grid does not reach.
pub(super) fn at(state: &State, point: Point) -> Option<Caught> {
    let here = state.position_of(point)?;
    let caught = |anchor: Anchor, on| {
        let there = state.position_of(anchor.at())?;
        let distance = geodesic::inverse(here, there).distance;
        Some(Caught { anchor, on, distance })
    };
    if let Some(first) = first(state, point) {
        return caught(first, CaughtOn::First);
    }
    if let Some(index) = state.waypoint_near(point)
        && let Some(at) = state.shown_points().get(index).copied().flatten()
    {
        return caught(anchor_on(state, at), CaughtOn::Waypoint(index));
    }
    if !state.thread.free
        && let Some(near) = state.coast().nearest(point, state.reach())
    {
        return caught(Anchor::Shore(near.on), CaughtOn::Shore);
    }
    Some(Caught { anchor: Anchor::Free(point), on: CaughtOn::Nothing, distance: Length::ZERO })
}

/// The first anchor, if `point` is on it and no anchor is being moved.
fn first(state: &State, point: Point) -> Option<Anchor> {
    let (first, _) = state.thread.anchors().first()?;
    let is_free = state.hand.carried_anchor().is_none();
    (is_free && state.is_first_anchor(point)).then_some(*first)
}

/// The anchor at a point that stands already: on the shore if it lies there.
pub(super) fn anchor_on(state: &State, point: Point) -> Anchor {
    let near: Option<Near> = state.coast().nearest(point, SAME);
    near.map_or(Anchor::Free(point), |near| Anchor::Shore(near.on))
}

/// Whether an anchor is on a shore that leads back to itself.
pub(super) fn is_on_ring(state: &State, anchor: Anchor) -> bool {
    match anchor {
        Anchor::Shore(place) => state.coast().line(place.line).is_some_and(|line| line.is_closed()),
        Anchor::Free(_) => false,
    }
}

/// The way from the last anchor to the first that goes on as the line goes: with the land on the
/// same hand. From the only anchor it is once round.
pub(super) fn way_round(state: &State) -> Way {
    let [(first, _), .., (last, _)] = state.thread.anchors() else { return Way::Longer };
    let before = state.thread.plain.as_ref().and_then(|plain| land(plain.laid().pieces.last()));
    let ways = [Way::Shorter, Way::Longer];
    let goes_on = |way: &Way| {
        let Ok(mut piece) = Trace::new(chart::trace::Wishes::default()) else { return false };
        let laid = piece
            .push(state.coast(), *last, Way::Shorter, &patient)
            .and_then(|()| piece.push(state.coast(), *first, *way, &patient));
        laid.is_ok() && land(piece.laid().pieces.last()) == before
    };
    ways.into_iter().find(goes_on).unwrap_or_default()
}

/// The line of shore that a piece lies along, and on which hand its land is.
fn land(piece: Option<&chart::trace::Piece>) -> Option<(chart::coast::LineId, chart::trace::Hand)> {
    match piece?.kind {
        Kind::Along { line, land, .. } => Some((line, land)),
        Kind::Straight { .. } | Kind::Stub => None,
    }
}
