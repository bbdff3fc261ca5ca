//! The passage of the route, and the leg that is read: kept up to date with what they follow from.

mod unroll;

use crate::{Command, State};

/// Brings the passage and the leg strip up to date.
pub(super) fn follow(state: &mut State) -> Vec<Command> {
    unroll::follow(state);
    Vec::new()
}
