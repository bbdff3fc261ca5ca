//! The one way to change a route.

use jiff::SignedDuration;
use nav::magnetic::VariationSource;
use nav::{Pace, Position};

use crate::route::{rounded, stop, text, written_pace};
use crate::{Departure, Route, Waypoint};

/// A change to a route. Indices count from zero; words about a change count from one.
#[derive(Debug, Clone, PartialEq)]
pub enum Edit {
    /// Puts a point before the one at `index`, or at the end.
    Insert {
        /// From zero up to and including the number of points.
        index: usize,
        /// The new point.
        waypoint: Waypoint,
    },
    /// Moves a point.
    Move {
        /// Which.
        index: usize,
        /// Where to.
        to: Position,
    },
    /// Takes a point out.
    Delete {
        /// Which.
        index: usize,
    },
    /// Gives a point another name.
    Rename {
        /// Which.
        index: usize,
        /// The name, or empty.
        name: String,
    },
    /// Sets how long the group stays at a point.
    SetStop {
        /// Which.
        index: usize,
        /// Zero up to [`Waypoint::LONGEST_STOP`]; fractions of a minute are dropped.
        stop: SignedDuration,
    },
    /// Sets the word about a point.
    SetNote {
        /// Which.
        index: usize,
        /// The note, or empty.
        note: String,
    },
    /// Turns the route about: last point first. Stops, names and notes stay with their points.
    Reverse,
    /// Sets how fast the group gets along.
    SetPace(Pace),
    /// Sets where the variation comes from.
    SetVariation(VariationSource),
    /// Sets when the group leaves.
    SetDeparture(Option<Departure>),
    /// Sets what the route is called.
    SetTitle(String),
}

/// Why a change was not made. The route is as it was.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum EditError {
    /// There is no such point.
    #[error("there is no point {}; the route has {points}", index + 1)]
    NoPoint {
        /// The index asked for, from zero.
        index: usize,
        /// How many points there are.
        points: usize,
    },
    /// A point too many.
    #[error("a route holds at most {} points", Route::MOST_POINTS)]
    TooManyPoints,
    /// A text is too long.
    #[error("the {what} has {count} characters; at most {most} fit")]
    TooLong {
        /// Which text.
        what: &'static str,
        /// Its length in characters.
        count: usize,
        /// The bound.
        most: usize,
    },
    /// A pace that gets nowhere.
    #[error("a pace of {0} gets nowhere; the slowest is 0.01 of its unit")]
    Pace(Pace),
    /// A stop is negative or too long.
    #[error("a stop of {minutes} min is not within 0 min to 168 h")]
    Stop {
        /// The stop in whole minutes.
        minutes: i64,
    },
}

impl Edit {
    /// What the change does to a route of `points` points, in two words: `drop 3`.
    pub(crate) fn word(&self, points: usize) -> String {
        match self {
            Edit::Insert { index, .. } if *index == points => format!("drop {}", index + 1),
            Edit::Insert { index, .. } => format!("insert {}", index + 1),
            Edit::Move { index, .. } => format!("move {}", index + 1),
            Edit::Delete { index } => format!("delete {}", index + 1),
            Edit::Rename { index, .. } => format!("rename {}", index + 1),
            Edit::SetStop { index, .. } => format!("stop at {}", index + 1),
            Edit::SetNote { index, .. } => format!("note on {}", index + 1),
            Edit::Reverse => "reverse".to_owned(),
            Edit::SetPace(_) => "pace".to_owned(),
            Edit::SetVariation(_) => "variation".to_owned(),
            Edit::SetDeparture(_) => "departure".to_owned(),
            Edit::SetTitle(_) => "title".to_owned(),
        }
    }

    /// Makes the change and returns the one that takes it back. On an error `route` is untouched.
    pub(crate) fn make(self, route: &mut Route) -> Result<Edit, EditError> {
        use std::mem::replace;
        Ok(match self {
            Edit::Insert { index, waypoint } => {
                let waypoint = waypoint.checked()?;
                room(route, index)?;
                route.points.insert(index, waypoint);
                Edit::Delete { index }
            }
            Edit::Move { index, to } => {
                Edit::Move { index, to: replace(&mut point(route, index)?.at, rounded(to)) }
            }
            Edit::Delete { index } => {
                point(route, index)?;
                Edit::Insert { index, waypoint: route.points.remove(index) }
            }
            Edit::Rename { index, name } => {
                let name = text("name", &name, Waypoint::MOST_NAME)?;
                Edit::Rename { index, name: replace(&mut point(route, index)?.name, name) }
            }
            Edit::SetStop { index, stop: wanted } => {
                let wanted = stop(wanted)?;
                Edit::SetStop { index, stop: replace(&mut point(route, index)?.stop, wanted) }
            }
            Edit::SetNote { index, note } => {
                let note = text("note", &note, Waypoint::MOST_NOTE)?;
                Edit::SetNote { index, note: replace(&mut point(route, index)?.note, note) }
            }
            Edit::Reverse => {
                route.points.reverse();
                Edit::Reverse
            }
            Edit::SetPace(pace) => {
                let pace = written_pace(pace)?;
                Edit::SetPace(replace(&mut route.pace, pace))
            }
            Edit::SetVariation(source) => Edit::SetVariation(replace(&mut route.variation, source)),
            Edit::SetDeparture(departure) => {
                Edit::SetDeparture(replace(&mut route.departure, departure))
            }
            Edit::SetTitle(title) => {
                let title = text("title", &title, Route::MOST_TITLE)?;
                Edit::SetTitle(replace(&mut route.title, title))
            }
        })
    }
}

fn point(route: &mut Route, index: usize) -> Result<&mut Waypoint, EditError> {
    let points = route.points.len();
    route.points.get_mut(index).ok_or(EditError::NoPoint { index, points })
}

fn room(route: &Route, index: usize) -> Result<(), EditError> {
    let points = route.points.len();
    if index > points {
        return Err(EditError::NoPoint { index, points });
    }
    if points >= Route::MOST_POINTS {
        return Err(EditError::TooManyPoints);
    }
    Ok(())
}
