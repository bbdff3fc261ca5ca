//! A leg unrolled from its start to its end: how far off the land it is at each place, what it
//! passes, and how the stream runs along it as the group comes by.
//!
//! What hangs on the ground alone is found once, by [`Unrolled::of`]; the streams are read from it
//! for any time of passing.

mod met;
mod passed;
mod places;

#[cfg(test)]
mod tests;

pub use met::{Met, Way};
pub use passed::{GateAcross, Passed, REACH, RaceAlong, in_sight};

use chart::coast::Coast;
use chart::water::{Flows, Shares, Tides};
use chart::{Chart, Point};
use jiff::Timestamp;
use nav::{Bearing, Length, Position, True};

/// The chart that a leg is unrolled on.
#[derive(Debug, Clone, Copy)]
pub struct Ground<'a> {
    /// The chart.
    pub chart: &'a Chart,
    /// Its shore, indexed.
    pub coast: &'a Coast,
    /// Its water, if it has any that can be told.
    pub tides: Option<&'a Tides>,
}

/// A leg unrolled.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Unrolled {
    /// How long the leg is, along its line.
    pub length: Length,
    /// Places along it, evenly spaced, from its start to its end.
    pub places: Vec<Place>,
    /// The landings no farther from it than [`REACH`] that lie in sight of it, in the order in which
    /// they come abeam.
    pub landings: Vec<Passed>,
    /// The parts of it that lie in a race, in order.
    pub races: Vec<RaceAlong>,
    /// The gates that it crosses, in order.
    pub gates: Vec<GateAcross>,
}

/// A place on a leg.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// How far along the leg it is.
    pub along: Length,
    /// Where it is.
    pub at: Position,
    /// The same on the chart's grid; nothing where the grid does not reach.
    pub on_grid: Option<Point>,
    /// The direction of the leg there; none of a leg without length.
    pub track: Option<Bearing<True>>,
    /// How far off the nearest shore it is, nothing at all on land itself; none where there is no
    /// shore, or no grid.
    pub off: Option<Length>,
    /// Whether it is on land.
    pub ashore: bool,
    /// Whose streams it has.
    pub shares: Shares,
}

impl Unrolled {
    /// The leg along `line`, both ends included, at so many places, at least two: a straight leg is
    /// the rhumb line between its two ends, a traced one goes by geodesics from vertex to vertex.
    ///
    /// Distances are geodesics on the ellipsoid, to the place of the shore that is nearest on the
    /// plane of the chart's grid. Nothing of a line without two ends.
    pub fn of(
        line: impl Iterator<Item = Position>,
        ground: &Ground<'_>,
        places: usize,
    ) -> Option<Unrolled> {
        let spots = places::along(line, places)?;
        let length = spots.last()?.along;
        let mut walker = ground.coast.walker();
        let places: Vec<Place> =
            spots.into_iter().map(|spot| Place::of(spot, ground, &mut walker)).collect();
        let landings = passed::landings(&places, ground);
        let races = passed::races(&places, ground);
        let gates = passed::gates(&places, ground);
        Some(Unrolled { length, places, landings, races, gates })
    }

    /// The place that is least far off the land; the first, of several.
    pub fn nearest(&self) -> Option<&Place> {
        let off = |place: &&Place| place.off.map_or(f64::INFINITY, Length::as_metres);
        let known = self.places.iter().filter(|place| place.off.is_some());
        known.min_by(|a, b| off(a).total_cmp(&off(b)))
    }

    /// How far off the land it goes at most.
    pub fn farthest(&self) -> Option<Length> {
        let offs = self.places.iter().filter_map(|place| place.off);
        offs.max_by(|a, b| a.as_metres().total_cmp(&b.as_metres()))
    }

    /// How the stream meets the group at each place, passed at the time that stands for it in `times`;
    /// nothing where that is not known, or no stream.
    pub fn met(&self, flows: &Flows, times: &[Option<Timestamp>]) -> Vec<Option<Met>> {
        let met = |(place, time): (&Place, &Option<Timestamp>)| {
            let stream = flows.at(&place.shares, (*time)?)?;
            Some(Met { stream, track: place.track? })
        };
        self.places.iter().zip(times).map(met).collect()
    }
}
