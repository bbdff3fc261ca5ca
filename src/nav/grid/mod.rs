//! Grids: planes of eastings and northings over a part of the Earth, and references on them.

mod answer;
mod british;
mod chart;
mod irish;
mod lettering;
mod letters;
mod mgrs;
mod name;
mod ostn15;
mod plane;
mod point;
mod reference;
mod ups;
mod utm;
mod world_mercator;
mod zone;

pub use answer::{Accuracy, FromGrid, GridError, OnGrid};
pub use british::BritishNational;
pub use chart::{ChartGrid, ChartGridError};
pub use irish::{Irish, IrishTransverseMercator};
pub use lettering::{Lettering, LetteringError};
pub use name::GridNameError;
pub use point::{Figures, GridPoint, Square};
pub use reference::ReferenceError;
pub use ups::Ups;
pub use utm::Utm;
pub use world_mercator::WorldMercator;
pub use zone::{Hemisphere, UtmZone};

use crate::Position;
use plane::Plane;
use reference::Written;

/// A grid: what turns a position into easting and northing and a reference, and back.
///
/// A grid is a value: cheap to clone, compared by what it defines.
///
/// ```
/// use nav::{Figures, Grid, Position};
/// let grid = Grid::parse("EPSG:27700")?;
/// let place = grid.forward(Position::from_degrees(52.658007833, 1.716073973)?)?;
/// assert_eq!(grid.reference(place.point, Figures::Six)?, "TG 514 131");
/// assert_eq!(place.accuracy.to_string(), "to 0.1 m: by the national grid shift OSTN15");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub enum Grid {
    /// The British National Grid (EPSG:27700).
    BritishNational(BritishNational),
    /// The Irish Grid (EPSG:29903).
    Irish(Irish),
    /// Irish Transverse Mercator (EPSG:2157).
    IrishTransverseMercator(IrishTransverseMercator),
    /// A zone of the Universal Transverse Mercator grid.
    Utm(Utm),
    /// The Universal Polar Stereographic grid around a pole.
    Ups(Ups),
    /// The Military Grid Reference System: each place on the grid of its own zone, so that
    /// there are references over the whole Earth, but no one plane of coordinates.
    Mgrs,
    /// World Mercator (EPSG:3395): the Earth between 89.5° S and 89.5° N on one plane, whose
    /// metres are not metres on the ground, and whose references are those of MGRS.
    WorldMercator(WorldMercator),
    /// A chart's own grid.
    Chart(ChartGrid),
}

/// The square that a reference names, with the grid that it lies on.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// The grid of the square's coordinates: for MGRS, that of its zone.
    pub grid: Grid,
    /// The square.
    pub square: Square,
}

impl Found {
    /// The position of the square's middle, the best single point for it.
    ///
    /// # Errors
    /// [`GridError`] where the grid does not reach.
    pub fn centre(&self) -> Result<FromGrid, GridError> {
        self.grid.inverse(self.square.centre())
    }

    /// The position of the square's south-west corner, which the figures give.
    ///
    /// # Errors
    /// [`GridError`] where the grid does not reach.
    pub fn south_west(&self) -> Result<FromGrid, GridError> {
        self.grid.inverse(self.square.south_west)
    }
}

impl Grid {
    /// The grid point of `position`, with convergence, scale and accuracy there.
    ///
    /// On MGRS, easting and northing are those of the position's own zone.
    ///
    /// # Errors
    /// [`GridError`] where the grid does not reach.
    pub fn forward(&self, position: Position) -> Result<OnGrid, GridError> {
        match self.plane() {
            Some(plane) => plane.forward(position),
            None => self.at(position).forward(position),
        }
    }

    /// Appends to `points` the grid points of `positions`, in their order: those of
    /// [`forward`](Self::forward), without what else it tells, in a fraction of the time.
    ///
    /// # Errors
    /// [`GridError`] where the grid does not reach, and on MGRS, which is no one plane; what was
    /// appended before it stays.
    pub fn forward_all(
        &self,
        positions: &[Position],
        points: &mut Vec<GridPoint>,
    ) -> Result<(), GridError> {
        self.plane().ok_or(GridError::NoZone)?.forward_all(positions, points)
    }

    /// The position of `point`, with convergence, scale and accuracy there.
    ///
    /// # Errors
    /// [`GridError`] where the grid does not reach, and on MGRS, which is no one plane.
    pub fn inverse(&self, point: GridPoint) -> Result<FromGrid, GridError> {
        self.plane().ok_or(GridError::NoZone)?.inverse(point)
    }

    /// The reference of `point`: letters and figures as on paper, `QB 731 508`.
    ///
    /// It is truncated, never rounded: it names the square that the point lies in. A
    /// coordinate within 0.1 mm short of a grid line counts as on it, so that the noise of
    /// floating point cannot move a point on a line into the next square. On a grid without
    /// letters it is the full easting and northing in whole metres, whatever the figures.
    ///
    /// # Errors
    /// [`GridError`] outside the grid's lettered squares, and on MGRS, which is no one plane:
    /// there [`reference_at`](Self::reference_at) serves.
    pub fn reference(&self, point: GridPoint, figures: Figures) -> Result<String, GridError> {
        match self {
            Grid::WorldMercator(grid) => grid.reference(point, figures),
            _ => reference::write(self.plane().ok_or(GridError::NoZone)?, point, figures),
        }
    }

