//! A chart's own grid: a transverse Mercator about the chart with letters of its own.

use std::sync::Arc;

use super::lettering::{Lettering, LetteringError};
use super::plane::{Cell, Plane};
use super::{Accuracy, FromGrid, GridError, GridPoint, OnGrid, ReferenceError};
use crate::{OutOfRange, Position, TransverseMercator, Wgs84};

/// A chart's own grid on WGS 84.
///
/// A transverse Mercator projection whose origin and false coordinates the chart chooses,
/// cut into squares of 100 km that are lettered as the chart chooses, and numbered like
/// those of a national grid.
///
/// ```
/// use nav::{ChartGrid, Figures, Grid, GridPoint, Lettering, Position};
/// let lettering = Lettering::rows(GridPoint::from_metres(600_000.0, 300_000.0)?, &["QB"])?;
/// let grid = Grid::Chart(ChartGrid::new(
///     "Practice grid",
///     Position::from_degrees(47.3, -38.6)?,
///     1.0,
///     GridPoint::from_metres(670_000.0, 350_000.0)?,
///     lettering,
/// )?);
/// let landing = GridPoint::from_metres(673_149.0, 350_851.0)?;
/// assert_eq!(grid.reference(landing, Figures::Six)?, "QB 731 508");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct ChartGrid {
    shared: Arc<Definition>,
    projection: TransverseMercator<Wgs84>,
}

/// What the chart said, as it said it.
#[derive(Debug, PartialEq)]
struct Definition {
    title: String,
    origin: Position,
    scale: f64,
    false_origin: GridPoint,
    lettering: Lettering,
}

/// Why a chart's grid cannot be.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ChartGridError {
    /// A number is out of its range.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// The title is empty.
    #[error("the grid has no title")]
    NoTitle,
    /// The lettering cannot be.
    #[error(transparent)]
    Lettering(#[from] LetteringError),
}

impl ChartGrid {
    /// The grid where `origin` has the coordinates `false_origin`, and `scale` holds along
    /// the meridian of `origin`.
    ///
    /// # Errors
    /// [`ChartGridError`] when the title is empty, the scale not within 0.5 to 2, the latitude
    /// of the origin beyond 89 degrees, or the false coordinates beyond 10,000 km.
    pub fn new(
        title: &str,
        origin: Position,
        scale: f64,
        false_origin: GridPoint,
        lettering: Lettering,
    ) -> Result<ChartGrid, ChartGridError> {
        if title.trim().is_empty() {
            return Err(ChartGridError::NoTitle);
        }
        let most = (-1e7, 1e7);
        let bounds = "-10,000 to 10,000 km";
        OutOfRange::check("false easting", false_origin.easting.as_metres(), most, bounds)?;
        OutOfRange::check("false northing", false_origin.northing.as_metres(), most, bounds)?;
        let lat = origin.lat.as_degrees();
        OutOfRange::check("latitude of the origin", lat, (-89.0, 89.0), "-89 to 89 degrees")?;
        let projection = TransverseMercator::new(origin.lat, origin.lon, scale, false_origin)?;
        let title = title.trim().to_owned();
        let shared = Arc::new(Definition { title, origin, scale, false_origin, lettering });
        Ok(ChartGrid { shared, projection })
    }

    /// What the chart calls its grid.
    pub fn title(&self) -> &str {
        &self.shared.title
    }

    /// The position that has the coordinates [`false_origin`](Self::false_origin).
    pub fn origin(&self) -> Position {
        self.shared.origin
    }

    /// The scale along the meridian of the origin.
    pub fn scale(&self) -> f64 {
        self.shared.scale
    }

    /// The coordinates of the origin.
    pub fn false_origin(&self) -> GridPoint {
        self.shared.false_origin
    }

    /// How its squares of 100 km are lettered.
    pub fn lettering(&self) -> &Lettering {
        &self.shared.lettering
    }
}

impl Plane for ChartGrid {
    fn forward(&self, position: Position) -> Result<OnGrid, GridError> {
        Ok(OnGrid::new(self.projection.forward(position)?, Accuracy::Projection))
    }

    fn forward_all(
        &self,
        positions: &[Position],
        points: &mut Vec<GridPoint>,
    ) -> Result<(), GridError> {
        Ok(self.projection.forward_all(positions, points)?)
    }

    fn inverse(&self, point: GridPoint) -> Result<FromGrid, GridError> {
        Ok(FromGrid::new(self.projection.inverse(point)?, Accuracy::Projection))
    }

    fn has_letters(&self) -> bool {
        self.lettering().is_lettered()
    }

    fn letters(&self, cell: Cell, _: GridPoint) -> Option<String> {
        self.lettering().name(cell).map(str::to_owned)
    }

    fn cell(&self, letters: &str, _: Option<GridPoint>) -> Result<Cell, ReferenceError> {
        self.lettering().find(letters)
    }

    fn covers(&self, cell: Cell) -> bool {
        !self.has_letters() || self.lettering().name(cell).is_some()
    }

    fn extent(&self) -> &'static str {
        "it reaches no farther than the projection and the lettered squares"
    }
}
