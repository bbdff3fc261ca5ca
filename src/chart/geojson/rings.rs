//! Makes a surveyed ring a chart's ring: on the centimetre, simple, turned left.
//!
//! Rings of real shores touch themselves where their coordinates were quantised: an inlet's mouth
//! closes to a point, two islets share a corner. Such a ring is cut where it touches, into rings
//! that do not. One that goes through itself is mended only when that is asked for: it is cut where
//! it crosses, and what then runs against the whole is dropped.

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
    /// Whether the whole crossed itself and was cut there.
    pub(super) mended: bool,
}

/// Where a ring goes through itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Crosses(pub(super) Point);

/// The points on whole centimetres, none twice in a row.
pub(super) fn rounded(points: impl IntoIterator<Item = Point>) -> Vec<Point> {
    // The zero takes the sign off a negative one, so that equal points have equal bits.
    let on_centimetre = |metres: f64| (metres * 100.0).round() / 100.0 + 0.0;
    let mut kept: Vec<Point> = points
        .into_iter()
        .map(|point| Point { x: on_centimetre(point.x), y: on_centimetre(point.y) })
        .collect();
    kept.dedup();
    kept
}

/// What to do with a ring that goes through itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Crossing {
    /// Nothing: it is no ring.
    Refuse,
    /// Cut it there.
    Cut,
}

/// The simple rings that a closed line of grid points makes; none if it encloses nothing.
pub(super) fn simple(
    closed: impl IntoIterator<Item = Point>,
    crossing: Crossing,
) -> Result<Pieces, Crosses> {
    let mut points = rounded(closed);
    while points.len() > 1 && points.first() == points.last() {
        points.pop();
    }
    let whole = Ring(points);
    let turns_left = whole.doubled_area() > 0.0;
    let mut pieces = Pieces::default();
    let rings = match (cut(whole.clone(), Crossing::Refuse, ROUNDS), crossing) {
        (Err(_), Crossing::Cut) => {
            let mut rings = cut(whole, Crossing::Cut, ROUNDS)?;
            rings.retain(|ring| (ring.doubled_area() > 0.0) == turns_left);
            pieces.mended = true;
            rings
        }
        (rings, _) => rings?,
    };
    for mut ring in rings {
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

/// How often a piece is cut again: a crossing moves by half a centimetre when it becomes a corner,
/// which may bring another about.
const ROUNDS: usize = 4;

/// Cuts a ring into simple ones, in at most so many rounds.
fn cut(ring: Ring, crossing: Crossing, rounds: usize) -> Result<Vec<Ring>, Crosses> {
    let meetings = all_meetings(&ring.0);
    let Some(first) = meetings.first() else {
        return Ok(if ring.0.len() < 3 { Vec::new() } else { vec![ring] });
    };
    let refused = meetings.iter().find(|meeting| meeting.crosses && crossing == Crossing::Refuse);
    if let Some(meeting) = refused.or((rounds == 0).then_some(first)) {
        return Err(Crosses(meeting.at));
    }
    let mut pieces = Vec::new();
    for piece in loops(with_corners(&ring.0, &meetings)) {
        pieces.extend(cut(piece, crossing, rounds - 1)?);
    }
    Ok(pieces)
}

fn all_meetings(ring: &[Point]) -> Vec<Meeting> {
    let mut all = Vec::new();
    meetings(ring, &mut |meeting| {
        all.push(meeting);
        ControlFlow::Continue(())
    });
    all
}

/// The ring with a corner wherever two of its sides meet.
fn with_corners(ring: &[Point], meetings: &[Meeting]) -> Vec<Point> {
    let mut on_side: HashMap<usize, Vec<Point>> = HashMap::new();
    let side = |index: usize| [ring[index], ring[(index + 1) % ring.len()]];
    for meeting in meetings {
        for (index, other) in [(meeting.first, meeting.second), (meeting.second, meeting.first)] {
            let corners = on_side.entry(index).or_default();
            if meeting.crosses {
                corners.extend(rounded([meeting.at]));
            } else {
                let [start, end] = side(index);
                corners.extend(side(other).into_iter().filter(|&p| is_on(p, start, end)));
            }
        }
    }
    let mut corners = Vec::with_capacity(ring.len() + meetings.len());
    for (index, &start) in ring.iter().enumerate() {
        corners.push(start);
        let along = |point: &Point| (*point - start).x.hypot((*point - start).y);
        if let Some(inner) = on_side.get_mut(&index) {
            inner.sort_by(|a, b| along(a).total_cmp(&along(b)));
            corners.append(inner);
        }
    }
    corners.dedup();
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
    use proptest::collection::vec;
    use proptest::prelude::*;

    use super::*;

    proptest! {
        /// On a coarse lattice, touching and overlapping sides are the rule.
        #[test]
        fn pieces_are_simple(corners in vec((0u8..9, 0u8..9), 3..30), cut in any::<bool>()) {
            let crossing = if cut { Crossing::Cut } else { Crossing::Refuse };
            let points = corners.iter().map(|&(x, y)| Point { x: x.into(), y: y.into() });
            if let Ok(Pieces { with, against, .. }) = simple(points, crossing) {
                for ring in with.iter().chain(&against) {
                    prop_assert!(ring.0.len() >= 3 && ring.doubled_area() > 0.0);
                    prop_assert!(all_meetings(&ring.0).is_empty());
                }
            }
        }
    }

    fn pieces(points: &[(f64, f64)]) -> Result<Pieces, Crosses> {
        simple(points.iter().copied().map(Point::from), Crossing::Refuse)
    }

    fn ring(points: &[(f64, f64)]) -> Ring {
        Ring::from(points.to_vec())
    }

    #[test]
    fn a_plain_ring_stays_and_turns_left() {
        let square = [(0.0, 0.0), (0.0, 9.0), (9.0, 9.0), (9.0, 0.0), (0.0, 0.0)];
        let turned = ring(&[(0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0)]);
        let expected = Pieces { with: vec![turned], ..Pieces::default() };
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
    fn a_ring_that_goes_through_itself_is_cut_only_when_asked() {
        let eight = [(0.0, 0.0), (10.0, 10.0), (10.0, 0.0), (0.0, 10.0), (0.0, 0.0)];
        assert_eq!(pieces(&eight), Err(Crosses(Point { x: 5.0, y: 5.0 })));
        // A square with two corners swapped: the twist runs against the whole.
        let twisted = [
            (0.0, 0.0),
            (9.0, 0.0),
            (9.0, 4.0),
            (8.0, 5.0),
            (9.0, 5.0),
            (8.0, 4.0),
            (8.0, 9.0),
            (0.0, 9.0),
        ];
        let found = simple(twisted.map(Point::from), Crossing::Cut).unwrap();
        assert_eq!((found.with.len(), found.against.len(), found.mended), (1, 0, true));
        assert!(found.with[0].0.contains(&Point { x: 8.5, y: 4.5 }));
    }
}
