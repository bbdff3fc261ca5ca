//! The chart as a value: what lies where, in metres on the chart's grid.
//!
//! The names of the fields are also the names in a chart file (see [`format`](crate::format)).

mod race;

use serde::Deserialize;

use crate::format::fields::{name, note, point, some};
use crate::printed::{Means, PrintedWater};

pub use race::{Gate, Race, Runs, Sill};

/// A point of the chart: `x` is the easting, `y` the northing, in metres on the chart's grid.
pub type Point = geo::Coord<f64>;

/// The part of the grid that a chart covers.
pub type Extent = geo::Rect<f64>;

/// A closed line without its repeated last point: at least three points, not crossing itself,
/// its inside on the left hand (counter-clockwise).
#[derive(Debug, Clone, PartialEq, Default, Deserialize)]
#[serde(from = "Vec<(f64, f64)>")]
pub struct Ring(pub Vec<Point>);

impl Ring {
    /// The ring's sides in order, the closing one last.
    pub fn sides(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        let next = self.0.iter().cycle().skip(1);
        self.0.iter().zip(next).map(|(a, b)| (*a, *b))
    }

    /// Twice the area within, in square metres: positive when the inside is on the left hand.
    pub(crate) fn doubled_area(&self) -> f64 {
        let Some(&origin) = self.0.first() else {
            return 0.0;
        };
        // Measured from the first point, so that large coordinates do not eat the digits.
        self.sides()
            .map(|(a, b)| (a.x - origin.x) * (b.y - origin.y) - (b.x - origin.x) * (a.y - origin.y))
            .sum()
    }

    /// Whether a point lies within: a ray to the east crosses the sides an odd number of times.
    /// On the ring itself, either may be the answer.
    #[must_use]
    pub fn encloses(&self, point: Point) -> bool {
        let crosses = |(a, b): &(Point, Point)| {
            // A side has its lower end and not its upper one, so that a ray through a corner
            // counts once.
            (a.y > point.y) != (b.y > point.y)
                && point.x < a.x + (point.y - a.y) / (b.y - a.y) * (b.x - a.x)
        };
        self.sides().filter(crosses).count() % 2 == 1
    }

    /// Turns the ring so that its inside is on the left hand; its first point stays the first.
    pub(crate) fn turn_left(&mut self) {
        if self.doubled_area() < 0.0
            && let Some(rest) = self.0.get_mut(1..)
        {
            rest.reverse();
        }
    }
}

impl From<Vec<(f64, f64)>> for Ring {
    fn from(pairs: Vec<(f64, f64)>) -> Ring {
        Ring(pairs.into_iter().map(Point::from).collect())
    }
}

/// A gridded chart.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// What it is called.
    pub title: String,
    /// Whether the place does not exist; screens and papers say so.
    pub invented: bool,
    /// Where it came from and under which terms, if it is of a real place.
    pub source: String,
    /// The grid on which everything is placed.
    pub grid: nav::Grid,
    /// What it covers.
    pub extent: Extent,
    /// Shores that enclose land: mainland, islands and skerries, at high water.
    pub land: Vec<Land>,
    /// Shores that enclose nothing: pieces of coast as a survey gives them, open at both ends.
    pub shorelines: Vec<Vec<Point>>,
    /// Ground that covers and uncovers with the tide.
    pub drying: Vec<Drying>,
    /// Water between two depths. Where no area lies the water is deep.
    pub depths: Vec<DepthArea>,
    /// Where a kayak can land.
    pub landings: Vec<Landing>,
    /// What to keep clear of.
    pub hazards: Vec<Hazard>,
    /// Where a stream breaks.
    pub races: Vec<Race>,
    /// Narrows that the stream shuts.
    pub gates: Vec<Gate>,
    /// Names on the chart.
    pub places: Vec<Place>,
    /// Fixed and floating marks to take bearings of.
    pub marks: Vec<Mark>,
    /// Where the height of the tide is known.
    pub ports: Vec<Port>,
    /// Where the tidal stream is known.
    pub streams: Vec<Stream>,
}

