//! The passage of the route, made beside the loop whenever what it follows from changes.

use std::sync::Arc;

use chart::coast::detail::Shores;
use chart::water::{Flows, Tides};
use chart::{Chart, Point};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use plan::unrolled::Ground;
use plan::{Course, Limits, Passage, Route};

use crate::job::{Outcome, Task, Watch};
use crate::state::{CourseOf, Sailed};
use crate::{Command, State};

/// How long before the departure and after the arrival the streams are kept.
const MARGIN: SignedDuration = SignedDuration::from_hours(12);

/// Brings the passage up to date: what stands of an older route is dropped at once.
pub(super) fn follow(state: &mut State) -> Vec<Command> {
    let wanted = wanted(state);
    if state.sailing.asked == wanted {
        return Vec::new();
    }
    state.sailing.asked.clone_from(&wanted);
    state.sailing.made = None;
    let Some(route) = wanted else {
        let ended = state.work.drop(Task::Sail).then_some(Command::Abandon(Task::Sail));
        return ended.into_iter().collect();
    };
    let zone = route.departure.as_ref().map(|departure| departure.zone().clone());
    let of = course_of(&route, zone);
    let kept = state.sailing.course.as_ref().filter(|(made_of, _)| *made_of == of);
    let voyage = Voyage {
        course: kept.map(|(_, course)| Arc::clone(course)),
        of,
        route,
        chart: Arc::clone(&state.chart),
        shores: Arc::clone(&state.shores),
        tides: state.tides().map(Arc::clone),
    };
    let job = state.work.ask(Task::Sail, move |watch| voyage.sail(watch));
    vec![Command::Compute(job)]
}

/// The route whose passage is wanted: one with a leg and a departure, where water or wind move.
fn wanted(state: &State) -> Option<Route> {
    let route = state.document.route();
    let moves = state.tides().is_some() || route.wind.is_some();
    let goes = moves && route.points.len() > 1 && route.departure.is_some();
    goes.then(|| Route { title: String::new(), ..route.clone() })
}

/// What the course of a route is made of, on this clock.
pub(super) fn course_of(route: &Route, zone: Option<TimeZone>) -> CourseOf {
    (Route { departure: None, limits: Limits::default(), ..route.clone() }, zone)
}

/// A passage to be made.
struct Voyage {
    of: CourseOf,
    course: Option<Arc<Course>>,
    route: Route,
    chart: Arc<Chart>,
    shores: Arc<Shores>,
    tides: Option<Arc<Tides>>,
}

impl Voyage {
    fn sail(self, watch: &dyn Watch) -> Option<Outcome> {
        let departs = self.route.departure.as_ref()?.moment().timestamp();
        let tides = self.tides.as_deref();
        let course = match &self.course {
            Some(course) => Arc::clone(course),
            None => {
                let ground = Ground { chart: &self.chart, coast: self.shores.full(), tides };
                Arc::new(Course::new(&self.route, &ground))
            }
        };
        if !watch.go_on(None) {
            return None;
        }
        let made = || {
            let passage = course.passage(tides, departs, self.route.limits.longest_wait)?;
            let flows = tides.map(|tides| about(tides, &passage)).transpose()?;
            Ok::<_, nav::DateOutside>((passage, flows))
        };
        let sailed = made().map(|(passage, flows)| {
            let tracks = tracks(&self.chart, &passage);
            Arc::new(Sailed { of: self.of, course, passage, flows, tracks })
        });
        Some(Outcome::Sailed(sailed.map_err(|error| error.to_string())))
    }
}

/// The streams about a passage.
fn about(tides: &Tides, passage: &Passage) -> Result<Flows, nav::DateOutside> {
    let by = |at: Timestamp, margin: SignedDuration| {
        at.checked_add(margin).map_err(|_| nav::DateOutside { at })
    };
    tides.flows(by(passage.departs, -MARGIN)?, by(passage.ends(), MARGIN)?)
}

/// The tracks of the legs on one heading.
fn tracks(chart: &Chart, passage: &Passage) -> Vec<Option<Arc<[Point]>>> {
    let on_grid = |at| {
        let point = chart.grid.forward(at).ok()?.point;
        Some(Point { x: point.easting.as_metres(), y: point.northing.as_metres() })
    };
    let track = |leg: &plan::passage::LegPassage| {
        leg.off_line?;
        Some(leg.way.iter().filter_map(|mark| on_grid(mark.at)).collect())
    };
    passage.legs.iter().map(track).collect()
}

/// Takes the passage that was made, and its course for the next one.
pub(in crate::update) fn sailed(state: &mut State, sailed: Result<Arc<Sailed>, String>) {
    if let Ok(sailed) = &sailed {
        state.sailing.course = Some((sailed.of.clone(), Arc::clone(&sailed.course)));
    }
    state.sailing.made = Some(sailed);
}
