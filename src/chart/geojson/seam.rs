//! Polygons that a file cuts at the 180th meridian (RFC 7946, 3.1.9) in one piece again.
//!
//! Within a feature, a side along +180 degrees that has its like along -180 is no shore but the
//! cut: both are taken out, and the rings go on across it. What does not match exactly stays cut.

use std::collections::HashMap;

use super::coordinates::Flat;
use crate::Point;
use crate::model::Ring;

/// A side of a ring: the ring's number, and the vertex that the side leads from.
type Side = (usize, usize);

/// Joins what is cut; longitudes may then lie up to 360 degrees from Greenwich, so that a ring is
/// in one piece.
pub(crate) fn joined(flat: Flat) -> Flat {
    let on = |meridian: f64| flat.positions.iter().any(|p| p.x == meridian);
    let is_cut = flat.depth == Some(3) && on(180.0) && on(-180.0);
    let joined = if is_cut { joined_again(&flat) } else { None };
    joined.unwrap_or(flat)
}

/// Nothing where nothing can be joined.
fn joined_again(flat: &Flat) -> Option<Flat> {
    let (mut rings, mut owner) = (Vec::new(), Vec::new());
    for (number, polygon) in flat.polygons().enumerate() {
        for (index, ring) in polygon.into_iter().enumerate() {
            let open = ring.first().is_some_and(|first| ring.last() != Some(first));
            if open || ring.len() < 4 {
                return None;
            }
            let mut ring = Ring(ring.get(1..).unwrap_or_default().to_vec());
            // Land on the left of every ring, so that the two sides of a cut run against each other.
            ring.turn_left();
            if index > 0 {
                ring.0.reverse();
            }
            rings.push(ring.0);
            owner.push((number, index == 0));
        }
    }
    Some(polygons(&owner, &Cuts::of(&rings)?.walk()?))
}

/// The sides along the meridian, each with its like on the other side.
struct Cuts<'a> {
    rings: &'a [Vec<Point>],
    across: HashMap<Side, Side>,
}

/// A ring in one piece: its points, and which rings it is of, each with the degrees added.
struct Loop {
    points: Vec<Point>,
    of: Vec<(usize, f64)>,
}

impl<'a> Cuts<'a> {
    fn of(rings: &'a [Vec<Point>]) -> Option<Cuts<'a>> {
        let key = |a: Point, b: Point| (a.x.to_bits(), a.y.to_bits(), b.y.to_bits());
        let mut sides = HashMap::new();
        for (number, ring) in rings.iter().enumerate() {
            for (vertex, (a, b)) in Ring(ring.clone()).sides().enumerate() {
                if a.x == b.x && a.x.abs() == 180.0 {
                    sides.insert(key(a, b), (number, vertex));
                }
            }
        }
        let like = |(x, from, to): &(u64, u64, u64)| {
            sides.get(&((-f64::from_bits(*x)).to_bits(), *to, *from)).copied()
        };
        let across: HashMap<Side, Side> =
            sides.iter().filter_map(|(key, side)| Some((*side, like(key)?))).collect();
        (!across.is_empty()).then_some(Cuts { rings, across })
    }

    fn next(&self, (ring, vertex): Side) -> Side {
        let count = self.rings.get(ring).map_or(1, Vec::len);
        (ring, (vertex + 1) % count)
    }

    /// All rings in one piece; nothing where one goes round a pole and so has no inside here.
    fn walk(&self) -> Option<Vec<Loop>> {
        let mut walked: Vec<Vec<bool>> = self.rings.iter().map(|r| vec![false; r.len()]).collect();
        let mut loops = Vec::new();
        for (number, ring) in self.rings.iter().enumerate() {
            for vertex in 0..ring.len() {
                let done = walked.get(number).and_then(|w| w.get(vertex)) != Some(&false);
                if !done && !self.across.contains_key(&(number, vertex)) {
                    loops.push(self.round((number, vertex), &mut walked)?);
                }
            }
        }
        Some(loops)
    }

    fn round(&self, start: Side, walked: &mut [Vec<bool>]) -> Option<Loop> {
        let mut found = Loop { points: Vec::new(), of: vec![(start.0, 0.0)] };
        let (mut at, mut shift) = (start, 0.0);
        loop {
            let point = *self.rings.get(at.0)?.get(at.1)?;
            if let Some(other) = self.across.get(&at) {
                // The place is the same, seen from the other side of the cut.
                shift += 2.0 * point.x;
                at = self.next(*other);
                if found.of.last() != Some(&(at.0, shift)) {
                    found.of.push((at.0, shift));
                }
            } else {
                let done = walked.get_mut(at.0)?.get_mut(at.1)?;
                if std::mem::replace(done, true) {
                    return None;
                }
                found.points.push(Point { x: point.x + shift, y: point.y });
                at = self.next(at);
            }
            if at == start {
                return (shift == 0.0).then_some(found);
            }
        }
    }
}

/// Polygons of the loops: those with the land within are shores, the others holes in them.
fn polygons(owner: &[(usize, bool)], loops: &[Loop]) -> Flat {
    // A hole runs the other way round.
    let is_shore = |found: &&Loop| Ring(found.points.clone()).doubled_area() > 0.0;
    let mut flat = Flat::default();
    for shore in loops.iter().filter(is_shore) {
        // Where most of it lies near Greenwich.
        let (low, high) = reach(&shore.points);
        let home = -((low + high) / 720.0).round() * 360.0;
        push(&mut flat, &shore.points, home);
        for hole in loops.iter().filter(|found| !is_shore(found)) {
            let polygon = hole.of.first().and_then(|(ring, _)| owner.get(*ring));
            let mine = shore
                .of
                .iter()
                .find(|(ring, _)| owner.get(*ring).map(|o| o.0) == polygon.map(|o| o.0));
            if let Some((_, shift)) = mine {
                let alone = if hole.of.len() == 1 { *shift } else { 0.0 };
                push(&mut flat, &hole.points, home + alone);
            }
        }
        flat.end_polygon();
    }
    flat.settle(Some(3));
    flat
}

fn reach(points: &[Point]) -> (f64, f64) {
    points
        .iter()
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), p| (low.min(p.x), high.max(p.x)))
}

/// A ring with its first point repeated, so many degrees east.
fn push(flat: &mut Flat, ring: &[Point], east: f64) {
    let shifted = ring.iter().chain(ring.first()).map(|p| Point { x: p.x + east, y: p.y });
    flat.positions.extend(shifted);
    flat.end_line(flat.positions.len());
}