/// A piece of land within one shore, with the lakes in it.
#[derive(Debug, Clone, PartialEq, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Land {
    /// Its name, or empty.
    #[serde(default, deserialize_with = "name")]
    pub name: String,
    /// The high water line.
    pub shore: Ring,
    /// Water within, shut off from the sea.
    #[serde(default)]
    pub lakes: Vec<Ring>,
}

/// Ground that dries at low water.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Drying {
    /// How high it stands above chart datum, in metres.
    pub height_m: f64,
    /// What it is made of.
    pub ground: Ground,
    /// Its edge.
    pub edge: Ring,
}

/// Water between two depths below chart datum.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DepthArea {
    /// The least depth, in metres below chart datum.
    pub from_m: f64,
    /// The greatest depth, in metres below chart datum.
    pub to_m: f64,
    /// Its edge.
    pub edge: Ring,
}

/// What the ground is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
pub enum Ground {
    /// Fine, firm.
    Sand,
    /// Rounded stones that move underfoot.
    Shingle,
    /// Stones too big to carry a boat over.
    Boulders,
    /// Ledges and slabs.
    Rock,
    /// Soft; legs sink in it.
    Mud,
    /// A built ramp.
    Slip,
}

/// The part of the tide in which something serves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
pub enum Serves {
    /// At any height of tide.
    AnyTide,
    /// In the upper half of the range.
    AboveHalfTide,
    /// In the lower half of the range.
    BelowHalfTide,
    /// For an hour or two about high water.
    NearHighWater,
    /// For an hour or two about low water.
    NearLowWater,
}

/// Where a kayak can land.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Landing {
    /// Its name.
    #[serde(deserialize_with = "name")]
    pub name: String,
    /// Where the bow touches.
    #[serde(deserialize_with = "point")]
    pub at: Point,
    /// What it is made of.
    pub ground: Ground,
    /// When it serves.
    pub serves: Serves,
    /// A word of advice, or empty.
    #[serde(default, deserialize_with = "note")]
    pub note: String,
}

/// What kind of hazard.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
pub enum HazardKind {
    /// A rock that shows at low water.
    DryingRock,
    /// A rock just under the surface at low water.
    SunkenRock,
    /// A bank on which swell breaks.
    BreakingBank,
    /// A wreck.
    Wreck,
    /// Ground that is fished with fixed gear.
    FixedGear,
    /// A way that ships take.
    Fairway,
}

/// Something to keep clear of.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Hazard {
    /// Its name, or empty.
    #[serde(default, deserialize_with = "name")]
    pub name: String,
    /// Where it lies.
    #[serde(deserialize_with = "point")]
    pub at: Point,
    /// What it is.
    pub kind: HazardKind,
    /// A word of advice, or empty.
    #[serde(default, deserialize_with = "note")]
    pub note: String,
}

/// What a name stands for; the order is the order in which names give way to each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
pub enum PlaceKind {
    /// A town, a village, a harbour.
    Settlement,
    /// An island.
    Island,
    /// A sound, strait, firth or large stretch of water.
    Water,
    /// A point or headland.
    Headland,
    /// A bay, inlet or cove.
    Inlet,
    /// A narrows.
    Narrows,
    /// A rock or skerry.
    Skerry,
    /// A hill seen from the water.
    Hill,
}

/// A name on the chart.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Place {
    /// The name.
    #[serde(deserialize_with = "name")]
    pub name: String,
    /// Its middle, near which the name is written.
    #[serde(deserialize_with = "point")]
    pub at: Point,
    /// What it stands for.
    pub kind: PlaceKind,
}

/// What kind of mark.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
pub enum MarkKind {
    /// A lit structure ashore.
    Light,
    /// An unlit structure ashore or on a rock.
    Beacon,
    /// A floating mark.
    Buoy,
    /// A pile of stones on a hill or point.
    Cairn,
    /// A tower, chapel or chimney that shows from the water.
    Tower,
}

/// A mark to take a bearing of.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Mark {
    /// Its name.
    #[serde(deserialize_with = "name")]
    pub name: String,
    /// Where it stands.
    #[serde(deserialize_with = "point")]
    pub at: Point,
    /// What it is.
    pub kind: MarkKind,
}

