//! Lines of many anchors, and shores of more than one kind.

use std::cell::Cell;
use std::ops::ControlFlow;
use std::sync::LazyLock;

use proptest::prelude::*;

use super::super::{Anchor, Kind, Trace, TraceError, Way, Wishes, lay, patient};
use super::held::{afloat, least_distance, simple};
use super::library::{coast, from_corner, length, on, shorter, square};
use super::off::{main_points, offing};
use super::smooth::{anchors, places};
use crate::coast::{Coast, LineKind};

static PRACTICE: LazyLock<Coast> = LazyLock::new(|| Coast::of(&crate::practice().unwrap()));

fn off(stand_off: f64) -> Wishes {
    Wishes { stand_off, step: 0.0 }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 8, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn pieces_follow_each_other_through_every_anchor(
        pairs in [places(), places(), places()],
        stand_off in prop_oneof![Just(0.0), 10.0..800.0f64],
    ) {
        let coast = &*PRACTICE;
        let through: Vec<Anchor> =
            pairs.into_iter().flat_map(|pair| anchors(coast, pair)).collect();
        let laid = shorter(coast, &through, off(stand_off));
        prop_assert_eq!(laid.pieces[0].range.start, 0);
        prop_assert_eq!(laid.pieces.last().unwrap().range.end, laid.points.len());
        for pair in laid.pieces.windows(2) {
            prop_assert_eq!(pair[0].range.end, pair[1].range.start + 1);
            prop_assert!(pair[1].anchor == pair[0].anchor + 1 || pair.iter().any(|p| p.kind == Kind::Stub));
        }
        prop_assert_eq!(laid.points[0], through[0].at());
        prop_assert_eq!(*laid.points.last().unwrap(), through[5].at());
        for piece in &laid.pieces {
            if !matches!(piece.kind, Kind::Straight { ashore: true, .. }) {
                prop_assert_eq!(afloat(coast, &laid.points[piece.range.clone()]), Ok(()));
            }
        }
        // Anchor by anchor it is the same line.
        let mut trace = Trace::new(off(stand_off)).unwrap();
        for anchor in &through {
            trace.push(coast, *anchor, Way::Longer, &patient).unwrap();
        }
        for (index, anchor) in through.iter().enumerate() {
            trace.set(coast, index, (*anchor, Way::Shorter), &patient).unwrap();
        }
        prop_assert_eq!(trace.laid(), &laid);
    }
}

#[test]
fn vertices_that_repeat_change_nothing_but_their_number() {
    let corners = [(0.0, 0.0), (1000.0, 0.0), (1000.0, 1000.0), (0.0, 1000.0)];
    let twice: Vec<_> = corners.iter().flat_map(|corner| [*corner; 3]).collect();
    let (plain, repeated) = (square(), coast(&[(LineKind::Land, &twice)]));
    let wishes = |stand_off, step| Wishes { stand_off, step };
    for wishes in [wishes(0.0, 0.0), wishes(0.0, 400.0), wishes(100.0, 0.0), wishes(100.0, 400.0)] {
        for (from, to) in [((0, 0.5), (1, 0.5)), ((0, 0.0), (1, 0.0)), ((3, 0.5), (0, 0.5))] {
            let a = shorter(
                &plain,
                &[on(&plain, 0, from.0, from.1), on(&plain, 0, to.0, to.1)],
                wishes,
            );
            let on_repeated = |place: (u32, f64)| {
                // The last of three, from which the side leads on.
                on(&repeated, 0, place.0 * 3 + 2, place.1)
            };
            let b = shorter(&repeated, &[on_repeated(from), on_repeated(to)], wishes);
            let points = |points: &[crate::Point]| {
                let mut points = from_corner(points);
                points.dedup();
                points
            };
            assert_eq!(points(&a.points), points(&b.points), "{wishes:?} {from:?}");
        }
    }
}

/// An island with a lake, an islet in the lake, and a rock of one point off its east side.
fn nested() -> Coast {
    let ring = |half: f64| [(-half, -half), (half, -half), (half, half), (-half, half)];
    coast(&[
        (LineKind::Land, &ring(1000.0)),
        (LineKind::Lake, &ring(600.0)),
        (LineKind::Land, &ring(100.0)),
        (LineKind::Land, &[(1150.0, 0.0)]),
    ])
}

#[test]
fn a_lake_an_islet_in_it_and_a_rock_of_one_point() {
    let coast = nested();
    let line = |kind, half: f64| {
        let found = coast.lines().find(|line| {
            line.kind() == kind && (line.length().as_metres() - 8.0 * half / 0.9996).abs() < 1.0
        });
        found.unwrap().id().0
    };
    let [island, lake, islet] =
        [line(LineKind::Land, 1000.0), line(LineKind::Lake, 600.0), line(LineKind::Land, 100.0)];
    for (line, others) in [(lake, false), (islet, false), (island, true)] {
        let ends = [on(&coast, line, 0, 0.5), on(&coast, line, 2, 0.5)];
        for ends in [ends, [ends[1], ends[0]]] {
            let laid = shorter(&coast, &ends, off(100.0));
            let points = main_points(&laid);
            assert_eq!(afloat(&coast, &laid.points), Ok(()));
            assert_eq!(simple(&points), Ok(()));
            let least = least_distance(&coast, &points, 10.0) / 0.9996;
            assert!((99.999..101.1).contains(&least), "{least}");
            // Between the island and its rock there is no room.
            let east = ends[0].at().x < points[points.len() / 2].x;
            assert_eq!(offing(&laid).others, others && east);
        }
    }
    // The islet is too near to the lake's shore for this.
    let laid = shorter(&coast, &[on(&coast, lake, 0, 0.5), on(&coast, lake, 2, 0.5)], off(260.0));
    assert_eq!(afloat(&coast, &laid.points), Ok(()));
    assert!(offing(&laid).narrow || length(&main_points(&laid)) < 1.0, "{:?}", offing(&laid));
}

#[test]
fn work_can_be_called_off() {
    let coast = &*PRACTICE;
    let ends = anchors(coast, (0, [0.1, 0.4])).map(|end| (end, Way::Shorter));
    for wishes in [Wishes { stand_off: 200.0, step: 0.0 }, Wishes { stand_off: 0.0, step: 500.0 }] {
        let asked = Cell::new(0);
        let watch = || {
            asked.set(asked.get() + 1);
            if asked.get() < 2 { ControlFlow::Continue(()) } else { ControlFlow::Break(()) }
        };
        assert_eq!(lay(coast, &ends, wishes, &watch), Err(TraceError::CalledOff));
        assert_eq!(asked.get(), 2);
    }
}
