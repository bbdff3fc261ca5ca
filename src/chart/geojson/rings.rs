//! Makes a surveyed ring a chart's ring: on the centimetre, simple, turned left.
//!
//! Rings of real shores touch themselves where their coordinates were quantised: an inlet's mouth
//! closes to a point, two islets share a corner. Such a ring is cut where it touches, into rings
//! that do not. One that goes through itself is not repaired.

use std::collections::HashMap;
use std::ops::ControlFlow;

use crate::check::{Meeting, meetings};
use crate::model::{Point, Ring};

/// What a ring came to.
#[derive(Debug, Default, PartialEq)]
pub(super) struct Pieces {
    /// Rings that run the way of the whole: of an outer ring land, of a hole water.
    pub(super) with: Vec<Ring>,
    /// Rings that run against it: shut off where the whole touches itself.
    pub(super) against: Vec<Ring>,
}

/// Where a ring goes through itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Crosses(pub(super) Point);

/// The points on whole centimetres, none twice in a row.
pub(super) fn rounded(points: impl IntoIterator<Item = Point>) -> Vec<Point> {
    let on_centimetre = |metres: f64| (metres * 100.0).round() / 100.0;
    let mut kept: Vec<Point> = points
        .into_iter()
        .map(|point| Point { x: on_centimetre(point.x), y: on_centimetre(point.y) })
        .collect();
    kept.dedup();
    kept
}

/// The simple rings that a closed line of grid points makes; none if it encloses nothing.
pub(super) fn simple(closed: impl IntoIterator<Item = Point>) -> Result<Pieces, Crosses> {
    let mut points = rounded(closed);
    while points.len() > 1 && points.first() == points.last() {
        points.pop();
    }
    let whole = Ring(points);
    let turns_left = whole.doubled_area() > 0.0;
    let mut pieces = Pieces::default();
    for mut ring in cut_where_it_touches(whole)? {
        let same_way = (ring.doubled_area() > 0.0) == turns_left;
        ring.turn_left();
        if same_way {
            pieces.with.push(ring);
        } else {
            pieces.against.push(ring);
        }
    }
    Ok(pieces)
}

fn cut_where_it_touches(ring: Ring) -> Result<Vec<Ring>, Crosses> {
    let touches = touches(&ring.0)?;
    if touches.is_empty() {
        return Ok(if ring.0.len() < 3 { Vec::new() } else { vec![ring] });
    }
    let pieces = loops(with_corners(&ring.0, &touches));
    for piece in &pieces {
        if let Some(touch) = touches_of(piece)?.first() {
            // Sides that still overlap: no cut will part them.
            return Err(Crosses(touch.at));
        }
    }
    Ok(pieces)
}

fn touches_of(ring: &Ring) -> Result<Vec<Meeting>, Crosses> {
    touches(&ring.0)
}

/// Where a ring touches itself; an error where it crosses.
fn touches(ring: &[Point]) -> Result<Vec<Meeting>, Crosses> {
    let mut touches = Vec::new();
    let mut crossing = None;
    meetings(ring, &mut |meeting| {
        if meeting.crosses {
            crossing = Some(Crosses(meeting.at));
            return ControlFlow::Break(());
        }
        touches.push(meeting);
        ControlFlow::Continue(())
    });
    crossing.map_or(Ok(touches), Err)
}

/// The ring with a corner wherever another side ends on one of its sides.
fn with_corners(ring: &[Point], touches: &[Meeting]) -> Vec<Point> {
    let mut on_side: HashMap<usize, Vec<Point>> = HashMap::new();
    let side = |index: usize| [ring[index], ring[(index + 1) % ring.len()]];
    for touch in touches {
        let [first, second] = [side(touch.first), side(touch.second)];
        on_side.entry(touch.first).or_default().extend(second);
        on_side.entry(touch.second).or_default().extend(first);
    }
    let mut corners = Vec::with_capacity(ring.len() + touches.len());
    for (index, &start) in ring.iter().enumerate() {
        corners.push(start);
        let Some(candidates) = on_side.get(&index) else { continue };
        let [_, end] = side(index);
        let along = |point: &Point| (*point - start).x.hypot((*point - start).y);
        let mut inner: Vec<Point> = candidates
            .iter()
            .copied()
            .filter(|point| *point != start && *point != end && is_on(*point, start, end))
            .collect();
        inner.sort_by(|a, b| along(a).total_cmp(&along(b)));
        inner.dedup();
        corners.extend(inner);
    }
    corners
}

