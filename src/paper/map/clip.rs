//! Closed lines clipped to a rectangle.

use crate::draw::{Area, Mm, Spot};

/// The four edges in turn, each with what lies beyond it cut off.
#[derive(Clone, Copy)]
enum Edge {
    Left(Mm),
    Right(Mm),
    Top(Mm),
    Bottom(Mm),
}

impl Edge {
    /// How far inside a place lies; negative beyond the edge.
    fn depth(self, spot: Spot) -> Mm {
        match self {
            Edge::Left(left) => spot.x - left,
            Edge::Right(right) => right - spot.x,
            Edge::Top(top) => spot.y - top,
            Edge::Bottom(bottom) => bottom - spot.y,
        }
    }

    /// Where a side whose ends lie on the two hands of the edge crosses it.
    fn crossing(self, a: Spot, b: Spot) -> Spot {
        let (from, to) = (self.depth(a), self.depth(b));
        let part = from / (from - to);
        let at = a.moved((b.x - a.x) * part, (b.y - a.y) * part);
        // Exactly on the edge, so that the next edge sees no sliver.
        match self {
            Edge::Left(x) | Edge::Right(x) => Spot { x, ..at },
            Edge::Top(y) | Edge::Bottom(y) => Spot { y, ..at },
        }
    }

    /// What of a ring lies on this side.
    fn clipped(self, ring: &[Spot]) -> Vec<Spot> {
        let mut kept = Vec::with_capacity(ring.len() + 4);
        let Some(&last) = ring.last() else { return kept };
        let mut before = last;
        for &spot in ring {
            let inside = self.depth(spot) >= Mm::ZERO;
            if inside != (self.depth(before) >= Mm::ZERO) {
                kept.push(self.crossing(before, spot));
            }
            if inside {
                kept.push(spot);
            }
            before = spot;
        }
        kept
    }
}

/// What of a ring lies in an area. Where the ring leaves it, the result runs along the area's edge; what is
/// enclosed within is enclosed as often as before, also by a ring that crosses itself
/// (Sutherland and Hodgman 1974).
#[must_use]
pub(super) fn ring(ring: &[Spot], area: Area) -> Vec<Spot> {
    let edges = [
        Edge::Left(area.left),
        Edge::Right(area.right()),
        Edge::Top(area.top),
        Edge::Bottom(area.bottom()),
    ];
    edges.into_iter().fold(ring.to_vec(), |kept, edge| edge.clipped(&kept))
}

/// The places of a ring without those that say nothing of what is enclosed in an area: between two places beyond the
/// same edge, any way beyond it is as good as any other.
pub(super) fn gathered(places: impl Iterator<Item = Spot>, area: Area) -> Vec<Spot> {
    let beyond = |spot: Spot| {
        u8::from(spot.x < area.left)
            | u8::from(spot.x > area.right()) << 1
            | u8::from(spot.y < area.top) << 2
            | u8::from(spot.y > area.bottom()) << 3
    };
    let mut kept: Vec<(Spot, u8)> = Vec::new();
    for spot in places {
        let here = beyond(spot);
        if let [.., (_, first), (last, second)] = &mut kept[..]
            && *first & *second & here != 0
        {
            (*last, *second) = (spot, here);
            continue;
        }
        kept.push((spot, here));
    }
    kept.into_iter().map(|(spot, _)| spot).collect()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::draw::Size;

    fn area() -> Area {
        Area::at(Spot::new(10.0, 10.0), Size::new(30.0, 20.0))
    }

    /// How often a ring runs around a place, counter-clockwise less clockwise.
    fn winding(ring: &[Spot], at: Spot) -> i32 {
        let mut count = 0;
        for (index, &b) in ring.iter().enumerate() {
            let a = ring[(index + ring.len() - 1) % ring.len()];
            if (a.y > at.y) != (b.y > at.y) {
                let x = a.x + (b.x - a.x) * ((at.y - a.y) / (b.y - a.y));
                if x > at.x {
                    count += if b.y > a.y { 1 } else { -1 };
                }
            }
        }
        count
    }

    #[test]
    fn a_ring_around_the_area_becomes_the_area() {
        let around = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)];
        let clipped = ring(&around.map(|(x, y)| Spot::new(x, y)), area());
        assert_eq!(Area::around(clipped.iter().copied()), Some(area()));
        assert_eq!(clipped.len(), 4);
    }

    #[test]
    fn a_ring_beside_the_area_is_nothing() {
        let beside = [(0.0, 0.0), (9.0, 0.0), (9.0, 100.0), (0.0, 100.0)];
        assert!(ring(&beside.map(|(x, y)| Spot::new(x, y)), area()).is_empty());
    }

    proptest! {
        #[test]
        fn what_is_enclosed_stays_enclosed_as_often(
            places in prop::collection::vec((0.0..50.0, 0.0..40.0), 3..40),
            x in 10.01..39.99, y in 10.01..29.99,
        ) {
            let spots: Vec<Spot> = places.into_iter().map(|(x, y)| Spot::new(x, y)).collect();
            let at = Spot::new(x, y);
            let clipped = ring(&spots, area());
            prop_assert_eq!(winding(&clipped, at), winding(&spots, at));
            prop_assert!(clipped.iter().all(|spot| area().contains(*spot)));
            let fewer = gathered(spots.iter().copied(), area());
            prop_assert_eq!(winding(&fewer, at), winding(&spots, at));
        }
    }
}
