//! What the reader of a route's figures should know.

use std::fmt;

use nav::magnetic::FieldWarning;
use nav::{Accuracy, Figures, Grid, GridError};

use super::{Frame, LegReading, PointReading};
use crate::Route;

/// A word about the figures of a route.
#[derive(Debug, Clone, PartialEq)]
pub enum Warning {
    /// There is no departure: no clock times, and no date for the variation.
    NoDeparture,
    /// The grid does not reach some points: they have no references, and far off its legs have
    /// no grid bearings.
    OffGrid {
        /// The first of them, counted from one.
        point: usize,
        /// How many there are.
        points: usize,
        /// Why.
        why: GridError,
    },
    /// The grid is known less well than its references are written.
    Grid(Accuracy),
    /// The variation, or the compass itself, is not to be taken at its word.
    Variation {
        /// The first leg that it is about, counted from one.
        leg: usize,
        /// What about it.
        what: FieldWarning,
    },
}

impl fmt::Display for Warning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Warning::NoDeparture => f.write_str(
                "no departure is set: no clock times, and no magnetic bearings without a date",
            ),
            Warning::OffGrid { point, points: 1, why } => {
                write!(f, "point {point} has no grid reference: {why}")
            }
            Warning::OffGrid { point, points, why } => {
                write!(f, "point {point} and {} more have no grid reference: {why}", points - 1)
            }
            Warning::Grid(accuracy) => write!(f, "grid references: {accuracy}"),
            Warning::Variation { leg, what } => write!(f, "from leg {leg}: {what}"),
        }
    }
}

/// The warnings about a route, each kind once.
pub(super) fn of(
    route: &Route,
    points: &[PointReading],
    legs: &[LegReading],
    frame: &Frame<'_>,
) -> Vec<Warning> {
    let mut warnings = Vec::new();
    if route.departure.is_none() {
        warnings.push(Warning::NoDeparture);
    }
    warnings.extend(off_grid(points, frame.grid));
    let less_known = |point: &PointReading| match &point.on_grid {
        Ok(at) if matches!(at.accuracy, Accuracy::SevenParameter { .. }) => Some(at.accuracy),
        _ => None,
    };
    warnings.extend(points.iter().find_map(less_known).map(Warning::Grid));
    if frame.date.is_some() {
        warnings.extend(variation(legs));
    }
    warnings
}

/// The points without a reference: the projection does not reach them, or no letters do.
fn off_grid(points: &[PointReading], grid: &Grid) -> Option<Warning> {
    let why = |point: &PointReading| match &point.on_grid {
        Ok(at) => grid.reference(at.point, Figures::Six).err(),
        Err(why) => Some(why.clone()),
    };
    let mut off =
        points.iter().enumerate().filter_map(|(index, point)| Some((index + 1, why(point)?)));
    let (point, why) = off.next()?;
    Some(Warning::OffGrid { point, points: 1 + off.count(), why })
}

fn variation(legs: &[LegReading]) -> Vec<Warning> {
    let mut warnings: Vec<Warning> = Vec::new();
    for (index, reading) in legs.iter().enumerate() {
        for what in reading.variation.iter().flat_map(|at| &at.warnings) {
            let known = warnings.iter().any(|warning| {
                matches!(warning, Warning::Variation { what: before, .. }
                    if std::mem::discriminant(before) == std::mem::discriminant(what))
            });
            if !known {
                warnings.push(Warning::Variation { leg: index + 1, what: *what });
            }
        }
    }
    warnings
}
