//! What takes a change back.

use std::ops::Range;

use crate::route::{bounded_vertices, vertices};
use crate::{Edit, EditError, Route, Waypoint};

/// A change as small as the one that it takes back, so that history needs no limit.
#[derive(Debug, Clone)]
pub(crate) enum Back {
    /// Puts points back in place of those that there are now.
    Points {
        /// The first.
        at: usize,
        /// How many there are now.
        now: usize,
        /// What they were.
        were: Vec<Waypoint>,
    },
    /// An edit that touches no point by itself.
    Edit(Edit),
}

impl Back {
    /// Puts `points` in place of those in `range`, which lies within the route.
    ///
    /// # Errors
    /// [`EditError::TooManyPoints`], or [`EditError::TooMany`] vertices; the route is untouched.
    pub(super) fn put(
        route: &mut Route,
        range: Range<usize>,
        points: Vec<Waypoint>,
    ) -> Result<Back, EditError> {
        if route.points.len() - range.len() + points.len() > Route::MOST_POINTS {
            return Err(EditError::TooManyPoints);
        }
        let gone = route.points.get(range.clone()).map_or(0, vertices);
        bounded_vertices(vertices(&route.points) - gone + vertices(&points))?;
        Ok(Back::swap(route, range, points))
    }

    fn swap(route: &mut Route, range: Range<usize>, points: Vec<Waypoint>) -> Back {
        let (at, now) = (range.start, points.len());
        Back::Points { at, now, were: route.points.splice(range, points).collect() }
    }

    /// Takes the change back and returns what makes it again. A route that the change has just
    /// made holds what it held before, so that this cannot fail.
    pub(crate) fn make(self, route: &mut Route) -> Result<Back, EditError> {
        match self {
            Back::Points { at, now, were } => Ok(Back::swap(route, at..at + now, were)),
            Back::Edit(edit) => edit.make(route),
        }
    }

    /// Comes to take back a later change as well, which made `route` and left the number of its
    /// points as it was.
    pub(crate) fn join(&mut self, later: Back, route: &Route) {
        let Back::Points { at, now, were } = self else { return };
        let Back::Points { at: at_later, now: now_later, were: were_later } = later else { return };
        let (first, end) = ((*at).min(at_later), (*at + *now).max(at_later + now_later));
        let mut points = route.points.get(first..end).map(<[_]>::to_vec).unwrap_or_default();
        let place = |at: usize, count: usize| at - first..at - first + count;
        points.splice(place(at_later, now_later), were_later);
        points.splice(place(*at, *now), were.drain(..));
        (*at, *now, *were) = (first, end - first, points);
    }
}
