//! Points and squares of a grid.

use crate::{Length, OutOfRange};

/// How far short of a grid line a coordinate still counts as on it, in metres.
///
/// References are truncated, never rounded. A point that lies on a line exactly comes back
/// from latitude and longitude a few nanometres to either side of it, and from a file with
/// nine decimals of a degree up to 0.06 mm; 0.1 mm is what this crate promises of a projection,
/// and far below anything a reference can mean.
pub(super) const ON_THE_LINE: f64 = 1e-4;

/// A point by its easting and northing on some grid.
///
/// It does not know which: keep it beside its [`Grid`](super::Grid).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GridPoint {
    /// East of the grid's false origin.
    pub easting: Length,
    /// North of the grid's false origin.
    pub northing: Length,
}

impl GridPoint {
    /// The point at these metres east and north of the false origin.
    ///
    /// # Errors
    /// [`OutOfRange`] when one is not finite.
    pub fn from_metres(easting: f64, northing: f64) -> Result<GridPoint, OutOfRange> {
        Ok(GridPoint {
            easting: Length::from_metres(easting)?,
            northing: Length::from_metres(northing)?,
        })
    }

    /// For numbers computed in this crate.
    pub(crate) const fn metres(easting: f64, northing: f64) -> GridPoint {
        GridPoint { easting: Length::metres(easting), northing: Length::metres(northing) }
    }

    /// How many whole `unit`s lie west and south of the point, by the truncation rule.
    pub(super) fn whole(self, unit: f64) -> (i64, i64) {
        // Every projection's reach is far within these bounds, and they within what i64 holds.
        let whole = |length: Length| {
            ((length.as_metres() + ON_THE_LINE) / unit).floor().clamp(-1e15, 1e15) as i64
        };
        (whole(self.easting), whole(self.northing))
    }
}

/// A square of a grid: what a grid reference names.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Square {
    /// Its south-west corner.
    pub south_west: GridPoint,
    /// The length of its side.
    pub side: Length,
}

impl Square {
    /// Its middle, the best single point for it.
    #[must_use]
    pub fn centre(&self) -> GridPoint {
        GridPoint {
            easting: self.south_west.easting + self.side / 2.0,
            northing: self.south_west.northing + self.side / 2.0,
        }
    }

    /// Whether `point` lies in it: its south and west sides are its own, its north and east
    /// sides its neighbours'. A point within 0.1 mm short of a side counts as on it.
    #[must_use]
    pub fn contains(&self, point: GridPoint) -> bool {
        let within = |offset: Length| {
            let offset = offset.as_metres() + ON_THE_LINE;
            (0.0..self.side.as_metres()).contains(&offset)
        };
        within(point.easting - self.south_west.easting)
            && within(point.northing - self.south_west.northing)
    }
}

/// How many figures a grid reference has, and with them the side of its square.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Figures {
    /// `QB 7 5`: 10 km.
    Two,
    /// `QB 73 50`: 1 km.
    Four,
    /// `QB 731 508`: 100 m.
    Six,
    /// `QB 7310 5080`: 10 m.
    Eight,
    /// `QB 73100 50800`: 1 m.
    Ten,
}

impl Figures {
    /// From the coarsest to the finest.
    pub const ALL: [Figures; 5] =
        [Figures::Two, Figures::Four, Figures::Six, Figures::Eight, Figures::Ten];

    /// Of this many figures in all; nothing unless 2, 4, 6, 8 or 10.
    pub fn from_count(count: usize) -> Option<Figures> {
        Figures::ALL.into_iter().find(|figures| figures.count() == count)
    }

    /// Figures in all: 2, 4, 6, 8 or 10.
    pub const fn count(self) -> usize {
        2 * self.each()
    }

    /// Figures of the easting, and as many of the northing: 1 to 5.
    pub const fn each(self) -> usize {
        self as usize + 1
    }

    /// The side of the square that such a reference names.
    pub fn side(self) -> Length {
        Length::metres(side_of(self.each()))
    }
}

/// The side in metres of the square that `each` figures of easting and northing name.
pub(super) fn side_of(each: usize) -> f64 {
    [100_000.0, 10_000.0, 1_000.0, 100.0, 10.0, 1.0][each.min(5)]
}
