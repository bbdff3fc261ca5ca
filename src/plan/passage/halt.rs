//! Where a passage comes to nothing.

use std::sync::Arc;

use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use nav::passage::{Halt, NoHeading, Why};
use nav::triangle::Stream;
use nav::{Length, Position, text};

use super::place::beside;
use crate::Course;
use crate::course::{CourseLeg, Held, Stopped, Waters};

/// What is no farther along a leg, in metres, is said to be where the leg starts.
const START: f64 = 50.0;

/// Where and when a passage cannot go on, as far as waiting may help: what held it when the group was
/// first ready to set out on the leg.
#[derive(Debug, Clone, PartialEq)]
pub struct Halted {
    /// On which leg, from zero.
    pub leg: usize,
    /// When the group is ready to set out on it.
    pub ready: Timestamp,
    /// When it comes to nothing.
    pub at: Timestamp,
    /// Where.
    pub place: Position,
    /// How far along the leg that is.
    pub along: Length,
    /// How long the group would wait, and in vain.
    pub waits: SignedDuration,
    /// Why.
    pub why: HaltWhy,
}

/// Why a passage cannot go on.
#[derive(Debug, Clone, PartialEq)]
pub enum HaltWhy {
    /// The boat makes no way along its line, against this stream.
    NoWay(Option<Stream>),
    /// This stream sets it off its line faster than it can make up for.
    CannotHold(Option<Stream>),
    /// A crossing has no heading.
    NoHeading(NoHeading),
    /// A gate is shut.
    Shut {
        /// The gate's name.
        gate: Arc<str>,
        /// When it opens next, as far as that is known.
        opens: Option<Timestamp>,
    },
}

impl Halted {
    /// It in a sentence without its stop, with clock times on the course's clock: `leg 4 makes no way
    /// against 3.4 kn setting 214°T at 11:40, 1.2 km from Slip`.
    pub fn words(&self, course: &Course) -> String {
        let clock = |at: Timestamp| clock(at, course.zone());
        let (leg, at) = (self.leg + 1, clock(self.at));
        let place = match self.along {
            // Where it starts, as far as anybody can tell.
            along if along < START * Length::METRE => format!("at {}", self.start(course)),
            along => format!("{} from {}", text::kilometres(along), self.start(course)),
        };
        let words = match &self.why {
            HaltWhy::NoWay(stream) => {
                format!("leg {leg} makes no way against {} at {at}, {place}", rate(*stream))
            }
            HaltWhy::CannotHold(stream) => {
                format!("leg {leg} cannot hold its line across {} at {at}, {place}", rate(*stream))
            }
            HaltWhy::NoHeading(why) => format!("leg {leg}, left at {at}: {why}"),
            HaltWhy::Shut { gate, opens } => {
                let opens = opens.map(|opens| format!("; it opens at {}", clock(opens)));
                let opens = opens.unwrap_or_default();
                // A gate at the point itself is often called as the point is.
                let begun = self.along >= START * Length::METRE;
                let place = if begun { format!(", {place}") } else { String::new() };
                format!("leg {leg} comes to {gate} at {at}, when it is shut{place}{opens}")
            }
        };
        if self.waits.is_zero() {
            return words;
        }
        format!("{words}; waiting up to {} does not help", text::duration(self.waits))
    }

    /// What the point is called that the leg starts at.
    fn start(&self, course: &Course) -> String {
        let name = course.legs().get(self.leg).map(|leg| leg.from_name.as_str());
        match name {
            Some(name) if !name.is_empty() => name.to_owned(),
            _ => format!("point {}", self.leg + 1),
        }
    }
}

impl Waters<'_> {
    /// What held a leg from being left on when the group was ready, and all through its wait.
    pub(crate) fn halted(
        &self,
        index: usize,
        leg: &CourseLeg,
        (ready, waits): (Timestamp, SignedDuration),
        held: Held<'_>,
    ) -> Halted {
        let start = Halted {
            leg: index,
            ready,
            at: ready,
            place: leg.from,
            along: Length::ZERO,
            waits,
            why: HaltWhy::NoWay(None),
        };
        match held {
            Held::Stopped(Stopped::NoHeading(why)) => {
                Halted { why: HaltWhy::NoHeading(why), ..start }
            }
            Held::Shut(gate, at) => {
                let place = leg.stretches.get(gate.stretch).map_or(leg.to, |stretch| stretch.from);
                let why = HaltWhy::Shut { gate: gate.name.clone(), opens: self.opens(gate, at) };
                Halted { at, place, along: gate.at, why, ..start }
            }
            Held::Stopped(Stopped::Halt(Halt { stretch, along, at, why })) => {
                let Some(stretch) = leg.stretches.get(stretch) else { return start };
                let stream = self.stream(stretch, at);
                let why = match why {
                    Why::NoWay => HaltWhy::NoWay(stream),
                    Why::CannotHold => HaltWhy::CannotHold(stream),
                };
                let place = beside(stretch.from, stretch.track, along, Length::ZERO);
                Halted { at, place, along: stretch.begins + along, why, ..start }
            }
        }
    }
}

fn rate(stream: Option<Stream>) -> String {
    match stream {
        Some(Stream { set, drift }) => format!("{:.1} kn setting {set}", drift.as_knots()),
        None => "the wind".to_owned(),
    }
}

/// On the clock of a zone, to the minute.
pub(super) fn clock(at: Timestamp, zone: &TimeZone) -> String {
    text::clock(&at.to_zoned_datetime(zone.clone()))
}
