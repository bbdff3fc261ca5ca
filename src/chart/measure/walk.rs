//! Dividers walked along a line.

use super::Line;
use nav::geodesic::{Reach, Vertex};
use nav::{Length, OutOfRange};

/// Which way along a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Way {
    /// As its vertices follow each other.
    #[default]
    Onwards,
    /// Against that.
    Back,
}

/// Where a walk begins, and which way it goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Start {
    /// The vertex that it begins at, beyond the last one the last.
    pub vertex: usize,
    /// Which way it goes: round a closed line to where it began, along an open one to its end.
    pub way: Way,
}

impl Start {
    /// From the first vertex onwards.
    pub const FIRST: Start = Start { vertex: 0, way: Way::Onwards };
    /// From the end of a line back along all of it; on a closed one, from its first vertex round
    /// the other way.
    pub const LAST: Start = Start { vertex: usize::MAX, way: Way::Back };
}

/// What a pair of dividers found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Walk {
    /// How far the dividers were opened.
    pub step: Length,
    /// How many whole steps they made.
    pub steps: u64,
    /// What was left to the end, less than a step.
    pub remainder: Length,
}

impl Walk {
    /// The length found: all steps and the remainder.
    #[must_use]
    pub fn length(&self) -> Length {
        // A count far below 2⁵³.
        self.step * self.steps as f64 + self.remainder
    }
}

impl Line {
    /// Walks dividers along the line: each step ends where the line first leaves the circle of
    /// that radius about the step's beginning, on a vertex or between two; what is left to the
    /// end of the line, straight, is the remainder. A closed line ends where it began.
    ///
    /// # Errors
    /// [`OutOfRange`] when the step is not within 1 m to 2,000 km.
    pub fn walk(&self, step: Length, start: Start) -> Result<Walk, OutOfRange> {
        let reach = Reach::new(step)?;
        let mut legs = Legs::new(self, reach, start);
        let steps = legs.by_ref().count() as u64;
        Ok(Walk { step, steps, remainder: legs.remainder() })
    }
}

/// The places where the dividers' points come down, the start not among them.
pub(super) struct Legs<'a> {
    line: &'a Line,
    reach: Reach,
    start: Start,
    /// How many vertices after the start there are to the end, which on a closed line is the
    /// start again.
    count: usize,
    /// How many of them are passed.
    passed: usize,
    /// Where the dividers stand.
    at: Option<Vertex>,
}

impl<'a> Legs<'a> {
    pub(super) fn new(line: &'a Line, reach: Reach, start: Start) -> Legs<'a> {
        let all = line.vertices.len();
        let last = all.saturating_sub(1);
        let round = line.closed && start == Start::LAST;
        let start = Start { vertex: if round { 0 } else { start.vertex.min(last) }, ..start };
        let count = match (line.closed, start.way) {
            (true, _) => all,
            (false, Way::Onwards) => last - start.vertex,
            (false, Way::Back) => start.vertex,
        };
        let at = line.vertices.get(start.vertex).copied();
        Legs { line, reach, start, count, passed: 0, at }
    }

    /// The vertex of this number after the start, on a closed line over its seam.
    fn vertex(&self, number: usize) -> Option<Vertex> {
        let all = self.line.vertices.len();
        let index = match self.start.way {
            Way::Onwards => self.start.vertex + number,
            Way::Back => self.start.vertex + all - number,
        };
        self.line.vertices.get(if index >= all { index - all } else { index }).copied()
    }

    /// What is left from the last place to the end, once all have been given.
    fn remainder(&self) -> Length {
        match (self.at, self.vertex(self.count)) {
            (Some(at), Some(end)) => at.distance(end),
            _ => Length::ZERO,
        }
    }

    /// How many vertices after the start have been passed: the places given lie before the next.
    #[cfg(test)]
    pub(super) fn passed(&self) -> usize {
        self.passed
    }
}

impl Iterator for Legs<'_> {
    type Item = Vertex;

    fn next(&mut self) -> Option<Vertex> {
        let centre = self.at?;
        let mut inside = centre;
        while self.passed < self.count {
            let vertex = self.vertex(self.passed + 1)?;
            if !self.reach.holds(centre, vertex) {
                let place = self.reach.crossing(centre, inside, vertex);
                self.at = Some(place);
                return Some(place);
            }
            inside = vertex;
            self.passed += 1;
        }
        None
    }
}
