//! The chart as dots: which dot of a drawing is land, drying ground, shallow water or shore.
//!
//! [`Shapes`] is made once for a chart: its lines cut into short runs with the bounds of each, so
//! that a frame costs what it shows and not what the chart holds. [`Layers::drawn`] then answers
//! for one view, one bit a dot. Glyphs and colours are not known here.

mod fill;
mod layers;
mod line;
mod mask;
mod raster;
mod shapes;

#[cfg(test)]
mod tests;

pub use layers::Layers;
pub use line::{line, path};
pub use mask::Mask;
pub use raster::Raster;
pub use shapes::{Band, Shapes};
