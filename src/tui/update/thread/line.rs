//! The line of the trace, kept up to date with anchors, wishes and cursor.

use std::ops::ControlFlow;
use std::sync::Arc;

use chart::trace::{Anchor, Laid, Trace, TraceError, Way, Wishes, lay, patient};

use super::{catch, leg, measure};
use crate::job::{Job, Outcome, Task, Watch};
use crate::state::{CaughtOn, Reading};
use crate::{Command, State};

/// Brings everything that follows from anchors, wishes and cursor up to date.
pub(in crate::update) fn follow(state: &mut State) -> Vec<Command> {
    let traces = state.hand.traces();
    state.thread.caught = if traces { catch::at(state, state.cursor) } else { None };
    let mut commands = Vec::new();
    let changed = match settle(state, &mut commands).and_then(|line| Ok(line | live(state)?)) {
        Ok(changed) => changed,
        Err(error) => {
            state.refuse(error.to_string());
            false
        }
    };
    if changed || measure::is_due(state) {
        commands.extend(measure::measure(state));
    }
    commands
}

/// Lays the line through the anchors where they have changed. Whether it did.
fn settle(state: &mut State, commands: &mut Vec<Command>) -> Result<bool, TraceError> {
    let coast = Arc::clone(state.coast());
    let thread = &mut state.thread;
    let mut wanted = thread.anchors().to_vec();
    let carried = state.hand.carried_anchor();
    if let (Some(index), Some(caught)) = (carried, thread.caught)
        && let Some((anchor, _)) = wanted.get_mut(index)
    {
        *anchor = caught.anchor;
    }
    if thread.plain.as_ref().is_some_and(|plain| plain.anchors() == wanted) {
        return Ok(false);
    }
    thread.off = None;
    match (&mut thread.plain, carried) {
        (Some(plain), Some(index)) if plain.anchors().len() == wanted.len() => {
            // The anchor put back is at its old place again.
            plain.set(&coast, index, wanted[index], &patient)?;
        }
        _ => thread.plain = Some(laid_by(&coast, &wanted, thread.set().plain())?),
    }
    commands.extend(stand_off(state, wanted));
    Ok(true)
}

fn laid_by(
    coast: &chart::coast::Coast,
    anchors: &[(Anchor, Way)],
    wishes: Wishes,
) -> Result<Trace, TraceError> {
    let mut trace = Trace::new(wishes)?;
    for (anchor, way) in anchors {
        trace.push(coast, *anchor, *way, &patient)?;
    }
    Ok(trace)
}

/// Asks for the line at its stand-off, unless there is none or an anchor is still being moved.
fn stand_off(state: &mut State, anchors: Vec<(Anchor, Way)>) -> Option<Command> {
    let wishes = state.thread.set().wishes();
    let wanted = wishes.stand_off > 0.0 && anchors.len() > 1;
    if !wanted || state.hand.carried_anchor().is_some() {
        return state.work.drop(Task::Lay).then_some(Command::Abandon(Task::Lay));
    }
    let coast = Arc::clone(state.coast());
    let job: Job = state.work.ask(Task::Lay, move |watch| {
        let laid = lay(&coast, &anchors, wishes, &|| go_on(watch));
        match laid {
            Err(TraceError::CalledOff) => None,
            laid => Some(Outcome::Laid(laid.map(Arc::new).map_err(|error| error.to_string()))),
        }
    });
    Some(Command::Compute(job))
}

pub(super) fn go_on(watch: &dyn Watch) -> ControlFlow<()> {
    if watch.go_on(None) { ControlFlow::Continue(()) } else { ControlFlow::Break(()) }
}

/// Lays the piece from the last anchor to the cursor. Whether it changed.
fn live(state: &mut State) -> Result<bool, TraceError> {
    let Some(ends) = live_ends(state) else {
        return Ok(state.thread.live.take().is_some());
    };
    let wishes = state.thread.set().plain();
    let coast = Arc::clone(state.coast());
    match &mut state.thread.live {
        Some(live) if live.anchors() == ends => Ok(false),
        Some(live) if live.anchors().first() == Some(&ends[0]) && live.wishes() == wishes => {
            live.set(&coast, 1, ends[1], &patient)?;
            Ok(true)
        }
        live => {
            *live = Some(laid_by(&coast, &ends, wishes)?);
            Ok(true)
        }
    }
}

/// Between what the piece to the cursor would be laid; nothing while it would be none.
fn live_ends(state: &State) -> Option<[(Anchor, Way); 2]> {
    if !state.hand.traces() || state.hand.carried_anchor().is_some() {
        return None;
    }
    let caught = state.thread.caught?;
    let (last, _) = state.thread.anchors().last()?;
    if last.at() == caught.anchor.at() || last.at() == state.cursor {
        return None;
    }
    let way = match caught.on {
        CaughtOn::First => catch::way_round(state),
        _ => state.thread.way,
    };
    Some([(*last, Way::Shorter), (caught.anchor, way)])
}

/// Takes the line at its stand-off.
pub(in crate::update) fn laid(state: &mut State, laid: Result<Arc<Laid>, String>) -> Vec<Command> {
    match laid {
        Ok(laid) => state.thread.off = Some(laid),
        Err(why) => {
            state.thread.becomes_leg = false;
            state.refuse(why);
        }
    }
    let mut commands = measure::measure(state);
    if std::mem::take(&mut state.thread.becomes_leg) {
        commands.extend(leg::to_route(state));
    }
    commands
}

/// Takes what was read of the line.
pub(in crate::update) fn read(state: &mut State, reading: Arc<Reading>) {
    state.thread.reading = Some(reading);
}
