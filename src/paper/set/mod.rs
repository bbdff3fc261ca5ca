//! Setting text: what fits where, paragraphs and tables.

mod fit;
pub(crate) mod flow;
mod foot;
mod table;

#[cfg(test)]
mod tests;

pub use fit::{lines, runs, shrunk};
pub(crate) use foot::Foot;
pub use table::{Cell, Column, Row, Table};

use crate::draw::{Mm, Pt};

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
