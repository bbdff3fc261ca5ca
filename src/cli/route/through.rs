//! The passage of a route through the stream of its chart.

use ::chart::Chart;
use ::chart::coast::Coast;
use ::chart::water::Tides;
use plan::unrolled::Ground;
use plan::{Course, Passage, Route};

use crate::tide::Origin;

/// What the figures of a passage leave out.
pub(super) const LEFT_OUT: &str = "Predicted, not measured. Left out: waves, surge, a river in flood, eddies close in, and how the \
     wind changes; the stream may turn early or late. The official tide tables and stream atlases \
     come first.";

/// A passage with the course that it is made on.
pub(super) struct Through {
    pub(super) course: Course,
    pub(super) passage: Passage,
    /// What the tide is told from, in sentences.
    pub(super) told: Vec<String>,
}

/// The passage at the route's departure; nothing where none is set, or the chart has no streams.
///
/// # Errors
/// Why the chart's streams cannot be told, in a sentence.
pub(super) fn through(route: &Route, chart: &Chart) -> Result<Option<Through>, String> {
    let Some(departure) = route.departure.as_ref().filter(|_| !chart.streams.is_empty()) else {
        return Ok(None);
    };
    let untold = |why: String| format!("no passage through the stream: {why}");
    let tides = Tides::of(chart).map_err(|why| untold(why.to_string()))?;
    let coast = Coast::of(chart);
    let course = Course::new(route, &Ground { chart, coast: &coast, tides: Some(&tides) });
    let departs = departure.moment().timestamp();
    let passage = course
        .passage(Some(&tides), departs, route.limits.longest_wait)
        .map_err(|why| untold(why.to_string()))?;
    let told = tides.told(departure.moment().date());
    let told = told.iter().map(|told| format!("Tide and stream are told {told}."));
    Ok(Some(Through { course, passage, told: told.chain([Origin::of(chart).said()]).collect() }))
}

impl Through {
    /// What the reader should know, and where it comes to nothing.
    pub(super) fn notes(&self) -> Vec<String> {
        let halt = self.passage.halt.as_ref().map(|halt| halt.words(&self.course));
        let halt = halt.map(|words| format!("the passage does not arrive: {words}"));
        let warnings = self.passage.warnings.iter().map(ToString::to_string);
        halt.into_iter().chain(warnings).collect()
    }
}
