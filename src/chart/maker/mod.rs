//! Makes believable charts of coasts that do not exist, from a seed.
//!
//! Ridges are laid out, bent and roughened at every size from a hill to a ledge, and flooded
//! (`relief`). Shores, drying ground and depth contours are lines of equal height through that
//! one relief, so that they nest and never cross (`contour`). What a paddler looks for is then
//! found on it: sheltered bays for landings, capes, narrows, lone rocks (`finds`).
//!
//! The same seed and wishes give the same chart, to the byte of its file, on every machine: only
//! integers, `+ - * /` and square roots are used, and coordinates are rounded to whole metres.

mod afloat;
mod ashore;
mod assemble;
mod basin;
mod body;
mod bold;
mod coast;
mod compass;
mod contour;
mod detail;
mod dice;
mod drawn;
mod finds;
mod flats;
mod frame;
mod gates;
mod names;
mod near;
mod relief;
mod scene;
mod sketch;
mod survey;
#[cfg(test)]
mod tests;
mod thin;
mod tides;
mod water;
mod wishes;

use nav::{ChartGrid, ChartGridError, Grid, GridPoint, Lettering, OutOfRange, Position};

use crate::model::Chart;
pub use wishes::{Character, Difficulty, TideRange, WishError, Wishes, size};

use assemble::assemble;
use coast::Coast;
use relief::Relief;
use sketch::Sketch;
use survey::Survey;

/// The least and the greatest side of a chart that can be made, in kilometres.
pub const SIDES_KM: (u32, u32) = (6, 80);

/// Why a chart cannot be made.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum MakeError {
    /// A side is too short or too long.
    #[error(
        "a chart of {width} by {height} km cannot be made; each side is {least} to {most} km",
        least = SIDES_KM.0, most = SIDES_KM.1
    )]
    Size {
        /// From west to east, in kilometres.
        width: u32,
        /// From south to north, in kilometres.
        height: u32,
    },
    /// The chart's grid cannot be.
    #[error(transparent)]
    Grid(#[from] ChartGridError),
    /// The chart's place on its grid cannot be.
    #[error(transparent)]
    Place(#[from] OutOfRange),
    /// The chart's grid does not reach where the chart lies.
    #[error(transparent)]
    Reach(#[from] nav::GridError),
}

/// The south-west corner of every chart that is made, in metres on its grid.
const SOUTH_WEST: (f64, f64) = (660_000.0, 340_000.0);

/// The chart of a seed: an archipelago in mid-ocean, with everything named.
///
/// ```
/// use chart::maker::{Wishes, make};
/// let wishes = Wishes { width_km: 10, height_km: 8, ..Wishes::default() };
/// let chart = make(7, &wishes)?;
/// assert!(chart.invented);
/// assert_eq!(chart, make(7, &wishes)?);
/// # Ok::<(), chart::maker::MakeError>(())
/// ```
///
/// # Errors
/// [`MakeError::Size`] when a side is not within [`SIDES_KM`].
pub fn make(seed: u64, wishes: &Wishes) -> Result<Chart, MakeError> {
    let (width, height) = (wishes.width_km, wishes.height_km);
    let fits = |side: u32| (SIDES_KM.0..=SIDES_KM.1).contains(&side);
    if !fits(width) || !fits(height) {
        return Err(MakeError::Size { width, height });
    }
    let sketch = Sketch::new(seed, wishes);
    let mut relief = Relief::new(seed, &sketch, wishes.tide);
    let lakes = water::settle(&mut relief);
    let coast = Coast::new(&relief, lakes.as_ref());
    let survey = Survey::new(&relief);
    assemble(seed, wishes, &sketch, &survey, &coast)
}

/// The grid of the charts that are made: about a meridian in the middle of the North Atlantic,
/// with one lettered square. The charts lie east of the meridian, so that grid north is seen to
/// differ from true north by almost two degrees.
fn ocean_grid() -> Result<Grid, MakeError> {
    let origin = Position::from_degrees(49.0, -31.0)?;
    let false_origin = GridPoint::from_metres(500_000.0, 300_000.0)?;
    let corner = GridPoint::from_metres(600_000.0, 300_000.0)?;
    let lettering = Lettering::rows(corner, &["QB"]).map_err(ChartGridError::from)?;
    let grid = ChartGrid::new("Ocean grid", origin, 0.9996, false_origin, lettering)?;
    Ok(Grid::Chart(grid))
}
