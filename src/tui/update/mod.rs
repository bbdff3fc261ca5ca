//! What happens changes the state. No I/O, no clock.

mod answer;
mod ask;
mod card;
mod choose;
mod cursor;
mod drill;
mod find;
mod fix;
mod moment;
mod overlay;
mod passage;
mod pointer;
mod route;
mod thread;
mod work;

#[cfg(test)]
mod tests;

use crate::action::{Act, Context, Key};
use crate::glyphs::DotSet;
use crate::state::{Hand, Saving};
use crate::{Command, Msg, State};
pub(crate) use moment::follow as follow_moment;

/// Changes `state` by what happened and returns what the runtime has to do about it.
pub fn update(state: &mut State, msg: Msg) -> Vec<Command> {
    let mut commands = happened(state, msg);
    state.follow_tracks();
    moment::follow(state);
    commands.extend(moment::ask(state));
    commands.extend(thread::follow(state));
    commands.extend(passage::follow(state));
    commands
}

fn happened(state: &mut State, msg: Msg) -> Vec<Command> {
    match msg {
        Msg::Key(key) => {
            state.message = None;
            press(state, key)
        }
        Msg::Paste(text) => {
            overlay::insert(state, &text);
            Vec::new()
        }
        Msg::Pointer(pointer) => pointer::update(state, pointer),
        Msg::Act(act) => perform(state, act),
        Msg::Resize(size) => {
            state.size = size;
            pointer::let_go(state);
            cursor::show(state);
            Vec::new()
        }
        Msg::FocusLost => {
            pointer::let_go(state);
            Vec::new()
        }
        Msg::Saved => saved(state),
        Msg::SavedOver(kept) => {
            let commands = saved(state);
            state.refuse(format!(
                "another program changed the route's file; its version is kept as {kept}"
            ));
            commands
        }
        Msg::SaveFailed(why) => {
            save_failed(state, why);
            Vec::new()
        }
        Msg::CardPut { path, size, sides } => {
            card::put(state, &path, size, sides);
            Vec::new()
        }
        Msg::CardFailed(why) => {
            card::failed(state, &why);
            Vec::new()
        }
        Msg::Retry if matches!(state.saving, Saving::Failed(_)) => vec![Command::Save],
        Msg::Retry => Vec::new(),
        Msg::Tick => {
            moment::tick(state);
            Vec::new()
        }
        Msg::Clock(wanted, now) => drill::clock(state, wanted, now),
        Msg::Practise(plan) => drill::practise(state, plan),
        Msg::Record(record) => {
            drill::record(state, record);
            Vec::new()
        }
        Msg::ResultKept(record) => {
            drill::kept(state, record);
            Vec::new()
        }
        Msg::ResultNotKept(why) => {
            drill::not_kept(state, why);
            Vec::new()
        }
        Msg::Working { ticket, done } => {
            state.work.goes_on(ticket, done);
            Vec::new()
        }
        Msg::Worked { ticket, outcome } => work::worked(state, ticket, outcome),
    }
}

/// A key goes to the action that has it where the keys are, else into the line of text there.
fn press(state: &mut State, key: Key) -> Vec<Command> {
    let context = state.context();
    if let Some(act) = state.keymap.act(context, key) {
        return perform(state, act);
    }
    match key.types() {
        Some(c) if context.takes_text() => overlay::insert(state, c.encode_utf8(&mut [0; 4])),
        // An answer, or a bearing, that begins with a figure.
        Some(c) if c.is_ascii_digit() && type_in(state, c.encode_utf8(&mut [0; 4])) => {}
        _ => {
            let help = state.keymap.shown(Act::Help).unwrap_or_default();
            state.refuse(format!("{key} does nothing here; {help} shows every key"));
        }
    }
    Vec::new()
}

/// Writes in the line that what is in hand opens for it. Whether there is one.
fn type_in(state: &mut State, text: &str) -> bool {
    drill::type_in(state, text) || fix::type_in(state, text)
}

/// Does `act` if it can be done now, or says why not.
fn perform(state: &mut State, act: Act) -> Vec<Command> {
    let when = act.row().when;
    if !when.holds(state) {
        let missing = when.missing(state);
        state.refuse(missing);
        return Vec::new();
    }
    if !route::is_nudge(act) {
        state.nudging = false;
    }
    if let (Saving::FailedLeaving(why), false) = (&state.saving, is_quit(act)) {
        state.saving = Saving::Failed(why.clone());
    }
    act_on(state, act)
}

fn is_quit(act: Act) -> bool {
    matches!(act, Act::Quit | Act::QuitAnywhere)
}

