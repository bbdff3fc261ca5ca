//! Practice: exercises on a chart, marking that names the mistake, and a memory for what still goes wrong.
//!
//! A chart and a seed come in and questions go out; an answer comes in and a mark goes out. The crate is pure: it reads no
//! file, no clock and no environment.
//!
//! **The same question everywhere.** [`ask`] throws dice of whole numbers, and what it reckons is rounded to the figures that are
//! printed; where a rounding is so close that the last bit of a sine could decide it, the dice are thrown again. Of one chart,
//! kind, seed and level the question is the same on every machine.
//!
//! A coach's exercise set ([`set`]) is a value of its own: a file that is shared, the same questions for everybody.
//!
//! **Marking.** A [`Question`] knows the right answer, how near to it a hand with real instruments comes, and what comes
//! of each mistake that is usual there. An answer that is wrong is compared with them: of those within whose tolerance it lies the nearest is told, of
//! those as near the likeliest, and before both the one that this learner made lately.
//! What a mistake comes to is left out where it is within the tolerance of the right answer: nothing right is called wrong.

mod ask;
mod dice;
mod drawn;
pub mod figure;
mod ground;
mod kind;
mod mark;
pub mod memory;
mod mistake;
mod question;
mod reply;
mod series;
pub mod set;
mod sheet;
mod sitting;
#[cfg(test)]
mod tests;
mod water;
mod words;

pub use ask::ask;
pub use dice::{kind_of, seed_of};
pub use ground::{Ground, Spot};
pub use kind::{Kind, Level, NoKind, NoLevel, Skill};
pub use mark::Mark;
pub use mistake::{Mistake, MistakeKind};
pub use question::{Answer, Choice, NorthOf, Question, Shown, Table, Tolerance, Unit};
pub use reply::{NotUnderstood, Reply};
pub use sheet::Sheet;
pub use sitting::{Long, Plan, Sitting, Tally};
