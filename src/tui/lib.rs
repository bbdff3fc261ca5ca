//! Strandline's screen: state, update, view and the runtime that feeds them.
//!
//! What happens arrives as a [`Msg`]; [`update()`] changes the [`State`] and returns the
//! [`Command`]s that the runtime carries out; [`view()`] draws the state. Neither does any I/O
//! or reads a clock, so the whole screen can be driven without a terminal.

pub mod action;
pub mod draw;
pub mod driver;
pub mod glyphs;
pub mod job;
pub mod layout;
mod message;
pub mod picture;
mod runtime;
mod shot;
pub mod state;
#[cfg(test)]
mod testing;
pub mod theme;
mod update;
pub mod view;

pub use message::{Command, Gesture, Msg, Pointer, Wanted};
pub use runtime::{Options, run};
pub use shot::Shot;
pub use state::State;
pub use update::update;
pub use view::view;
