//! A line that does not go over itself.

use super::taut::cross;
use crate::{Extent, Point};

/// Stretches of the line are looked at in blocks of so many.
const BLOCK: usize = 32;

/// The line without the loops at which it crosses itself: from each crossing it goes on at once.
pub(super) fn untangled(points: &[Point]) -> Vec<Point> {
    let mut line: Vec<Point> = Vec::with_capacity(points.len());
    let mut blocks: Vec<Extent> = Vec::new();
    for &point in points {
        let crossing = line.last().and_then(|last| first_crossing(&line, &blocks, [*last, point]));
        if let Some((stretch, at)) = crossing {
            line.truncate(stretch + 1);
            blocks.truncate(stretch / BLOCK);
            line.push(at);
        }
        line.push(point);
        while line.len() > (blocks.len() + 1) * BLOCK {
            blocks.push(about(&line[blocks.len() * BLOCK..=(blocks.len() + 1) * BLOCK]));
        }
    }
    line
}

/// The first earlier stretch of the line that a new one crosses, and where.
fn first_crossing(line: &[Point], blocks: &[Extent], new: [Point; 2]) -> Option<(usize, Point)> {
    let extent = about(&new);
    // The last stretch ends where the new one begins.
    let many = line.len().saturating_sub(2);
    (0..many.div_ceil(BLOCK))
        .filter(|block| blocks.get(*block).is_none_or(|about| meet(about, &extent)))
        .flat_map(|block| block * BLOCK..((block + 1) * BLOCK).min(many))
        .find_map(|stretch| Some((stretch, crossing([line[stretch], line[stretch + 1]], new)?)))
}

/// Where two straight pieces cross, each from one side of the other to the other side.
fn crossing([a, b]: [Point; 2], [p, q]: [Point; 2]) -> Option<Point> {
    let (from, to) = (cross(b - a, p - a), cross(b - a, q - a));
    let (one, other) = (cross(q - p, a - p), cross(q - p, b - p));
    (from * to < 0.0 && one * other < 0.0).then(|| p + (q - p) * (from / (from - to)))
}

fn about(points: &[Point]) -> Extent {
    let first = points.first().copied().unwrap_or_default();
    let (mut low, mut high) = (first, first);
    for point in points {
        low = Point { x: low.x.min(point.x), y: low.y.min(point.y) };
        high = Point { x: high.x.max(point.x), y: high.y.max(point.y) };
    }
    Extent::new(low, high)
}

fn meet(a: &Extent, b: &Extent) -> bool {
    a.min().x <= b.max().x
        && b.min().x <= a.max().x
        && a.min().y <= b.max().y
        && b.min().y <= a.max().y
}
