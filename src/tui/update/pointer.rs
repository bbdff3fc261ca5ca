//! The pointer.

use chart::{Point, View};
use plan::Limit;
use ratatui::layout::Position as Cell;

use super::{choose, cursor, drill, moment, overlay, passage, perform, route, thread};
use crate::action::{Act, hints};
use crate::layout::{self, ProgressParts, window};
use crate::state::{Chosen, Hand, Held, Overlay};
use crate::view::{drill_choice_at, drill_is_answer, drills_row_at};
use crate::{Command, Gesture, Pointer, State};

pub(super) fn update(state: &mut State, pointer: Pointer) -> Vec<Command> {
    let at = (pointer.column, pointer.row);
    match pointer.what {
        Gesture::Press => {
            state.message = None;
            return press(state, at);
        }
        Gesture::Drag => drag(state, at),
        Gesture::Release => return release(state, at),
        Gesture::Hover => hover(state, at),
        Gesture::WheelUp => wheel(state, at, true),
        Gesture::WheelDown => wheel(state, at, false),
    }
    Vec::new()
}

/// Lets go of what the pointer holds: a waypoint or an anchor goes back to where it was.
pub(super) fn let_go(state: &mut State) {
    match state.held.take() {
        Some(Held::Waypoint { index, from: None, .. }) => {
            state.hand = Hand::Plot { carried: None };
            choose::point(state, index);
        }
        Some(Held::Anchor { from: None, .. }) => thread::lay_down(state),
        _ => {}
    }
}

/// With the thread or bearings in hand the cursor goes with the pointer, so that what would be caught is seen
/// before the click.
fn hover(state: &mut State, at: (u16, u16)) {
    if (state.hand.traces() || state.hand == Hand::Fix)
        && state.overlays.is_empty()
        && let Some(point) = state.point_at(at.0, at.1)
    {
        cursor::set(state, point);
    }
}

fn press(state: &mut State, at: (u16, u16)) -> Vec<Command> {
    let cell = Cell::new(at.0, at.1);
    if let Some(hint) = hints(state).into_iter().find(|hint| hint.area.contains(cell)) {
        return perform(state, hint.act);
    }
    if !state.overlays.is_empty() {
        return press_overlay(state, cell);
    }
    if state.hand == Hand::Drill {
        return press_drill(state, at);
    }
    if is_on_water(state, cell) {
        return perform(state, Act::TideCurve);
    }
    if state.layout().strip.contains(cell) {
        passage::press_strip(state, cell.x);
        return Vec::new();
    }
    let rows = state.layout().leg_rows();
    if rows.contains(cell) {
        press_leg(state, usize::from(cell.y - rows.y), rows.height);
    } else if let Some(point) = state.point_at(at.0, at.1) {
        state.held = Some(hold(state, point, at));
    }
    Vec::new()
}

/// In practice a choice is pressed, the line of the answer, or the chart; what is else read off the chart is not there.
fn press_drill(state: &mut State, at: (u16, u16)) -> Vec<Command> {
    let cell = Cell::new(at.0, at.1);
    if let Some(choice) = drill_choice_at(state, cell) {
        return drill::press_choice(state, choice);
    }
    if drill_is_answer(state, cell) {
        return perform(state, Act::WriteAnswer);
    }
    if let Some(point) = state.point_at(at.0, at.1) {
        state.held = Some(hold(state, point, at));
    }
    Vec::new()
}

/// Whether a cell of the screen tells of the water at the moment: the pane, or where it is folded.
fn is_on_water(state: &State, cell: Cell) -> bool {
    let layout = state.layout();
    let folded = state.tides().is_some() && layout.folded.contains(cell);
    layout.water.contains(cell) || folded
}

/// What the pointer takes hold of at a point of the chart.
fn hold(state: &mut State, point: Point, cell: (u16, u16)) -> Held {
    let chart = Held::Chart { grip: point, from: Some(cell) };
    // Nothing is brought further into sight: it must not move under the pointer.
    match state.hand {
        Hand::Plot { carried: None } if state.read_only().is_none() => {
            let Some(index) = state.waypoint_near(point) else { return chart };
            state.chosen = Some(Chosen::Point(index));
            if let Some(at) = state.shown_points().get(index).copied().flatten() {
                cursor::set(state, at);
            }
            Held::Waypoint { index, grip: state.cursor - point, from: Some(cell) }
        }
        Hand::Trace { carried: None } => {
            let Some(index) = state.anchor_near(point) else { return chart };
            let at = state.thread.anchors().get(index).map_or(point, |(anchor, _)| anchor.at());
            Held::Anchor { index, grip: at - point, from: Some(cell) }
        }
        _ => chart,
    }
}

/// Chooses the leg in a row of the table.
fn press_leg(state: &mut State, row: usize, rows: u16) {
    let legs = state.document.route().points.len().saturating_sub(1);
    let leg = window(legs, state.lit_leg().unwrap_or(0), rows) + row;
    if leg < legs {
        choose::leg(state, leg);
    }
}

