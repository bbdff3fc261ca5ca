//! The passage of the route through the water, the leg that is read, and the starts of a day.

mod read;
mod sailed;
mod starts;
mod unrolled;

pub use read::Of;
pub(crate) use sailed::CourseOf;
pub use sailed::{Sailed, Sailing};
pub(crate) use starts::StartsAsked;
pub use starts::{FORTNIGHT, StartsBox, StartsFound, StartsGrid};
pub(crate) use unrolled::MadeOf;
pub use unrolled::{GatePassed, RacePassed, UnrolledLeg};
