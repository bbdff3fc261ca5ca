//! The one way to change a route.
//!
//! A change never leaves a line that does not join the ends of its leg:
//!
//! - a point put in on the line of a traced leg splits the line, and both parts stay traced; put in
//!   off the line, it leaves two straight legs;
//! - a point that moves straightens the legs at it;
//! - a point taken out from between two traced legs joins their lines; else the leg that is left is
//!   straight;
//! - the whole route turned about turns every line about.
//!
//! How a leg is steered goes the same ways: both parts of one that is split are steered as it was, two
//! made one keep it where both had it, and a leg that gets a line is steered on it.
//!
//! [`Edit::SetAlong`] gives such a leg another line; [`Document::apply_joined`](crate::Document::apply_joined)
//! makes it a part of the same step.

mod back;

pub(crate) use back::Back;

use jiff::SignedDuration;
use nav::magnetic::VariationSource;
use nav::{Length, Pace, Position};

use crate::route::{rounded, stop, text, written_pace};
use crate::{
    Along, Departure, Limits, LimitsError, Route, Steering, Waypoint, Weather, WeatherError,
};

/// A change to a route. Indices count from zero; words about a change count from one.
#[derive(Debug, Clone, PartialEq)]
pub enum Edit {
    /// Puts a point before the one at `index`, or at the end. On the line of a traced leg it splits
    /// the line, unless it comes with a line of its own; else the leg from it on is straight.
    Insert {
        /// From zero up to and including the number of points.
        index: usize,
        /// The new point, with the line of the leg to it, if that is not straight.
        waypoint: Waypoint,
    },
    /// Moves a point, also to where it was. The legs at it are straight from then on.
    Move {
        /// Which.
        index: usize,
        /// Where to.
        to: Position,
    },
    /// Takes a point out. Two traced legs that met there become one.
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
    /// Sets how a leg runs.
    SetAlong {
        /// The point that the leg ends at.
        index: usize,
        /// Its line from the point before; straight if nothing is said.
        along: Option<Along>,
    },
    /// Sets how a leg is steered through moving water.
    SetSteering {
        /// The point that the leg ends at.
        index: usize,
        /// How.
        steer: Steering,
    },
    /// Turns the route about: last point first. Stops, names and notes stay with their points,
    /// lines and steering with their legs.
    Reverse,
    /// Sets how fast the group gets along.
    SetPace(Pace),
    /// Sets where the variation comes from.
    SetVariation(VariationSource),
    /// Sets when the group leaves.
    SetDeparture(Option<Departure>),
    /// Sets the wind.
    SetWind(Option<Weather>),
    /// Sets what a start must keep to.
    SetLimits(Limits),
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
    /// A line for a leg that there is not.
    #[error("the first point ends no leg, so that no line can lead to it")]
    FirstPoint,
    /// Steering for a leg that there is not.
    #[error("the first point ends no leg, so that there is nothing to steer")]
    NothingToSteer,
    /// One heading for a leg that bends.
    #[error("one heading is for a straight leg; this one runs along the shore")]
    OneHeadingAlong,
    /// More of something than a leg or a route holds.
    #[error("{count} {what}; at most {most} fit")]
    TooMany {
        /// Of what.
        what: &'static str,
        /// How many there would be.
        count: usize,
        /// The bound.
        most: usize,
    },
    /// A length of a traced leg out of its bounds.
    #[error("a {what} of {} m is not within 0 to {} m", length.as_metres(), most.as_metres())]
    Length {
        /// Which length.
        what: &'static str,
        /// What it would be.
        length: Length,
        /// The bound.
        most: Length,
    },
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
    /// A wind that no leeway is reckoned for.
    #[error(transparent)]
    Wind(#[from] WeatherError),
    /// A limit out of its bounds.
    #[error(transparent)]
    Limits(#[from] LimitsError),
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
            Edit::SetAlong { index, along: Some(_) } => format!("trace leg {index}"),
            Edit::SetAlong { index, along: None } => format!("straighten leg {index}"),
            Edit::SetSteering { index, steer: Steering::OneHeading } => {
                format!("one heading on leg {index}")
            }
            Edit::SetSteering { index, .. } => format!("hold the line of leg {index}"),
            Edit::Reverse => "reverse".to_owned(),
            Edit::SetPace(_) => "pace".to_owned(),
            Edit::SetVariation(_) => "variation".to_owned(),
            Edit::SetDeparture(_) => "departure".to_owned(),
            Edit::SetWind(_) => "wind".to_owned(),
            Edit::SetLimits(_) => "limits".to_owned(),
            Edit::SetTitle(_) => "title".to_owned(),
        }
    }

