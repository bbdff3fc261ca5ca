//! A recorded track: fixes in the order in which a receiver wrote them down, in segments.

use std::ops::Range;

use chart::clean::clean;
use jiff::Timestamp;
use nav::Position;

#[cfg(test)]
mod tests;

/// Where the receiver was, and when, if it said so: 24 bytes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fix {
    /// Where.
    pub at: Position,
    /// Microseconds from 1970; the least number stands for no time.
    when: i64,
}

impl Fix {
    const NO_TIME: i64 = i64::MIN;

    /// A fix at a place, its time to the microsecond.
    #[must_use]
    pub fn new(at: Position, when: Option<Timestamp>) -> Fix {
        Fix { at, when: when.map_or(Fix::NO_TIME, Timestamp::as_microsecond) }
    }

    /// When it was taken; nothing where the receiver did not say.
    #[must_use]
    pub fn when(&self) -> Option<Timestamp> {
        // Every other number came out of a timestamp.
        let told = (self.when != Fix::NO_TIME).then_some(self.when);
        told.and_then(|when| Timestamp::from_microsecond(when).ok())
    }

    /// The same in microseconds from 1970.
    pub(crate) fn micros(&self) -> Option<i64> {
        (self.when != Fix::NO_TIME).then_some(self.when)
    }
}

/// A track as it was recorded, whatever its faults. What is made of it is for who compares it with a route.
///
/// ```
/// use nav::Position;
/// use plan::track::{Fix, Track};
/// let mut track = Track::named("Saturday");
/// track.begin_segment();
/// track.push(Fix::new(Position::from_degrees(52.1, -27.4)?, Some("2026-06-14T09:30Z".parse()?)))?;
/// assert_eq!((track.fixes().len(), track.segments().count()), (1, 1));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Track {
    name: String,
    fixes: Vec<Fix>,
    /// The number of the first fix of each segment.
    begins: Vec<usize>,
}

/// More fixes than a track holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("a track holds {most} fixes at most; split it, or record at longer intervals")]
pub struct TooManyFixes {
    /// The most that it holds.
    pub most: usize,
}

impl Track {
    /// The most fixes that a track holds: a second apart, four months.
    pub const MOST: usize = 10_000_000;
    /// The most characters in a track's name.
    pub const MOST_NAME: usize = 200;

    /// A track without fixes, its name cleaned.
    #[must_use]
    pub fn named(name: &str) -> Track {
        Track { name: clean(name.trim(), Track::MOST_NAME), ..Track::default() }
    }

    /// The same track by this name, cleaned.
    pub fn rename(&mut self, name: &str) {
        self.name = clean(name.trim(), Track::MOST_NAME);
    }

    /// Begins a segment: between it and the last one the receiver was off, or had no reception. One
    /// that gets no fix is no segment.
    pub fn begin_segment(&mut self) {
        if self.begins.last() != Some(&self.fixes.len()) {
            self.begins.push(self.fixes.len());
        }
    }

    /// Adds a fix to the last segment, or to the first one if none was begun.
    ///
    /// # Errors
    /// [`TooManyFixes`] beyond [`Track::MOST`].
    pub fn push(&mut self, fix: Fix) -> Result<(), TooManyFixes> {
        if self.fixes.len() >= Track::MOST {
            return Err(TooManyFixes { most: Track::MOST });
        }
        if self.begins.is_empty() {
            self.begins.push(0);
        }
        self.fixes.push(fix);
        Ok(())
    }

    /// What it is called, or empty.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Every fix, in the order in which they were recorded.
    #[must_use]
    pub fn fixes(&self) -> &[Fix] {
        &self.fixes
    }

    /// The fixes of each segment.
    pub fn segments(&self) -> impl ExactSizeIterator<Item = &[Fix]> {
        self.ranges().map(|range| &self.fixes[range])
    }

    /// The numbers of each segment's fixes.
    pub(crate) fn ranges(&self) -> impl ExactSizeIterator<Item = Range<usize>> {
        let begun = self.begins.last().is_some_and(|&last| last < self.fixes.len());
        let begins = if begun || self.begins.is_empty() {
            &self.begins[..]
        } else {
            // The last one got no fix.
            &self.begins[..self.begins.len() - 1]
        };
        begins.iter().enumerate().map(|(number, &begin)| {
            begin..begins.get(number + 1).copied().unwrap_or(self.fixes.len())
        })
    }
}
