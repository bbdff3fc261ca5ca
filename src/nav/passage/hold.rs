//! A passage that holds its line.

use jiff::{SignedDuration, Timestamp};

use super::Stretch;
use super::boat::{Axes, Boat};
use super::piece::piece;
use super::sums::Sums;
use super::way::{Steering, Step, Way};
use crate::{Bearing, Length, True};

/// A stretch that lies astern.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Passed {
    /// When it was entered.
    pub enters: Timestamp,
    /// When it was left.
    pub leaves: Timestamp,
    /// The headings steered where it was entered and where it was left.
    pub headings: [Bearing<True>; 2],
    /// What there was on the way.
    pub sums: Sums,
}

/// Why a boat makes no way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Why {
    /// Its speed along the line is down to [`LEAST_WAY`](super::LEAST_WAY), or it is set back.
    NoWay,
    /// The stream across the line is faster than the boat: no heading keeps to it.
    CannotHold,
}

/// Where and when a boat makes no way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Halt {
    /// The stretch, counted from 0.
    pub stretch: usize,
    /// How far along the stretch.
    pub along: Length,
    /// When.
    pub at: Timestamp,
    /// Why.
    pub why: Why,
}

/// A passage along a line.
#[derive(Debug, Clone, PartialEq)]
pub struct Walk {
    /// When it began.
    pub departs: Timestamp,
    /// The stretches that were passed, in order.
    pub passed: Vec<Passed>,
    /// Where it came to nothing; none of one that arrives.
    pub halt: Option<Halt>,
}

impl Walk {
    /// When it arrives; nothing of one that halts.
    pub fn arrives(&self) -> Option<Timestamp> {
        let last = self.passed.last().map_or(self.departs, |passed| passed.leaves);
        self.halt.is_none().then_some(last)
    }

    /// What there was on all stretches that were passed.
    pub fn sums(&self) -> Sums {
        self.passed.iter().map(|passed| passed.sums).sum()
    }
}

/// The passage of a boat that leaves at an instant and holds the line on every stretch.
///
/// At each instant the boat heads so that the stream, the wind's push and its own way make good the track
/// of the stretch, as [`triangle::heading`](crate::triangle::heading) has it. Between two knots the
/// stream changes evenly and the speed along the line has an integral in closed form, so that nothing is
/// stepped: instants are within a microsecond of the model's own, for passages of up to some days.
/// The model's own errors are those of the streams, and of taking a stretch's stream for the same
/// all along it.
///
/// It [halts](Halt) where the speed along the line falls to [`LEAST_WAY`](super::LEAST_WAY), and where
/// no heading holds the line. Outside the time of its streams a stretch is without data.
///
/// ```
/// use jiff::Timestamp;
/// use nav::passage::{Boat, Stretch, walk};
/// use nav::{Bearing, Length, Speed};
/// // Nothing known of the water: 3 NM at 3 kn.
/// let leg = Stretch { track: Bearing::NORTH, length: 3.0 * Length::NAUTICAL_MILE, water: vec![] };
/// let departs: Timestamp = "2026-06-14T09:00Z".parse()?;
/// let boat = Boat::new(Speed::from_knots(3.0)?);
/// let passage = walk(&[leg], boat, departs);
/// assert_eq!(passage.arrives(), Some("2026-06-14T10:00Z".parse()?));
/// let unknown = passage.sums().length_without_data;
/// assert!((unknown.as_nautical_miles() - 3.0).abs() < 1e-9);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn walk(stretches: &[Stretch<'_>], boat: Boat, departs: Timestamp) -> Walk {
    let clock = Clock::from(departs);
    let passing = Passing::on_the_line(boat, clock);
    let mut walk = Walk { departs, passed: Vec::with_capacity(stretches.len()), halt: None };
    let mut now = 0.0;
    for (index, stretch) in stretches.iter().enumerate() {
        let mut sums = Sums::default();
        let mut headings: Option<[Bearing<True>; 2]> = None;
        let left = passing.pass(stretch, 0.0, now, |way, after, seconds| {
            sums.add(way, stretch.track, clock.at(after), seconds, boat.speed());
            let [first, last] =
                [0.0, seconds].map(|at| heading(stretch.track, boat, way.carried(at).1));
            headings = Some([headings.map_or(first, |before| before[0]), last]);
        });
        match left {
            Ok(leaves) => {
                walk.passed.push(Passed {
                    enters: clock.at(now),
                    leaves: clock.at(leaves),
                    headings: headings.unwrap_or([stretch.track; 2]),
                    sums,
                });
                now = leaves;
            }
            Err(stopped) => {
                walk.halt = Some(stopped.halt(index, clock));
                break;
            }
        }
    }
    walk
}