/// A place where the height of the tide is known.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Port {
    /// Its name.
    #[serde(deserialize_with = "name")]
    pub name: String,
    /// Where its gauge stands.
    #[serde(deserialize_with = "point")]
    pub at: Point,
    /// Where its constants, differences or table come from; may be empty.
    #[serde(default, deserialize_with = "note")]
    pub source: String,
    /// The first and the last year that they are of, if that is stated.
    #[serde(default, deserialize_with = "some")]
    pub years: Option<(i16, i16)>,
    /// What the middle of each month, from January on, adds to mean level, in metres; empty if that is
    /// not stated.
    #[serde(default)]
    pub seasonal_m: Vec<f64>,
    /// How its tide is known.
    pub tide: PortTide,
}

/// How the tide of a port is known.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum PortTide {
    /// By harmonic constants.
    Constants {
        /// Mean level above chart datum, in metres.
        mean_level_m: f64,
        /// The constituents.
        constituents: Vec<Constituent>,
    },
    /// By differences on another port.
    Differences {
        /// The other port's name.
        #[serde(deserialize_with = "name")]
        standard: String,
        /// Minutes added to its time of high water, at springs and at neaps.
        high_water_min: (f64, f64),
        /// Minutes added to its time of low water, at springs and at neaps.
        low_water_min: (f64, f64),
        /// Metres added to its height of high water, at springs and at neaps.
        high_water_m: (f64, f64),
        /// Metres added to its height of low water, at springs and at neaps.
        low_water_m: (f64, f64),
    },
    /// By the high and low waters of a printed table; outside its time nothing is known.
    Printed {
        /// The zone whose clock the times without an offset are on, by name or offset; may be empty.
        #[serde(default, deserialize_with = "name")]
        zone: String,
        /// Mean figures, if the table states them: without them there are no springs and neaps.
        #[serde(default, deserialize_with = "some")]
        means: Option<Means>,
        /// Its lines.
        waters: Vec<PrintedWater>,
    },
}

/// One harmonic constituent.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Constituent {
    /// Its standard name: `M2`, `S2`, `N2`, ...
    #[serde(deserialize_with = "name")]
    pub name: String,
    /// Its amplitude, in metres for a height, in knots for a stream.
    pub amplitude: f64,
    /// Its phase lag on the equilibrium tide at Greenwich, in degrees.
    pub phase_deg: f64,
}

/// A place where the tidal stream is known.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Stream {
    /// Its name.
    #[serde(deserialize_with = "name")]
    pub name: String,
    /// Where it was measured.
    #[serde(deserialize_with = "point")]
    pub at: Point,
    /// How it is known.
    pub rates: StreamRates,
}

/// How a stream is known.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum StreamRates {
    /// By thirteen hourly rows from six hours before high water at a port to six after.
    Hourly {
        /// The port whose high water the hours count from.
        #[serde(deserialize_with = "name")]
        port: String,
        /// Direction in degrees true, rate at springs and at neaps in knots.
        rows: Vec<StreamRow>,
    },
    /// By constituents along one axis and, where the stream turns round the clock, across it.
    Axis {
        /// The direction of the flood, in degrees true.
        flood_deg: f64,
        /// The constituents, in knots along the flood.
        constituents: Vec<Constituent>,
        /// The constituents across it, in knots to the right of the flood.
        #[serde(default)]
        across: Vec<Constituent>,
    },
    /// By the greatest spring rate alone.
    Greatest {
        /// The direction of the flood, in degrees true.
        flood_deg: f64,
        /// The port whose high water the stream turns by.
        #[serde(deserialize_with = "name")]
        port: String,
        /// Hours after that high water at which the flood begins.
        flood_begins_h: f64,
        /// The greatest spring rate, in knots.
        springs_kn: f64,
    },
}

/// One hour of a stream.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StreamRow {
    /// Where it sets to, in degrees true.
    pub set_deg: f64,
    /// Its rate at springs, in knots.
    pub springs_kn: f64,
    /// Its rate at neaps, in knots.
    pub neaps_kn: f64,
}
