//! Making a coast from lines.

use super::line::LineRecord;
use super::runs::RunRecord;
use super::{Coast, LineKind, RUN, ground};
use crate::Point;

/// Gathers lines into a [`Coast`].
#[derive(Debug)]
pub struct Builder {
    coast: Coast,
}

impl Builder {
    /// An empty coast on the plane of `grid`.
    #[must_use]
    pub fn new(grid: nav::Grid) -> Builder {
        let (points, lines, names, runs) = Default::default();
        Builder { coast: Coast { grid, points, lines, names, runs } }
    }

    /// Adds a line. The points of a ring do not repeat the first one at the end; if they do, the
    /// repeated one is left out. `feature` is what [`Line::feature`](super::Line::feature) says.
    ///
    /// A line of one point is kept, as a side of no length; one of none is not. Points that are
    /// no numbers are left out.
    pub fn line(
        &mut self,
        kind: LineKind,
        feature: u32,
        name: &str,
        points: impl IntoIterator<Item = Point>,
    ) {
        let coast = &mut self.coast;
        let first = coast.points.len();
        coast.points.extend(points.into_iter().filter(|p| p.x.is_finite() && p.y.is_finite()));
        let Some(&start) = coast.points.get(first) else { return };
        let closed = kind != LineKind::Open;
        let count = coast.points.len() - first;
        let repeats = count > 1 && coast.points.last() == Some(&start);
        if (closed && !repeats) || count == 1 {
            coast.points.push(start);
        }
        let sides = (coast.points.len() - first - 1) as u32;
        let name_start = coast.names.len() as u32;
        coast.names.push_str(name);
        coast.lines.push(LineRecord {
            first: first as u32,
            sides,
            first_run: coast.runs.len() as u32,
            feature,
            kind,
            name: (name_start, coast.names.len() as u32),
            length: 0.0,
        });
        self.runs(first, sides as usize);
    }

    /// The runs of the last line, and its length.
    fn runs(&mut self, first: usize, sides: usize) {
        let coast = &mut self.coast;
        let line = coast.lines.len() - 1;
        let mut length = 0.0;
        for start in (0..sides).step_by(RUN) {
            let run = RunRecord { first: (first + start) as u32, line: line as u32, length };
            coast.runs.push(run);
            let points = &coast.points[first + start..=first + (start + RUN).min(sides)];
            length += points
                .windows(2)
                .map(|pair| ground::length(&coast.grid, [pair[0], pair[1]]))
                .sum::<f64>();
        }
        coast.lines[line].length = length;
    }

    /// The coast of all lines.
    #[must_use]
    pub fn finish(self) -> Coast {
        self.coast
    }
}
