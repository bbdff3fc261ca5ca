//! The characters of the chart: dots of several finenesses, symbols, textures.

mod arrows;
mod dots;
mod symbols;
mod texture;

#[cfg(test)]
mod tests;

pub use arrows::{Strength, arrow};
pub(crate) use dots::dots_of;
pub use dots::{DotSet, UnknownDots};
pub use symbols::{Sign, Symbol, waypoint_number};
pub(crate) use texture::{Texture, race, texture};
