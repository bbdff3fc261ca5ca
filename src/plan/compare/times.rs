//! What the clock would say at each point by the plan.

use jiff::Timestamp;

use crate::unrolled::Ground;
use crate::{Course, Passage, Route};

/// The times of the plan, through the stream of its chart.
#[derive(Debug, Clone, PartialEq)]
pub struct Times {
    /// When it leaves.
    pub departs: Timestamp,
    /// When it comes to each point, the first being where it leaves; nothing beyond where it halts.
    pub arrives: Vec<Option<Timestamp>>,
}

/// The plan, ready to be asked.
pub(super) struct Plan<'a> {
    course: Course,
    route: &'a Route,
    ground: &'a Ground<'a>,
}

impl<'a> Plan<'a> {
    pub(super) fn of(route: &'a Route, ground: &'a Ground<'a>) -> Plan<'a> {
        Plan { course: Course::new(route, ground), route, ground }
    }

    /// The plan as it was made.
    pub(super) fn planned(&self) -> Option<Times> {
        self.leaving(self.route.departure.as_ref()?.moment().timestamp())
    }

    /// The plan with another start; nothing in years for which no stream is reckoned.
    pub(super) fn leaving(&self, departs: Timestamp) -> Option<Times> {
        let wait = self.route.limits.longest_wait;
        let passage = self.course.passage(self.ground.tides, departs, wait).ok()?;
        Some(Times { departs, arrives: self.arrivals(&passage) })
    }

    fn arrivals(&self, passage: &Passage) -> Vec<Option<Timestamp>> {
        let legs = passage.legs.iter().map(|leg| Some(leg.arrives));
        let known = std::iter::once(Some(passage.departs)).chain(legs);
        known.chain(std::iter::repeat(None)).take(self.route.points.len()).collect()
    }
}
