//! How long an indented line is: along it, straight, and as a pair of dividers finds it.
//!
//! The length of a shore depends on how finely it is followed. Dividers that are opened to a step
//! and walked along it find less the wider they are, and by how much less is a property of the
//! shore: of length against step, each by its logarithm, the slope (L. F. Richardson, The problem of
//! contiguity, General Systems Yearbook 6 (1961), 139-187; B. Mandelbrot, How long is the coast of
//! Britain?, Science 156 (1967), 636-638).
//!
//! All lengths are on the ground, by geodesics on WGS 84.

mod rough;
mod slope;
mod survey;
mod walk;

#[cfg(test)]
mod tests;

pub use rough::roughness;
pub use slope::{Slope, slope};
pub use survey::{Divided, MeasureError, Measured, Shore, Total, shores, total};
pub use walk::{Start, Walk, Way};

use nav::geodesic::{self, LineLength, Vertex};
use nav::{Area, Grid, GridPoint, Length, Position};

use crate::{OffGrid, Point};

/// A line that is measured: a shore, a piece of one, or a trace.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// The first one of a closed line is not repeated.
    vertices: Vec<Vertex>,
    closed: bool,
    length: Length,
}

impl Line {
    /// The line along these positions; a closed one leads on from the last to the first, which may
    /// be repeated there or not.
    pub fn new(positions: impl IntoIterator<Item = Position>, closed: bool) -> Line {
        Line::through(positions.into_iter().map(Vertex::new).collect(), closed)
    }

    /// The line along these points of a grid.
    ///
    /// # Errors
    /// [`OffGrid`] where the grid does not reach.
    pub fn on_grid(
        grid: &Grid,
        points: impl IntoIterator<Item = Point>,
        closed: bool,
    ) -> Result<Line, OffGrid> {
        let vertex = |point: Point| {
            let point = GridPoint::from_metres(point.x, point.y)?;
            Ok(Vertex::new(grid.inverse(point)?.position))
        };
        Ok(Line::through(points.into_iter().map(vertex).collect::<Result<_, OffGrid>>()?, closed))
    }

    fn through(mut vertices: Vec<Vertex>, closed: bool) -> Line {
        if closed && vertices.len() > 1 && vertices.first() == vertices.last() {
            vertices.pop();
        }
        let mut length = LineLength::new();
        let round = if closed { vertices.first() } else { None };
        for vertex in vertices.iter().chain(round) {
            length.push_vertex(*vertex);
        }
        Line { vertices, closed, length: length.length() }
    }

    /// How many vertices it has; the first one of a closed line counts once.
    #[must_use]
    pub fn vertices(&self) -> usize {
        self.vertices.len()
    }

    /// Whether it leads back to where it begins.
    #[must_use]
    pub fn is_closed(&self) -> bool {
        self.closed
    }

    /// Its length, side by side.
    #[must_use]
    pub fn length(&self) -> Length {
        self.length
    }

    /// The length of the geodesic between its ends; nothing for a closed line and for no line.
    #[must_use]
    pub fn straight(&self) -> Option<Length> {
        match (self.closed, self.vertices.first(), self.vertices.last()) {
            (false, Some(first), Some(last)) => Some(first.distance(*last)),
            _ => None,
        }
    }

    /// How many times longer it is than straight; nothing where its ends are one place, and for a
    /// closed line.
    #[must_use]
    pub fn indentation(&self) -> Option<f64> {
        let straight = self.straight().filter(|straight| *straight > Length::ZERO)?;
        Some(self.length / straight)
    }

    /// The area that a closed line encloses, less than half the Earth; nothing for an open line.
    ///
    /// It is the slow one: about a microsecond for each vertex.
    #[must_use]
    pub fn area(&self) -> Option<Area> {
        let ring = || self.vertices.iter().map(Vertex::position);
        self.closed.then(|| geodesic::polygon(ring()).area)
    }
}
