//! The tide: its height at a port by harmonic prediction, its high and low waters, springs and neaps.
//!
//! A [`Port`] is a mean level above the datum of its charts, and the amplitude and phase of each
//! [`Constituent`]. Astronomical arguments and node factors come from the formulas of
//! P. Schureman, *Manual of Harmonic Analysis and Prediction of Tides*, Coast and Geodetic Survey
//! Special Publication 98 (1940 edition), for any instant from 1900 to 2100; no table of years is
//! used. A [`Curve`] is a port's tide over a stretch of time, made ready for many questions.
//!
//! Stands of the tide: where shallow water flattens the curve it may turn, come back by a centimetre and
//! turn again, or halt without turning. [`Curve::turns`] has every turn, however small;
//! [`Curve::high_and_low_waters`] leaves out, by turns and the least first, those whose rise is less than
//! the reader says, and [`Curve::stand`] says for how long the water stands about a turn. About a flat low
//! water the printed minute of two predictors may differ by half an hour while their heights agree to
//! the printed digit: times are compared where the curve is not flat, heights everywhere.
//!
//! What is left out: weather, surge, seiches and the river in flood. A prediction is no promise;
//! the official tables come first.

mod astro;
mod constituent;
mod curve;
mod height;
mod moon;
mod node;
mod port;
mod printed;
mod secondary;
mod springs;
mod table;
mod turns;

pub use constituent::{AngularSpeed, Constituent, PhaseLag, UnknownConstituent};
pub use curve::{Curve, Heights};
pub use height::Height;
pub use moon::{MoonPhase, moon_phases};
pub use node::NodalFactors;
pub use port::{Harmonic, Port, PortError};
pub use printed::{Interpolated, Printed, PrintedError};
pub use secondary::{
    AirPressure, ClockDifferences, Differences, HeightDifference, Seasonal, SecondaryError,
    SecondaryPort, TimeDifference,
};
pub use springs::{Form, MeanRanges, Phase, RangesError, SpringsError, TideKind};
pub use turns::{Stand, Turn, Water};

#[cfg(test)]
mod tests;
