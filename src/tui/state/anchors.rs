//! Which anchor of the trace, and which traced leg, an action means.

use chart::Point;
use chart::trace::Anchor;

use super::State;

/// How near the cursor has to be to an anchor to be on it, in columns.
const ON_ANCHOR: f64 = 1.5;

/// How near the cursor has to be to a shore to catch it, in columns.
const CATCH: f64 = 4.0;

impl State {
    /// How near a shore has to be to be caught, in metres on the chart's grid.
    pub fn reach(&self) -> f64 {
        CATCH * self.view.metres_per_column
    }

    /// The anchor within reach of a point of the chart: the nearest, of several on one spot the last.
    pub fn anchor_near(&self, point: Point) -> Option<usize> {
        let away = |anchor: &Anchor| self.columns_between(anchor.at(), point);
        let anchors = self.thread.shown_anchors().iter().enumerate();
        let near = anchors.map(|(index, (anchor, _))| (index, away(anchor)));
        let near = near.filter(|(_, columns)| *columns <= ON_ANCHOR);
        near.min_by(|a, b| a.1.total_cmp(&b.1).then(b.0.cmp(&a.0))).map(|(index, _)| index)
    }

    /// The anchor that an action on one means: the chosen one where several lie under the cursor,
    /// else the one under the cursor, else the one chosen.
    pub fn aimed_anchor(&self) -> Option<usize> {
        let on_chosen = self.thread.chosen.filter(|chosen| {
            let anchor = self.thread.shown_anchors().get(*chosen);
            anchor.is_some_and(|(anchor, _)| {
                self.columns_between(anchor.at(), self.cursor) <= ON_ANCHOR
            })
        });
        on_chosen.or_else(|| self.anchor_near(self.cursor)).or(self.thread.chosen)
    }

    /// Whether a point of the chart is on the first anchor.
    pub(crate) fn is_first_anchor(&self, point: Point) -> bool {
        let first = self.thread.anchors().first();
        first.is_some_and(|(first, _)| self.columns_between(first.at(), point) <= ON_ANCHOR)
    }

    /// The traced leg of the route that is chosen or under the cursor.
    pub fn traced_leg(&self) -> Option<usize> {
        let leg = self.lit_leg()?;
        let end = self.document.route().points.get(leg + 1)?;
        end.along.as_ref().map(|_| leg)
    }
}
