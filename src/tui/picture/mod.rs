//! A drawn screen as a picture or as text, without a terminal.

mod shapes;
mod svg;
mod text;

#[cfg(test)]
mod tests;

pub use svg::svg;
pub use text::{styles, text};
