//! Where the stream breaks, and the narrows that it shuts.

use serde::Deserialize;

use super::{Point, Ring};
use crate::format::fields::{name, note, pair, some};

/// A place where the stream breaks: a race or overfalls.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Race {
    /// Its name.
    #[serde(deserialize_with = "name")]
    pub name: String,
    /// Where it breaks at its worst.
    pub edge: Ring,
    /// When it runs, in figures; nothing where that is not known.
    #[serde(default, deserialize_with = "some")]
    pub runs: Option<Runs>,
    /// When and how it runs, in words.
    #[serde(default, deserialize_with = "note")]
    pub note: String,
}

/// When a race runs: by the stream at one station.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Runs {
    /// The station whose stream makes it.
    #[serde(deserialize_with = "name")]
    pub station: String,
    /// The rate there under which the race lies down, in knots.
    pub quiet_under_kn: f64,
    /// The rate there over which the race is at its worst, in knots.
    pub worst_over_kn: f64,
    /// The sets with which it runs, in degrees true, each from the first clockwise to the second;
    /// none where it runs whichever way the stream sets.
    #[serde(default)]
    pub sets_deg: Vec<(f64, f64)>,
}

/// A narrows that is passed only while its stream is slow enough.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Gate {
    /// Its name.
    #[serde(deserialize_with = "name")]
    pub name: String,
    /// The line across the narrows, from shore to shore.
    #[serde(deserialize_with = "pair")]
    pub line: (Point, Point),
    /// The station whose stream shuts it.
    #[serde(deserialize_with = "name")]
    pub station: String,
    /// The rate there from which the gate is shut, in knots.
    pub limit_kn: f64,
    /// The height of tide that it needs besides, if it has a sill.
    #[serde(default, deserialize_with = "some")]
    pub sill: Option<Sill>,
    /// A word of advice, or empty.
    #[serde(default, deserialize_with = "note")]
    pub note: String,
}

/// The height of tide that a boat needs.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sill {
    /// The port at which the height counts.
    #[serde(deserialize_with = "name")]
    pub port: String,
    /// The least height there, in metres above chart datum.
    pub least_m: f64,
}
