//! Straight pieces, and where they touch land.

use super::{Anchor, Kind};
use crate::Point;
use crate::coast::{Coast, Touch};

/// The straight piece from `a` to `b`. That it begins or ends at an anchor on the shore is no
/// touch, unless it goes over land there.
pub(super) fn kind(coast: &Coast, [a, b]: [Point; 2], ends: [&Anchor; 2]) -> Kind {
    let crossings = coast.crossings(a, b);
    let at_anchor = |touch: &Touch| {
        ends.iter().any(|end| matches!(end, Anchor::Shore(place) if near(place.at, touch.on.at)))
    };
    let first = crossings.iter().find(|touch| !at_anchor(touch));
    // Up to its first other touch it is all on water or all on land.
    let until = first.map_or(1.0, |touch| touch.fraction);
    let begins_ashore = until > 0.0 && coast.on_land(a + (b - a) * (until / 2.0));
    let start = crossings.iter().find(|touch| begins_ashore && at_anchor(touch));
    let touch = start.or(first).copied();
    Kind::Straight { touch, ashore: begins_ashore || touch.is_some() }
}

/// A place on a side is rounded to the plane's last digits, or to the coast's own.
fn near(a: Point, b: Point) -> bool {
    (a.x - b.x).abs().max((a.y - b.y).abs()) < 1e-3
}
