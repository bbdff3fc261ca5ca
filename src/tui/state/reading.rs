//! What is read of the line of a trace.

use nav::Length;
use plan::Bearings;

/// What is read of a line laid along a shore.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Reading {
    /// Its length, side by side along geodesics.
    pub length: Option<Length>,
    /// The shortest line between its ends.
    pub straight: Option<Length>,
    /// The bearings of its first main stretch.
    pub first: Option<Bearings>,
    /// The bearings of its last main stretch.
    pub last: Option<Bearings>,
    /// For each step of a pair of dividers, the length that they find; nothing where they find none.
    pub walks: Vec<(Length, Option<Length>)>,
    /// How that length changes with the step: the slope of its logarithm on the step's.
    pub slope: Option<f64>,
}

impl Reading {
    /// How many times longer the line is than the shortest one between its ends; nothing where
    /// the ends are one point, to a metre.
    pub fn times_longer(&self) -> Option<f64> {
        let (length, straight) = (self.length?, self.straight?);
        (straight > Length::METRE).then(|| length / straight)
    }
}
