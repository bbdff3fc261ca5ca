//! What is land.

use super::{Coast, LineId, LineKind, flat};
use crate::Point;

/// What a point lies on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ashore {
    /// Water: the sea, or a lake.
    Water,
    /// The shore itself, of this line.
    Shore(LineId),
    /// Land within this ring.
    Land(LineId),
}

impl Coast {
    /// Whether `point` is on land: inside a ring of land and not in a lake of it, or on the shore
    /// itself. Exact. A ring that crosses itself encloses what a ray out of it leaves an odd number
    /// of times. Open lines enclose nothing.
    #[must_use]
    pub fn on_land(&self, point: Point) -> bool {
        self.ashore(point) != Ashore::Water
    }

    /// What `point` lies on. Exact.
    #[must_use]
    pub fn ashore(&self, point: Point) -> Ashore {
        let mut land = None;
        let mut depth = 0;
        for line in self.lines() {
            let mut inside = false;
            for side in 0..line.sides() {
                let [a, b] = line.side(side);
                if flat::meets([point, point], [a, b]) {
                    return Ashore::Shore(line.id());
                }
                // A side has its lower end and not its upper one, so that a ray through a vertex
                // counts once.
                let left = if a.y < b.y { 1 } else { -1 };
                inside ^= (a.y > point.y) != (b.y > point.y) && flat::hand(a, b, point) == left;
            }
            match line.kind() {
                LineKind::Land if inside => (land, depth) = (land.or(Some(line.id())), depth + 1),
                LineKind::Lake if inside => depth -= 1,
                _ => {}
            }
        }
        land.filter(|_| depth > 0).map_or(Ashore::Water, Ashore::Land)
    }
}
