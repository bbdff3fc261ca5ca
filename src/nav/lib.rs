//! Strandline's arithmetic of position, direction and time.
//!
//! Every number on the screen and on the command line is computed here, once.
//! The crate is pure: it reads no file, no clock and no environment, starts no
//! thread and keeps no global but tables of published values, which never change.
//! What a number means is in its type: a [`Bearing<True>`](Bearing) cannot be passed where
//! a [`Bearing<Magnetic>`](Bearing) is meant, and turning one into the other needs the
//! [`Variation`] that it really needs.
//!
//! Angles are stored in degrees, lengths in metres, speeds in metres per second;
//! constructors and getters are named by unit. Constructors that take numbers from
//! outside refuse NaN, infinities and values out of range with an [`OutOfRange`] that
//! names the value and the bound.
//!
//! Results are for planning and teaching. They are not for navigation.

mod angle;
mod area;
mod conformal;
mod datum;
mod direction;
mod ellipsoid;
mod error;
pub mod fix;
pub mod geodesic;
mod grid;
pub mod horizon;
pub mod leeway;
pub mod magnetic;
mod moment;
mod pace;
pub mod passage;
mod position;
#[cfg(test)]
mod published;
pub mod rhumb;
mod roots;
pub mod stream;
pub mod sun;
pub mod text;
pub mod tide;
mod transverse_mercator;
pub mod triangle;
mod units;
pub mod waves;

pub use area::Area;
pub use datum::{Etrs89, Ireland1975, Osgb36, SevenParameter};
pub use direction::{
    Bearing, Convergence, Grid as GridNorth, Magnetic, North, True, Turn, Variation,
};
pub use ellipsoid::Ellipsoid;
pub use error::OutOfRange;
pub use grid::{
    Accuracy, BritishNational, ChartGrid, ChartGridError, Figures, Found, FromGrid, Grid,
    GridError, GridNameError, GridPoint, Hemisphere, Irish, IrishTransverseMercator, Lettering,
    LetteringError, OnGrid, ReferenceError, Square, Ups, Utm, UtmZone, WorldMercator,
};
pub use moment::DateOutside;
pub use pace::{Pace, PaceError, PaceUnit, arrival};
pub use position::{Datum, Latitude, Longitude, Position, Wgs84};
pub use transverse_mercator::{Projected, TooFarFromMeridian, TransverseMercator, Unprojected};
pub use units::{Length, Speed};
