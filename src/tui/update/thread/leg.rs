//! Traces as legs of the route: made, taken up again, laid anew when a waypoint moves.

use chart::Point;
use chart::trace::{lay, patient};
use nav::Position;
use plan::{Along, Edit, Line, Waypoint};

use super::catch;
use crate::state::{Chosen, Hand, Set};
use crate::update::route;
use crate::{Command, State};

/// A trace that begins this near to the end of the route begins at it, in metres.
const SAME: f64 = 0.5;

/// Makes the line a leg of the route, or puts the leg back that was taken up.
pub(super) fn to_route(state: &mut State) -> Vec<Command> {
    if !state.thread.is_laid() {
        state.thread.becomes_leg = true;
        state.say("it becomes a leg as soon as it is laid");
        return Vec::new();
    }
    match leg_of(state) {
        Ok(leg) => match state.thread.set().leg.filter(|index| has_leg(state, *index)) {
            Some(index) => put_back(state, index, leg),
            None => put_on(state, leg),
        },
        Err(why) => {
            state.refuse(why);
            Vec::new()
        }
    }
}

/// A leg as the route takes it.
struct Leg {
    from: Position,
    to: Position,
    along: Along,
}

fn has_leg(state: &State, index: usize) -> bool {
    index + 1 < state.document.route().points.len()
}

/// The line as a leg, or why it cannot be one.
fn leg_of(state: &State) -> Result<Leg, String> {
    let laid = state.thread.line().ok_or("the trace has no line yet")?;
    along(state, &laid.points, state.thread.set())
}

fn along(state: &State, points: &[Point], set: &Set) -> Result<Leg, String> {
    let off = || "the chart's grid does not reach all of the line".to_owned();
    let position = |point: &Point| state.position_of(*point).ok_or_else(off);
    let positions = points.iter().map(position).collect::<Result<Vec<Position>, _>>()?;
    let [from, inner @ .., to] = positions.as_slice() else {
        return Err("the trace has no line yet".to_owned());
    };
    let line = Line::new(inner.iter().copied()).map_err(|error| error.to_string())?;
    let clicks = state.clicks(set).ok_or_else(off)?;
    let along = Along::new(line, &clicks, set.stand_off, set.step);
    Ok(Leg { from: *from, to: *to, along })
}

/// Puts the leg at the end of the route; where it begins elsewhere, a straight leg leads there.
fn put_on(state: &mut State, leg: Leg) -> Vec<Command> {
    let points = &state.document.route().points;
    let last = points.last().and_then(|last| state.point_of(last.at));
    let start = state.point_of(leg.from);
    let joins = last.zip(start).is_some_and(|(a, b)| (a.x - b.x).hypot(a.y - b.y) <= SAME);
    let mut index = points.len();
    let mut commands = Vec::new();
    if !joins {
        commands = route::edit(state, Edit::Insert { index, waypoint: Waypoint::new(leg.from) });
        if commands.is_empty() {
            return commands;
        }
        index += 1;
    }
    let waypoint = Waypoint::new(leg.to).reached(leg.along);
    let made = route::edit(state, Edit::Insert { index, waypoint });
    if made.is_empty() {
        return commands;
    }
    now_a_leg(state, index);
    made
}

/// Puts a leg that was taken up back: its ends where they are now, its line as it was laid.
fn put_back(state: &mut State, index: usize, leg: Leg) -> Vec<Command> {
    let at = |state: &State, index: usize| state.document.route().points.get(index).map(|it| it.at);
    let mut commands = Vec::new();
    for (point, to) in [(index, leg.from), (index + 1, leg.to)] {
        if at(state, point) != Some(plan::rounded(to)) {
            commands.extend(move_point(state, point, to));
        }
    }
    let edit = Edit::SetAlong { index: index + 1, along: Some(leg.along) };
    commands.extend(match commands.is_empty() {
        true => route::edit(state, edit),
        false => route::edit_joined(state, edit),
    });
    now_a_leg(state, index + 1);
    commands
}

/// Moves a waypoint with the lines at it.
fn move_point(state: &mut State, index: usize, to: Position) -> Vec<Command> {
    let before = legs_at(state, index);
    let commands = route::edit(state, Edit::Move { index, to });
    if commands.is_empty() {
        return commands;
    }
    lay_anew(state, before);
    commands
}

/// The line is a leg now: the thread is laid down and the pencil in hand at the end of the leg.
fn now_a_leg(state: &mut State, end: usize) {
    state.thread.change(|set| *set = Set { anchors: Vec::new(), leg: None, ..set.clone() });
    state.hand = Hand::Plot { carried: None };
    state.chosen = Some(Chosen::Point(end));
    state.say(format!("leg {end} runs along the shore"));
}

/// Takes the traced leg that is chosen up again: its anchors as they were set.
pub(super) fn retrace(state: &mut State) {
    let Some(index) = state.traced_leg() else { return };
    let Some(set) = set_of(state, index) else {
        state.refuse("the chart's grid does not reach all of the leg");
        return;
    };
    state.thread.change(|now| *now = set);
    state.hand = Hand::Trace { carried: None };
    state.say(format!("leg {} is taken up; it stays as it is until it is put back", index + 1));
}

/// The anchors and wishes by which a leg of the route was laid.
fn set_of(state: &State, index: usize) -> Option<Set> {
    let points = &state.document.route().points;
    let (from, to) = (points.get(index)?, points.get(index + 1)?);
    let along = to.along.as_ref()?;
    let anchors = state.anchors_of(&along.clicks(from.at, to.at))?;
    Some(Set { anchors, stand_off: along.stand_off, step: along.step, leg: Some(index) })
}

/// The anchors of the traced legs that meet at a waypoint.
pub(in crate::update) fn legs_at(state: &State, index: usize) -> Vec<Set> {
    let legs = [index.checked_sub(1), Some(index)];
    legs.into_iter().flatten().filter_map(|leg| set_of(state, leg)).collect()
}

/// Lays traced legs anew at whose ends a waypoint was moved: `before` are their anchors as they
/// were, of which the ends follow the waypoints. It is part of the change that moved it.
pub(in crate::update) fn lay_anew(state: &mut State, before: Vec<Set>) {
    for set in before {
        if let Some(why) = laid_anew(state, set).err() {
            state.refuse(why);
        }
    }
}

fn laid_anew(state: &mut State, mut set: Set) -> Result<(), String> {
    let Some(leg) = set.leg else { return Ok(()) };
    let end = |index: usize| {
        let at = state.document.route().points.get(index)?.at;
        Some(catch::anchor_on(state, state.point_of(at)?))
    };
    let off = "the chart's grid does not reach the waypoint";
    let (from, to) = (end(leg).ok_or(off)?, end(leg + 1).ok_or(off)?);
    if let Some((first, _)) = set.anchors.first_mut() {
        *first = from;
    }
    if let Some((last, _)) = set.anchors.last_mut() {
        *last = to;
    }
    let laid = lay(state.coast(), &set.anchors, set.wishes(), &patient);
    let laid = laid.map_err(|error| error.to_string())?;
    let along = Some(self::along(state, &laid.points, &set)?.along);
    route::edit_joined(state, Edit::SetAlong { index: leg + 1, along });
    Ok(())
}
