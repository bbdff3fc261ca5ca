//! Setting text: what fits where, paragraphs and tables.

mod fit;
pub(crate) mod flow;
mod foot;
mod table;

#[cfg(test)]
mod tests;

pub use fit::{lines, runs, shrunk};
pub(crate) use foot::{Foot, Head};
pub use table::{Cell, Column, Row, Table};

use crate::draw::{Item, Mm, Pt, Spot, Text};
use crate::font::{self, Face};

/// From one base line to the next, for type of this size.
#[must_use]
pub fn leading(size: Pt) -> Mm {
    Mm::from(size) * 1.22
}

/// The same where lines are many and short words few, as in cautions.
#[must_use]
pub fn close(size: Pt) -> Mm {
    Mm::from(size) * 1.12
}

/// A line of words whose upper left corner lies there.
pub(crate) fn line(words: &str, face: Face, size: Pt, corner: Spot) -> Item {
    let at = corner.moved(Mm::ZERO, font::ascent(size));
    Text { face, ..Text::new(words, at, size) }.into()
}
