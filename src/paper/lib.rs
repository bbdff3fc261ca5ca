//! What leaves Strandline: pages drawn and set, and files that other tools read.
//!
//! A plan comes in and bytes go out. The crate is pure: it reads no file, no clock and no environment.
//!
//! A [`Page`](draw::Page) is a list of what is drawn on it, in millimetres from its upper left corner; it
//! knows nothing of any file format. [`pdf`], [`svg`] and [`png`] write the same pages.

pub mod card;
pub mod draw;
pub mod exchange;
pub mod font;
pub mod leaflet;
pub mod map;
mod marked;
pub mod pdf;
mod picture;
mod plain;
pub mod png;
pub mod set;
pub mod sheet;
pub mod svg;
pub mod words;
pub mod workchart;
pub mod worksheet;

pub use picture::{PictureError, Sheet, picture};
#[cfg(test)]
mod cautions;
#[cfg(test)]
mod tests;
