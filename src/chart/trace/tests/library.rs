//! Crafted shores.

use super::super::{Anchor, Laid, Way, Wishes, lay, patient};
use crate::Point;
use crate::coast::{Builder, Coast, LineId, LineKind};

pub(super) fn p(x: f64, y: f64) -> Point {
    Point { x, y }
}

/// Where crafted shores lie: on UTM's central meridian, not at its origin.
const CORNER: Point = Point { x: 500_000.0, y: 6_000_000.0 };

/// A coast of lines given in metres from a corner on UTM zone 30.
pub(super) fn coast(lines: &[(LineKind, &[(f64, f64)])]) -> Coast {
    let mut builder = Builder::new(nav::Grid::parse("UTM:30N").unwrap());
    for (feature, (kind, points)) in (0..).zip(lines) {
        builder.line(*kind, feature, "", points.iter().map(|(x, y)| CORNER + p(*x, *y)));
    }
    builder.finish()
}

/// A point from the corner.
pub(super) fn at(x: f64, y: f64) -> Point {
    CORNER + p(x, y)
}

/// The points from the corner, to a micrometre.
pub(super) fn from_corner(points: &[Point]) -> Vec<(f64, f64)> {
    let round = |v: f64| (v * 1e6).round() / 1e6;
    points.iter().map(|q| (round(q.x - CORNER.x), round(q.y - CORNER.y))).collect()
}

/// An anchor on a line, by side and part.
pub(super) fn on(coast: &Coast, line: u32, side: u32, part: f64) -> Anchor {
    Anchor::Shore(coast.line(LineId(line)).unwrap().place(side, part))
}

pub(super) fn shorter(coast: &Coast, anchors: &[Anchor], wishes: Wishes) -> Laid {
    let anchors: Vec<_> = anchors.iter().map(|anchor| (*anchor, Way::Shorter)).collect();
    lay(coast, &anchors, wishes, &patient).unwrap()
}

pub(super) fn longer(coast: &Coast, anchors: [Anchor; 2], wishes: Wishes) -> Laid {
    lay(coast, &anchors.map(|anchor| (anchor, Way::Longer)), wishes, &patient).unwrap()
}

pub(super) fn length(points: &[Point]) -> f64 {
    points.windows(2).map(|pair| (pair[1].x - pair[0].x).hypot(pair[1].y - pair[0].y)).sum()
}

/// A square island of 1 km, its corners (0, 0) to (1000, 1000).
pub(super) fn square() -> Coast {
    coast(&[(LineKind::Land, &[(0.0, 0.0), (1000.0, 0.0), (1000.0, 1000.0), (0.0, 1000.0)])])
}