/// The heading that makes up for what sets the boat across its track.
fn heading(track: Bearing<True>, boat: Boat, across: f64) -> Bearing<True> {
    let speed = boat.speed().as_metres_per_second();
    let into = if across == 0.0 { 0.0 } else { (-across / speed).clamp(-1.0, 1.0).asin() };
    Bearing::wrapped(track.as_degrees() + into.to_degrees())
}

/// Instants as seconds from a departure.
#[derive(Debug, Clone, Copy)]
pub(super) struct Clock {
    departs: Timestamp,
    /// In seconds from 1970.
    pub(super) origin: f64,
}

impl Clock {
    pub(super) fn from(departs: Timestamp) -> Clock {
        Clock { departs, origin: departs.as_duration().as_secs_f64() }
    }

    /// An instant in seconds after the departure.
    pub(super) fn seconds(self, at: Timestamp) -> f64 {
        at.duration_since(self.departs).as_secs_f64()
    }

    /// The instant so many seconds after the departure; the calendar's last one if it is beyond.
    pub(super) fn at(self, seconds: f64) -> Timestamp {
        let since = self.departs.as_duration().checked_add(duration(seconds));
        since.and_then(|since| Timestamp::from_duration(since).ok()).unwrap_or(Timestamp::MAX)
    }
}

/// So many seconds, to the nanosecond; the longest duration if it is less.
pub(super) fn duration(seconds: f64) -> SignedDuration {
    // Seconds of many years, and no more than have a whole number: a departure table asks this some
    // hundred thousand times, and the general way costs more than the passage between.
    if seconds.abs() < 1e12 {
        let whole = seconds as i64;
        let nanos = (seconds - whole as f64) * 1e9;
        return SignedDuration::new(whole, (nanos + 0.5_f64.copysign(nanos)) as i32);
    }
    SignedDuration::try_from_secs_f64(seconds).unwrap_or(SignedDuration::MAX)
}

/// Where on a stretch, and when in seconds, a boat makes no way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stopped {
    along: f64,
    at: f64,
    why: Why,
}

impl Stopped {
    pub(super) fn halt(self, stretch: usize, clock: Clock) -> Halt {
        let Stopped { along, at, why } = self;
        Halt { stretch, along: Length::metres(along), at: clock.at(at), why }
    }
}

/// What does not change in a passage.
#[derive(Debug, Clone, Copy)]
pub(super) struct Passing {
    pub(super) boat: Boat,
    pub(super) steering: Steering,
    pub(super) clock: Clock,
}

impl Passing {
    /// A boat that holds its line.
    pub(super) fn on_the_line(boat: Boat, clock: Clock) -> Passing {
        let steering = Steering::Line(boat.speed().as_metres_per_second());
        Passing { boat, steering, clock }
    }

    /// When a boat that has `done` so many metres of a stretch `now` leaves it, in seconds of the clock.
    /// Of each piece of time in which the stream changes evenly `each` is told the way, when it begins,
    /// and how many seconds of it the boat takes.
    pub(super) fn pass(
        &self,
        stretch: &Stretch<'_>,
        done: f64,
        mut now: f64,
        mut each: impl FnMut(&Way, f64, f64),
    ) -> Result<f64, Stopped> {
        let axes = Axes::of(stretch.track);
        let length = stretch.length.as_metres();
        let mut left = length - done;
        while left > 0.0 {
            let piece = piece(&stretch.water, self.clock.origin, now);
            let way = Way::new(piece, self.steering, self.boat, axes);
            match way.step(left) {
                Step::Through(covered) => {
                    each(&way, now, way.span);
                    (now, left) = (now + way.span, left - covered);
                }
                Step::Leaves(seconds) => {
                    each(&way, now, seconds);
                    return Ok(now + seconds);
                }
                Step::Halts(seconds, covered, why) => {
                    return Err(Stopped { along: length - left + covered, at: now + seconds, why });
                }
            }
        }
        Ok(now)
    }
}
