//! A crossing on one heading for its whole length: the summed set.

use jiff::{SignedDuration, Timestamp};

use super::Stretch;
use super::boat::Boat;
use super::hold::{Clock, Passed, Passing, Stopped};
use super::sums::Sums;
use super::way::{Steering, Way};
use crate::angle::sin_cos_degrees;
use crate::{Bearing, Length, True};

/// How far apart the directions of the stretches of a straight line may lie, in degrees.
const STRAIGHT: f64 = 1.0;

/// The track is given no further apart than this, in seconds.
const OFTEN: f64 = 300.0;

/// Where the search from along the line fails, every so many degrees all round the compass are tried.
const LOOKED_AT: usize = 3;

/// How close to its end the heading brings the boat, in metres.
const CLOSE: f64 = 1e-3;

/// Where a boat is, seen from the line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Offset {
    /// When.
    pub at: Timestamp,
    /// How far along the line from its beginning.
    pub along: Length,
    /// How far off the line, to the right of its track.
    pub across: Length,
}

/// A crossing on one heading.
#[derive(Debug, Clone, PartialEq)]
pub struct Crossing {
    /// The heading to steer all the way.
    pub heading: Bearing<True>,
    /// When it began.
    pub departs: Timestamp,
    /// When the boat is at the end of the line.
    pub arrives: Timestamp,
    /// The stretches as the boat comes abreast of their ends.
    pub passed: Vec<Passed>,
    /// The way over the ground, from the beginning of the line to its end, at most five minutes from
    /// point to point. Between two points it bends no more than the stream changes in that time.
    pub track: Vec<Offset>,
}

impl Crossing {
    /// The time that it takes.
    pub fn time(&self) -> SignedDuration {
        self.arrives.duration_since(self.departs)
    }

    /// Where the boat is farthest off the line; nothing of a crossing without length.
    pub fn farthest(&self) -> Option<Offset> {
        let off = |offset: &&Offset| offset.across.as_metres().abs();
        self.track.iter().max_by(|a, b| off(a).total_cmp(&off(b))).copied()
    }

    /// What there was on the way. With, against and across are seen from the line.
    pub fn sums(&self) -> Sums {
        self.passed.iter().map(|passed| passed.sums).sum()
    }
}

/// Why a line cannot be crossed on one heading.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum NoHeading {
    /// The line is not straight.
    #[error(
        "the line turns by {degrees:.1}°; on one heading goes a straight line, within {STRAIGHT}°"
    )]
    Bends {
        /// The greatest angle between the first stretch and another.
        degrees: f64,
    },
    /// On every heading the stream brings the boat to a stand along the line, or sets it back.
    #[error("on no heading does the boat make way along the line all the way to its end")]
    NoWay,
    /// On no heading does the boat come to the line's end.
    #[error("no heading brings the boat to the end; the best of them passes {:.0} m off it", off.as_metres())]
    Missed {
        /// How far off the best of them passes.
        off: Length,
    },
}

/// The one heading on which a boat that leaves at an instant comes to the end of a straight line of
/// stretches, and where it goes meanwhile.
///
/// Abreast of each part of the line the boat is in the stream of that part, however far off the line
/// it is carried. It must make way along the line all the time, by more than
/// [`LEAST_WAY`](super::LEAST_WAY). Where several headings come to the end, the quickest is given. What
/// comes to the end only within less than three degrees of heading, which nobody steers, may be
/// missed.
///
/// The boat passes within a millimetre of the end; its way between two knots of the stream is in
/// closed form.
///
/// # Errors
/// [`NoHeading`] when no heading does it, or the line is not straight.
///
/// ```
/// use jiff::Timestamp;
/// use nav::passage::{Boat, Stretch, one_heading};
/// use nav::{Bearing, Length, Speed};
/// let line = Stretch { track: Bearing::NORTH, length: 6.0 * Length::NAUTICAL_MILE, water: vec![] };
/// let departs: Timestamp = "2026-06-14T09:00Z".parse()?;
/// let crossing = one_heading(&[line], Boat::new(Speed::from_knots(3.0)?), departs)?;
/// assert_eq!(crossing.heading.to_string(), "000°T");
/// assert_eq!(crossing.time().as_mins(), 120);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn one_heading(
    stretches: &[Stretch<'_>],
    boat: Boat,
    departs: Timestamp,
) -> Result<Crossing, NoHeading> {
    let track = stretches.first().map_or(Bearing::NORTH, |first| first.track);
    let bends = stretches.iter().map(|other| track.turn_to(other.track).as_degrees().abs());
    let degrees = bends.fold(0.0, f64::max);
    if degrees > STRAIGHT {
        return Err(NoHeading::Bends { degrees });
    }
    let line = Line { stretches, boat, clock: Clock::from(departs) };
    let found = line.near().map_or_else(|| line.quickest(), Ok)?;
    let bow = found.bow;
    Ok(line.crossing(bow, Bearing::wrapped(track.as_degrees() + bow), departs))
}

/// Where a heading leads.
#[derive(Debug, Clone, Copy)]
struct End {
    /// The heading, in degrees to the right of the line.
    bow: f64,
    /// How far to the right of the line's end the boat passes, in metres.
    off: f64,
    /// After how many seconds.
    seconds: f64,
}

