//! Choosing a waypoint or a leg.

use super::cursor;
use crate::State;
use crate::action::Act;
use crate::state::Chosen;

pub(super) fn act(state: &mut State, act: Act) {
    let points = state.document.route().points.len();
    let legs = points.saturating_sub(1);
    match act {
        Act::NextPoint => {
            let next = match state.chosen {
                Some(Chosen::Point(index) | Chosen::Leg(index)) => index + 1,
                None => 0,
            };
            point(state, next % points.max(1));
        }
        Act::PreviousPoint => {
            let previous = match state.chosen {
                Some(Chosen::Point(index)) => index.checked_sub(1),
                Some(Chosen::Leg(index)) => Some(index),
                None => None,
            };
            point(state, previous.unwrap_or(legs));
        }
        Act::NextLeg => leg(state, state.lit_leg().map_or(0, |leg| (leg + 1) % legs.max(1))),
        Act::PreviousLeg => {
            let previous = state.lit_leg().and_then(|leg| leg.checked_sub(1));
            leg(state, previous.unwrap_or(legs.saturating_sub(1)));
        }
        _ => {}
    }
}

/// Chooses a waypoint and puts the cursor on it.
pub(super) fn point(state: &mut State, index: usize) {
    if let Some(at) = state.shown_points().get(index) {
        state.chosen = Some(Chosen::Point(index));
        if let Some(at) = *at {
            cursor::put(state, at);
        }
    }
}

/// Chooses a leg and brings it into sight.
pub(super) fn leg(state: &mut State, index: usize) {
    let points = state.shown_points();
    let Some([from, to]) = points.get(index..index + 2) else { return };
    state.chosen = Some(Chosen::Leg(index));
    let (Some(from), Some(to)) = (*from, *to) else { return };
    let cells = state.cells();
    if cells.columns > 0 && cells.rows > 0 {
        let view = state.view.showing(cells, from, 2.0).showing(cells, to, 2.0);
        cursor::look(state, view);
    }
}
