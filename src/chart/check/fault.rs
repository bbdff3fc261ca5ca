//! What can be wrong with a chart.

use nav::tide::UnknownConstituent;

use crate::Point;
use crate::format::Step;
use crate::printed::Misprint;

/// What was found and the way to it, by the names of the chart format.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding<F = Fault> {
    /// The way from the chart to what is wrong.
    pub way: Vec<Step>,
    /// What is wrong.
    pub fault: F,
}

/// What is wrong with a chart; what would be right.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Fault {
    /// A coordinate is not a number, or not on the Earth.
    #[error(
        "the point ({}, {}) is not a place; eastings and northings are metres from -{most} to {most}",
        at.x, at.y, most = super::MOST_METRES
    )]
    NotAPlace {
        /// The point.
        at: Point,
    },
    /// A point of a thing lies off the chart.
    #[error(
        "{what} at ({}, {}) lies outside the chart's extent; move it or widen the extent",
        at.x, at.y
    )]
    OutsideExtent {
        /// What kind of thing.
        what: &'static str,
        /// Where it lies.
        at: Point,
    },
    /// The extent is too small to draw.
    #[error("the extent is {metres} m across; at least {} m are wanted", super::LEAST_EXTENT)]
    Extent {
        /// Its shorter side.
        metres: f64,
    },
    /// A corner of the extent lies where the grid cannot go.
    #[error("the corner ({}, {}) of the extent is beyond the grid's reach: {why}", at.x, at.y)]
    BeyondGrid {
        /// The corner.
        at: Point,
        /// The grid's own words.
        why: String,
    },
    /// A ring encloses nothing.
    #[error("a ring of {points} points encloses nothing; it needs at least three")]
    ShortRing {
        /// How many points it has.
        points: usize,
    },
    /// A line is no line.
    #[error("a line of {points} points leads nowhere; it needs at least two")]
    ShortLine {
        /// How many points it has.
        points: usize,
    },
    /// The last point of a ring is its first once more.
    #[error("the ring's last point repeats its first; rings close by themselves, leave it out")]
    ClosedTwice,
    /// Two points in a row are the same.
    #[error("the point ({}, {}) repeats the one before it; leave it out", at.x, at.y)]
    Repeated {
        /// The point.
        at: Point,
    },
    /// A ring crosses, touches or overlaps itself.
    #[error(
        "the ring meets itself at ({}, {}), where sides {first} and {second} {}; \
         a ring neither crosses nor touches itself",
        at.x, at.y, if *.crosses { "cross" } else { "touch" }
    )]
    MeetsItself {
        /// Where.
        at: Point,
        /// The earlier side, counted from 1; side 1 joins the first two points.
        first: usize,
        /// The later side.
        second: usize,
        /// Whether it goes through itself.
        crosses: bool,
    },
    /// Something that must be called something has no name.
    #[error("{what} has no name; give it one")]
    NoName {
        /// What kind of thing.
        what: &'static str,
    },
    /// A name that others refer to is given twice.
    #[error("two {what} are called \"{name}\"; the name must tell them apart")]
    SameName {
        /// What kind of thing, in the plural.
        what: &'static str,
        /// The name.
        name: String,
    },
    /// A port that is referred to is not on the chart.
    #[error("there is no port \"{name}\" on the chart; {known}")]
    UnknownPort {
        /// The name that is referred to.
        name: String,
        /// The names that would be right.
        known: String,
    },
    /// A stream that is referred to is not on the chart.
    #[error("there is no stream \"{name}\" on the chart; {known}")]
    UnknownStream {
        /// The name that is referred to.
        name: String,
        /// The names that would be right.
        known: String,
    },
    /// A race is at its worst before it runs.
    #[error("quiet under {quiet} knots and at its worst over {worst}; the lesser rate comes first")]
    Conditions {
        /// The rate under which it is quiet, in knots.
        quiet: f64,
        /// The rate over which it is at its worst, in knots.
        worst: f64,
    },
    /// A gate whose line is a point.
    #[error("the line of the gate begins and ends at ({}, {}); it leads from shore to shore", at.x, at.y)]
    NoLine {
        /// Where.
        at: Point,
    },
    /// A port's differences are on a port that has itself only differences.
    #[error("the port \"{name}\" has itself only differences; name one with constants")]
    NotStandard {
        /// The port that is referred to.
        name: String,
    },
    /// A port's differences are on a printed table that lacks what they need.
    #[error(
        "the table of \"{name}\" states no means with springs_m, neaps_m and level_m, which differences \
         on it need"
    )]
    NoMeans {
        /// The port that is referred to.
        name: String,
    },
    /// A constituent of no list.
    #[error(transparent)]
    Constituent(#[from] UnknownConstituent),
    /// A printed table that was typed in wrong.
    #[error(transparent)]
    Printed(#[from] Misprint),
    /// Years that are none, or the last before the first.
    #[error("years from {first} to {last}; the first comes first, and both are from 1700 to 2100")]
    Years {
        /// The year given as the first.
        first: i16,
        /// The year given as the last.
        last: i16,
    },
    /// Levels that are not one for each month.
    #[error("{months} monthly levels; twelve are right, from January on, each from -3 to 3 m")]
    Months {
        /// How many there are.
        months: usize,
    },
    /// A stream's table is not complete.
    #[error("{rows} rows; a stream has 13, from six hours before high water to six after")]
    StreamRows {
        /// How many it has.
        rows: usize,
    },
    /// There is nothing where something is needed.
    #[error("no {what}; give at least one")]
    Nothing {
        /// What is missing.
        what: &'static str,
    },
    /// A number is out of its range.
    #[error("{what} {value} is out of range; {least} to {most} {unit} are right")]
    Number {
        /// What the number is.
        what: &'static str,
        /// The number.
        value: f64,
        /// The least that is right.
        least: f64,
        /// The most that is right.
        most: f64,
        /// The unit.
        unit: &'static str,
    },
    /// A depth area is upside down.
    #[error("depths from {from_m} to {to_m} m; the lesser depth comes first")]
    Depths {
        /// The depth given as the least.
        from_m: f64,
        /// The depth given as the greatest.
        to_m: f64,
    },
}
