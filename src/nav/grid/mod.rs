//! Grids: planes of eastings and northings over a part of the Earth, and references on them.

mod chart;
mod lettering;
mod plane;
mod point;
mod reference;
mod utm;

use std::fmt;

pub use chart::{ChartGrid, ChartGridError};
pub use lettering::{Lettering, LetteringError};
pub use point::{Figures, GridPoint, Square};
pub use reference::ReferenceError;
pub use utm::{Hemisphere, Utm, UtmZone};

use crate::transverse_mercator::{Projected, TooFarFromMeridian, Unprojected};
use crate::{Convergence, Length, Position};
use plane::Plane;

/// A grid: what turns a position into easting and northing and a reference, and back.
///
/// A grid is a value: cheap to clone, compared by what it defines.
///
/// ```
/// use nav::{Figures, Grid, Position};
/// let zone = Grid::parse("UTM:30N")?;
/// let place = zone.forward(Position::from_degrees(59.153829, -2.893715)?)?;
/// assert_eq!(place.point.easting.as_metres().round(), 506_079.0);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub enum Grid {
    /// A zone of the Universal Transverse Mercator grid.
    Utm(Utm),
    /// A chart's own grid.
    Chart(ChartGrid),
}

/// A point on a grid, with how grid north and the scale lie there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnGrid {
    /// Its easting and northing.
    pub point: GridPoint,
    /// Grid north from true north, east positive.
    pub convergence: Convergence,
    /// Length on the grid over length on the ellipsoid.
    pub scale: f64,
    /// How well the change from WGS 84 to the grid's datum is known.
    pub accuracy: Accuracy,
}

/// A position read off a grid, with how grid north and the scale lie there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FromGrid {
    /// Its latitude and longitude.
    pub position: Position,
    /// Grid north from true north, east positive.
    pub convergence: Convergence,
    /// Length on the grid over length on the ellipsoid.
    pub scale: f64,
    /// How well the change from the grid's datum to WGS 84 is known.
    pub accuracy: Accuracy,
}

impl OnGrid {
    fn new(projected: Projected, accuracy: Accuracy) -> OnGrid {
        let Projected { point, convergence, scale } = projected;
        OnGrid { point, convergence, scale, accuracy }
    }
}

impl FromGrid {
    fn new(unprojected: Unprojected<crate::Wgs84>, accuracy: Accuracy) -> FromGrid {
        let Unprojected { position, convergence, scale } = unprojected;
        FromGrid { position, convergence, scale, accuracy }
    }
}

/// How well a position on WGS 84 and a point on a grid are known to be the same place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Accuracy {
    /// The grid is on WGS 84 itself or on a datum tied to it: the projection alone, which is exact.
    Projection,
    /// Through the published grid shift OSTN15, which defines the British National Grid.
    NationalShift,
    /// Through a change of datum by seven parameters, which is this far off in places.
    SevenParameter {
        /// The most that it is off by.
        error: Length,
    },
}

impl Accuracy {
    /// The most that the place may be off by.
    pub fn error(self) -> Length {
        match self {
            Accuracy::Projection => Length::metres(0.0001),
            Accuracy::NationalShift => Length::metres(0.1),
            Accuracy::SevenParameter { error } => error,
        }
    }
}

/// A sentence for the reader.
impl fmt::Display for Accuracy {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Accuracy::Projection => f.write_str("Exact: a projection of the same datum."),
            Accuracy::NationalShift => f.write_str("By the national grid shift OSTN15, to 0.1 m."),
            Accuracy::SevenParameter { error } => write!(
                f,
                "By a seven-parameter change of datum: up to about {} m off.",
                error.as_metres()
            ),
        }
    }
}

/// Why a position has no point on a grid, or a point no position or reference.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum GridError {
    /// The projection does not reach there.
    #[error(transparent)]
    TooFar(#[from] TooFarFromMeridian),
    /// The point is outside the grid's own area.
    #[error("{easting} {northing} is outside the grid: {extent}")]
    Outside {
        /// Easting in metres.
        easting: f64,
        /// Northing in metres.
        northing: f64,
        /// Where the grid is.
        extent: &'static str,
    },
}

/// A name that is no grid's.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error(
    "{0:?} names no grid: give an EPSG code (EPSG:27700, EPSG:29903, EPSG:2157, EPSG:32601 to 32660, 32701 to 32760), a UTM zone (UTM:30N) or MGRS"
)]
pub struct GridNameError(pub String);

impl Grid {
    /// The grid of a name: an EPSG code or a UTM zone (`UTM:30N`), in capitals or not.
    ///
    /// # Errors
    /// [`GridNameError`] when the name is none of these.
    pub fn parse(name: &str) -> Result<Grid, GridNameError> {
        let unknown = || GridNameError(name.to_owned());
        let upper = name.trim().to_ascii_uppercase();
        let zone = match upper.split_once(':') {
            Some(("UTM", zone)) => UtmZone::parse(zone),
            Some(("EPSG", code)) => code.parse().ok().and_then(UtmZone::from_epsg),
            _ => None,
        };
        zone.map(|zone| Grid::Utm(Utm::new(zone))).ok_or_else(unknown)
    }

    /// The grid's name, which [`Grid::parse`] takes; for a chart's own grid, its title.
    pub fn name(&self) -> String {
        match self {
            Grid::Utm(utm) => format!("UTM:{}", utm.zone()),
            Grid::Chart(chart) => chart.title().to_owned(),
        }
    }

    /// The grid point of `position`, with convergence, scale and accuracy there.
    ///
    /// # Errors
    /// [`GridError`] where the grid does not reach.
    pub fn forward(&self, position: Position) -> Result<OnGrid, GridError> {
        self.plane().forward(position)
    }

    /// The position of `point`, with convergence, scale and accuracy there.
    ///
    /// # Errors
    /// [`GridError`] where the grid does not reach.
    pub fn inverse(&self, point: GridPoint) -> Result<FromGrid, GridError> {
        self.plane().inverse(point)
    }

    /// The reference of `point`: letters and figures as on paper, `QB 731 508`.
    ///
    /// It is truncated, never rounded: it names the square that the point lies in. A
    /// coordinate within 0.1 mm short of a grid line counts as on it, so that the noise of
    /// floating point cannot move a point on a line into the next square. On a grid without
    /// letters it is the full easting and northing in whole metres, whatever the figures.
    ///
    /// # Errors
    /// [`GridError`] outside the grid's lettered squares.
    pub fn reference(&self, point: GridPoint, figures: Figures) -> Result<String, GridError> {
        reference::write(self.plane(), point, figures)
    }

    /// The square that a reference names. `near` tells which, where the letters are left out:
    /// the nearest that the figures fit.
    ///
    /// Taken are letters and 2, 4, 6, 8 or 10 figures, with spaces or without, in capitals or
    /// not (`QB731508`, `qb 731 508`); the figures alone (`731508`, `731 508`); and the full
    /// easting and northing (`673100 350800`, `673100.5, 350800.2`), which names a square of
    /// a metre, or of the last decimal. Two groups of up to five figures are full coordinates
    /// only with a comma between them.
    ///
    /// # Errors
    /// [`ReferenceError`] names what is wrong.
    pub fn parse_reference(
        &self,
        text: &str,
        near: Option<GridPoint>,
    ) -> Result<Square, ReferenceError> {
        reference::read(self.plane(), text, near)
    }

    fn plane(&self) -> &dyn Plane {
        match self {
            Grid::Utm(utm) => utm,
            Grid::Chart(chart) => chart,
        }
    }
}

#[cfg(test)]
mod tests;
