//! How a leg runs that is not straight: a line laid along a shore.

mod flat;
mod measured;
mod split;

#[cfg(test)]
mod tests;

use std::borrow::Cow;
use std::fmt;
use std::ops::Deref;
use std::sync::{Arc, OnceLock};

use nav::{Length, Position};

use flat::Flat;
pub(crate) use measured::{Measured, Part};

use crate::EditError;
use crate::route::rounded;

/// The vertices of a traced leg between its ends, which belong to the points of the route.
///
/// Each is rounded as a waypoint is. A clone shares them and what was measured on them, so that a
/// route is cheap to copy, and to read again, however long its lines are.
#[derive(Clone, Default)]
pub struct Line(Arc<Shared>);

#[derive(Default)]
struct Shared {
    vertices: Box<[Position]>,
    /// What was measured first, and between which ends: a line hardly ever meets another pair.
    measured: OnceLock<(Position, Position, Measured)>,
}

impl Line {
    /// The most vertices in one leg.
    pub const MOST: usize = 100_000;
    pub(crate) const VERTICES: &str = "vertices in a traced leg";
    /// The most vertices in all legs of a route.
    pub const MOST_IN_ROUTE: usize = 250_000;

    /// The line through `vertices`, rounded.
    ///
    /// # Errors
    /// [`EditError::TooMany`] when there are more than [`Line::MOST`].
    pub fn new(vertices: impl IntoIterator<Item = Position>) -> Result<Line, EditError> {
        let vertices: Box<[Position]> = vertices.into_iter().map(rounded).collect();
        bounded(Line::VERTICES, vertices.len(), Line::MOST)?;
        Ok(Line::of(vertices))
    }

    /// The line through vertices of another.
    fn of(vertices: Box<[Position]>) -> Line {
        Line(Arc::new(Shared { vertices, measured: OnceLock::new() }))
    }
}

impl PartialEq for Line {
    fn eq(&self, other: &Line) -> bool {
        Arc::ptr_eq(&self.0, &other.0) || self.0.vertices == other.0.vertices
    }
}

impl fmt::Debug for Line {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_tuple("Line").field(&self.0.vertices).finish()
    }
}

impl Deref for Line {
    type Target = [Position];
    fn deref(&self) -> &[Position] {
        &self.0.vertices
    }
}

/// How a leg runs along a shore, with what it takes to lay it again.
///
/// The line is what counts: distances and drawings come from it alone. The points clicked, the
/// stand-off and the step tell how it was laid, so that the screen can lay it anew when one of
/// them changes.
#[derive(Debug, Clone, PartialEq)]
pub struct Along {
    /// The vertices between the leg's two ends.
    pub line: Line,
    /// The points clicked between the two ends, in order.
    pub through: Vec<Through>,
    /// Whether the leg's start lies off the shore.
    pub free_start: bool,
    /// Whether the leg's end lies off the shore.
    pub free_end: bool,
    /// Whether the last piece, to the leg's end, runs the longer way round.
    pub other_way: bool,
    /// How far off the shore the line is laid: zero up to [`Along::most_stand_off`].
    pub stand_off: Length,
    /// The step by which it is smoothed, zero for every vertex: up to [`Along::most_step`].
    pub step: Length,
}

/// A point that a traced leg was laid through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Through {
    /// Where it is; with a stand-off the line passes it at that distance.
    pub at: Position,
    /// Whether it lies off the shore, so that the pieces at it are straight.
    pub free: bool,
    /// Whether the piece that ends here runs the longer way round.
    pub other_way: bool,
}

impl Along {
    pub(crate) const THROUGH: &str = "points that a leg is laid through";
    /// The most points that a leg is laid through, its ends not counted.
    pub const MOST_THROUGH: usize = 999;

    /// The farthest stand-off, two kilometres.
    #[must_use]
    pub fn most_stand_off() -> Length {
        2.0 * Length::KILOMETRE
    }

