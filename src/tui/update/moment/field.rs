//! Whose streams the drawing shows: found out beside the loop, a point once.

use std::sync::Arc;

use chart::water::Shares;

use crate::job::{Outcome, Task};
use crate::layout::Shape;
use crate::state::Node;
use crate::{Command, State};

/// How many points are found out between two looks whether to go on.
const AT_ONCE: usize = 16;

/// Asks for what is in sight and not known yet. One request at a time: while the view moves, each
/// would else be given up for the next.
pub(crate) fn ask(state: &mut State) -> Option<Command> {
    let idle = !state.work.does(Task::Field) && state.layout().shape != Shape::TooSmall;
    let tides = state.tides().filter(|_| idle && state.draws_streams())?.clone();
    let nodes = state.unknown_nodes();
    if nodes.is_empty() {
        return None;
    }
    let coast = Arc::clone(state.coast());
    let job = state.work.ask(Task::Field, move |watch| {
        let mut found = Vec::with_capacity(nodes.len());
        for some in nodes.chunks(AT_ONCE) {
            if !watch.go_on(Some(found.len() as f64 / nodes.len() as f64)) {
                return None;
            }
            found.extend(some.iter().map(|node| (*node, tides.shares(&coast, node.at()))));
        }
        Some(Outcome::Field(found))
    });
    Some(Command::Compute(job))
}

/// Keeps what was found out.
pub(crate) fn found(state: &mut State, found: Vec<(Node, Shares)>) {
    state.moment.field.keep(found);
}
