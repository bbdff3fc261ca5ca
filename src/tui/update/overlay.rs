//! What lies open on top of the chart.

use super::{ask, choose, cursor, drill, find, passage, perform};
use plan::Limit;

use crate::action::{Act, Context, Group, table};
use crate::state::{Chosen, Jump, Line, List, Overlay};
use crate::{Command, State, layout};

pub(super) fn open(state: &mut State, act: Act) {
    let overlay = match act {
        Act::WhenToLeave => return passage::open_starts(state),
        Act::LimitsList => Overlay::Limits { row: 0 },
        Act::Help => Overlay::Help { top: 0 },
        Act::Actions => Overlay::List(List::default()),
        Act::Jump => Overlay::Jump(Jump::default()),
        Act::Dividers => Overlay::Dividers,
        _ => Overlay::Legs,
    };
    state.overlays.push(overlay);
    refresh(state);
}

/// The line of text that has the keys: of the topmost overlay, or of the answer in practice.
fn line_mut(state: &mut State) -> Option<&mut Line> {
    if state.overlays.is_empty() {
        return drill::line_mut(state);
    }
    state.overlays.last_mut().and_then(Overlay::line_mut)
}

/// Puts text into the line that has the keys, if there is one.
pub(super) fn insert(state: &mut State, text: &str) {
    if let Some(line) = line_mut(state) {
        line.insert(text);
    } else if !super::type_in(state, text) {
        state.refuse("there is no line open to put text in");
    }
    refresh(state);
}

pub(super) fn edit_line(state: &mut State, act: Act) {
    let Some(line) = line_mut(state) else { return };
    match act {
        Act::TextLeft => line.left(),
        Act::TextRight => line.right(),
        Act::TextStart => line.start(),
        Act::TextEnd => line.end(),
        Act::EraseLeft => line.erase_left(),
        Act::EraseRight => line.erase_right(),
        Act::EraseWord => line.erase_word(),
        Act::EraseLine => line.clear(),
        _ => {}
    }
    // A line of which only the place has moved says the same.
    if !matches!(act, Act::TextLeft | Act::TextRight | Act::TextStart | Act::TextEnd) {
        refresh(state);
    }
}

/// Brings what follows from the line that has the keys up to date.
fn refresh(state: &mut State) {
    let Some(mut top) = state.overlays.pop() else { return drill::follow_line(state) };
    match &mut top {
        Overlay::List(list) => {
            list.acts = matching(&list.line, state.context());
            list.row = 0;
        }
        Overlay::Jump(jump) => {
            let found = find::find(state, &jump.line.text());
            jump.wrong = found.as_ref().err().cloned();
            jump.found = found.unwrap_or_default();
            jump.row = 0;
        }
        Overlay::Ask(asked) => asked.answer = ask::understand(state, asked),
        Overlay::Help { .. }
        | Overlay::Legs
        | Overlay::Dividers
        | Overlay::Tide
        | Overlay::Starts(_)
        | Overlay::Limits { .. }
        | Overlay::Drills(_)
        | Overlay::Progress(_) => {}
    }
    state.overlays.push(top);
}

/// The actions that hold every word of `line` in their name or help and can have the keys in
/// `context`; those that hold them in their name come first.
fn matching(line: &Line, context: Context) -> Vec<Act> {
    let text = line.text().to_lowercase();
    let words: Vec<&str> = text.split_whitespace().collect();
    let holds = |hay: &str| words.iter().all(|word| hay.to_lowercase().contains(word));
    let (named, rest): (Vec<_>, Vec<_>) = table()
        .iter()
        .filter(|row| row.contexts.contains(&context))
        .filter(|row| row.group != Group::Typing && row.act != Act::Actions)
        .filter(|row| holds(&format!("{} {}", row.name, row.help)))
        .partition(|row| holds(row.name));
    named.into_iter().chain(rest).map(|row| row.act).collect()
}

