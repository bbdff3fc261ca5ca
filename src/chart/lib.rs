//! Strandline's map: model, file format, generator, import, and dots for a view.
//!
//! A [`Chart`] is a plain value on its own grid. Everything in it is in metres on that grid
//! ([`Point`] is easting, northing), heights and depths in metres above and below chart datum.
//! The crate is pure: formats are read from text or bytes and written to them.

pub mod check;
pub mod clean;
pub mod clock;
pub mod coast;
mod describe;
pub mod dice;
pub mod dots;
pub mod flatgeobuf;
pub mod format;
pub mod geojson;
pub mod maker;
pub mod measure;
pub mod model;
mod named;
pub mod port;
pub mod practice;
pub mod printed;
pub mod seaway;
mod shore;
pub mod trace;
mod view;
pub mod water;
pub mod whereabouts;
mod words;

pub use describe::Description;
pub use model::{Chart, Extent, Point, Ring};
pub use named::Named;
pub use practice::practice;
pub use shore::OffGrid;
pub use view::{COLUMNS_PER_ROW, Cells, View};
