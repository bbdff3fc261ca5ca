//! Which of the small islands and lakes stay.

use std::collections::HashMap;

use crate::coast::{Coast, Line, LineKind};
use crate::{Point, Ring};

/// A ring smaller than the measure.
struct Small<'a> {
    line: Line<'a>,
    /// The longer side of the rectangle about it.
    size: f64,
    middle: Point,
}

/// For every line of `coast` whether it is left out where rings smaller than `measure` thin out.
pub(super) fn left_out(coast: &Coast, measure: f64) -> Vec<bool> {
    let mut out = vec![false; coast.lines().len()];
    let small: Vec<Small<'_>> = coast.lines().filter_map(|line| Small::of(line, measure)).collect();
    let square = |p: Point| ((p.x / measure).floor() as i64, (p.y / measure).floor() as i64);
    let mut lakes: HashMap<(i64, i64), Vec<&Small<'_>>> = HashMap::new();
    for lake in small.iter().filter(|ring| ring.line.kind() == LineKind::Lake) {
        out[lake.line.id().0 as usize] = true;
        lakes.entry(square(lake.middle)).or_default().push(lake);
    }
    let in_lake = |island: &Small<'_>| {
        let (x, y) = square(island.middle);
        let near = (-1..=1).flat_map(|dy| (-1..=1).map(move |dx| (x + dx, y + dy)));
        let place = island.line.vertex(0);
        near.filter_map(|at| lakes.get(&at)).flatten().any(|lake| lake.encloses(place))
    };
    let mut largest: HashMap<(i64, i64), &Small<'_>> = HashMap::new();
    for island in small.iter().filter(|ring| ring.line.kind() == LineKind::Land) {
        out[island.line.id().0 as usize] = true;
        if in_lake(island) {
            continue;
        }
        let best = largest.entry(square(island.middle)).or_insert(island);
        if island.size > best.size {
            *best = island;
        }
    }
    for island in largest.values() {
        out[island.line.id().0 as usize] = false;
    }
    out
}

impl<'a> Small<'a> {
    /// The line, if it is a ring smaller than `measure`.
    fn of(line: Line<'a>, measure: f64) -> Option<Small<'a>> {
        if !line.is_closed() {
            return None;
        }
        let (mut low, mut high) = (line.vertex(0), line.vertex(0));
        for index in 1..line.vertices() {
            let p = line.vertex(index);
            low = Point { x: low.x.min(p.x), y: low.y.min(p.y) };
            high = Point { x: high.x.max(p.x), y: high.y.max(p.y) };
            if (high.x - low.x).max(high.y - low.y) >= measure {
                return None;
            }
        }
        let size = (high.x - low.x).max(high.y - low.y);
        Some(Small { line, size, middle: (low + high) / 2.0 })
    }

    fn encloses(&self, point: Point) -> bool {
        let vertices = (0..self.line.vertices()).map(|index| self.line.vertex(index));
        Ring(vertices.collect()).encloses(point)
    }
}