/// Goes up or down by a row or a page in the topmost overlay.
pub(super) fn go(state: &mut State, act: Act) {
    let size = state.size;
    let Some(overlay) = state.overlays.last_mut() else { return };
    let rows = layout::overlay(size, overlay).rows;
    let page = usize::from(rows.height.max(2) - 1);
    let step = |row: usize, rows: usize| match act {
        Act::RowUp => row.saturating_sub(1),
        Act::PageUp => row.saturating_sub(page),
        Act::PageDown => (row + page).min(rows.saturating_sub(1)),
        _ => (row + 1).min(rows.saturating_sub(1)),
    };
    match overlay {
        Overlay::Help { top } => {
            *top = step(*top, crate::view::help_last_top(&state.keymap, rows) + 1);
        }
        Overlay::List(list) => list.row = step(list.row, list.acts.len()),
        Overlay::Jump(jump) => jump.row = step(jump.row, jump.found.len()),
        Overlay::Legs => {
            let legs = state.document.route().points.len().saturating_sub(1);
            if legs > 0 {
                let next = state.lit_leg().map_or(0, |leg| step(leg, legs));
                choose::leg(state, next);
            }
        }
        Overlay::Limits { row } => *row = step(*row, Limit::ALL.len()),
        Overlay::Starts(_) => {
            let on = matches!(act, Act::RowDown | Act::PageDown);
            passage::starts_act(state, if on { Act::DayOn } else { Act::DayBack });
        }
        Overlay::Drills(list) => list.row = step(list.row, list.rows.len()),
        Overlay::Progress(page) => page.row = step(page.row, page.progress.skills.len() + 1),
        Overlay::Ask(_) | Overlay::Dividers | Overlay::Tide => {}
    }
}

/// Takes what is written or chosen in the topmost overlay.
pub(super) fn accept(state: &mut State) -> Vec<Command> {
    match state.overlays.pop() {
        Some(Overlay::List(list)) => match list.acts.get(list.row) {
            Some(act) => return perform(state, *act),
            None => {
                state.refuse("no action has all of these words");
                state.overlays.push(Overlay::List(list));
            }
        },
        Some(Overlay::Jump(jump)) => land(state, jump),
        Some(Overlay::Ask(asked)) => return ask::accept(state, asked),
        Some(Overlay::Starts(open)) => return passage::take_start(state, open),
        Some(Overlay::Drills(list)) => return drill::take_row(state, list),
        Some(Overlay::Limits { row }) => {
            state.overlays.push(Overlay::Limits { row });
            if let Some(limit) = Limit::ALL.get(row) {
                ask::open_limit(state, *limit);
            }
        }
        Some(
            Overlay::Help { .. }
            | Overlay::Legs
            | Overlay::Dividers
            | Overlay::Tide
            | Overlay::Progress(_),
        )
        | None => {}
    }
    Vec::new()
}

/// Puts the cursor on what the jump box found; stays open on what it did not.
fn land(state: &mut State, jump: Jump) {
    let Some(found) = jump.found.get(jump.row) else {
        let wrong = jump.wrong.clone();
        state.refuse(wrong.unwrap_or_else(|| "write where to go".to_owned()));
        state.overlays.push(Overlay::Jump(jump));
        return;
    };
    let seen = state.view.extent(state.cells());
    let inside = |low: f64, at: f64, high: f64| (low..=high).contains(&at);
    let shown = inside(seen.min().x, found.at.x, seen.max().x)
        && inside(seen.min().y, found.at.y, seen.max().y);
    state.cursor = found.at;
    if shown {
        cursor::show(state);
    } else {
        cursor::look(state, chart::View::new(found.at, state.view.metres_per_column));
    }
    if state.hand.carried().is_none() {
        state.chosen = state.waypoint_near(found.at).map(Chosen::Point);
    }
    state.say(format!("at {}", found.title));
}
