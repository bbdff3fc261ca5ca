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
//!         (name: "Bay", lat: 52.26, lon: -27.08, along: (
//!             stand_off_m: 50.0, step_m: 200.0, other_way: true,
//!             through: [
//!                 (lat: 52.2551, lon: -27.093, other_way: true),
//!             ],
//!             line: [
//!                 (52.2512, -27.0987), (52.2533, -27.0961), (52.2551, -27.0931),
//!                 (52.258, -27.0853),
//!             ],
//!         )),
//!     ],
//! )
//! ```
//!
//! `variation` is `Model` for the World Magnetic Model, or what a paper chart prints. `version`, `chart` and `points` must be there; what else is left out is empty or usual.
//! Latitudes and longitudes are degrees on WGS 84, north and east positive, and are rounded to
//! 1e-9 of a degree; a pace is in `kn` or `km/h`, with `rest_min` minutes of rest in each hour; stops are whole minutes; a departure is a local time with its zone in
//! brackets (RFC 9557). A field that this version does not know is an error.
//!
//! `along` is how the leg that ends at a point runs, if it is not straight, so that the first point has
//! none. Its `line` is the leg's vertices between its two ends, each (latitude, longitude): every one
//! counts, and a leg without them is straight. The rest of `along` tells how it was laid, so that it can
//! be laid again: `stand_off_m` off the shore, smoothed at steps of `step_m`, `through` the points
//! clicked on the way. `other_way` is true where the piece that ends there runs the longer way round,
//! `free` where a point lies off the shore, as `free_start` and `free_end` are for the leg's ends.
//!
//! `wind` is where the day's wind comes from, in degrees from true north, its mean speed in knots, and
//! `leeway`, how many times the rule it pushes the group: `(from_deg: 240.0, kn: 10.0, leeway: 1.5)`.
//! `limits` are those that a start must keep to, each as it is written, those that are usual left out:
//! `(race: "quiet", light: "2 h 00", wait: "30 min", drift: "3 kn", height: "1.2 m", day: "none", slow: "50 %")`.
//! `steer: OneHeading` is said of a point to which the leg is steered on one heading through moving water,
//! rather than held on its line.
//!
//! `kept` is what another program said of a point that was imported, so that it goes out again:
//! `(height_m: 3.0, symbol: "Anchor", class: "slip", description: "", links: [(address: "https://example.org", text: "", kind: "")])`.
//!
//! A file is written as the oldest version that has all that is in it, so that an older program either
//! reads it or says that it does not know the version, rather than stumble over a field: a route of
//! straight legs as version 1, one with a traced leg as version 2, one with a word about moving water
//! as version 3, one with something kept of another program's as version 4. All versions are read alike.

mod along;
mod kept;
mod limits;
mod list;
mod read;
mod weather;
mod words;
mod write;

#[cfg(test)]
mod tests;

pub use read::{FormatError, read, read_point};
pub use words::{in_words, is_over};
pub use write::{write, write_point};

/// The latest version of the route file that this program reads and writes.
pub const VERSION: u32 = 4;
/// The version of a route with a word about moving water, and nothing kept of another program's.
const VERSION_MOVING: u32 = 3;
/// The version of a route with traced legs, and nothing of moving water.
const VERSION_TRACED: u32 = 2;
/// The version of a route with straight legs alone.
const VERSION_STRAIGHT: u32 = 1;
