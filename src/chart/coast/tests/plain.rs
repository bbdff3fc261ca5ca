//! Every query again, by looking at every side.

use crate::Point;
use crate::coast::flat;
use crate::coast::{Ashore, Clearance, Coast, Line, LineKind, Near, ShorePoint, Touch};

fn sides(coast: &Coast) -> impl Iterator<Item = (Line<'_>, u32, [Point; 2])> {
    coast.lines().flat_map(|line| (0..line.sides()).map(move |i| (line, i, line.side(i))))
}

pub(super) fn nearest(coast: &Coast, point: Point, reach: f64) -> Option<Near> {
    let mut best: Option<(f64, ShorePoint)> = None;
    for (line, side, ends) in sides(coast) {
        let (part, square) = flat::foot(point, ends);
        if best.is_none_or(|(least, _)| square < least) {
            best = Some((square, line.place(side, part)));
        }
    }
    let (square, on) = best?;
    (square.sqrt() <= reach).then(|| Near { on, distance: square.sqrt() })
}

pub(super) fn crossings(coast: &Coast, leg: [Point; 2]) -> Vec<Touch> {
    let mut found = Vec::new();
    for (line, side, ends) in sides(coast) {
        for m in flat::meetings(leg, ends).into_iter().flatten() {
            let on = ShorePoint { at: m.at, ..line.place(side, m.part) };
            found.push(Touch { fraction: m.fraction, stretch: 0, on });
        }
    }
    found.sort_by(|p, q| {
        let rest = |t: &Touch| (t.on.line, t.on.side);
        p.fraction.total_cmp(&q.fraction).then(rest(p).cmp(&rest(q)))
    });
    found.dedup_by(|p, q| p.on == q.on);
    found
}

pub(super) fn clearance(coast: &Coast, [a, b]: [Point; 2], reach: f64) -> Option<Clearance> {
    if let Some(touch) = crossings(coast, [a, b]).first() {
        let (fraction, at_leg) = (touch.fraction, touch.on.at);
        return Some(Clearance { distance: 0.0, fraction, at_leg, on: touch.on });
    }
    let mut best: Option<(f64, f64, ShorePoint)> = None;
    for (line, side, [s, e]) in sides(coast) {
        let mut offer = |square: f64, fraction: f64, part: f64| {
            if best.is_none_or(|(s, f, _)| (square, fraction) < (s, f)) {
                best = Some((square, fraction, line.place(side, part)));
            }
        };
        for (p, fraction) in [(a, 0.0), (b, 1.0)] {
            let (part, square) = flat::foot(p, [s, e]);
            offer(square, fraction, part);
        }
        for (p, part) in [(s, 0.0), (e, 1.0)] {
            let (fraction, square) = flat::foot(p, [a, b]);
            offer(square, fraction, part);
        }
    }
    let (square, fraction, on) = best?;
    let at_leg = flat::along([a, b], fraction);
    let distance = square.sqrt();
    (distance <= reach).then_some(Clearance { distance, fraction, at_leg, on })
}

pub(super) fn ashore(coast: &Coast, point: Point) -> Ashore {
    let mut within = Vec::new();
    for line in coast.lines() {
        let mut inside = false;
        for side in 0..line.sides() {
            let [a, b] = line.side(side);
            if flat::meets([point, point], [a, b]) {
                return Ashore::Shore(line.id());
            }
            let left = if a.y < b.y { 1 } else { -1 };
            inside ^= (a.y > point.y) != (b.y > point.y) && flat::hand(a, b, point) == left;
        }
        if inside && line.kind() != LineKind::Open {
            within.push(line);
        }
    }
    let (land, lakes): (Vec<Line<'_>>, Vec<Line<'_>>) =
        within.into_iter().partition(|l| l.kind() == LineKind::Land);
    if land.len() <= lakes.len() {
        return Ashore::Water;
    }
    let in_lake = |land: u32| lakes.iter().any(|lake| lake.feature() == land);
    let least = land.iter().min_by_key(|land| (in_lake(land.feature()), land.sides()));
    Ashore::Land(least.unwrap().id())
}
