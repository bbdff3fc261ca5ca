//! Changing the route.

use plan::{Edit, Waypoint};

use super::{choose, cursor, thread};
use crate::action::Act;
use crate::state::{Chosen, Hand};
use crate::{Command, State};

pub(super) fn act(state: &mut State, act: Act) -> Vec<Command> {
    match act {
        Act::Drop => return drop_at(state, state.document.route().points.len()),
        Act::Insert => return insert(state),
        Act::Move => take_up(state),
        Act::PutDown => return put_down(state),
        Act::Delete => return delete(state),
        Act::Reverse => return reverse(state),
        Act::Undo | Act::Redo => return history(state, act),
        Act::Pencil => pencil(state),
        nudge if is_nudge(nudge) => return self::nudge(state, nudge),
        _ => {}
    }
    Vec::new()
}

/// Takes the pencil in hand, or lays it down.
fn pencil(state: &mut State) {
    match state.hand {
        Hand::Plot { .. } => {
            lay_down(state);
        }
        Hand::Look | Hand::Trace { .. } | Hand::Fix | Hand::Drill => {
            state.hand = Hand::Plot { carried: None }
        }
    }
}

pub(super) fn is_nudge(act: Act) -> bool {
    use Act::*;
    matches!(
        act,
        NudgeWest
            | NudgeEast
            | NudgeNorth
            | NudgeSouth
            | NudgeTenthWest
            | NudgeTenthEast
            | NudgeTenthNorth
            | NudgeTenthSouth
    )
}

/// Makes a change, or says why it cannot be made. Everything that is done is saved at once.
pub(super) fn edit(state: &mut State, edit: Edit) -> Vec<Command> {
    made(state, |state| state.document.apply(edit))
}

/// The same as a part of the change before, where it goes on with it.
pub(super) fn edit_joined(state: &mut State, edit: Edit) -> Vec<Command> {
    made(state, |state| state.document.apply_joined(edit))
}

fn made<E: std::fmt::Display>(
    state: &mut State,
    change: impl FnOnce(&mut State) -> Result<(), E>,
) -> Vec<Command> {
    match change(state) {
        Ok(()) => vec![Command::Save],
        Err(error) => {
            state.refuse(error.to_string());
            Vec::new()
        }
    }
}

/// Puts the waypoint taken up back where it was.
pub(super) fn put_back(state: &mut State) {
    if let Hand::Plot { carried: Some(index) } = state.hand {
        state.hand = Hand::Plot { carried: None };
        choose::point(state, index);
    }
}

/// Puts what is taken up back where it was, or lays the pencil or the thread down. Whether there
/// was either.
pub(super) fn lay_down(state: &mut State) -> bool {
    match state.hand {
        Hand::Look => return false,
        Hand::Plot { carried: Some(_) } => put_back(state),
        Hand::Plot { carried: None } => state.hand = Hand::Look,
        Hand::Trace { .. } => thread::lay_down(state),
        Hand::Fix => state.hand = Hand::Look,
        // It is laid down by the clock.
        Hand::Drill => return false,
    }
    true
}

/// Drops a waypoint at the cursor, before the one at `index` or at the end.
pub(super) fn drop_at(state: &mut State, index: usize) -> Vec<Command> {
    let Some(at) = state.position() else {
        state.refuse("the chart's grid does not reach here");
        return Vec::new();
    };
    let commands = edit(state, Edit::Insert { index, waypoint: Waypoint::new(at) });
    if !commands.is_empty() {
        state.hand = Hand::Plot { carried: None };
        state.chosen = Some(Chosen::Point(index));
    }
    commands
}

fn insert(state: &mut State) -> Vec<Command> {
    let leg = match state.chosen {
        Some(Chosen::Leg(index)) => Some(index),
        _ => state.nearest_leg(state.cursor).map(|near| near.0),
    };
    leg.map_or_else(Vec::new, |leg| drop_at(state, leg + 1))
}

fn take_up(state: &mut State) {
    if let Some(index) = state.aimed_point() {
        choose::point(state, index);
        state.hand = Hand::Plot { carried: Some(index) };
    }
}

/// Puts the waypoint taken up down at the cursor: one change, however far it was carried.
pub(super) fn put_down(state: &mut State) -> Vec<Command> {
    let (Some(index), Some(to)) = (state.hand.carried(), state.position()) else {
        return Vec::new();
    };
    state.hand = Hand::Plot { carried: None };
    let traced = thread::legs_at(state, index);
    let commands = edit(state, Edit::Move { index, to });
    if !commands.is_empty() {
        thread::lay_anew(state, traced);
    }
    commands
}

fn nudge(state: &mut State, act: Act) -> Vec<Command> {
    let index = state.aimed_point();
    let at = index.and_then(|index| *state.shown_points().get(index)?);
    let (Some(index), Some(at), Some(by)) = (index, at, cursor::step(state, act)) else {
        return Vec::new();
    };
    let Some(to) = state.position_of(at + by) else {
        state.refuse("the chart's grid does not reach there");
        return Vec::new();
    };
    let goes_on = state.nudging && state.chosen == Some(Chosen::Point(index));
    let traced = thread::legs_at(state, index);
    let change = Edit::Move { index, to };
    let commands = made(state, |state| {
        if goes_on { state.document.apply_joined(change) } else { state.document.apply(change) }
    });
    if !commands.is_empty() {
        thread::lay_anew(state, traced);
    }
    state.nudging = true;
    choose::point(state, index);
    commands
}

fn delete(state: &mut State) -> Vec<Command> {
    let Some(index) = state.aimed_point() else { return Vec::new() };
    let commands = edit(state, Edit::Delete { index });
    let left = state.document.route().points.len();
    // The one before is chosen, so that the route can be taken back point by point.
    state.chosen = (left > 0).then(|| Chosen::Point(index.saturating_sub(1)));
    commands
}

fn reverse(state: &mut State) -> Vec<Command> {
    let commands = edit(state, Edit::Reverse);
    let last = state.document.route().points.len().saturating_sub(1);
    state.chosen = match state.chosen {
        Some(Chosen::Point(index)) => Some(Chosen::Point(last.saturating_sub(index))),
        Some(Chosen::Leg(index)) => Some(Chosen::Leg(last.saturating_sub(index + 1))),
        None => None,
    };
    commands
}

fn history(state: &mut State, act: Act) -> Vec<Command> {
    let (done, verb) = match act {
        Act::Undo => (state.document.undo(), "took back"),
        _ => (state.document.redo(), "made again"),
    };
    let Some(word) = done else { return Vec::new() };
    state.say(format!("{verb}: {word}"));
    let points = state.document.route().points.len();
    let there = match state.chosen {
        Some(Chosen::Point(index)) => index < points,
        Some(Chosen::Leg(index)) => index + 1 < points,
        None => true,
    };
    if !there {
        state.chosen = points.checked_sub(1).map(Chosen::Point);
    }
    vec![Command::Save]
}
