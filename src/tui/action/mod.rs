//! What can be done, by which keys, and when.

mod hints;
mod key;
mod keyfile;
mod keymap;
mod script;
mod table;
mod text;
mod when;

#[cfg(test)]
mod tests;

pub use hints::{BETWEEN, Hint, hand, hints};
pub use key::{Code, Key, KeyError, Named};
pub use keyfile::KeyFileError;
pub use keymap::Keymap;
pub use script::{ScriptError, Step, script};
pub use table::{Act, Action, Group, table};
pub use text::{key_table_markdown, sections};
pub use when::When;

/// What has the keys: a hand, or what lies open on top of the chart.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Context {
    /// The chart, nothing in hand.
    Look,
    /// The chart, the pencil in hand.
    Plot,
    /// The chart, a waypoint taken up.
    Carry,
    /// The chart, the thread in hand.
    Trace,
    /// The chart, an anchor of the trace taken up.
    Anchor,
    /// The chart, bearings in hand for a fix.
    Fix,
    /// The help overlay.
    Help,
    /// The table of legs laid over a small screen.
    Legs,
    /// The list of actions.
    List,
    /// The jump box.
    Jump,
    /// What dividers find, laid over the chart.
    Dividers,
    /// The day's tide as a curve, laid over the chart.
    Tide,
    /// A question with a line to answer in.
    Ask,
    /// The departure strip.
    Starts,
    /// The limits that starts are judged by.
    Limits,
    /// The chart, a question of practice in hand.
    Drill,
    /// The answer to it, being typed.
    Reply,
    /// The chart, a question of practice marked and explained, or practice over.
    Marked,
    /// What can be practised, in a list.
    Drills,
    /// How practice has gone.
    Progress,
}

impl Context {
    /// All of them.
    pub const ALL: &'static [Context] = &[
        Context::Look,
        Context::Plot,
        Context::Carry,
        Context::Trace,
        Context::Anchor,
        Context::Fix,
        Context::Help,
        Context::Legs,
        Context::List,
        Context::Jump,
        Context::Dividers,
        Context::Tide,
        Context::Ask,
        Context::Starts,
        Context::Limits,
        Context::Drill,
        Context::Reply,
        Context::Marked,
        Context::Drills,
        Context::Progress,
    ];

    /// The word for it in the manual.
    pub fn word(self) -> &'static str {
        match self {
            Context::Look => "look",
            Context::Plot => "plot",
            Context::Carry => "carry",
            Context::Trace => "trace",
            Context::Anchor => "anchor",
            Context::Fix => "fix",
            Context::Help => "help",
            Context::Legs => "legs",
            Context::List => "list",
            Context::Jump => "jump",
            Context::Dividers => "dividers",
            Context::Tide => "tide",
            Context::Ask => "ask",
            Context::Starts => "starts",
            Context::Limits => "limits",
            Context::Drill => "drill",
            Context::Reply => "answer",
            Context::Marked => "marked",
            Context::Drills => "practice",
            Context::Progress => "progress",
        }
    }

    /// Whether characters that are no keys of an action go into a line of text here.
    pub fn takes_text(self) -> bool {
        matches!(self, Context::List | Context::Jump | Context::Ask | Context::Reply)
    }
}
