//! Why the tides of a chart cannot be told.

use nav::OutOfRange;
use nav::stream::HourlyError;
use nav::tide::{PortError, RangesError, SecondaryError, UnknownConstituent};

use crate::printed::Misprint;
use crate::shore::OffGrid;

/// What on the chart cannot be told, and why.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum WaterError {
    /// A port.
    #[error("the tide at {port:?}: {why}")]
    Port {
        /// The port's name.
        port: String,
        /// Why.
        why: Fault,
    },
    /// A stream.
    #[error("the stream at {stream:?}: {why}")]
    Stream {
        /// The station's name.
        stream: String,
        /// Why.
        why: Fault,
    },
    /// A race.
    #[error("the race {race:?}: {why}")]
    Race {
        /// The race's name.
        race: String,
        /// Why.
        why: Fault,
    },
    /// A gate.
    #[error("the gate {gate:?}: {why}")]
    Gate {
        /// The gate's name.
        gate: String,
        /// Why.
        why: Fault,
    },
}

/// What is wrong with a port or a stream.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Fault {
    /// A constituent of no list.
    #[error(transparent)]
    Constituent(#[from] UnknownConstituent),
    /// A number that is none.
    #[error(transparent)]
    Number(#[from] OutOfRange),
    /// Constants that make no tide or stream.
    #[error(transparent)]
    Constants(#[from] PortError),
    /// Springs and neaps that cannot be told apart at the port that is named.
    #[error("springs and neaps at {port:?} are needed: {why}")]
    Ranges {
        /// The port.
        port: String,
        /// Why they cannot.
        why: RangesError,
    },
    /// A table that was typed in wrong.
    #[error(transparent)]
    Printed(#[from] Misprint),
    /// Differences on a table without a mean level.
    #[error("the table of {0:?} states no mean level, which differences on it need")]
    NoLevel(String),
    /// Differences that make no port.
    #[error(transparent)]
    Differences(#[from] SecondaryError),
    /// Rows that make no station.
    #[error(transparent)]
    Rows(#[from] HourlyError),
    /// A port that the chart does not have.
    #[error("the chart has no port {0:?}")]
    NoPort(String),
    /// A stream station that the chart does not have.
    #[error("the chart has no stream {0:?}")]
    NoStation(String),
    /// Differences on a port that has itself only differences.
    #[error("{0:?} has itself only differences, and cannot be a standard port")]
    NotStandard(String),
    /// A place off the grid.
    #[error(transparent)]
    OffGrid(#[from] OffGrid),
}
