//! What happens changes the state. No I/O, no clock.

use crate::{Command, Msg, State};

/// Changes `state` by what happened and returns what the runtime has to do about it.
pub fn update(state: &mut State, msg: Msg) -> Vec<Command> {
    match msg {
        Msg::Resize(size) => state.size = size,
        _ => {}
    }
    Vec::new()
}
