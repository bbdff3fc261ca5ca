//! What a page is drawn with: lengths, a list of outlines and texts, and groups of them that are clipped.
//!
//! Everything lies in millimetres from the upper left corner of the page, `x` to the right and `y` down.

mod area;
mod outline;
mod page;
mod paint;
mod units;

pub use area::{Area, Size};
pub use outline::{Outline, Step};
pub use page::{Anchor, Group, Item, Page, Path, Text};
pub use paint::{Cap, Dash, Ink, Stroke};
pub use units::{Mm, Pt, Spot};
