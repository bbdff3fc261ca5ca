//! Places as they are typed, caught by the nearest shore.

use ::chart::coast::ShorePoint;
use anyhow::anyhow;
use files::OpenedChart;
use nav::{Figures, GridPoint, Length, Position, geodesic};

use crate::place;

/// An end of a piece of shore.
pub(super) struct End {
    /// As it was typed.
    pub(super) text: String,
    /// Where on the shore it was caught.
    pub(super) on: ShorePoint,
    /// The same by latitude and longitude.
    pub(super) position: Position,
    /// Its grid reference, or empty where the grid has none.
    pub(super) reference: String,
    /// How far from what was typed that is, on the ground.
    pub(super) caught: Length,
}

impl End {
    /// The place on the shore nearest to what `text` means.
    pub(super) fn find(opened: &OpenedChart, text: &str) -> anyhow::Result<End> {
        let meant = place::meant(&opened.chart, text.trim())?;
        let near = opened
            .coast
            .nearest(meant, f64::INFINITY)
            .ok_or_else(|| anyhow!("there is no shore near {text}"))?;
        let position = super::position(opened, near.on.at)?;
        let caught = geodesic::inverse(super::position(opened, meant)?, position).distance;
        let point = GridPoint::from_metres(near.on.at.x, near.on.at.y)?;
        let reference = opened.chart.grid.reference(point, Figures::Eight).unwrap_or_default();
        Ok(End { text: text.trim().to_owned(), on: near.on, position, reference, caught })
    }
}
