//! The lines of the traced legs on the chart's grid: drawn every frame, laid out when they change.

use std::sync::Arc;

use chart::Point;
use nav::Position;
use plan::Line;

use super::State;

/// For each leg of the route its line, if it is not straight.
#[derive(Debug, Clone, Default)]
pub struct Tracks(Vec<Option<Track>>);

/// The line of a leg, and what it was made of.
#[derive(Debug, Clone)]
struct Track {
    line: Line,
    ends: (Position, Position),
    points: Arc<[Point]>,
}

impl Track {
    /// Whether it was made of this. Lines are shared, never changed: a look at where it lies in
    /// memory tells whether it is the same.
    fn is_of(&self, line: &Line, ends: (Position, Position)) -> bool {
        std::ptr::eq(self.line.as_ptr(), line.as_ptr()) && self.ends == ends
    }
}

impl State {
    /// Brings the lines of the traced legs up to date with the route.
    pub(crate) fn follow_tracks(&mut self) {
        let mut before = std::mem::take(&mut self.tracks.0);
        let legs = self.document.route().points.windows(2).enumerate();
        let tracks = legs.map(|(leg, pair)| {
            let [from, to] = pair else { return None };
            let line = &to.along.as_ref()?.line;
            let ends = (from.at, to.at);
            let kept = before.get_mut(leg).and_then(Option::take);
            kept.filter(|track| track.is_of(line, ends)).or_else(|| {
                // What the grid does not reach is left out of the drawing.
                let inner = line.iter().copied();
                let all = std::iter::once(from.at).chain(inner).chain([to.at]);
                let points = all.filter_map(|at| self.point_of(at)).collect();
                Some(Track { line: line.clone(), ends, points })
            })
        });
        self.tracks = Tracks(tracks.collect());
    }

    /// The line of a leg on the chart's grid, both ends with it; nothing for a straight leg, and
    /// for one whose end is taken up.
    pub fn track(&self, leg: usize) -> Option<&[Point]> {
        let carried = self.hand.carried();
        if carried.is_some_and(|index| index == leg || index == leg + 1) {
            return None;
        }
        self.tracks.0.get(leg)?.as_ref().map(|track| &track.points[..])
    }
}
