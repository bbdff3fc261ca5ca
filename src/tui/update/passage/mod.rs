//! The passage of the route, and the leg that is read: kept up to date with what they follow from.

mod sail;
mod starts;
mod steer;
mod unroll;

pub(super) use sail::sailed;
pub(super) use starts::{
    act as starts_act, judged, open as open_starts, press as press_starts, take as take_start,
};
pub(super) use steer::{limit, steer, wind, wind_text};

use crate::layout::STRIP_FROM;
use crate::state::Chosen;
use crate::{Command, State};

/// Opens the leg strip, or closes it.
pub(super) fn strip(state: &mut State) {
    state.strip ^= true;
    if state.strip && state.layout().strip.is_empty() {
        state.strip = false;
        state.refuse(format!("the leg strip needs a screen of {STRIP_FROM} rows"));
    } else {
        state.settings.leg_strip = Some(state.strip);
    }
    super::cursor::show(state);
}

/// Puts the cursor on the place of the leg strip that the pointer is on.
pub(super) fn press_strip(state: &mut State, column: u16) {
    let Some(leg) = state.unrolled.as_ref().filter(|leg| leg.to.is_some()) else { return };
    let area = state.layout().strip;
    let place = crate::view::strip_place(area, column, leg.line.places.len());
    let at = place.and_then(|place| leg.line.places.get(place)?.on_grid);
    let chosen = leg.from;
    if let Some(at) = at {
        state.chosen = Some(Chosen::Leg(chosen));
        super::cursor::put(state, at);
    }
}

/// Brings the passage and the leg strip up to date.
pub(super) fn follow(state: &mut State) -> Vec<Command> {
    let mut commands = sail::follow(state);
    commands.extend(starts::follow(state));
    unroll::follow(state);
    commands
}

#[cfg(test)]
mod tests;
