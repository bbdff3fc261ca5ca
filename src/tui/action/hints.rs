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
/// give way to the next. The last two of the chart's always stand at the end.
fn ranked(context: Context) -> (&'static [Act], &'static [Act]) {
    use Act::*;
    match context {
        Context::Look => (
            &[Drop, Rename, Pencil, NextPoint, Move, LegsTable, ZoomIn, ZoomOut, WholeChart],
            &[Jump, Help],
        ),
        Context::Plot => {
            (&[Drop, Insert, Delete, Undo, Move, Redo, Back, ZoomIn, ZoomOut], &[Jump, Help])
        }
        Context::Carry => (&[PutDown, Back, ZoomIn, ZoomOut], &[Jump, Help]),
        Context::Help => (&[RowDown, RowUp, Back, Quit], &[]),
        Context::Legs => (&[RowDown, RowUp, Accept, Back], &[]),
        Context::List | Context::Jump => (&[Accept, RowDown, RowUp, EraseLine, Back], &[]),
        Context::Ask => (&[Accept, EraseLine, Back], &[]),
    }
}

/// The hints for `state`, as many as its line of hints has room for.
pub fn hints(state: &State) -> Vec<Hint> {
    let (first, last) = ranked(state.context());
    let possible =
        |acts: &'static [Act]| acts.iter().copied().filter(|act| act.row().when.holds(state));
    let last: Vec<Act> = possible(last).collect();
    let acts = possible(first).take(MOST - last.len()).chain(last.iter().copied());
    let line = state.layout().hints;
    let mut x = line.x + hand(state).width() as u16;
    let mut hints = Vec::new();
    for act in acts {
        let Some(key) = state.keymap.shown(act) else { continue };
        let word = act.row().word;
        let width = (key.width() + 1 + word.width()) as u16;
        if x.saturating_add(width) > line.right() {
            break;
        }
        hints.push(Hint { act, key, word, area: Rect::new(x, line.y, width, line.height) });
        x += width + BETWEEN.width() as u16;
    }
    hints
}

/// What stands before the hints: the word for what has the keys.
pub fn hand(state: &State) -> String {
    format!(" {} │ ", state.context().word())
}
