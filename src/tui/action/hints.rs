//! The six keys that matter now.

use ratatui::layout::Rect;
use unicode_width::UnicodeWidthStr;

use super::{Act, Context};
use crate::State;

/// The most hints that are shown.
const MOST: usize = 6;

/// What stands between two hints.
pub const BETWEEN: &str = " · ";

/// A hint: a key and the word for what it does, where it stands on the screen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hint {
    /// The action that it hints at.
    pub act: Act,
    /// The key.
    pub key: String,
    /// The word.
    pub word: &'static str,
    /// Where it stands.
    pub area: Rect,
}

/// The actions that matter in a context, the most helpful first; those that cannot be done now
/// give way to the next. The last of the chart's always stands at the end.
fn ranked(context: Context) -> (&'static [Act], &'static [Act]) {
    use Act::*;
    match context {
        Context::Look => (
            &[
                Drop, Retrace, Rename, Pencil, Thread, Jump, TideCurve, NextPoint, Move, LegsTable,
                ZoomIn, ZoomOut, WholeChart,
            ],
            &[Help],
        ),
        Context::Plot => {
            (&[Drop, Insert, Delete, Undo, Jump, Move, Redo, Back, ZoomIn, ZoomOut], &[Help])
        }
        Context::Carry => (&[PutDown, Back, Jump, ZoomIn, ZoomOut], &[Help]),
        Context::Trace => (
            &[
                Anchor, ToRoute, OtherWay, TakeBack, StandOff, FreePoints, Dividers, Round, Undo,
                Jump, Back, ZoomIn, ZoomOut,
            ],
            &[Help],
        ),
        Context::Anchor => (&[PutAnchor, FreePoints, Back, Jump, ZoomIn, ZoomOut], &[Help]),
        Context::Fix => (
            &[
                TakeBearing,
                FixToRoute,
                BearingBack,
                BearingError,
                NextBearing,
                Jump,
                Undo,
                Back,
                ZoomIn,
                ZoomOut,
            ],
            &[Help],
        ),
        Context::Help => (&[RowDown, RowUp, Back, Quit], &[]),
        Context::Legs => (&[RowDown, RowUp, Accept, Back], &[]),
        Context::List | Context::Jump => (&[Accept, RowDown, RowUp, EraseLine, Back], &[]),
        Context::Dividers => (&[Back, Quit], &[]),
        Context::Tide => {
            (&[TimeBack, TimeOn, NextWater, Play, AtDeparture, NextPort, Now, NextSlack], &[Back])
        }
        Context::Ask => (&[Accept, EraseLine, Back], &[]),
        Context::Starts => {
            (&[StartBack, StartOn, Accept, BestStart, Fortnight, LimitsList, DayOn], &[Back])
        }
        Context::Limits => (&[Accept, RowDown, RowUp, Back], &[]),
        Context::Drill => (&[Answer, Hint, PassOver, ReadDown, Back, ZoomIn, ZoomOut], &[Help]),
        Context::Reply => (&[Accept, Hint, ReadDown, EraseLine, Back], &[]),
        Context::Marked => (&[NextQuestion, ReadDown, Back, ZoomIn, ZoomOut], &[Help]),
        Context::Drills => (&[Accept, RowDown, RowUp, Progress, Back], &[]),
        Context::Progress => (&[RowDown, RowUp, DrillList, Back], &[]),
    }
}

/// The hints for `state`, as many as its line of hints has room for.
pub fn hints(state: &State) -> Vec<Hint> {
    let (first, last) = ranked(state.context());
    let possible =
        |acts: &'static [Act]| acts.iter().copied().filter(|act| act.row().when.holds(state));
    let line = state.layout().hints;
    let hint = |act: Act| {
        let (key, word) = (state.keymap.shown(act)?, act.row().word);
        let width = key.width() + 1 + word.width();
        let width = u16::try_from(width).unwrap_or(u16::MAX);
        Some(Hint { act, key, word, area: Rect { width, ..line } })
    };
    let between = |hint: &Hint| hint.area.width.saturating_add(BETWEEN.width() as u16);
    let last: Vec<Hint> = possible(last).filter_map(hint).collect();
    let mut x = hand(state).width() as u16;
    let kept: u16 = last.iter().map(|hint| hint.area.width).sum();
    let mut room = line.width.saturating_sub(x).saturating_sub(kept);
    // One that finds no room gives way to the next that does.
    let fits = |hint: &Hint| {
        let left = room.checked_sub(between(hint));
        room = left.unwrap_or(room);
        left.is_some()
    };
    let first = possible(first).filter_map(hint).filter(fits).take(MOST - last.len());
    let mut hints: Vec<Hint> = first.chain(last.clone()).collect();
    for hint in &mut hints {
        hint.area.x += x;
        x = x.saturating_add(between(hint));
    }
    hints
}

/// What stands before the hints: the word for what has the keys, and whether they may change the route.
pub fn hand(state: &State) -> String {
    let margin = if state.layout().shape.has_column() { " " } else { "" };
    let access = if state.read_only().is_some() { ", read-only" } else { "" };
    format!("{margin}{}{access} │ ", state.context().word())
}
