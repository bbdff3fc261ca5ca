//! Rings that meet themselves, found as a plain comparison of every pair finds them.

use std::ops::ControlFlow;

use geo::Line;
use geo::line_intersection::{LineIntersection, line_intersection};
use proptest::collection::vec;
use proptest::prelude::*;

use super::{Meeting, meetings};
use crate::Point;

fn found(ring: &[Point]) -> Vec<Meeting> {
    let mut all = Vec::new();
    meetings(ring, &mut |meeting| {
        all.push(meeting);
        ControlFlow::Continue(())
    });
    all.sort_by_key(|meeting| (meeting.first, meeting.second));
    all
}

/// Every pair, one by one; neighbours may share their corner and no more.
fn compared(ring: &[Point]) -> Vec<(usize, usize)> {
    let side = |i: usize| Line::new(ring[i], ring[(i + 1) % ring.len()]);
    let mut pairs = Vec::new();
    for first in 0..ring.len() {
        for second in first + 1..ring.len() {
            let neighbours = second - first == 1 || second - first == ring.len() - 1;
            let meet = match line_intersection(side(first), side(second)) {
                None => false,
                Some(LineIntersection::SinglePoint { .. }) => !neighbours,
                Some(LineIntersection::Collinear { .. }) => true,
            };
            if meet {
                pairs.push((first, second));
            }
        }
    }
    pairs
}

proptest! {
    /// On a coarse lattice, touching and collinear sides are the rule, not the exception.
    #[test]
    fn every_meeting_is_found(corners in vec((0i8..12, 0i8..12), 3..60)) {
        let mut ring: Vec<Point> =
            corners.iter().map(|&(x, y)| Point { x: x.into(), y: y.into() }).collect();
        ring.dedup();
        prop_assume!(ring.len() > 2 && ring.first() != ring.last());
        let pairs: Vec<_> = found(&ring).iter().map(|m| (m.first, m.second)).collect();
        prop_assert_eq!(pairs, compared(&ring));
    }

    #[test]
    fn every_crossing_is_found(corners in vec((0.0..100.0, 0.0..100.0), 3..80)) {
        let ring: Vec<Point> = corners.into_iter().map(Point::from).collect();
        let pairs: Vec<_> = found(&ring).iter().map(|m| (m.first, m.second)).collect();
        prop_assert_eq!(pairs, compared(&ring));
    }
}

/// A shore-like ring: a circle with inlets within inlets.
fn shore(vertices: usize) -> Vec<Point> {
    let step = std::f64::consts::TAU / vertices as f64;
    let corner = |i: usize| {
        let turn = i as f64 * step;
        let wave = |times: f64, size: f64| size * (times * turn).sin();
        let radius = 50_000.0 + wave(17.0, 9_000.0) + wave(301.0, 900.0) + wave(5_003.0, 60.0);
        Point { x: radius * turn.cos(), y: radius * turn.sin() }
    };
    (0..vertices).map(corner).collect()
}

#[test]
fn a_hundred_thousand_vertices_are_no_wait() {
    let mut ring = shore(100_000);
    // Some tens of milliseconds; every pair one by one would take minutes.
    assert_eq!(found(&ring), []);
    ring.swap(70_000, 70_001);
    assert!(!found(&ring).is_empty());
}

#[test]
fn straight_on_is_no_meeting_but_back_is() {
    let straight = [(0.0, 0.0), (5.0, 0.0), (9.0, 0.0), (9.0, 9.0)].map(Point::from);
    assert_eq!(found(&straight), []);
    let back = [(0.0, 0.0), (9.0, 0.0), (5.0, 0.0), (9.0, 9.0)].map(Point::from);
    assert_eq!(found(&back).len(), 2);
}

#[test]
fn few_points_are_no_harm() {
    for points in [&[][..], &[(1.0, 1.0)], &[(1.0, 1.0), (2.0, 2.0)]] {
        let ring: Vec<Point> = points.iter().copied().map(Point::from).collect();
        found(&ring);
    }
}
