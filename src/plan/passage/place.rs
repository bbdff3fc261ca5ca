//! Where the group is, and when.

use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use nav::{Bearing, Length, Position, True, rhumb};

use super::Passage;

/// A place of a passage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mark {
    /// Where.
    pub at: Position,
    /// When the group is there.
    pub when: Timestamp,
}

impl Passage {
    /// Where the group is at an instant of the passage, also while it stays or waits at a point; nothing
    /// before and after.
    pub fn at(&self, when: Timestamp) -> Option<Position> {
        let first = self.legs.first()?.way.first()?;
        if (self.departs..=first.when).contains(&when) {
            return Some(first.at);
        }
        let leg = self.legs.get(self.legs.partition_point(|leg| leg.arrives < when))?;
        let next = leg.way.partition_point(|mark| mark.when < when);
        let to = leg.way.get(next)?;
        // Before the leg is left, the group is where it starts.
        let Some(from) = next.checked_sub(1).and_then(|before| leg.way.get(before)) else {
            return (when >= self.departs).then_some(to.at);
        };
        Some(between(*from, *to, when))
    }

    /// The places where the group is at every whole `every` of the clock in `zone`, such as each quarter of an
    /// hour, while it is under way.
    pub fn marks(&self, every: SignedDuration, zone: &TimeZone) -> Vec<Mark> {
        let step = every.as_secs();
        if step <= 0 {
            return Vec::new();
        }
        let offset = i64::from(zone.to_offset(self.departs).seconds());
        let first = self.departs.as_second() + offset;
        let mut second = first - first.rem_euclid(step) - offset;
        let mut marks = Vec::new();
        while let Ok(when) = Timestamp::from_second(second) {
            if when > self.ends() {
                break;
            }
            let under_way = self.legs.iter().any(|leg| (leg.departs..=leg.arrives).contains(&when));
            if under_way && let Some(at) = self.at(when) {
                marks.push(Mark { at, when });
            }
            second += step;
        }
        marks
    }
}

/// The place between two, at steady speed: they are close together.
fn between(from: Mark, to: Mark, when: Timestamp) -> Position {
    let whole = to.when.duration_since(from.when).as_secs_f64();
    let part = when.duration_since(from.when).as_secs_f64() / whole;
    let line = rhumb::inverse(from.at, to.at);
    let part = if part.is_finite() { part } else { 1.0 };
    rhumb::direct(from.at, line.bearing, line.distance * part).unwrap_or(to.at)
}

/// The place so far along a line that holds `track` from `start`, and so far to the right of it.
pub(super) fn beside(
    start: Position,
    track: Bearing<True>,
    along: Length,
    across: Length,
) -> Position {
    let on = rhumb::direct(start, track, along).unwrap_or(start);
    let right = Bearing::from_degrees((track.as_degrees() + 90.0) % 360.0).unwrap_or(track);
    let aside = if across < Length::ZERO { right.back() } else { right };
    rhumb::direct(on, aside, across.abs()).unwrap_or(on)
}
