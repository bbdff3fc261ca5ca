//! Bearings of marks: taken, taken back, and the fix made a waypoint.

use nav::Turn;
use plan::{Edit, Waypoint};

use super::{ask, cursor, overlay, route, thread};
use crate::action::{Act, Context};
use crate::state::{
    Answer, Change, Chosen, ERRORS, Hand, MOST_BEARINGS, Overlay, Read, Taken, read_bearing,
};
use crate::{Command, State};

pub(super) fn act(state: &mut State, act: Act) -> Vec<Command> {
    match act {
        Act::Fix if state.hand == Hand::Fix => state.hand = Hand::Look,
        Act::Fix => take_in_hand(state),
        Act::TakeBearing => aim(state),
        Act::BearingBack => {
            return change(state, |taken| {
                taken.pop();
            });
        }
        Act::DeleteBearing => return delete(state),
        Act::NextBearing | Act::PreviousBearing => choose_next(state, act == Act::NextBearing),
        Act::BearingError => ask::open(state, act),
        Act::FixToRoute => return to_route(state),
        Act::ClearFix => {
            state.say("the bearings are cleared");
            return change(state, Vec::clear);
        }
        _ => {}
    }
    Vec::new()
}

/// Changes what is taken and keeps it, so that it is there again however the program ends.
fn change(state: &mut State, change: impl FnOnce(&mut Vec<Taken>)) -> Vec<Command> {
    state.bearings.change(change);
    vec![Command::KeepSession]
}

fn take_in_hand(state: &mut State) {
    route::put_back(state);
    if state.hand.carried_anchor().is_some() {
        thread::lay_down(state);
    }
    state.hand = Hand::Fix;
    state.bearings.chosen = None;
}

/// Puts the cursor on what it has caught and asks for its bearing.
fn aim(state: &mut State) {
    let Some(mark) = state.sighted() else {
        state.refuse("the chart's grid does not reach here");
        return;
    };
    let taken = state.bearings.of(mark.at);
    if taken.is_none() && state.bearings.taken().len() >= MOST_BEARINGS {
        state.refuse(format!("{MOST_BEARINGS} bearings are the most for a fix"));
        return;
    }
    cursor::put(state, mark.at);
    state.bearings.chosen = taken;
    ask::open(state, Act::TakeBearing);
}

/// Opens the line for the bearing of what is caught with this in it, where bearings are in hand. Whether they are.
pub(super) fn type_in(state: &mut State, text: &str) -> bool {
    if state.context() != Context::Fix {
        return false;
    }
    aim(state);
    if let Some(Overlay::Ask(asked)) = state.overlays.last_mut() {
        // It is written anew, and not behind what was read before.
        asked.line.clear();
        overlay::insert(state, text);
    }
    true
}

/// The bearing that was taken of what is caught, as it would be typed.
pub(super) fn bearing_text(state: &State) -> String {
    let taken = state.sighted().and_then(|mark| state.bearings.of(mark.at));
    let taken = taken.and_then(|index| state.bearings.taken().get(index));
    taken.map(|taken| taken.read.typed()).unwrap_or_default()
}

/// How a bearing is understood: of what, and from true north.
pub(super) fn bearing(answer: &str, state: &State) -> Result<Answer, String> {
    let mark = state.sighted().ok_or("the chart's grid does not reach here")?;
    let read = read_bearing(answer).map_err(|wrong| format!("of {}: {wrong}", mark.name))?;
    let taken = Taken { mark, read };
    let from_true = state.sight(&taken, None).bearing;
    let words = match read {
        Read::True(_) => format!("{} bears {read} from you", taken.mark.name),
        _ => format!("{} bears {read} from you, {from_true}", taken.mark.name),
    };
    Ok(Answer { change: Change::Bearing(read), words })
}

/// How far off bearings may be.
pub(super) fn error(answer: &str) -> Result<Answer, String> {
    let figures = answer.trim_end_matches('°').trim_end().replace(',', ".");
    let wrong = || format!("“{answer}” is no angle from 0° to 15°; write degrees: 3");
    let degrees = figures.parse().ok().filter(|it| ERRORS.contains(it)).ok_or_else(wrong)?;
    let error = Turn::from_degrees(degrees).map_err(|error| error.to_string())?;
    let words = format!("each bearing {degrees}° off, this way or that");
    Ok(Answer { change: Change::BearingError(error), words })
}

/// Takes the bearing of what is caught, in place of one that was taken of it before.
pub(super) fn take(state: &mut State, read: Read) -> Vec<Command> {
    let Some(mark) = state.sighted() else { return Vec::new() };
    let before = state.bearings.of(mark.at);
    let taken = Taken { mark, read };
    let commands = change(state, |all| match before.and_then(|index| all.get_mut(index)) {
        Some(old) => *old = taken,
        None => all.push(taken),
    });
    state.bearings.chosen = None;
    if let Some(Err(why)) = state.fixed() {
        state.refuse(why.to_string());
    }
    commands
}

/// Takes it that each bearing may be off by so much.
pub(super) fn may_be_off(state: &mut State, error: Turn) -> Vec<Command> {
    state.bearings.error = error;
    vec![Command::KeepSession]
}

fn delete(state: &mut State) -> Vec<Command> {
    let Some(index) = state.aimed_bearing() else { return Vec::new() };
    state.bearings.chosen = None;
    change(state, |taken| {
        if index < taken.len() {
            taken.remove(index);
        }
    })
}

/// Goes from mark to mark, and from the last to the fix.
fn choose_next(state: &mut State, forward: bool) {
    let count = state.bearings.taken().len();
    let next = match (state.bearings.chosen, forward) {
        (Some(index), true) => Some(index + 1).filter(|next| *next < count),
        (None, true) => Some(0),
        (Some(index), false) => index.checked_sub(1),
        (None, false) => count.checked_sub(1),
    };
    state.bearings.chosen = next;
    let mark = next.and_then(|index| Some(state.bearings.taken().get(index)?.mark.at));
    let fix = || state.point_of(state.fixed()?.ok()?.fix.position);
    if let Some(at) = mark.or_else(fix) {
        cursor::put(state, at);
    }
}

/// Drops a waypoint at the fix, at the end of the route.
fn to_route(state: &mut State) -> Vec<Command> {
    let Some(Ok(fixed)) = state.fixed() else { return Vec::new() };
    let index = state.document.route().points.len();
    let waypoint = Waypoint { name: "Fix".to_owned(), ..Waypoint::new(fixed.fix.position) };
    let commands = route::edit(state, Edit::Insert { index, waypoint });
    if !commands.is_empty() {
        state.chosen = Some(Chosen::Point(index));
        let reference = crate::view::reference(state, fixed.fix.position);
        state.say(format!("waypoint {} is at the fix, {reference}", index + 1));
    }
    commands
}

/// Takes the last change of the bearings back, or makes it again.
pub(super) fn history(state: &mut State, act: Act) -> Vec<Command> {
    let back = act == Act::Undo;
    if !state.bearings.step(back) {
        return Vec::new();
    }
    state.say(if back { "took back: the last change of the bearings" } else { "made again" });
    vec![Command::KeepSession]
}

#[cfg(test)]
mod tests;
