//! The outline that the middle of the disc must not enter about one side.

use crate::Point;

/// The outline round a disc at each end of a side. A side without length has one disc.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in super::super) struct Outline {
    pub(super) ends: [Point; 2],
    pub(super) radii: [f64; 2],
    /// The edge on the right hand as one goes from the first end to the second; none where one
    /// disc lies within the other.
    pub(super) edge: Option<Edge>,
}

/// The straight edge of an outline, with the side on its left hand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Edge {
    pub(super) from: Point,
    pub(super) to: Point,
    /// The unit vector away from the side.
    pub(super) out: Point,
}

impl Outline {
    pub(in super::super) fn new(ends: [Point; 2], radii: [f64; 2]) -> Outline {
        Outline { ends, radii, edge: edge(ends, radii) }
    }

    /// The same from the second end to the first.
    pub(in super::super) fn turned(&self) -> Outline {
        let ([a, b], [r, s]) = (self.ends, self.radii);
        Outline::new([b, a], [s, r])
    }

    /// The place at `part` of its right hand edge.
    pub(in super::super) fn beside(&self, part: f64) -> Option<Point> {
        self.edge.map(|edge| edge.from + (edge.to - edge.from) * part)
    }

    /// The direction out of its right hand edge.
    pub(in super::super) fn out(&self) -> Option<Point> {
        self.edge.map(|edge| edge.out)
    }
}

fn edge([a, b]: [Point; 2], [r, s]: [f64; 2]) -> Option<Edge> {
    let along = b - a;
    let length = along.x.hypot(along.y);
    let sine = (r - s) / length;
    // Also when there is no length, and no number.
    if sine.is_nan() || sine.abs() >= 1.0 {
        return None;
    }
    let along = along / length;
    let out = along * sine + Point { x: along.y, y: -along.x } * (1.0 - sine * sine).sqrt();
    Some(Edge { from: a + out * r, to: b + out * s, out })
}

/// How far a point lies outside the outline of a side, seen in both directions; negative within.
pub(in super::super) fn clearance(both: &[Outline; 2], point: Point) -> f64 {
    let ([a, b], [r, s]) = (both[0].ends, both[0].radii);
    let to = |end: Point| (point.x - end.x).hypot(point.y - end.y);
    let discs = (to(a) - r).min(to(b) - s);
    let edges = both.iter().filter_map(|outline| outline.edge).filter_map(|edge| {
        // Beside the edge, and not only beside the line that it lies on.
        let along = edge.to - edge.from;
        let from = point - edge.from;
        let part = along.x * from.x + along.y * from.y;
        let beside = part > 0.0 && part < along.x * along.x + along.y * along.y;
        let out = from.x * edge.out.x + from.y * edge.out.y;
        // On the other side of the side it is the other edge that counts.
        (beside && out >= -r.max(s) * 1.001).then_some(out)
    });
    edges.fold(discs, f64::min)
}

/// The point of a side nearest to a point.
pub(in super::super) fn foot(point: Point, [a, b]: [Point; 2]) -> Point {
    let along = b - a;
    let square = along.x * along.x + along.y * along.y;
    let from = point - a;
    let part = (along.x * from.x + along.y * from.y) / square;
    if part.is_nan() || part <= 0.0 {
        a
    } else if part >= 1.0 {
        b
    } else {
        a + along * part
    }
}
