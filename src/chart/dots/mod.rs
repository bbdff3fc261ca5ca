//! The chart as dots: which dot of a drawing is land, drying ground, shallow water or shore.
//!
//! [`Shapes`] is made once for a chart: the edges of its areas cut into short runs with the bounds of
//! each, so that a frame costs what it shows and not what the chart holds. The shore comes from the
//! chart's [`Shores`](crate::coast::detail::Shores), at the level of detail that the dots can show.
//! A [`Drawing`] then answers for one view after the other, one bit a dot. Glyphs and colours are not
//! known here.

mod fill;
mod layers;
mod line;
mod mask;
mod raster;
mod shapes;
mod shore;

#[cfg(test)]
mod tests;

pub use layers::{Drawing, Layers};
pub use line::{line, path};
pub use mask::Mask;
pub use raster::Raster;
pub use shapes::{Band, Shapes};
