//! The walk from leg to leg.

use jiff::{SignedDuration, Timestamp};
use nav::magnetic::DecimalYear;
use nav::passage::{Crossing, Passed, Stretch, Walk, one_heading, walk};
use nav::{Bearing, Length, True, Variation};

use super::place::beside;
use super::{Heading, Headings, LegPassage, Mark, Passage, warning};
use crate::course::{CourseLeg, Left, Made, Steered, Stopped, Waters, leave};

impl Waters<'_> {
    /// The passage that leaves at an instant, and waits on the way for `longest_wait` at most, all waits
    /// together. Beyond the time of these streams nothing is known of the water.
    pub fn passage(&self, departs: Timestamp, longest_wait: SignedDuration) -> Passage {
        let (mut now, mut may_wait) = (departs, longest_wait);
        let mut passage = Passage { departs, legs: Vec::new(), halt: None, warnings: Vec::new() };
        for (index, leg) in self.course().legs().iter().enumerate() {
            let ready = now.checked_add(leg.stop).unwrap_or(now);
            let stretches = self.stretches(leg);
            let make = |at| Way::of(self, leg, &stretches, at);
            match leave(self, leg, (ready, may_wait), make) {
                Ok(left) => {
                    let made = self.made(leg, ready, left);
                    (now, may_wait) = (made.arrives, may_wait - made.waited);
                    passage.legs.push(made);
                }
                Err(held) => {
                    passage.halt = Some(self.halted(index, leg, (ready, may_wait), held));
                    break;
                }
            }
        }
        passage.warnings = warning::of(self.course(), &passage.legs);
        passage
    }

    fn made(&self, leg: &CourseLeg, ready: Timestamp, left: Left<Way>) -> LegPassage {
        let Left { departs, waited_for, made } = left;
        let variation = self.variation(leg, departs);
        let comes = |stretch| made.comes(stretch);
        LegPassage {
            waited: departs.duration_since(ready),
            waited_for,
            departs,
            arrives: made.comes(leg.stretches.len()),
            distance: leg.distance,
            headings: headings(leg, made.passed(), variation),
            sums: made.passed().iter().map(|passed| passed.sums).sum(),
            races: self.races_met(leg, comes),
            gates: self.gates_passed(leg, comes),
            way: made.way(leg),
            off_line: made.off_line(),
        }
    }

    /// The variation on a leg on the day of an instant.
    fn variation(&self, leg: &CourseLeg, at: Timestamp) -> Variation {
        let date = at.to_zoned_datetime(self.course().zone().clone()).date();
        let source = self.course().variation();
        source.at(leg.middle, DecimalYear::from_date(date)).variation
    }
}

/// A leg that was walked.
#[derive(Debug)]
enum Way {
    Line(Walk),
    Crossing(Crossing),
}

impl Made for Way {
    fn comes(&self, stretch: usize) -> Timestamp {
        let (passed, departs) = match self {
            Way::Line(walk) => (&walk.passed, walk.departs),
            Way::Crossing(crossing) => (&crossing.passed, crossing.departs),
        };
        match (passed.get(stretch), passed.last()) {
            (Some(passed), _) => passed.enters,
            (None, Some(last)) => last.leaves,
            (None, None) => departs,
        }
    }
}

impl Way {
    fn of(
        waters: &Waters<'_>,
        leg: &CourseLeg,
        stretches: &[Stretch<'_>],
        departs: Timestamp,
    ) -> Result<Way, Stopped> {
        let boat = waters.course().boat();
        // A leg without length has no heading, and needs none.
        if leg.steered == Steered::OneHeading && !stretches.is_empty() {
            let crossing = one_heading(stretches, boat, departs);
            return crossing.map(Way::Crossing).map_err(Stopped::NoHeading);
        }
        let walk = walk(stretches, boat, departs);
        match walk.halt {
            Some(halt) => Err(Stopped::Halt(halt)),
            None => Ok(Way::Line(walk)),
        }
    }

    fn passed(&self) -> &[Passed] {
        match self {
            Way::Line(walk) => &walk.passed,
            Way::Crossing(crossing) => &crossing.passed,
        }
    }

    /// Where the boat is, and when.
    fn way(&self, leg: &CourseLeg) -> Vec<Mark> {
        match self {
            Way::Line(walk) => {
                let start = Mark { at: leg.from, when: walk.departs };
                let passed = walk.passed.iter().zip(&leg.stretches);
                let ends =
                    passed.map(|(passed, stretch)| Mark { at: stretch.to, when: passed.leaves });
                std::iter::once(start).chain(ends).collect()
            }
            Way::Crossing(crossing) => {
                let track = leg.stretches.first().map_or(Bearing::NORTH, |stretch| stretch.track);
                let place = |offset: &nav::passage::Offset| Mark {
                    at: beside(leg.from, track, offset.along, offset.across),
                    when: offset.at,
                };
                crossing.track.iter().map(place).collect()
            }
        }
    }

    fn off_line(&self) -> Option<Length> {
        match self {
            Way::Line(_) => None,
            Way::Crossing(crossing) => crossing.farthest().map(|offset| offset.across),
        }
    }
}

fn headings(leg: &CourseLeg, passed: &[Passed], variation: Variation) -> Option<Headings> {
    let heading = |from_true: Bearing<True>| Heading {
        from_true,
        from_magnetic: from_true.to_magnetic(variation),
    };
    let (first, last) = (passed.first()?, passed.last()?);
    let mean = (leg.steered != Steered::Along).then(|| heading(mean(passed, first.headings[0])));
    Some(Headings { mean, first: heading(first.headings[0]), last: heading(last.headings[1]) })
}

/// The mean of the headings over the time: where the boat went through the water.
fn mean(passed: &[Passed], first: Bearing<True>) -> Bearing<True> {
    let (mut east, mut north) = (0.0, 0.0);
    for stretch in passed {
        let seconds = stretch.leaves.duration_since(stretch.enters).as_secs_f64();
        for heading in stretch.headings {
            let (sin, cos) = heading.as_degrees().to_radians().sin_cos();
            east += seconds * sin;
            north += seconds * cos;
        }
    }
    // One heading is given to the last digit.
    if passed.iter().all(|stretch| stretch.headings == [first; 2]) {
        return first;
    }
    Bearing::from_degrees(east.atan2(north).to_degrees().rem_euclid(360.0)).unwrap_or(first)
}
