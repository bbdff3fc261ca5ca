//! Tracing a shore: anchors set, moved and taken back, and the line that follows from them.

mod catch;
mod leg;
mod line;
mod measure;

#[cfg(test)]
mod tests;

pub(super) use leg::{lay_anew, legs_at};
pub(super) use line::{follow, laid, read};

use chart::trace::{Anchor, Way};

use super::{ask, cursor, overlay};
use crate::action::Act;
use crate::state::{CaughtOn, Hand};
use crate::{Command, State};

pub(super) fn act(state: &mut State, act: Act) -> Vec<Command> {
    match act {
        Act::Thread if state.hand.traces() => lay_down(state),
        Act::Thread => take(state),
        Act::Anchor => anchor(state),
        Act::FreePoints => free_points(state),
        Act::OtherWay => other_way(state),
        Act::Round => round(state),
        Act::MoveAnchor => take_up(state),
        Act::PutAnchor => put_down(state),
        Act::TakeBack => take_back(state),
        Act::DeleteAnchor => delete(state),
        Act::NextAnchor | Act::PreviousAnchor => choose_next(state, act == Act::NextAnchor),
        Act::StandOff | Act::Smoothing => ask::open(state, act),
        Act::Dividers => overlay::open(state, act),
        Act::ClearTrace => clear(state),
        Act::ToRoute => return leg::to_route(state),
        Act::Retrace => leg::retrace(state),
        _ => {}
    }
    Vec::new()
}

/// Takes the thread in hand.
fn take(state: &mut State) {
    super::route::put_back(state);
    state.hand = Hand::Trace { carried: None };
    state.thread.chosen = None;
}

/// Puts the anchor taken up back where it was, or lays the thread down: the line stays.
pub(super) fn lay_down(state: &mut State) {
    match state.hand {
        Hand::Trace { carried: Some(index) } => {
            state.hand = Hand::Trace { carried: None };
            choose(state, index);
        }
        Hand::Trace { carried: None } => state.hand = Hand::Look,
        Hand::Look | Hand::Plot { .. } | Hand::Fix | Hand::Drill => {}
    }
}

/// Puts an anchor where the cursor has caught something, or at the cursor.
fn anchor(state: &mut State) {
    let Some(caught) = catch::at(state, state.cursor) else {
        state.refuse("the chart's grid does not reach here");
        return;
    };
    if caught.on == CaughtOn::First {
        return round(state);
    }
    let last = state.thread.anchors().last().map(|(anchor, _)| anchor.at());
    if last == Some(caught.anchor.at()) {
        state.refuse("the last anchor is here already");
        return;
    }
    add(state, caught.anchor, state.thread.way);
}

fn add(state: &mut State, anchor: Anchor, way: Way) {
    state.thread.change(|set| set.anchors.push((anchor, way)));
    state.thread.chosen = None;
}

/// Leads the line back to its first anchor.
fn round(state: &mut State) {
    let anchors = state.thread.anchors();
    let (Some((first, _)), Some((last, _))) = (anchors.first(), anchors.last()) else { return };
    if anchors.len() > 1 && first.at() == last.at() {
        state.refuse("the line is led right round already");
        return;
    }
    let (first, alone) = (*first, anchors.len() == 1);
    if alone && !catch::is_on_ring(state, first) {
        state.refuse("there is no way round: the first anchor is not on the shore of an island");
        return;
    }
    let way = catch::way_round(state);
    add(state, first, way);
    // There the line goes on, if it does.
    cursor::put(state, first.at());
}

fn free_points(state: &mut State) {
    state.thread.free ^= true;
    state.say(match state.thread.free {
        true => "anchors are free points, also beside a shore",
        false => "anchors catch the shore again",
    });
}

/// Leads the piece that ends at the anchor under the cursor the other way, else the one to the
/// cursor.
fn other_way(state: &mut State) {
    match state.aimed_anchor().filter(|index| *index > 0) {
        Some(index) => state.thread.change(|set| {
            if let Some((_, way)) = set.anchors.get_mut(index) {
                *way = way.other();
            }
        }),
        None => state.thread.way = state.thread.way.other(),
    }
}

fn take_up(state: &mut State) {
    if let Some(index) = state.aimed_anchor() {
        choose(state, index);
        state.hand = Hand::Trace { carried: Some(index) };
    }
}

/// Puts the anchor taken up down where the cursor has caught something, or at the cursor: one
/// change, however far it was carried.
pub(super) fn put_down(state: &mut State) {
    let Some(index) = state.hand.carried_anchor() else { return };
    let caught = catch::at(state, state.cursor);
    state.hand = Hand::Trace { carried: None };
    if let Some(caught) = caught {
        state.thread.change(|set| {
            if let Some((anchor, _)) = set.anchors.get_mut(index) {
                *anchor = caught.anchor;
            }
        });
    }
}

fn take_back(state: &mut State) {
    state.thread.change(|set| {
        set.anchors.pop();
    });
}

fn delete(state: &mut State) {
    let Some(index) = state.aimed_anchor() else { return };
    state.thread.change(|set| {
        if index < set.anchors.len() {
            set.anchors.remove(index);
        }
    });
    state.thread.chosen = None;
}

/// Chooses an anchor and puts the cursor on it.
fn choose(state: &mut State, index: usize) {
    if let Some((anchor, _)) = state.thread.anchors().get(index) {
        let at = anchor.at();
        state.thread.chosen = Some(index);
        cursor::put(state, at);
    }
}

fn choose_next(state: &mut State, forward: bool) {
    let count = state.thread.anchors().len();
    let next = match (state.thread.chosen, forward) {
        (Some(index), true) => (index + 1) % count.max(1),
        (None, true) => 0,
        (Some(index), false) => index.checked_sub(1).unwrap_or(count.saturating_sub(1)),
        (None, false) => count.saturating_sub(1),
    };
    choose(state, next);
}

fn clear(state: &mut State) {
    state.thread.change(|set| {
        set.anchors.clear();
        set.leg = None;
    });
    state.say("the line is cleared");
}

/// Takes the last change of the trace back, or makes it again.
pub(super) fn history(state: &mut State, act: Act) {
    let back = act == Act::Undo;
    if state.thread.step(back) {
        state.say(if back { "took back: the last change of the trace" } else { "made again" });
    }
}
