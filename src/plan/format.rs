//! The route file: RON, versioned, in a stable order, one point a line.
//!
//! ```text
//! (
//!     version: 1,
//!     title: "Round the skerries",
//!     chart: "Ternhaven Sound",
//!     pace: "3 kn",
//!     variation: Printed(deg_east: -4.5, year: 2015.0, deg_east_per_year: 0.13),
//!     departure: "2026-06-14T09:30:00-02:00[-02:00]",
//!     points: [
//!         (name: "Slip", lat: 52.2412345, lon: -27.1398765, stop_min: 0, note: ""),
//!         (lat: 52.25, lon: -27.1),
//!     ],
//! )
//! ```
//!
//! `variation` is `Model` for the World Magnetic Model, or what a paper chart prints. `version`, `chart` and `points` must be there; what else is left out is empty or usual.
//! Latitudes and longitudes are degrees on WGS 84, north and east positive, and are rounded to
//! 1e-9 of a degree; a pace is in `kn` or `km/h`, with `rest_min` minutes of rest in each hour; stops are whole minutes; a departure is a local time with its zone in
//! brackets (RFC 9557). A field that this version does not know is an error.

mod read;
mod write;

#[cfg(test)]
mod tests;

pub use read::{FormatError, read};
pub use write::write;

/// The version of the route file that this program reads and writes.
pub const VERSION: u32 = 1;