    /// The longest step, a hundred kilometres.
    #[must_use]
    pub fn most_step() -> Length {
        100.0 * Length::KILOMETRE
    }

    /// The leg that `line` makes, laid through `clicks`: the points clicked, both ends included.
    /// Of the ends only what is said about them counts, since they are points of the route.
    #[must_use]
    pub fn new(line: Line, clicks: &[Through], stand_off: Length, step: Length) -> Along {
        let start = clicks.first();
        let (end, through) = clicks.get(1..).unwrap_or_default().split_last().unzip();
        Along {
            line,
            through: through.map(<[Through]>::to_vec).unwrap_or_default(),
            free_start: start.is_some_and(|start| start.free),
            free_end: end.is_some_and(|end| end.free),
            other_way: end.is_some_and(|end| end.other_way),
            stand_off,
            step,
        }
    }

    /// The points clicked of a leg between these ends, both included, as [`Along::new`] takes them.
    #[must_use]
    pub fn clicks(&self, from: Position, to: Position) -> Vec<Through> {
        let start = Through { at: from, free: self.free_start, other_way: false };
        let end = Through { at: to, free: self.free_end, other_way: self.other_way };
        std::iter::once(start).chain(self.through.iter().copied()).chain([end]).collect()
    }

    /// What the line of a leg between these ends comes to, whatever it is read with.
    pub(crate) fn measured(&self, from: Position, to: Position) -> Cow<'_, Measured> {
        let measure = || Measured::new(self.whole(from, to));
        match self.line.0.measured.get_or_init(|| (from, to, measure())) {
            (start, end, measured) if (*start, *end) == (from, to) => Cow::Borrowed(measured),
            _ => Cow::Owned(measure()),
        }
    }

    /// The same line from its other end.
    #[must_use]
    pub(crate) fn reversed(&self) -> Along {
        let mut through = self.through.clone();
        through.reverse();
        // The way of a piece is kept with the point that it ends at, now its other one.
        let mut way = self.other_way;
        for point in &mut through {
            std::mem::swap(&mut point.other_way, &mut way);
        }
        Along {
            line: Line::of(self.line.iter().rev().copied().collect()),
            through,
            free_start: self.free_end,
            free_end: self.free_start,
            other_way: way,
            ..*self
        }
    }

    /// This leg as far as `at`, and `next` from there on, as one; stand-off and step are those of `next`.
    ///
    /// # Errors
    /// [`EditError::TooMany`] when the two are too much for one leg.
    pub(crate) fn joined(&self, at: Position, next: &Along) -> Result<Along, EditError> {
        let met = Through { at, free: self.free_end, other_way: self.other_way };
        let vertices = self.line.iter().chain([&at]).chain(next.line.iter());
        let through = self.through.iter().chain([&met]).chain(&next.through);
        Along {
            line: Line::new(vertices.copied())?,
            through: through.copied().collect(),
            free_start: self.free_start,
            ..next.clone()
        }
        .checked()
    }

    /// This leg with its positions rounded, if it keeps every bound. A [`Line`] has kept its own.
    pub(crate) fn checked(mut self) -> Result<Along, EditError> {
        bounded(Along::THROUGH, self.through.len(), Along::MOST_THROUGH)?;
        within("stand-off", self.stand_off, Along::most_stand_off())?;
        within("step", self.step, Along::most_step())?;
        for point in &mut self.through {
            point.at = rounded(point.at);
        }
        Ok(self)
    }
}

pub(crate) const fn bounded(
    what: &'static str,
    count: usize,
    most: usize,
) -> Result<(), EditError> {
    if count > most {
        return Err(EditError::TooMany { what, count, most });
    }
    Ok(())
}

pub(crate) fn within(what: &'static str, length: Length, most: Length) -> Result<(), EditError> {
    if length < Length::ZERO || length > most {
        return Err(EditError::Length { what, length, most });
    }
    Ok(())
}
