//! Setting text: what fits where, paragraphs and tables.

mod fit;
pub(crate) mod flow;
mod foot;
mod table;

#[cfg(test)]
mod tests;

pub use fit::{cut, lines, shrunk};
pub(crate) use foot::Foot;
pub use table::{Cell, Column, Row, Table};

use crate::draw::{Mm, Pt};

/// From one base line to the next, for type of this size.
#[must_use]
pub fn leading(size: Pt) -> Mm {
    Mm::from(size) * 1.22
}