impl End {
    fn is_there(&self) -> bool {
        self.off.abs() <= CLOSE
    }
}

struct Line<'a> {
    stretches: &'a [Stretch<'a>],
    boat: Boat,
    clock: Clock,
}

impl Line<'_> {
    /// With the bow so many degrees to the right of the line.
    fn passing(&self, degrees: f64) -> Passing {
        let (sin, cos) = sin_cos_degrees(degrees);
        let speed = self.boat.speed().as_metres_per_second();
        let steering = Steering::Bow((speed * cos, speed * sin));
        Passing { boat: self.boat, steering, clock: self.clock }
    }

    fn end(&self, bow: f64) -> Result<End, Stopped> {
        let passing = self.passing(bow);
        let mut end = End { bow, off: 0.0, seconds: 0.0 };
        for stretch in self.stretches {
            let aside = |way: &Way, _, seconds| end.off += way.set_aside(seconds);
            end.seconds = passing.pass(stretch, 0.0, end.seconds, aside)?;
        }
        Ok(end)
    }

    /// A heading that leads to the end, found from that along the line by the secant method: most often
    /// after five or six. Nothing where it is not found so.
    ///
    /// Where there are several it is the quickest, since the search begins from the bow along the line: no
    /// proof, but a test looks for a quicker one in streams of all kinds.
    fn near(&self) -> Option<End> {
        let mut before = self.end(0.0).ok()?;
        if before.is_there() {
            return Some(before);
        }
        // As if the boat went as far through the water on any heading.
        let through = self.boat.speed().as_metres_per_second() * before.seconds;
        let mut bow = -(before.off / through).clamp(-1.0, 1.0).asin().to_degrees();
        for _ in 0..12 {
            let here = self.end(bow).ok()?;
            if here.is_there() {
                return Some(here);
            }
            bow -= here.off * (here.bow - before.bow) / (here.off - before.off);
            before = here;
            // Lost; or no number, where two headings led to one place.
            if !bow.is_finite() || bow.abs() > 180.0 {
                return None;
            }
        }
        None
    }

    /// The quickest heading that leads to the end, of all round the compass.
    fn quickest(&self) -> Result<End, NoHeading> {
        let all = (-180..180).step_by(LOOKED_AT).map(|bow| self.end(f64::from(bow)).ok());
        let all: Vec<Option<End>> = all.collect();
        let pairs = all.windows(2).filter_map(|pair| pair[0].zip(pair[1]));
        let across = pairs.filter(|(a, b)| (a.off < 0.0) != (b.off < 0.0));
        let found = across.filter_map(|(a, b)| self.between(a, b));
        let quickest = found.min_by(|a, b| a.seconds.total_cmp(&b.seconds));
        let off = all.iter().flatten().map(|end| end.off.abs()).min_by(f64::total_cmp);
        quickest.ok_or(match off {
            Some(off) => NoHeading::Missed { off: Length::metres(off) },
            None => NoHeading::NoWay,
        })
    }

    /// The heading between two that lead to either side of the end: by false position with the Illinois
    /// change (Dowell and Jarratt 1971). Nothing where the boat makes no way on one between.
    fn between(&self, mut a: End, mut b: End) -> Option<End> {
        let (mut weight_a, mut weight_b) = (a.off, b.off);
        for _ in 0..80 {
            let end =
                self.end((a.bow * weight_b - b.bow * weight_a) / (weight_b - weight_a)).ok()?;
            if end.is_there() {
                return Some(end);
            }
            if (end.off < 0.0) == (b.off < 0.0) {
                (b, weight_b, weight_a) = (end, end.off, weight_a / 2.0);
            } else {
                (a, weight_a, weight_b) = (end, end.off, weight_b / 2.0);
            }
        }
        None
    }

    fn crossing(&self, bow: f64, heading: Bearing<True>, departs: Timestamp) -> Crossing {
        let passing = self.passing(bow);
        let mut crossing = Crossing {
            heading,
            departs,
            arrives: departs,
            passed: Vec::with_capacity(self.stretches.len()),
            track: vec![Offset { at: departs, along: Length::ZERO, across: Length::ZERO }],
        };
        let (mut along, mut across, mut now) = (0.0, 0.0, 0.0);
        for stretch in self.stretches {
            let mut sums = Sums::default();
            let left = passing.pass(stretch, 0.0, now, |way, after, seconds| {
                sums.add(way, stretch.track, self.clock.at(after), seconds, self.boat.speed());
                let parts = (seconds / OFTEN).ceil().max(1.0);
                for part in 1..=parts as u32 {
                    let part = seconds * f64::from(part) / parts;
                    crossing.track.push(Offset {
                        at: self.clock.at(after + part),
                        along: Length::metres(along + way.covered(part)),
                        across: Length::metres(across + way.set_aside(part)),
                    });
                }
                along += way.covered(seconds);
                across += way.set_aside(seconds);
            });
            // It came through when the heading was found.
            let Ok(leaves) = left else { break };
            let (enters, leaves_at) = (self.clock.at(now), self.clock.at(leaves));
            crossing.passed.push(Passed {
                enters,
                leaves: leaves_at,
                headings: [heading; 2],
                sums,
            });
            crossing.arrives = leaves_at;
            now = leaves;
        }
        crossing
    }
}

#[cfg(test)]
mod tests;
