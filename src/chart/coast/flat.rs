//! Plane geometry of points and sides: exact where a yes or no hangs on it.

use crate::Point;
use geo::kernels::{Kernel, Orientation, RobustKernel};

/// More than the difference of two products of differences can be wrong by, as a part of the two
/// products' sizes.
pub(super) const LOST: f64 = 4.0 * f64::EPSILON;

/// On which hand of the line from `a` to `b` a point lies: 1 left, -1 right, 0 on it. Exact.
pub(crate) fn hand(a: Point, b: Point, p: Point) -> i8 {
    let rough = rough_hand(a, b, p);
    if rough != 0 {
        return rough;
    }
    match RobustKernel::orient2d(a, b, p) {
        Orientation::CounterClockwise => 1,
        Orientation::Clockwise => -1,
        Orientation::Collinear => 0,
    }
}

/// The same where rounding leaves no doubt, and 0 where it does.
pub(super) fn rough_hand(a: Point, b: Point, p: Point) -> i8 {
    let (u, v) = ((b.x - a.x) * (p.y - a.y), (b.y - a.y) * (p.x - a.x));
    let lost = (u.abs() + v.abs()) * LOST;
    i8::from(u - v > lost) - i8::from(v - u > lost)
}

/// The part (0 to 1) of the side from `a` to `b` that is nearest to `p`, and the square of the
/// distance.
pub(super) fn foot(p: Point, [a, b]: [Point; 2]) -> (f64, f64) {
    // Measured from `p`, so that large coordinates do not eat the digits.
    let (ax, ay) = (a.x - p.x, a.y - p.y);
    let (bx, by) = (b.x - p.x, b.y - p.y);
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    let square = dx * dx + dy * dy;
    let along = -(ax * dx + ay * dy);
    if along <= 0.0 || square <= 0.0 {
        return (0.0, ax * ax + ay * ay);
    }
    if along >= square {
        return (1.0, bx * bx + by * by);
    }
    let part = along / square;
    let (x, y) = (ax + part * dx, ay + part * dy);
    (part, x * x + y * y)
}

/// Where a leg and a side meet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Meeting {
    /// How much of the leg lies before it.
    pub(super) fraction: f64,
    /// How much of the side lies before it.
    pub(super) part: f64,
    pub(super) at: Point,
}

/// Whether the leg and the side have a point in common. Exact.
pub(super) fn meets([a, b]: [Point; 2], [s, e]: [Point; 2]) -> bool {
    let apart = |p: f64, q: f64, u: f64, v: f64| p.max(q) < u.min(v) || u.max(v) < p.min(q);
    if apart(a.x, b.x, s.x, e.x) || apart(a.y, b.y, s.y, e.y) {
        return false;
    }
    hand(a, b, s) * hand(a, b, e) <= 0 && hand(s, e, a) * hand(s, e, b) <= 0
}

/// The places where the leg and the side meet: none, one, or both ends of the stretch in which
/// they run together, the one nearer to the leg's start first. Whether they meet is exact, and so
/// is the place where an end of the one lies on the other.
pub(super) fn meetings(leg: [Point; 2], side: [Point; 2]) -> [Option<Meeting>; 2] {
    if !meets(leg, side) {
        return [None, None];
    }
    let ([a, b], [s, e]) = (leg, side);
    let at = |p: Point| Meeting { fraction: foot(p, leg).0, part: foot(p, side).0, at: p };
    let on_side = [(a, hand(s, e, a)), (b, hand(s, e, b))];
    let on_leg = [(s, hand(a, b, s)), (e, hand(a, b, e))];
    if on_side.iter().chain(&on_leg).all(|(_, hand)| *hand == 0) {
        return together(leg, side).map(|p| p.map(at));
    }
    // The shore's vertex before the leg's end, so that two sides that share it say the same.
    if let Some((p, _)) = on_leg.iter().chain(&on_side).find(|(_, hand)| *hand == 0) {
        return [Some(at(*p)), None];
    }
    let (fraction, part) = (share(a, b, [s, e]), share(s, e, [a, b]));
    [Some(Meeting { fraction, part, at: along(side, part) }), None]
}

/// The place at a part of a side.
pub(super) fn along([a, b]: [Point; 2], part: f64) -> Point {
    if part == 1.0 { b } else { a + (b - a) * part }
}

/// How much of the side from `a` to `b` lies before the line through `s` and `e`, which goes
/// through it.
fn share(a: Point, b: Point, [s, e]: [Point; 2]) -> f64 {
    let area = |p: Point| (e.x - s.x) * (p.y - s.y) - (e.y - s.y) * (p.x - s.x);
    let (before, behind) = (area(a), area(b));
    let share = before / (before - behind);
    // All but parallel: to the last digit any place is as good as any other.
    if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.5 }
}

/// Both ends of what a leg and a side on one line have in common.
fn together([a, b]: [Point; 2], [s, e]: [Point; 2]) -> [Option<Point>; 2] {
    let between = |p: Point, u: Point, v: Point| {
        u.x.min(v.x) <= p.x && p.x <= u.x.max(v.x) && u.y.min(v.y) <= p.y && p.y <= u.y.max(v.y)
    };
    let near = |p: &Point| (p.x - a.x).abs() + (p.y - a.y).abs();
    let mut ends = [None, None];
    let all = [
        (s, between(s, a, b)),
        (e, between(e, a, b)),
        (a, between(a, s, e)),
        (b, between(b, s, e)),
    ];
    for (p, _) in all.into_iter().filter(|(_, common)| *common) {
        match ends {
            [None, _] => ends = [Some(p), None],
            [Some(first), _] if near(&p) < near(&first) => {
                ends = [Some(p), ends[1].or(Some(first))];
            }
            [Some(first), second] if near(&p) > near(&second.unwrap_or(first)) => ends[1] = Some(p),
            _ => {}
        }
    }
    ends
}

/// Whether a side may lie no farther from `p` than the root of `bound`; wrong only on the side of
/// yes. Without a division, quicker than the [`foot`].
pub(super) fn may_be_near(p: Point, [a, b]: [Point; 2], bound: f64) -> bool {
    let (ax, ay) = (a.x - p.x, a.y - p.y);
    let (bx, by) = (b.x - p.x, b.y - p.y);
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    let square = dx * dx + dy * dy;
    let along = -(ax * dx + ay * dy);
    if along <= 0.0 {
        return ax * ax + ay * ay <= bound;
    }
    if along >= square {
        return bx * bx + by * by <= bound;
    }
    // Twice the area of the triangle is distance times side; taken off are the digits that it and
    // the foot may have lost.
    let (u, v) = (ax * dy, ay * dx);
    let area = (u - v).abs() - (u.abs() + v.abs()) * LOST;
    area <= 0.0 || area * area <= bound * square
}
