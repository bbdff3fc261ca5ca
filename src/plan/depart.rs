//! When to leave: every start of a day judged by the limits that the user set.
//!
//! A [`Start`] is acceptable when it keeps within the [`Limits`](crate::Limits), and acceptable means
//! no more than that. [`Starts`] are those of one civil day, with the best of them, which is the
//! quickest acceptable, and the latest acceptable; [`Strip`] is the day in cells, for whoever draws it.

mod days;
mod departures;
mod group;
mod judge;
mod light;
mod reason;
mod start;
mod starts;
mod strip;
mod verdict;
mod walk;

#[cfg(test)]
mod tests;

pub use days::{DayError, Every, civil_day};
pub use departures::{Days, DepartError, Departures};
pub use group::Group;
pub use light::{Dark, Light, Lights, Sky};
pub use reason::{Kind, Reason};
pub use start::{Landing, Start};
pub use starts::{GateHours, LandingPort, Starts};
pub use strip::{Cell, Strip};
pub use verdict::Verdict;