/// A row that is pressed is taken; a press beside the overlay closes it, unless a line was
/// written in it.
fn press_overlay(state: &mut State, cell: Cell) -> Vec<Command> {
    let Some(top) = state.overlays.last_mut() else { return Vec::new() };
    let parts = layout::overlay(state.size, top);
    if !parts.area.contains(cell) {
        if !matches!(top, Overlay::Ask(_)) {
            state.overlays.pop();
        }
        return Vec::new();
    }
    if !parts.rows.contains(cell) {
        return Vec::new();
    }
    if *top == Overlay::Tide {
        state.held = Some(Held::Moment);
        moment::point(state, cell.x);
        return Vec::new();
    }
    let (y, height) = (cell.y - parts.rows.y, parts.rows.height);
    if let Overlay::Drills(list) = top {
        // Headings stand between the rows.
        let Some(row) = drills_row_at(list, height, y) else { return Vec::new() };
        list.row = row;
        return overlay::accept(state);
    }
    let row = usize::from(y);
    let (chosen, total) = match top {
        Overlay::List(list) => (&mut list.row, list.acts.len()),
        Overlay::Jump(jump) => (&mut jump.row, jump.found.len()),
        Overlay::Legs => {
            press_leg(state, row, height);
            return Vec::new();
        }
        Overlay::Starts(_) => {
            passage::press_starts(state, cell, parts.rows);
            return Vec::new();
        }
        Overlay::Limits { row } => (row, Limit::ALL.len()),
        Overlay::Progress(page) => {
            let rows = page.progress.rows();
            let parts = ProgressParts::of(parts.rows, rows);
            page.row = parts.row_at(cell.y, rows, page.row).unwrap_or(page.row);
            return Vec::new();
        }
        Overlay::Help { .. }
        | Overlay::Drills(_)
        | Overlay::Ask(_)
        | Overlay::Dividers
        | Overlay::Tide => {
            return Vec::new();
        }
    };
    let row = window(total, *chosen, height) + row;
    if row >= total {
        return Vec::new();
    }
    *chosen = row;
    overlay::accept(state)
}

fn drag(state: &mut State, to: (u16, u16)) {
    let under = state.point_under(to.0, to.1);
    match state.held {
        Some(Held::Moment) => moment::point(state, to.0),
        Some(Held::Chart { grip, from }) if from != Some(to) => {
            state.held = Some(Held::Chart { grip, from: None });
            let centre = state.view.centre + (grip - under);
            cursor::look(state, View::new(centre, state.view.metres_per_column));
        }
        Some(Held::Waypoint { index, grip, from }) if from != Some(to) => {
            state.held = Some(Held::Waypoint { index, grip, from: None });
            state.hand = Hand::Plot { carried: Some(index) };
            cursor::set(state, under + grip);
        }
        Some(Held::Anchor { index, grip, from }) if from != Some(to) => {
            state.held = Some(Held::Anchor { index, grip, from: None });
            state.hand = Hand::Trace { carried: Some(index) };
            cursor::set(state, under + grip);
        }
        _ => {}
    }
}

fn release(state: &mut State, to: (u16, u16)) -> Vec<Command> {
    drag(state, to);
    match state.held.take() {
        Some(Held::Waypoint { from: None, .. }) => route::put_down(state),
        Some(Held::Anchor { from: None, .. }) => perform(state, Act::PutAnchor),
        // An anchor that was pressed without being moved: the first one closes the round.
        Some(Held::Chart { from: Some(_), .. } | Held::Anchor { from: Some(_), .. }) => {
            click(state, to)
        }
        _ => Vec::new(),
    }
}

/// The button went down and came up in one place of the chart, with no waypoint to hold.
fn click(state: &mut State, at: (u16, u16)) -> Vec<Command> {
    let Some(point) = state.point_at(at.0, at.1) else { return Vec::new() };
    match state.hand {
        Hand::Drill => drill::click(state, point, at),
        Hand::Look => {
            cursor::put(state, point);
            let leg = |near: (usize, f64)| (near.1 <= 1.0).then_some(Chosen::Leg(near.0));
            state.chosen = match state.waypoint_near(point) {
                Some(index) => Some(Chosen::Point(index)),
                None => state.nearest_leg(point).and_then(leg),
            };
            Vec::new()
        }
        Hand::Fix => {
            cursor::put(state, point);
            perform(state, Act::TakeBearing)
        }
        Hand::Plot { carried: None } => {
            cursor::put(state, point);
            perform(state, Act::Drop)
        }
        Hand::Plot { carried: Some(_) } => {
            cursor::put(state, point);
            perform(state, Act::PutDown)
        }
        Hand::Trace { carried } => {
            cursor::put(state, point);
            // An anchor clicked that is not the first is chosen.
            match (carried, state.anchor_near(point)) {
                (Some(_), _) => perform(state, Act::PutAnchor),
                (None, Some(index)) if !state.is_first_anchor(point) => {
                    state.thread.chosen = Some(index);
                    Vec::new()
                }
                (None, _) => perform(state, Act::Anchor),
            }
        }
    }
}

fn wheel(state: &mut State, at: (u16, u16), up: bool) {
    let time = match state.overlays.last() {
        Some(overlay) => *overlay == Overlay::Tide,
        None => state.hand != Hand::Drill && is_on_water(state, Cell::new(at.0, at.1)),
    };
    if time {
        perform(state, if up { Act::TimeBack } else { Act::TimeOn });
    } else if !state.overlays.is_empty() {
        overlay::go(state, if up { Act::RowUp } else { Act::RowDown });
    } else if let Some(point) = state.point_at(at.0, at.1) {
        cursor::zoom(state, up, point);
    } else if state.hand == Hand::Drill {
        drill::scroll(state, !up, 1);
    } else if state.layout().legs.contains(Cell::new(at.0, at.1)) {
        choose::act(state, if up { Act::PreviousLeg } else { Act::NextLeg });
    }
}
