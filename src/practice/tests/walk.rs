//! Dividers walked along a line of the plane: the second method for distances along the shore.

use chart::Point;

/// The length that dividers of a step find, on the plane, from the first point to the last.
pub(super) fn walked(line: &[Point], step: f64) -> f64 {
    let mut at = line[0];
    let (mut next, mut length) = (1, 0.0);
    loop {
        // The first exit from the circle about the dividers' foot.
        let Some(out) = (next..line.len()).find(|index| away(line[*index], at) > step) else {
            let last = *line.last().unwrap();
            return length + away(last, at);
        };
        let inside = if out == next { at } else { line[out - 1] };
        at = exit(at, inside, line[out], step);
        length += step;
        next = out;
    }
}

fn away(a: Point, b: Point) -> f64 {
    (a.x - b.x).hypot(a.y - b.y)
}

/// Where the side from a point inside to one outside leaves the circle, by halving.
fn exit(centre: Point, inside: Point, outside: Point, step: f64) -> Point {
    let (mut from, mut to) = (0.0, 1.0);
    for _ in 0..60 {
        let middle = (from + to) / 2.0;
        let point = inside + (outside - inside) * middle;
        if away(point, centre) > step { to = middle } else { from = middle }
    }
    inside + (outside - inside) * to
}
