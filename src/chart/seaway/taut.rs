//! A way drawn tight about the shore, like a thread.
//!
//! Of three corners on end the middle one gives way to what of the shore lies within their triangle: the thread then
//! goes from the first to the last along the hull of that. Since the shore does not cross the thread, it comes into the
//! triangle by the third side alone, so that what is drawn tight crosses nothing either. Corners come to be vertices of
//! the shore, exactly, and the way gets shorter with each step, so that it ends.

use crate::coast::Coast;
use crate::coast::hand;
use crate::{Extent, Point};

/// How far within a corner it is looked whether that is land, in metres.
const WITHIN: f64 = 0.01;

/// More steps than any way takes; one that takes them is left as it is, longer than need be.
const STEPS: usize = 20_000;

/// The way through `places` drawn tight. No piece of it may meet the shore.
pub(super) fn pulled(coast: &Coast, places: Vec<Point>) -> Vec<Point> {
    let mut way = cut_short(coast, &places);
    let (mut at, mut steps) = (1, 0);
    while at + 1 < way.len() && steps < STEPS {
        steps += 1;
        let before = way[at];
        let corners = tight(coast, [way[at - 1], before, way[at + 1]]);
        if corners == [before] {
            at += 1;
            continue;
        }
        way.splice(at..=at, corners);
        // What lies beside it may give way now.
        at = at.saturating_sub(1).max(1);
    }
    way
}

/// The way without the places between two that are in sight of each other.
fn cut_short(coast: &Coast, places: &[Point]) -> Vec<Point> {
    let mut way: Vec<Point> = places.first().copied().into_iter().collect();
    let mut at = 0;
    while at + 1 < places.len() {
        let mut next = at + 1;
        while next + 1 < places.len() && !coast.touches(places[at], places[next + 1]) {
            next += 1;
        }
        way.push(places[next]);
        at = next;
    }
    way
}

/// The corners between `a` and `c` of a thread that went by `b`, drawn tight.
fn tight(coast: &Coast, [a, b, c]: [Point; 3]) -> Vec<Point> {
    let turn = hand(a, b, c);
    if turn == 0 {
        return Vec::new();
    }
    let within = |v: Point| {
        hand(a, b, v) * turn >= 0 && hand(b, c, v) * turn >= 0 && hand(c, a, v) * turn > 0
    };
    let (mut inside, mut beside) = (Vec::new(), Vec::new());
    let Some(around) = around([a, b, c]) else { return vec![b] };
    coast.for_runs_in(around, |run| {
        for (_, [p, q]) in run.sides() {
            for (end, other) in [(p, q), (q, p)] {
                if end == b {
                    beside.push(other);
                } else if end != a && end != c && within(end) {
                    inside.push(end);
                }
            }
        }
    });
    if !beside.is_empty() && is_held(coast, [a, b, c], turn, &beside) {
        return vec![b];
    }
    hull([a, c], turn, &inside)
}

/// Whether the thread is held at `b`, a vertex of the shore with these `beside` it: whether land or shore lies within
/// the corner.
fn is_held(coast: &Coast, [a, b, c]: [Point; 3], turn: i8, beside: &[Point]) -> bool {
    let within = |v: &Point| hand(a, b, *v) * turn > 0 && hand(b, c, *v) * turn > 0;
    let unit = |to: Point| (to - b) / (to.x - b.x).hypot(to.y - b.y);
    let way = unit(a) + unit(c);
    let length = way.x.hypot(way.y);
    beside.iter().any(within) || (length > 0.0 && coast.on_land(b + way * (WITHIN / length)))
}

/// The corners of the hull of some places, from `a` to `c` on the side that the thread went by.
fn hull([a, c]: [Point; 2], turn: i8, places: &[Point]) -> Vec<Point> {
    let mut corners: Vec<Point> = Vec::new();
    let mut at = a;
    for _ in 0..=places.len() {
        let away = |v: Point| (v.x - at.x).hypot(v.y - at.y);
        let mut next = c;
        for place in places.iter().copied().filter(|place| *place != at) {
            let side = hand(at, next, place) * turn;
            if side < 0 || (side == 0 && away(place) > away(next)) {
                next = place;
            }
        }
        if next == c {
            break;
        }
        corners.push(next);
        at = next;
    }
    corners
}

/// The extent of a triangle.
fn around(corners: [Point; 3]) -> Option<Extent> {
    let low = corners.into_iter().reduce(|a, b| Point { x: a.x.min(b.x), y: a.y.min(b.y) })?;
    let high = corners.into_iter().reduce(|a, b| Point { x: a.x.max(b.x), y: a.y.max(b.y) })?;
    Some(Extent::new(low, high))
}
