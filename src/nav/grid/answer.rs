//! What a grid answers: points and positions with their accuracy, or why there is none.

use std::fmt;

use super::GridPoint;
use crate::transverse_mercator::{Projected, TooFarFromMeridian, Unprojected};
use crate::{Convergence, Length, Position, Wgs84};

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
    pub(super) fn new(projected: Projected, accuracy: Accuracy) -> OnGrid {
        let Projected { point, convergence, scale } = projected;
        OnGrid { point, convergence, scale, accuracy }
    }
}

impl FromGrid {
    pub(super) fn new(unprojected: Unprojected<Wgs84>, accuracy: Accuracy) -> FromGrid {
        let Unprojected { position, convergence, scale } = unprojected;
        FromGrid { position, convergence, scale, accuracy }
    }
}

/// How well a position on WGS 84 and a point on a grid are known to be the same place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Accuracy {
    /// By the projection alone: the grid is on WGS 84 itself, or on ETRS89, which is taken as
    /// one with it.
    Projection,
    /// Through the published grid shift OSTN15, which defines the British National Grid from
    /// ETRS89.
    NationalShift,
    /// Through a change of datum by seven parameters, which is this far off in places.
    SevenParameter {
        /// The most that it is off by.
        error: Length,
    },
}

impl Accuracy {
    /// The most that the conversion itself may be off by.
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
            Accuracy::Projection => f.write_str("exact: by the projection alone"),
            Accuracy::NationalShift => f.write_str("to 0.1 m: by the national grid shift OSTN15"),
            Accuracy::SevenParameter { error } => {
                write!(f, "to about {} m: by a seven-parameter change of datum", error.as_metres())
            }
        }
    }
}

/// Why a position has no point on a grid, or a point no position or reference.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum GridError {
    /// The projection does not reach there.
    #[error(transparent)]
    TooFar(#[from] TooFarFromMeridian),
    /// The latitude is too far from the pole of a polar grid.
    #[error("latitude {lat}° is too far from the pole of this polar grid (about 61° is the least)")]
    NotPolar {
        /// The latitude in degrees.
        lat: f64,
    },
    /// The latitude is too near a pole for World Mercator, which has none.
    #[error("latitude {lat}° is too near the pole for World Mercator (89.5° is the most)")]
    NearPole {
        /// The latitude in degrees.
        lat: f64,
    },
    /// The point is outside the grid's own area.
    #[error("{easting:.0} {northing:.0} is outside the grid: {extent}")]
    Outside {
        /// Easting in metres.
        easting: f64,
        /// Northing in metres.
        northing: f64,
        /// Where the grid is.
        extent: &'static str,
    },
    /// An easting and northing over the whole Earth need their zone.
    #[error(
        "an easting and northing on MGRS need their zone: give a zone's own grid, as in UTM:30N"
    )]
    NoZone,
}
