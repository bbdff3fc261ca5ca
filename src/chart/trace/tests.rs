//! Lines laid along crafted shores and the practice chart.

mod along;
mod held;
mod library;
mod off;
mod smooth;
