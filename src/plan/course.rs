//! A route made ready on its water: what a passage needs of it, whenever the group leaves.
//!
//! Each leg is cut in stretches short enough that the stream is much the same all along one: straight
//! legs into pieces of a rhumb line, traced legs along their line. A stretch has the stream of its
//! middle. It is cut finer where whose stream it has changes fast, where the line bends, at the edges
//! of races and at gates. What hangs on the time is found from there by [`Course::passage`] and
//! by a [`CourseTable`].

mod cut;
mod leg;
mod line;
mod merge;
mod sail;
mod spot;
mod table;
#[cfg(test)]
mod tests;
mod wait;
mod waters;

pub use cut::{Dry, Stretched};
pub use leg::{CourseLeg, GateOn, RaceOn, Steered};
pub use sail::sail;
pub(crate) use spot::Spotter;
pub use table::{Brief, BriefLeg, CourseTable};
pub(crate) use wait::{Held, Left, Made, Stopped, leave};
pub use waters::Waters;

use std::collections::BTreeSet;
use std::sync::Arc;

use chart::water::Known;
use jiff::SignedDuration;
use jiff::tz::TimeZone;
use nav::Length;
use nav::leeway::TooMuchWind;
use nav::magnetic::VariationSource;
use nav::passage::Boat;

use crate::unrolled::Ground;
use crate::{Route, nautical_zone};

/// A route made ready on its water. It is made once for a route, does not change, and can be shared
/// between threads.
#[derive(Debug, Clone)]
pub struct Course {
    legs: Vec<CourseLeg>,
    boat: Boat,
    /// The wind that is left out, if it is.
    windy: Option<TooMuchWind>,
    /// The stations with a share in it that are known by their greatest rate alone.
    by_rule: Vec<Arc<str>>,
    variation: VariationSource,
    zone: TimeZone,
}

impl Course {
    /// The route's course on this ground; without tides, or off the chart, nothing is known of the
    /// stream.
    #[must_use]
    pub fn new(route: &Route, ground: &Ground<'_>) -> Course {
        let last = route.points.len().saturating_sub(2);
        let legs: Vec<CourseLeg> = (0..route.points.len().saturating_sub(1))
            .filter_map(|index| {
                let stops = index > 0 && index <= last;
                let stop = route.points.get(index).filter(|_| stops).map(|point| point.stop);
                CourseLeg::new(route, index, stop.unwrap_or_default(), ground)
            })
            .collect();
        let boat = Boat::at_pace(route.pace);
        let (boat, windy) = match route.wind.map(crate::Weather::drift) {
            None => (boat, None),
            Some(Ok(push)) => (boat.with_leeway(push), None),
            Some(Err(too_much)) => (boat, Some(too_much)),
        };
        let first = route.points.first().map(|point| nautical_zone(point.at.lon));
        let zone = route.departure.as_ref().map(|departure| departure.zone().clone());
        Course {
            by_rule: by_rule(&legs, ground),
            legs,
            boat,
            windy,
            variation: route.variation,
            zone: zone.or(first).unwrap_or(TimeZone::UTC),
        }
    }

    /// The legs, one fewer than the route has points.
    pub fn legs(&self) -> &[CourseLeg] {
        &self.legs
    }

    /// What the group does through the water, and the wind to it.
    pub const fn boat(&self) -> Boat {
        self.boat
    }

    /// A wind that is over what leeway is reckoned for, and so left out.
    pub const fn windy(&self) -> Option<TooMuchWind> {
        self.windy
    }

    /// The stations with a share in it that are known by their greatest rate alone.
    pub fn known_by_rule(&self) -> Vec<Arc<str>> {
        self.by_rule.clone()
    }

    /// The clock that the route's times are given on: that of its departure, or the nautical one of
    /// its first point.
    pub const fn zone(&self) -> &TimeZone {
        &self.zone
    }

    /// Where its magnetic bearings come from.
    pub const fn variation(&self) -> VariationSource {
        self.variation
    }

    /// The sum of the legs.
    pub fn distance(&self) -> Length {
        self.legs.iter().map(|leg| leg.distance).sum()
    }

    /// The time that it takes in still water without wind or waits, stops and rests included; nothing
    /// at no speed.
    pub fn still(&self) -> Option<SignedDuration> {
        self.legs.iter().try_fold(SignedDuration::ZERO, |all, leg| {
            all.checked_add(leg.stop)?.checked_add((leg.distance / self.boat.speed())?)
        })
    }
}

fn by_rule(legs: &[CourseLeg], ground: &Ground<'_>) -> Vec<Arc<str>> {
    let Some(tides) = ground.tides else { return Vec::new() };
    let stretches = legs.iter().flat_map(|leg| &leg.stretches);
    let shares = stretches.filter_map(|stretch| stretch.water.as_ref().ok());
    let used: BTreeSet<usize> =
        shares.flat_map(|shares| shares.parts()).map(|share| share.station).collect();
    let stations = used.into_iter().filter_map(|station| tides.stations().get(station));
    let by_rule = stations.filter(|station| station.known() == Known::GreatestRate);
    by_rule.map(|station| station.name().into()).collect()
}
