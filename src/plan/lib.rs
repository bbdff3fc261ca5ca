//! Strandline's document: the route, the one way to change it, its history and the readings taken from it.
//!
//! A [`Route`] is a plain value. It changes through an [`Edit`] alone, applied by a
//! [`Document`], which keeps every revision and knows which one is saved. Readings are
//! computed from a route and a grid and never stored in it.
//! The crate is pure: it reads no file, no clock and no environment.

mod along;
pub mod compare;
pub mod course;
mod demonstration;
pub mod depart;
mod departure;
mod document;
mod edit;
pub mod format;
mod kept;
mod limits;
pub mod passage;
pub mod profile;
mod reckon;
mod route;
mod steer;
pub mod table;
#[cfg(test)]
mod testing;
pub mod track;
pub mod unrolled;
mod weather;

pub use along::{Along, Line, Through};
pub use course::{Course, sail};
pub use demonstration::demonstration;
pub use departure::{Departure, DepartureError, nautical_zone};
pub use document::Document;
pub use edit::{Edit, EditError};
pub use kept::{Kept, Link};
pub use limits::{Limit, LimitText, Limits, LimitsError, RaceState};
pub use passage::Passage;
pub use reckon::{
    Bearings, Frame, LegReading, PointReading, Reckoning, Stretch, Traced, Warning, lay, lay_along,
    reckon, reckon_in,
};
pub use route::{OtherChart, Route, Waypoint, rounded, written_pace};
pub use steer::Steering;
pub use weather::{Weather, WeatherError};
