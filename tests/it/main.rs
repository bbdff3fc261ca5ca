//! The integration tests, in one binary: the house rules, the real program end to end,
//! and its numbers beside published ones.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test says by panicking")]

#[cfg(unix)]
mod bearings;
mod coast;
mod coast_walks;
mod depart;
#[cfg(unix)]
mod drill;
#[cfg(unix)]
mod driver;
mod exchange;
mod fixes;
mod guide;
#[cfg(unix)]
mod paper;
#[cfg(unix)]
mod passages;
mod practice;
mod progress;
mod real_coast;
mod screens;
mod screens_drill;
#[cfg(unix)]
mod sets;
#[cfg(unix)]
mod terminal;
mod tidy;
#[cfg(unix)]
mod tracing;
