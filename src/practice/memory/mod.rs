//! The memory: what was answered, what comes back when, what still goes wrong, and how it has gone.
//!
//! A [`Record`] is all that is kept; everything else follows from it and an instant, which comes in from the edge: when each
//! kind of exercise comes back and how hard ([`Schedule`]), which mistake recurs ([`weaknesses`]), how each skill has
//! gone ([`progress`]).

mod class;
pub mod plot;
mod progress;
mod record;
mod schedule;
mod table;
#[cfg(test)]
mod tests;
mod told;
mod weakness;

pub use class::{Asked, Class, Learner, class};
pub use progress::{Gone, Progress, Week, progress};
pub use record::{Answered, Outcome, Record};
pub use schedule::{Item, Schedule};
pub use table::{RecordError, read, write};
pub use told::due;
pub use weakness::{Weakness, weaknesses};
