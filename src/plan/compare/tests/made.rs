//! Tracks whose truth is known from their making: a boat that goes by plain steps of a second, and a
//! receiver with every fault of a real one.

use jiff::{SignedDuration, Timestamp};
use nav::{Bearing, Length, Position, geodesic, rhumb};

use crate::track::{Fix, Track};

const KNOT: f64 = 1852.0 / 3600.0;

/// A boat, where it was at each second, and the seconds of what it did.
pub(super) struct Boat {
    pub(super) start: Timestamp,
    pub(super) truth: Vec<Position>,
}

/// A fault: the seconds from and to which fixes have it.
pub(super) enum Fault {
    /// No fixes.
    Gap(usize, usize),
    /// A fix that is so many metres away.
    Wild(usize, f64),
    /// Every fix of these seconds is written twice.
    Twice(usize, usize),
    /// Fixes with times so many seconds too early.
    Early(usize, usize, i64),
    /// Every fix from here on is so many metres away: a jump that lasts.
    Moved(usize, f64),
}

/// The same numbers on every machine: Knuth's linear congruence.
pub(super) struct Dice(pub(super) u64);

impl Dice {
    fn part(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005);
        self.0 = self.0.wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// About nothing with a standard deviation of one: twelve parts added.
    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.part()).sum::<f64>() - 6.0
    }
}

pub(super) fn metres(metres: f64) -> Length {
    Length::from_metres(metres).unwrap()
}

/// So many metres east and north of a place.
pub(super) fn beside(at: Position, east: f64, north: f64) -> Position {
    let bearing = Bearing::from_degrees(east.atan2(north).to_degrees()).unwrap();
    geodesic::direct(at, bearing, metres(east.hypot(north))).position
}

impl Boat {
    pub(super) fn at(start: &str, place: Position) -> Boat {
        Boat { start: start.parse().unwrap(), truth: vec![place] }
    }

    /// The second that it is now.
    pub(super) fn now(&self) -> usize {
        self.truth.len() - 1
    }

    pub(super) fn here(&self) -> Position {
        *self.truth.last().unwrap()
    }

    /// Goes straight to a place over the ground; gives the second at which it is there.
    pub(super) fn go(&mut self, to: Position, knots: f64) -> usize {
        let from = self.here();
        let line = rhumb::inverse(from, to);
        let length = line.distance.as_metres();
        let steps = (length / (knots * KNOT)).round().max(1.0) as usize;
        for step in 1..=steps {
            let so_far = metres(length * step as f64 / steps as f64);
            self.truth.push(rhumb::direct(from, line.bearing, so_far).unwrap());
        }
        self.now()
    }

    pub(super) fn stay(&mut self, seconds: usize) -> usize {
        let here = self.here();
        self.truth.extend(std::iter::repeat_n(here, seconds));
        self.now()
    }

    pub(super) fn when(&self, second: usize) -> Timestamp {
        self.start + SignedDuration::from_secs(second as i64)
    }

    /// The way between two seconds, by geodesics from second to second.
    pub(super) fn way(&self, from: usize, to: usize) -> f64 {
        let pairs = self.truth[from..=to].windows(2);
        pairs.map(|pair| geodesic::inverse(pair[0], pair[1]).distance.as_metres()).sum()
    }

    /// What a receiver writes down of it, a fix every so many seconds, with errors of so many metres east
    /// and north.
    pub(super) fn recorded(&self, every: usize, errs: f64, faults: &[Fault]) -> Track {
        let mut dice = Dice(7);
        let mut track = Track::named("made");
        for (second, at) in self.truth.iter().enumerate().step_by(every) {
            let mut at = beside(*at, errs * dice.normal() + 1e-9, errs * dice.normal());
            let (mut when, mut times, mut lost) = (self.when(second), 1, false);
            for fault in faults {
                match *fault {
                    Fault::Gap(from, to) => lost |= (from..to).contains(&second),
                    Fault::Wild(here, far) if here == second => at = beside(at, far, far),
                    Fault::Moved(from, far) if second >= from => at = beside(at, far, 0.0),
                    Fault::Twice(from, to) if (from..to).contains(&second) => times = 2,
                    Fault::Early(from, to, early) if (from..to).contains(&second) => {
                        when -= SignedDuration::from_secs(early);
                    }
                    _ => {}
                }
            }
            for _ in 0..if lost { 0 } else { times } {
                track.push(Fix::new(at, Some(when))).unwrap();
            }
        }
        track
    }

    /// How far off a line of legs each second was, by brute force: against places of the legs ten metres
    /// apart, of the legs that are named.
    pub(super) fn off(&self, second: usize, legs: &[(Position, Position)]) -> f64 {
        let mut least = f64::MAX;
        for (from, to) in legs {
            let line = rhumb::inverse(*from, *to);
            let pieces = (line.distance.as_metres() / 10.0).ceil() as usize;
            for piece in 0..=pieces {
                let so_far = line.distance * (piece as f64 / pieces as f64);
                let place = rhumb::direct(*from, line.bearing, so_far).unwrap();
                let away = geodesic::inverse(self.truth[second], place).distance.as_metres();
                least = least.min(away);
            }
        }
        least
    }
}
