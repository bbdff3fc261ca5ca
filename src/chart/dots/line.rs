//! Lines as dots.

use super::mask::Mask;
use super::raster::Raster;
use super::shapes::Path;
use crate::Point;

/// How far outside the drawing, in dots, a line is still followed: as far as a broad pen reaches.
pub(super) const MARGIN: f64 = 4.0;

/// Walks the dots of the straight line from `a` to `b` that lie in the drawing or just outside.
///
/// `pen` gets each dot and how many dots it is from the start of the whole line, seen or not, so
/// that dashes stay where they are when the view moves. Neighbouring dots touch by a side or a
/// corner. The cost depends on what is seen, however far away the ends are.
pub fn line(raster: &Raster, a: Point, b: Point, mut pen: impl FnMut(i64, i64, u64)) {
    let (from, to) = (raster.place(a), raster.place(b));
    let Some((start, end)) = clipped(raster, from, to) else {
        return;
    };
    let skipped = (start.0 - from.0).abs().max((start.1 - from.1).abs());
    walk(dot(start), dot(end), skipped as u64, &mut pen);
}

/// Walks the dots of a line through many points as [`line()`] does for each of its sides, the count
/// going on from side to side.
pub fn path(raster: &Raster, points: &[Point], mut pen: impl FnMut(i64, i64, u64)) {
    let mut behind = 0u64;
    for pair in points.windows(2) {
        line(raster, pair[0], pair[1], |x, y, count| pen(x, y, behind.saturating_add(count)));
        let (a, b) = (raster.place(pair[0]), raster.place(pair[1]));
        let length = (b.0 - a.0).abs().max((b.1 - a.1).abs());
        behind = behind.saturating_add(length as u64);
    }
}

/// Puts the dots of a prepared line into `mask`.
pub(super) fn stroke(mask: &mut Mask, raster: &Raster, line: &Path) {
    let reach = |bounds: &super::shapes::Bounds| {
        let (west, north) = raster.place(Point { x: bounds.west, y: bounds.north });
        let (east, south) = raster.place(Point { x: bounds.east, y: bounds.south });
        (west, north, east, south)
    };
    let seen = |(west, north, east, south): (f64, f64, f64, f64)| {
        east >= 0.0
            && south >= 0.0
            && west <= raster.width() as f64
            && north <= raster.height() as f64
    };
    if !seen(reach(&line.bounds)) {
        return;
    }
    for (bounds, points) in line.runs() {
        let ends = reach(bounds);
        if !seen(ends) {
            continue;
        }
        let (first, last) = (dot((ends.0, ends.1)), dot((ends.2, ends.3)));
        if first == last {
            mask.set(first.0, first.1);
            continue;
        }
        sides(mask, raster, points);
    }
}

/// Puts the dots of a line's sides into `mask`.
fn sides(mask: &mut Mask, raster: &Raster, points: &[Point]) {
    let mut places = points.iter().map(|p| raster.place(*p));
    let Some(mut from) = places.next() else {
        return;
    };
    mask.set(dot(from).0, dot(from).1);
    for to in places {
        // Most sides of a far view lie within one dot.
        if dot(from) != dot(to)
            && let Some((start, end)) = clipped(raster, from, to)
        {
            walk(dot(start), dot(end), 0, &mut |x, y, _| mask.set(x, y));
        }
        from = to;
    }
}

pub(super) fn dot(place: (f64, f64)) -> (i64, i64) {
    (place.0.floor() as i64, place.1.floor() as i64)
}

/// The part of a line within the drawing and its margin (Liang and Barsky, "A new concept and
/// method for line clipping", ACM Transactions on Graphics 3, 1984).
pub(super) fn clipped(
    raster: &Raster,
    a: (f64, f64),
    b: (f64, f64),
) -> Option<((f64, f64), (f64, f64))> {
    let (dx, dy) = (b.0 - a.0, b.1 - a.1);
    let (east, south) = (raster.width() as f64 + MARGIN, raster.height() as f64 + MARGIN);
    let sides = [(-dx, a.0 + MARGIN), (dx, east - a.0), (-dy, a.1 + MARGIN), (dy, south - a.1)];
    let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
    for (towards, room) in sides {
        if towards < 0.0 {
            enter = enter.max(room / towards);
        } else if towards > 0.0 {
            leave = leave.min(room / towards);
        } else if room < 0.0 {
            return None;
        }
    }
    let at = |t: f64| (a.0 + t * dx, a.1 + t * dy);
    (enter <= leave).then(|| (at(enter), at(leave)))
}

/// Walks from dot to dot (Bresenham, "Algorithm for computer control of a digital plotter", IBM
/// Systems Journal 4, 1965).
pub(super) fn walk(
    from: (i64, i64),
    to: (i64, i64),
    behind: u64,
    pen: &mut impl FnMut(i64, i64, u64),
) {
    let (dx, dy) = ((to.0 - from.0).abs(), -(to.1 - from.1).abs());
    let (step_x, step_y) = ((to.0 - from.0).signum(), (to.1 - from.1).signum());
    let (mut x, mut y) = from;
    let mut error = dx + dy;
    let mut count = behind;
    loop {
        pen(x, y, count);
        if (x, y) == to {
            return;
        }
        let doubled = 2 * error;
        if doubled >= dy {
            error += dy;
            x += step_x;
        }
        if doubled <= dx {
            error += dx;
            y += step_y;
        }
        count = count.saturating_add(1);
    }
}
