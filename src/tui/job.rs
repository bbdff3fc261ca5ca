//! Work that may take longer than a frame: done beside the loop, its result a message.
//!
//! `update` describes the work and goes on at once; the runtime does it on a thread of its own,
//! the tests where they stand. Of each [`Task`] only the work asked for last counts: whatever an
//! earlier one brings finds its [`Generation`] gone and changes nothing.

use std::fmt;
use std::sync::Arc;

use chart::trace::Laid;
use chart::water::Shares;
use jiff::Timestamp;
use plan::depart::Starts;
use practice::Question;

use crate::state::{Node, Reading, Sailed};

/// What work is done for. There is one piece of each at a time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Task {
    /// The line of the trace at its stand-off.
    Lay,
    /// What is read of the line: its stretches, and what dividers find along it.
    Read,
    /// Whose streams the points of the drawing have.
    Field,
    /// The passage of the route.
    Sail,
    /// The starts of a day, or of some days.
    Starts,
    /// The deck card of the route.
    Card,
    /// The next question of practice.
    Question,
}

impl Task {
    /// All of them.
    pub const ALL: [Task; 7] =
        [Task::Lay, Task::Read, Task::Field, Task::Sail, Task::Starts, Task::Card, Task::Question];

    /// What is being done, as the foot of the screen says it.
    pub fn words(self) -> &'static str {
        match self {
            Task::Lay => "laying the line off the shore",
            Task::Read => "measuring the line",
            Task::Field => "looking for the stations of the streams in sight",
            Task::Sail => "walking the route through the streams",
            Task::Starts => "judging every start",
            Task::Card => "making the card",
            Task::Question => "looking for a question",
        }
    }
}

/// Which request a piece of work answers. Each is given once.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Generation(pub(crate) u64);

/// A request for work and the result that came of it belong together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Ticket {
    /// What it is for.
    pub task: Task,
    /// Which request.
    pub generation: Generation,
}

/// How work is watched while it is done: it says how far it is, and learns whether it still counts.
pub trait Watch {
    /// Whether to go on, asked with how much of the work is done, from zero to one, if that is known.
    fn go_on(&self, done: Option<f64>) -> bool;
}

/// A watch that lets everything be done.
#[derive(Debug, Clone, Copy)]
pub struct Unwatched;

impl Watch for Unwatched {
    fn go_on(&self, _: Option<f64>) -> bool {
        true
    }
}

/// The work itself. It gives nothing when it was told not to go on.
type Work = Box<dyn FnOnce(&dyn Watch) -> Option<Outcome> + Send>;

/// Work to be done.
pub struct Job {
    ticket: Ticket,
    work: Work,
}

impl Job {
    /// Work for `ticket`.
    pub fn new(
        ticket: Ticket,
        work: impl FnOnce(&dyn Watch) -> Option<Outcome> + Send + 'static,
    ) -> Job {
        Job { ticket, work: Box::new(work) }
    }

    /// Which request it answers.
    pub fn ticket(&self) -> Ticket {
        self.ticket
    }

    /// Does it.
    pub fn run(self, watch: &dyn Watch) -> Option<Outcome> {
        (self.work)(watch)
    }
}

impl fmt::Debug for Job {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_tuple("Job").field(&self.ticket).finish()
    }
}

/// One ticket, one job.
impl PartialEq for Job {
    fn eq(&self, other: &Job) -> bool {
        self.ticket == other.ticket
    }
}

/// What came of work.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// Of [`Task::Lay`]: the line at its stand-off, or why it was not laid.
    Laid(Result<Arc<Laid>, String>),
    /// Of [`Task::Read`].
    Read(Arc<Reading>),
    /// Of [`Task::Field`].
    Field(Vec<(Node, Shares)>),
    /// Of [`Task::Sail`]: the passage, or why there is none.
    Sailed(Result<Arc<Sailed>, String>),
    /// Of [`Task::Starts`]: the starts of each day, or why there are none.
    Starts(Result<Arc<Vec<Starts>>, String>),
    /// Of [`Task::Card`]: the card, or why there is none.
    Card(Result<Made, String>),
    /// Of [`Task::Question`]: the question and when it was put; nothing where the chart has none.
    Question(Option<Arc<Question>>, Timestamp),
}

/// A card as it leaves.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Made {
    /// The file.
    pub bytes: Vec<u8>,
    /// How large its pages are.
    pub size: paper::card::Size,
    /// How many sides it has.
    pub sides: usize,
}
