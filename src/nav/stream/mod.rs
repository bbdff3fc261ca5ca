//! Tidal streams at a station: from hourly tables, from harmonic constants, or from a greatest rate.
//!
//! Every kind of station gives a [`Run`]: its stream over a stretch of time as a vector that goes in a
//! straight line from one knot to the next, so that a direction never turns through the wrong side
//! of north, and slack, turns and the hours under a limit are exact roots. What lies between
//! stations, and eddies close in, is not known here.

mod axis;
mod hourly;
mod rule;
mod run;
mod setting;

pub use axis::{AxisStation, StreamHarmonic};
pub use hourly::{HighWater, HourlyError, HourlyRow, HourlyStation, high_waters};
pub use rule::{GreatestRates, Rule};
pub use run::{Greatest, Run, StreamTurn, Under};
pub(crate) use run::{Knot, Vector, stream, toward, vector};

#[cfg(test)]
mod tests;
