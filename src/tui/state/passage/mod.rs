//! The passage of the route through the water, the leg that is read, and the starts of a day.

mod read;
mod starts;
mod unrolled;

pub use read::Of;
pub(crate) use starts::StartsAsked;
pub use starts::{FORTNIGHT, StartsBox, StartsFound, StartsGrid};
pub use unrolled::UnrolledLeg;
