//! Lines laid along crafted shores and the practice chart.

mod along;
mod grids;
mod held;
mod library;
mod off;
mod smooth;
mod whole;
mod wild;
