//! What comes of work done beside the loop.

use super::{card, drill, moment, passage, thread};
use crate::job::{Outcome, Task, Ticket};
use crate::{Command, State};

/// Takes what came of work, if it still counts.
pub(super) fn worked(state: &mut State, ticket: Ticket, outcome: Outcome) -> Vec<Command> {
    if !state.work.ended(ticket) {
        return Vec::new();
    }
    match outcome {
        Outcome::Laid(laid) => thread::laid(state, laid),
        Outcome::Question(question, since) => drill::thrown(state, question, since),
        Outcome::Card(made) => card::made(state, made),
        Outcome::Starts(starts) => {
            passage::judged(state, starts);
            Vec::new()
        }
        Outcome::Sailed(sailed) => {
            passage::sailed(state, sailed);
            Vec::new()
        }
        Outcome::Read(reading) => {
            thread::read(state, reading);
            Vec::new()
        }
        Outcome::Field(found) => {
            moment::found(state, found);
            Vec::new()
        }
    }
}

/// Drops the work that the reader is told of, if there is any: the command that ends it. A question is not dropped: without
/// it there is nothing to go on with.
pub(super) fn give_up(state: &mut State) -> Option<Command> {
    let (task, _) = state.work.slow().filter(|(task, _)| *task != Task::Question)?;
    state.work.drop(task);
    if task == Task::Field {
        // Asked for again it would be begun again.
        state.settings.streams = false;
    }
    state.say(format!("gave up {}", task.words()));
    Some(Command::Abandon(task))
}