fn act_on(state: &mut State, act: Act) -> Vec<Command> {
    use Act::*;
    match act {
        CursorLeft | CursorRight | CursorUp | CursorDown | TenthWest | TenthEast | TenthNorth
        | TenthSouth | ZoomIn | ZoomOut | WholeChart | WholeRoute | Centre | PanWest | PanEast
        | PanNorth | PanSouth => cursor::act(state, act),
        Names => state.settings.names ^= true,
        GridLines => state.settings.grid ^= true,
        Dots => next_dots(state),
        Figures => cursor::next_figures(state),
        Angles => cursor::next_angles(state),
        LegStrip => passage::strip(state),
        Steer => return passage::steer(state),
        Card => return card::make(state),
        StartBack | StartOn | StartHourBack | StartHourOn | DayBack | DayOn | BestStart
        | LatestStart | Fortnight => passage::starts_act(state, act),
        NextPoint | PreviousPoint | NextLeg | PreviousLeg => choose::act(state, act),
        Help | Actions | Jump | LegsTable | WhenToLeave | LimitsList => overlay::open(state, act),
        Wind | Rename | Stop | Pace | Departure | Variation | Title => ask::open(state, act),
        Back => return back(state),
        TextLeft | TextRight | TextStart | TextEnd | EraseLeft | EraseRight | EraseWord
        | EraseLine => overlay::edit_line(state, act),
        RowUp | RowDown | PageUp | PageDown => overlay::go(state, act),
        Drop | Insert | Move | PutDown | NudgeWest | NudgeEast | NudgeNorth | NudgeSouth
        | NudgeTenthWest | NudgeTenthEast | NudgeTenthNorth | NudgeTenthSouth | Delete | Pencil
        | Reverse => return route::act(state, act),
        Undo | Redo if state.hand == Hand::Fix => return fix::history(state, act),
        Undo | Redo if state.hand.traces() => thread::history(state, act),
        Undo | Redo => return route::act(state, act),
        Thread | Anchor | FreePoints | OtherWay | Round | MoveAnchor | PutAnchor | TakeBack
        | DeleteAnchor | NextAnchor | PreviousAnchor | StandOff | Smoothing | ToRoute | Retrace
        | ClearTrace | Dividers => return thread::act(state, act),
        Fix | TakeBearing | BearingBack | DeleteBearing | NextBearing | PreviousBearing
        | BearingError | FixToRoute | ClearFix => return fix::act(state, act),
        TimeBack | TimeOn | HourBack | HourOn | PreviousWater | NextWater | NextSlack
        | AtDeparture | Now | Play | TideCurve | NextPort | StreamArrows => {
            return moment::act(state, act);
        }
        DrillList | Progress | Answer | WriteAnswer | Hint | PassOver | NextQuestion | ReadUp
        | ReadDown => return drill::act(state, act),
        Accept if state.context() == Context::Reply => return drill::mark_line(state),
        Accept => return overlay::accept(state),
        Redraw => return vec![Command::Redraw],
        Suspend => return vec![Command::Suspend],
        Quit | QuitAnywhere => return quit(state),
    }
    Vec::new()
}

/// Steps back by one: from what is open, what the pointer holds, work that takes long, what is
/// taken up, the pencil, the choice.
fn back(state: &mut State) -> Vec<Command> {
    if state.overlays.pop().is_some() || drill::close_line(state) {
        return Vec::new();
    }
    if state.held.is_some() {
        pointer::let_go(state);
    } else if let Some(command) = work::give_up(state) {
        return vec![command];
    } else if state.hand == Hand::Drill {
        return drill::lay_down(state);
    } else if !route::lay_down(state) {
        state.chosen = None;
    }
    Vec::new()
}

/// Leaves if all is saved; if not, saves first, and leaves without only when asked again.
fn quit(state: &mut State) -> Vec<Command> {
    pointer::let_go(state);
    if state.is_saved() || matches!(state.saving, Saving::FailedLeaving(_)) {
        return vec![Command::Quit];
    }
    state.leaving = true;
    vec![Command::Save]
}

fn saved(state: &mut State) -> Vec<Command> {
    state.document.mark_saved();
    if matches!(state.saving, Saving::Failed(_) | Saving::FailedLeaving(_)) {
        state.say("saved again");
    }
    state.saving = Saving::Well;
    if std::mem::take(&mut state.leaving) { vec![Command::Quit] } else { Vec::new() }
}

fn save_failed(state: &mut State, why: String) {
    if std::mem::take(&mut state.leaving) {
        state.refuse(format!("not saved: {why}; asked again, it leaves without the last changes"));
        state.saving = Saving::FailedLeaving(why);
    } else {
        state.refuse(format!("not saved: {why}; it is tried again"));
        state.saving = Saving::Failed(why);
    }
}

fn next_dots(state: &mut State) {
    let all = DotSet::ALL;
    let at = all.iter().position(|dots| *dots == state.settings.dots).unwrap_or(0);
    state.settings.dots = all[(at + 1) % all.len()];
    state.say(format!("drawn with {}", state.settings.dots.name()));
}
