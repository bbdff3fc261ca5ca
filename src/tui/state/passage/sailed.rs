//! The passage of the route, as the state keeps it.

use std::sync::Arc;

use chart::Point;
use chart::water::Flows;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use plan::{Course, Passage, Route};

use crate::state::State;

/// The passage last asked for, and what came of it.
#[derive(Debug, Clone, Default)]
pub struct Sailing {
    /// The route that it was asked for; nothing while there is no passage to ask for.
    pub(crate) asked: Option<Route>,
    /// The course last made, with what it was made of.
    pub(crate) course: Option<(CourseOf, Arc<Course>)>,
    /// What came of it, or why nothing did; nothing while that is not known yet.
    pub(crate) made: Option<Result<Arc<Sailed>, String>>,
}

/// What a course is made of: the route but for when it is left and its limits, and its clock.
pub(crate) type CourseOf = (Route, Option<TimeZone>);

/// A passage that was made.
#[derive(Debug)]
pub struct Sailed {
    /// The course, made of this.
    pub(crate) of: CourseOf,
    /// The route on its water.
    pub course: Arc<Course>,
    /// The course in time.
    pub passage: Passage,
    /// The streams from the departure to the end of the passage and for some hours more.
    pub(crate) flows: Option<Flows>,
    /// For each leg that is made on one heading, its track on the chart's grid.
    pub(crate) tracks: Vec<Option<Arc<[Point]>>>,
}

/// One passage is another if it goes the same: what it was made of is left aside.
impl PartialEq for Sailed {
    fn eq(&self, other: &Sailed) -> bool {
        self.passage == other.passage
    }
}

impl State {
    /// The passage of the route as it is shown; nothing while it is not known, and while a waypoint
    /// is taken up.
    pub fn sailed(&self) -> Option<&Arc<Sailed>> {
        self.sailing.made.as_ref()?.as_ref().ok().filter(|_| self.hand.carried().is_none())
    }

    /// Where the group is at the moment that is looked at, on the chart's grid.
    pub fn boat(&self) -> Option<Point> {
        self.point_of(self.sailed()?.passage.at(self.moment.at())?)
    }
}

impl Sailed {
    /// The track of a leg on one heading, on the chart's grid.
    pub fn track(&self, leg: usize) -> Option<&[Point]> {
        self.tracks.get(leg)?.as_deref()
    }

    /// When the group sets out on leg `leg`, stop and wait over; of the leg behind the last one, when it
    /// could at the earliest.
    pub(crate) fn departs(&self, leg: usize, route: &Route) -> Option<Timestamp> {
        if let Some(leg) = self.passage.legs.get(leg) {
            return Some(leg.departs);
        }
        let last = self.passage.legs.len();
        let stop = route.points.get(leg)?.stop;
        (leg == last).then_some(())?;
        self.passage.arrives()?.checked_add(stop).ok()
    }
}
