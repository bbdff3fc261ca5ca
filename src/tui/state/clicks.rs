//! Anchors as places on the Earth: how a route and a session keep them.

use chart::trace::{Anchor, Way};
use plan::Through;

use super::{Set, State};

/// A click that was kept is on the shore that lies this near to it, in metres: the shore of a
/// chart may have been drawn anew since.
const KEPT: f64 = 50.0;

impl State {
    /// The anchors of `set` as they are kept; nothing where the chart's grid does not reach one.
    pub(crate) fn clicks(&self, set: &Set) -> Option<Vec<Through>> {
        let click = |(anchor, way): &(Anchor, Way)| {
            let at = self.position_of(anchor.at())?;
            let free = matches!(anchor, Anchor::Free(_));
            Some(Through { at, free, other_way: *way == Way::Longer })
        };
        set.anchors.iter().map(click).collect()
    }

    /// The anchors that were kept as `clicks`, each on the shore again that it was on.
    pub(crate) fn anchors_of(&self, clicks: &[Through]) -> Option<Vec<(Anchor, Way)>> {
        let anchor = |click: &Through| {
            let at = self.point_of(click.at)?;
            let way = if click.other_way { Way::Longer } else { Way::Shorter };
            let near = self.coast().nearest(at, KEPT).filter(|_| !click.free);
            Some((near.map_or(Anchor::Free(at), |near| Anchor::Shore(near.on)), way))
        };
        clicks.iter().map(anchor).collect()
    }
}