    /// The letters of the square of 100 km that `point` lies in: `QB`, `30V WL`; nothing
    /// outside the grid's lettered squares, and on a grid without letters.
    pub fn square_letters(&self, point: GridPoint) -> Option<String> {
        match self {
            Grid::WorldMercator(grid) => grid.square_letters(point),
            _ => self.plane()?.letters(plane::Cell::of(point), point),
        }
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
    /// On World Mercator the square of an MGRS reference is laid by its middle, upright; the
    /// exact one, on the grid of its zone, is that of [`find`](Self::find).
    ///
    /// # Errors
    /// [`ReferenceError`] names what is wrong.
    pub fn parse_reference(
        &self,
        text: &str,
        near: Option<GridPoint>,
    ) -> Result<Square, ReferenceError> {
        match self {
            Grid::WorldMercator(grid) => grid.square(text, near),
            _ => reference::read(self.plane().ok_or(ReferenceError::NoZone)?, text, near),
        }
    }

    /// The reference of `position`, on every grid; otherwise as [`reference`](Self::reference).
    ///
    /// ```
    /// use nav::{Figures, Grid, Position};
    /// let place = Position::from_degrees(59.153829, -2.893715)?;
    /// assert_eq!(Grid::Mgrs.reference_at(place, Figures::Six)?, "30V WL 060 571");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    ///
    /// # Errors
    /// [`GridError`] where the grid does not reach or has no letters.
    pub fn reference_at(&self, position: Position, figures: Figures) -> Result<String, GridError> {
        let grid = self.at(position);
        grid.reference(grid.forward(position)?.point, figures)
    }

    /// The square that a reference names, on every grid; otherwise as
    /// [`parse_reference`](Self::parse_reference).
    ///
    /// ```
    /// use nav::Grid;
    /// let found = Grid::Mgrs.find("30VWL060571", None)?;
    /// assert_eq!(found.grid.name(), "UTM:30N");
    /// assert_eq!(found.square.south_west.northing.as_metres(), 6_557_100.0);
    /// # Ok::<(), nav::ReferenceError>(())
    /// ```
    ///
    /// # Errors
    /// [`ReferenceError`] names what is wrong.
    pub fn find(&self, text: &str, near: Option<Position>) -> Result<Found, ReferenceError> {
        let full = || matches!(Written::read(text), Ok(Written::Full { .. }));
        let grid = match self {
            Grid::WorldMercator(_) if full() => self.clone(),
            Grid::Mgrs | Grid::WorldMercator(_) => grid_of_mgrs(text, near)?,
            grid => grid.clone(),
        };
        let near = near.and_then(|position| grid.forward(position).ok()).map(|there| there.point);
        let square = grid.parse_reference(text, near)?;
        Ok(Found { grid, square })
    }

    /// The grid of one plane that maps `position`: for MGRS, that of its zone; else the grid
    /// itself.
    #[must_use]
    pub fn at(&self, position: Position) -> Grid {
        match (self, UtmZone::of(position)) {
            (Grid::Mgrs, Some(zone)) => Grid::Utm(Utm::new(zone)),
            (Grid::Mgrs, None) => Grid::Ups(Ups::new(Hemisphere::of(position))),
            (grid, _) => grid.clone(),
        }
    }

    /// The grid as one plane; nothing for MGRS.
    fn plane(&self) -> Option<&dyn Plane> {
        match self {
            Grid::BritishNational(grid) => Some(grid),
            Grid::Irish(grid) => Some(grid),
            Grid::IrishTransverseMercator(grid) => Some(grid),
            Grid::Utm(grid) => Some(grid),
            Grid::Ups(grid) => Some(grid),
            Grid::Mgrs => None,
            Grid::WorldMercator(grid) => Some(grid),
            Grid::Chart(grid) => Some(grid),
        }
    }
}

/// The grid of the zone that an MGRS reference begins with, or of the zone at `near` if its
/// beginning is left out.
fn grid_of_mgrs(text: &str, near: Option<Position>) -> Result<Grid, ReferenceError> {
    let Written::Figures { letters, .. } = Written::read(text)? else {
        return Err(ReferenceError::NoZone);
    };
    match letters.chars().next() {
        Some('A' | 'B') if letters.len() == 3 => Ok(Grid::Ups(Ups::new(Hemisphere::South))),
        Some('Y' | 'Z') if letters.len() == 3 => Ok(Grid::Ups(Ups::new(Hemisphere::North))),
        Some('0'..='9') => Ok(Grid::Utm(Utm::new(mgrs::Head::read(&letters)?.utm_zone()?))),
        _ => near.map(|position| Grid::Mgrs.at(position)).ok_or(ReferenceError::NoZone),
    }
}

#[cfg(test)]
mod tests;