/// Whether a point lies on a side, by the same exact predicate that found it there.
fn is_on(point: Point, start: Point, end: Point) -> bool {
    use geo::Intersects;
    geo::Line::new(start, end).intersects(&point)
}

/// Cuts a closed walk into loops wherever it comes back to a point; loops without an inside are
/// dropped.
fn loops(walk: Vec<Point>) -> Vec<Ring> {
    let key = |point: Point| (point.x.to_bits(), point.y.to_bits());
    let mut open: Vec<Point> = Vec::new();
    let mut place = HashMap::new();
    let mut found = Vec::new();
    for point in walk {
        if let Some(&start) = place.get(&key(point)) {
            let cut: Vec<Point> = open.drain(start..).collect();
            for gone in &cut {
                place.remove(&key(*gone));
            }
            found.push(Ring(cut));
        }
        place.insert(key(point), open.len());
        open.push(point);
    }
    found.push(Ring(open));
    found.retain(|ring| ring.0.len() >= 3 && ring.doubled_area() != 0.0);
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pieces(points: &[(f64, f64)]) -> Result<Pieces, Crosses> {
        simple(points.iter().copied().map(Point::from))
    }

    fn ring(points: &[(f64, f64)]) -> Ring {
        Ring::from(points.to_vec())
    }

    #[test]
    fn a_plain_ring_stays_and_turns_left() {
        let square = [(0.0, 0.0), (0.0, 9.0), (9.0, 9.0), (9.0, 0.0), (0.0, 0.0)];
        let turned = ring(&[(0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0)]);
        let expected = Pieces { with: vec![turned], against: vec![] };
        assert_eq!(pieces(&square), Ok(expected));
    }

    #[test]
    fn two_islets_that_share_a_corner_are_two() {
        let bow = [
            (0.0, 0.0),
            (4.0, 0.0),
            (4.0, 4.0),
            (8.0, 4.0),
            (8.0, 8.0),
            (4.0, 8.0),
            (4.0, 4.0),
            (0.0, 4.0),
        ];
        let found = pieces(&bow).unwrap();
        assert_eq!((found.with.len(), found.against.len()), (2, 0));
    }

    #[test]
    fn an_inlet_whose_mouth_closes_to_a_point_becomes_water_within() {
        let inlet = [
            (0.0, 0.0),
            (5.0, 0.0),
            (3.0, 3.0),
            (7.0, 3.0),
            (5.0, 0.0),
            (9.0, 0.0),
            (9.0, 9.0),
            (0.0, 9.0),
        ];
        let found = pieces(&inlet).unwrap();
        assert_eq!(found.with.len(), 1);
        assert_eq!(found.against, [ring(&[(5.0, 0.0), (7.0, 3.0), (3.0, 3.0)])]);
    }

    #[test]
    fn a_corner_on_another_side_is_a_cut_as_well() {
        let touch = [(0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (5.0, 0.0), (0.0, 9.0)];
        let found = pieces(&touch).unwrap();
        assert_eq!((found.with.len(), found.against.len()), (2, 0));
    }

    #[test]
    fn spikes_without_an_inside_are_dropped() {
        let spiked = [(0.0, 0.0), (9.0, 0.0), (15.0, 0.0), (9.0, 0.0), (9.0, 9.0)];
        assert_eq!(pieces(&spiked).unwrap().with, [ring(&[(0.0, 0.0), (9.0, 0.0), (9.0, 9.0)])]);
        let overlap = [(0.0, 0.0), (15.0, 0.0), (9.0, 0.0), (9.0, 9.0)];
        assert_eq!(pieces(&overlap).unwrap().with, [ring(&[(0.0, 0.0), (9.0, 0.0), (9.0, 9.0)])]);
    }

    #[test]
    fn what_encloses_nothing_is_nothing() {
        for points in [
            vec![],
            vec![(1.0, 1.0)],
            vec![(1.0, 1.0), (2.0, 2.0), (1.0, 1.0)],
            vec![(1.0, 1.0), (1.004, 1.0), (1.0, 1.004), (1.0, 1.0)],
            vec![(0.0, 0.0), (5.0, 0.0), (9.0, 0.0), (0.0, 0.0)],
        ] {
            assert_eq!(pieces(&points), Ok(Pieces::default()), "{points:?}");
        }
    }

    #[test]
    fn a_ring_that_goes_through_itself_is_not_repaired() {
        let eight = [(0.0, 0.0), (10.0, 10.0), (10.0, 0.0), (0.0, 10.0), (0.0, 0.0)];
        assert_eq!(pieces(&eight), Err(Crosses(Point { x: 5.0, y: 5.0 })));
    }
}
