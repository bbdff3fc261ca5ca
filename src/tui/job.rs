//! Work that may take longer than a frame: done beside the loop, its result a message.
//!
//! `update` describes the work and goes on at once; the runtime does it on a thread of its own,
//! the tests where they stand. Of each [`Task`] only the work asked for last counts: whatever an
//! earlier one brings finds its [`Generation`] gone and changes nothing.

use std::fmt;
use std::sync::Arc;

use nav::Length;

/// What work is done for. There is one piece of each at a time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Task {
    /// The line of the trace, with its stand-off.
    Lay,
    /// The lengths that dividers find along it.
    Walks,
}

impl Task {
    /// All of them.
    pub const ALL: [Task; 2] = [Task::Lay, Task::Walks];

    /// What is being done, as the foot of the screen says it.
    pub fn words(self) -> &'static str {
        match self {
            Task::Lay => "laying the line",
            Task::Walks => "walking the dividers",
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
    /// Says that this part of the work, from zero to one, is done. Whether to go on.
    fn go_on(&self, done: f64) -> bool;
}

/// A watch that lets everything be done.
#[derive(Debug, Clone, Copy)]
pub struct Unwatched;

impl Watch for Unwatched {
    fn go_on(&self, _: f64) -> bool {
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
    /// Of [`Task::Walks`].
    Walks(Arc<Walks>),
}

/// The lengths that dividers find along a line.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Walks {
    /// For each step, the length; nothing where the ends are nearer than the step.
    pub lengths: Vec<(Length, Option<Length>)>,
    /// How the length changes with the step, as the slope of its logarithm on the step's.
    pub slope: Option<f64>,
}
