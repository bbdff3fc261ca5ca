//! A leg of a course.

use std::sync::Arc;

use jiff::SignedDuration;
use nav::{Length, Position};

use super::cut::{self, Dry, Stretched};
use super::line::Line;
use super::spot::Spotter;
use crate::reckon::middle;
use crate::unrolled::Ground;
use crate::{Route, Steering};

/// How a leg of a course is steered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Steered {
    /// Straight on its line.
    Line,
    /// Straight from end to end, on one heading.
    OneHeading,
    /// On a traced line.
    Along,
}

/// A leg of a course.
#[derive(Debug, Clone, PartialEq)]
pub struct CourseLeg {
    /// Where it starts.
    pub from: Position,
    /// What the point there is called, or empty.
    pub from_name: String,
    /// Where it ends.
    pub to: Position,
    /// What the point there is called, or empty.
    pub to_name: String,
    /// Its length, that of its reading.
    pub distance: Length,
    /// Its middle, where its variation is taken.
    pub middle: Position,
    /// How it is steered.
    pub steered: Steered,
    /// How long the group stays where it starts; nothing at the first point.
    pub stop: SignedDuration,
    /// Its stretches, from its start to its end; at least one unless it has no length.
    pub stretches: Vec<Stretched>,
    /// The races that it goes through, in the order in which it enters them.
    pub races: Vec<RaceOn>,
    /// The gates that it crosses, in order.
    pub gates: Vec<GateOn>,
}

/// A race on a leg.
#[derive(Debug, Clone, PartialEq)]
pub struct RaceOn {
    /// What it is called.
    pub name: Arc<str>,
    /// Its number among the chart's.
    pub race: usize,
    /// How far along the leg it is entered.
    pub from: Length,
    /// How far along the leg it is left.
    pub to: Length,
    /// The number of the stretch that begins where it is entered.
    pub first: usize,
    /// The number of the stretch that begins where it is left; beyond the last at the leg's end.
    pub end: usize,
}

/// A gate on a leg.
#[derive(Debug, Clone, PartialEq)]
pub struct GateOn {
    /// What it is called.
    pub name: Arc<str>,
    /// Its number among the chart's.
    pub gate: usize,
    /// How far along the leg it is.
    pub at: Length,
    /// The number of the stretch that begins there; beyond the last at the leg's end.
    pub stretch: usize,
}

impl CourseLeg {
    /// Leg `index` of a route, counted from 0; nothing if there is no such leg.
    pub(super) fn new(
        route: &Route,
        index: usize,
        stop: SignedDuration,
        ground: &Ground<'_>,
    ) -> Option<CourseLeg> {
        let (start, end) = (route.points.get(index)?, route.points.get(index + 1)?);
        let line = Line::new(start.at, end.at, end.along.as_ref());
        let cut::Cut { stretches, races, gates } = cut::cut(&line, &Spotter::new(ground));
        Some(CourseLeg {
            from: start.at,
            from_name: start.name.clone(),
            to: end.at,
            to_name: end.name.clone(),
            distance: line.length(),
            middle: match &end.along {
                Some(_) => line.at(line.length() / 2.0),
                None => middle(start.at, end.at),
            },
            steered: match (&end.along, end.steer) {
                (Some(_), _) => Steered::Along,
                (None, Steering::Line) => Steered::Line,
                (None, Steering::OneHeading) => Steered::OneHeading,
            },
            stop,
            stretches,
            races,
            gates,
        })
    }

    /// How much of it has no stream for this reason.
    pub fn dry(&self, why: Dry) -> Length {
        let dry = self.stretches.iter().filter(|stretch| stretch.water == Err(why));
        dry.map(|stretch| stretch.length).sum()
    }
}
