//! A route sailed as it stands.

use nav::DateOutside;

use super::Course;
use crate::unrolled::Ground;
use crate::{Passage, Route};

/// The passage of a route through its water at its departure, with its course; nothing where no departure is set, or
/// the chart has no streams to go through.
///
/// # Errors
/// [`DateOutside`] before 1900 and after 2100.
pub fn sail(route: &Route, ground: &Ground<'_>) -> Result<Option<(Course, Passage)>, DateOutside> {
    let Some(departure) = route.departure.as_ref().filter(|_| !ground.chart.streams.is_empty())
    else {
        return Ok(None);
    };
    let course = Course::new(route, ground);
    let departs = departure.moment().timestamp();
    let passage = course.passage(ground.tides, departs, route.limits.longest_wait)?;
    Ok(Some((course, passage)))
}
