//! Lines laid along crafted shores and the practice chart.

mod along;
mod library;