    /// Makes the change and returns what takes it back. On an error `route` is untouched.
    pub(crate) fn make(self, route: &mut Route) -> Result<Back, EditError> {
        use std::mem::replace;
        Ok(match self {
            Edit::Insert { index, waypoint } => return insert(route, index, waypoint),
            Edit::Delete { index } => return delete(route, index),
            Edit::Move { index, to } => return shift(route, index, rounded(to)),
            Edit::Rename { index, name } => {
                let name = text("name", &name, Waypoint::MOST_NAME)?;
                return point(route, index, |point| Waypoint { name, ..point });
            }
            Edit::SetStop { index, stop: wanted } => {
                let stop = stop(wanted)?;
                return point(route, index, |point| Waypoint { stop, ..point });
            }
            Edit::SetNote { index, note } => {
                let note = text("note", &note, Waypoint::MOST_NOTE)?;
                return point(route, index, |point| Waypoint { note, ..point });
            }
            Edit::SetAlong { index, along } => {
                let along = along.map(Along::checked).transpose()?;
                if index == 0 && along.is_some() {
                    return Err(EditError::FirstPoint);
                }
                return point(route, index, |point| match along {
                    Some(_) => Waypoint { along, steer: Steering::Line, ..point },
                    None => Waypoint { along, ..point },
                });
            }
            Edit::SetSteering { index, steer } => return steer_leg(route, index, steer),
            Edit::Reverse => {
                turn_about(&mut route.points);
                Back::Edit(Edit::Reverse)
            }
            Edit::SetPace(pace) => {
                let pace = written_pace(pace)?;
                Back::Edit(Edit::SetPace(replace(&mut route.pace, pace)))
            }
            Edit::SetVariation(source) => {
                Back::Edit(Edit::SetVariation(replace(&mut route.variation, source)))
            }
            Edit::SetDeparture(departure) => {
                Back::Edit(Edit::SetDeparture(replace(&mut route.departure, departure)))
            }
            Edit::SetWind(wind) => {
                let wind = wind.map(Weather::checked).transpose()?;
                Back::Edit(Edit::SetWind(replace(&mut route.wind, wind)))
            }
            Edit::SetLimits(limits) => {
                let limits = limits.checked()?;
                Back::Edit(Edit::SetLimits(replace(&mut route.limits, limits)))
            }
            Edit::SetTitle(title) => {
                let title = text("title", &title, Route::MOST_TITLE)?;
                Back::Edit(Edit::SetTitle(replace(&mut route.title, title)))
            }
        })
    }
}

/// Puts `waypoint` in, and the line of the leg that it parts to either side of it.
fn insert(route: &mut Route, index: usize, waypoint: Waypoint) -> Result<Back, EditError> {
    let waypoint = waypoint.checked()?;
    let points = route.points.len();
    if index > points {
        return Err(EditError::NoPoint { index, points });
    }
    if index == 0 {
        waypoint.check_first()?;
    }
    let Some(next) = route.points.get(index) else {
        return Back::put(route, index..index, vec![waypoint]);
    };
    let before = index.checked_sub(1).and_then(|before| route.points.get(before));
    let line = before.zip(next.along.as_ref()).filter(|_| waypoint.along.is_none());
    let parts = line.and_then(|(before, line)| line.split(before.at, waypoint.at, next.at));
    let (to, on) = parts.unzip();
    let next = Waypoint { along: on, ..next.clone() };
    // On one heading both parts stay so, unless the new one comes with a line.
    let parted = before.is_some() && next.steer == Steering::OneHeading && waypoint.along.is_none();
    let steer = if parted { next.steer } else { waypoint.steer };
    let waypoint = Waypoint { along: waypoint.along.clone().or(to), steer, ..waypoint };
    Back::put(route, index..index + 1, vec![waypoint, next])
}

/// Takes a point out; what was the leg from it on ends at the same point as before.
fn delete(route: &mut Route, index: usize) -> Result<Back, EditError> {
    let gone = there(route, index)?;
    let Some(next) = route.points.get(index + 1) else {
        return Back::put(route, index..index + 1, Vec::new());
    };
    let lines = gone.along.as_ref().zip(next.along.as_ref());
    let along = lines.map(|(to, on)| to.joined(gone.at, on)).transpose()?;
    let steer = gone.steer.joined(next.steer);
    let next = Waypoint { along, steer, ..next.clone() };
    Back::put(route, index..index + 2, vec![next])
}

/// Moves a point away from the lines that met there.
fn shift(route: &mut Route, index: usize, to: Position) -> Result<Back, EditError> {
    let here = there(route, index)?.clone();
    let kept = here.kept.as_ref().and_then(|kept| kept.moved());
    let moved = Waypoint { at: to, along: None, kept, ..here };
    let next = route.points.get(index + 1).filter(|next| next.along.is_some());
    let straight = next.map(|next| Waypoint { along: None, ..next.clone() });
    let points: Vec<Waypoint> = [moved].into_iter().chain(straight).collect();
    Back::put(route, index..index + points.len(), points)
}

/// Steers the leg that ends at a point.
fn steer_leg(route: &mut Route, index: usize, steer: Steering) -> Result<Back, EditError> {
    let steered = there(route, index)?.clone().steered(steer).checked()?;
    if index == 0 {
        steered.check_first()?;
    }
    Back::put(route, index..index + 1, vec![steered])
}

/// Changes a point alone.
fn point(
    route: &mut Route,
    index: usize,
    change: impl FnOnce(Waypoint) -> Waypoint,
) -> Result<Back, EditError> {
    let changed = change(there(route, index)?.clone());
    Back::put(route, index..index + 1, vec![changed])
}

fn there(route: &Route, index: usize) -> Result<&Waypoint, EditError> {
    let points = route.points.len();
    route.points.get(index).ok_or(EditError::NoPoint { index, points })
}

/// The last point first. A line, and how a leg is steered, are kept with the point that the leg ends
/// at, now its other one.
fn turn_about(points: &mut [Waypoint]) {
    let (mut line, mut steer) = (None, Steering::Line);
    for point in points.iter_mut().rev() {
        let to = point.along.take();
        point.along = line;
        line = to.as_ref().map(Along::reversed);
        std::mem::swap(&mut point.steer, &mut steer);
    }
    points.reverse();
}
