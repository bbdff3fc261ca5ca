//! Practice: what can be practised, a sitting, its questions, and what is kept of them.
//!
//! There is no clock here: each step that needs one asks for it, and goes on when it is told.

mod list;
mod reply;
mod sight;
mod sitting;
#[cfg(test)]
mod tests;

use std::sync::Arc;

use jiff::Timestamp;
use practice::Plan;
use practice::memory::{Record, progress};

use super::moment;
use crate::action::Act;
use crate::state::{Overlay, ProgressPage, Stage};
use crate::view::{drill_last_top, drill_page_rows};
use crate::{Command, State, Wanted};

pub(super) use list::take as take_row;
pub(super) use reply::{
    click, close as close_line, follow_line, line_mut, mark_line, press_choice, type_in,
};
pub(super) use sitting::{lay_down, thrown};

/// Does an action of the group of practice.
pub(super) fn act(state: &mut State, act: Act) -> Vec<Command> {
    match act {
        Act::DrillList => return told_of(state, Wanted::Drills),
        Act::Progress => return told_of(state, Wanted::Progress),
        Act::Answer => return reply::answer(state),
        Act::WriteAnswer => reply::open(state),
        Act::Hint => hint(state),
        Act::PassOver => return reply::pass_over(state),
        Act::NextQuestion => return sitting::next(state),
        _ => scroll(state, act == Act::ReadDown, drill_page_rows(state)),
    }
    Vec::new()
}

/// Begins a sitting, once the record and the time are known; goes on with one of the same plan that was left.
pub(super) fn practise(state: &mut State, plan: Plan) -> Vec<Command> {
    let left = state.practice.drill.as_ref();
    let same = !state.practice.chart_changed;
    let left = left.filter(|it| same && !it.is_ended() && *it.sitting.plan() == plan);
    let Some(left) = left else { return told_of(state, Wanted::Sitting(plan)) };
    let (what, place) = (list::what(&plan), left.place());
    state.say(format!("“{what}” goes on where it was left, at {place}"));
    told_of(state, Wanted::TakenUp)
}

/// Asks for the clock, and before it for the record while that is not known.
fn told_of(state: &State, wanted: Wanted) -> Vec<Command> {
    let record = state.practice.record.is_none().then_some(Command::OpenRecord);
    record.into_iter().chain([Command::Clock(wanted)]).collect()
}

/// Goes on with what the clock was asked for.
pub(super) fn clock(state: &mut State, wanted: Wanted, now: Timestamp) -> Vec<Command> {
    match wanted {
        Wanted::Water => moment::go(state, now),
        Wanted::Drills => list::open(state, now),
        Wanted::Progress => open_progress(state, now),
        Wanted::Sitting(plan) => return sitting::begin(state, plan, now),
        Wanted::Question => return sitting::throw(state, now),
        Wanted::Result => return sitting::note(state, now),
        Wanted::LaidDown => return sitting::laid_down(state, now),
        Wanted::TakenUp => return sitting::take_up(state, now),
    }
    Vec::new()
}

/// Takes the record, or goes on with an empty one and says why.
pub(super) fn record(state: &mut State, read: Result<Arc<Record>, String>) {
    match read {
        Ok(record) => state.practice.record = Some(record),
        Err(why) => {
            state.practice.record = Some(Arc::default());
            not_kept(state, why);
        }
    }
}

/// What was answered is kept.
pub(super) fn kept(state: &mut State, record: Arc<Record>) {
    state.practice.record = Some(record);
    state.practice.not_kept = None;
}

/// What was answered is not kept: that is told once, and practice goes on.
pub(super) fn not_kept(state: &mut State, why: String) {
    if state.practice.not_kept.is_none() {
        state.refuse(format!("what is answered is not kept: {why}"));
    }
    state.practice.not_kept = Some(why);
}

fn open_progress(state: &mut State, now: Timestamp) {
    let Some(record) = &state.practice.record else { return };
    let progress = Arc::new(progress(record, now, &state.zone));
    state.overlays.push(Overlay::Progress(ProgressPage { progress, now, row: 0 }));
}

fn hint(state: &mut State) {
    if let Some(put) = state.practice.asked_mut() {
        put.hints = (put.hints + 1).min(put.question.hints.len());
    }
    // It stands at the end, where there is no room for all.
    let last = drill_last_top(state);
    if let Some(put) = state.practice.asked_mut() {
        put.top = last;
    }
}

/// Goes on or back by so many rows in the question or its explanation, where it has more than is seen.
pub(super) fn scroll(state: &mut State, on: bool, rows: usize) {
    let last = drill_last_top(state);
    let Some(drill) = &mut state.practice.drill else { return };
    let top = match &mut drill.stage {
        Stage::Asked(put) => &mut put.top,
        Stage::Marked(_, told) => &mut told.top,
        Stage::Over | Stage::Throwing | Stage::Nothing => &mut drill.top,
    };
    // A larger screen may have left it behind the last page.
    let from = (*top).min(last);
    *top = if on { (from + rows).min(last) } else { from.saturating_sub(rows) };
}
