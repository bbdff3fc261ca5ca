//! The work that is being done beside the loop.

use std::collections::BTreeMap;

use crate::job::{Generation, Job, Outcome, Task, Ticket, Watch};

/// What was asked for and has not come yet.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Work {
    /// The request given last.
    last: Generation,
    running: BTreeMap<Task, Running>,
}

/// A piece of work being done.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Running {
    generation: Generation,
    /// Whether it takes so long that the reader is told.
    slow: bool,
    /// How far it is, from zero to one, if it says.
    done: Option<f64>,
}

impl Work {
    /// Asks for work. What was asked for the same before counts no more.
    pub(crate) fn ask(
        &mut self,
        task: Task,
        work: impl FnOnce(&dyn Watch) -> Option<Outcome> + Send + 'static,
    ) -> Job {
        self.last = Generation(self.last.0 + 1);
        let generation = self.last;
        self.running.insert(task, Running { generation, slow: false, done: None });
        Job::new(Ticket { task, generation }, work)
    }

    /// Lets what was asked for count no more. Whether anything was.
    pub(crate) fn drop(&mut self, task: Task) -> bool {
        self.running.remove(&task).is_some()
    }

    /// Takes note that work has ended. Whether it counts: nothing newer was asked for since, and
    /// it was not dropped.
    pub(crate) fn ended(&mut self, ticket: Ticket) -> bool {
        let counts = self.counts(ticket);
        if counts {
            self.running.remove(&ticket.task);
        }
        counts
    }

    /// Takes note of how far work is that takes long.
    pub(crate) fn goes_on(&mut self, ticket: Ticket, done: Option<f64>) {
        if self.counts(ticket)
            && let Some(running) = self.running.get_mut(&ticket.task)
        {
            running.slow = true;
            running.done = done.or(running.done);
        }
    }

    fn counts(&self, ticket: Ticket) -> bool {
        self.running.get(&ticket.task).is_some_and(|it| it.generation == ticket.generation)
    }

    /// Whether this is being done.
    pub fn does(&self, task: Task) -> bool {
        self.running.contains_key(&task)
    }

    /// What takes so long that the reader is told, and how far it is, from zero to one.
    pub fn slow(&self) -> Option<(Task, Option<f64>)> {
        self.running.iter().find(|(_, it)| it.slow).map(|(task, it)| (*task, it.done))
    }
}
