//! What reaches the screen, and what it asks of the runtime.

use std::sync::Arc;

use jiff::Timestamp;
use practice::Plan;
use practice::memory::{Answered, Record};
use ratatui::layout::Size;

use crate::action::{Act, Key};
use crate::job::{Job, Made, Outcome, Task, Ticket};

/// Something that happened.
#[derive(Debug, Clone, PartialEq)]
pub enum Msg {
    /// A key was pressed.
    Key(Key),
    /// Text was pasted.
    Paste(String),
    /// The pointer did something.
    Pointer(Pointer),
    /// The screen has another size.
    Resize(Size),
    /// The terminal window lost the keyboard, and with it the pointer's release.
    FocusLost,
    /// An action was asked for other than by its key.
    Act(Act),
    /// The route as it stood at this many changes is on disk.
    Saved,
    /// It is on disk, and what another program had written there meanwhile is kept in this file.
    SavedOver(String),
    /// The route could not be saved, and why.
    SaveFailed(String),
    /// The card is on disk.
    CardPut {
        /// In this file.
        path: String,
        /// How large its pages are.
        size: paper::card::Size,
        /// How many sides it has.
        sides: usize,
    },
    /// The card could not be put on disk, and why.
    CardFailed(String),
    /// It is time to try again what failed.
    Retry,
    /// It is time to move the instant on that is looked at, while it plays.
    Tick,
    /// What the clock says, which was asked for, and for what.
    Clock(Wanted, Timestamp),
    /// Something is to be practised at once.
    Practise(Plan),
    /// Everything that was ever answered in practice, or why it cannot be read.
    Record(Result<Arc<Record>, String>),
    /// What was answered is kept: everything with it.
    ResultKept(Arc<Record>),
    /// What was answered could not be kept, and why.
    ResultNotKept(String),
    /// Work goes on for so long that the reader is told, and is so far done, from zero to one.
    Working {
        /// Which request it answers.
        ticket: Ticket,
        /// How far it is, if it says.
        done: Option<f64>,
    },
    /// Work is done.
    Worked {
        /// Which request it answers; it counts only while that is the last of its task.
        ticket: Ticket,
        /// What came of it.
        outcome: Outcome,
    },
}

/// What the clock is looked at for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Wanted {
    /// The water as it is now.
    Water,
    /// The list of what can be practised.
    Drills,
    /// The page of progress.
    Progress,
    /// A sitting, to begin it.
    Sitting(Plan),
    /// The next question of the sitting.
    Question,
    /// A question that was marked: when that was.
    Result,
    /// The sitting was laid down: when that was.
    LaidDown,
    /// The sitting that was laid down, to go on with it.
    TakenUp,
}

/// What the pointer did, at a cell of the screen counted from zero.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pointer {
    /// What it did.
    pub what: Gesture,
    /// The column.
    pub column: u16,
    /// The row.
    pub row: u16,
}

/// What a pointer can do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Gesture {
    /// The button went down.
    Press,
    /// It moved with the button down.
    Drag,
    /// The button came up.
    Release,
    /// It moved with the button up.
    Hover,
    /// The wheel turned away from the hand.
    WheelUp,
    /// The wheel turned towards the hand.
    WheelDown,
}

/// What the runtime is asked to do.
#[derive(Debug, PartialEq)]
pub enum Command {
    /// Write the route to disk.
    Save,
    /// Put the card beside the route's file.
    PutCard(Made),
    /// Draw the whole screen again.
    Redraw,
    /// Look at the clock and send what it says, for this.
    Clock(Wanted),
    /// Read what was ever answered in practice, and send it.
    OpenRecord,
    /// Keep what was answered in practice, and send what came of it.
    KeepResult(Answered),
    /// Keep where the reader is, so that it is found again even if the program never ends well.
    KeepSession,
    /// Give the terminal back to the shell until the program is continued.
    Suspend,
    /// Do work beside the loop and send what comes of it. What was done for the same task before
    /// counts no more.
    Compute(Job),
    /// End work of which nothing is wanted any more.
    Abandon(Task),
    /// Leave.
    Quit,
}
