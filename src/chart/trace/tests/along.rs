//! Along the shore itself, and straight.

use super::super::{Anchor, Hand, Kind, Trace, TraceError, Way, Wishes, lay, patient};
use super::library::{at, coast, from_corner, length, longer, on, shorter, square};
use crate::coast::{Coast, LineId, LineKind};

const SHORE: Wishes = Wishes { stand_off: 0.0, step: 0.0 };

#[test]
fn the_shorter_way_across_the_seam_and_the_longer_one() {
    let coast = square();
    let ends = [on(&coast, 0, 0, 0.25), on(&coast, 0, 3, 0.5)];
    let laid = shorter(&coast, &ends, SHORE);
    assert_eq!(from_corner(&laid.points), [(250.0, 0.0), (0.0, 0.0), (0.0, 500.0)]);
    let Kind::Along { way: Way::Shorter, land: Hand::Right, round: false, .. } =
        laid.pieces[0].kind
    else {
        panic!("{:?}", laid.pieces)
    };
    let laid = longer(&coast, ends, SHORE);
    let points = [(250.0, 0.0), (1000.0, 0.0), (1000.0, 1000.0), (0.0, 1000.0), (0.0, 500.0)];
    assert_eq!(from_corner(&laid.points), points);
    let Kind::Along { way: Way::Longer, land: Hand::Left, .. } = laid.pieces[0].kind else {
        panic!("{:?}", laid.pieces)
    };
    assert_eq!(laid.pieces[0].range, 0..5);
}

#[test]
fn from_a_place_to_itself_is_nothing_or_once_round() {
    let coast = square();
    for (side, part) in [(0, 0.0), (1, 0.5), (3, 0.75)] {
        let ends = [on(&coast, 0, side, part); 2];
        assert_eq!(shorter(&coast, &ends, SHORE).points.len(), 1);
        let laid = longer(&coast, ends, SHORE);
        assert!((length(&laid.points) - 4000.0).abs() < 1e-6);
        assert_eq!(laid.points.first(), laid.points.last());
        assert!(matches!(laid.pieces[0].kind, Kind::Along { round: true, .. }));
    }
}

#[test]
fn an_open_line_has_one_way() {
    let coast = coast(&[(LineKind::Open, &[(0.0, 0.0), (100.0, 0.0), (200.0, 50.0)])]);
    let ends = [on(&coast, 0, 1, 1.0), on(&coast, 0, 0, 0.5)];
    let laid = longer(&coast, ends, SHORE);
    assert_eq!(from_corner(&laid.points), [(200.0, 50.0), (100.0, 0.0), (50.0, 0.0)]);
    assert_eq!(laid, shorter(&coast, &ends, SHORE));
    assert_eq!(longer(&coast, [ends[0]; 2], SHORE).points.len(), 1);
}

#[test]
fn a_shore_of_one_triangle_and_ends_on_one_side_in_either_order() {
    let coast = coast(&[(LineKind::Land, &[(0.0, 0.0), (300.0, 0.0), (0.0, 300.0)])]);
    let ends = [on(&coast, 0, 1, 0.75), on(&coast, 0, 1, 0.25)];
    let laid = shorter(&coast, &ends, SHORE);
    assert_eq!(from_corner(&laid.points), [(75.0, 225.0), (225.0, 75.0)]);
    let laid = longer(&coast, ends, SHORE);
    let points = [(75.0, 225.0), (0.0, 300.0), (0.0, 0.0), (300.0, 0.0), (225.0, 75.0)];
    assert_eq!(from_corner(&laid.points), points);
}

#[test]
fn a_lake_has_its_land_on_the_other_hand() {
    let lake = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)];
    let coast = coast(&[(LineKind::Lake, &lake)]);
    let laid = shorter(&coast, &[on(&coast, 0, 0, 0.0), on(&coast, 0, 1, 0.0)], SHORE);
    assert!(matches!(laid.pieces[0].kind, Kind::Along { land: Hand::Right, .. }));
}

fn pair_of_islands() -> Coast {
    let west = [(0.0, 0.0), (1000.0, 0.0), (1000.0, 1000.0), (0.0, 1000.0)];
    let east = west.map(|(x, y)| (x + 3000.0, y));
    coast(&[(LineKind::Land, &west), (LineKind::Land, &east)])
}

fn straight(kind: Kind) -> (bool, bool) {
    let Kind::Straight { touch, ashore } = kind else { panic!("{kind:?}") };
    (touch.is_some(), ashore)
}

#[test]
fn a_hop_between_islands_is_straight_and_says_whether_it_touches_land() {
    let coast = pair_of_islands();
    let hop = |from: (u32, u32), to: (u32, u32)| {
        let ends = [on(&coast, from.0, from.1, 0.5), on(&coast, to.0, to.1, 0.5)];
        let laid = shorter(&coast, &ends, SHORE);
        assert_eq!(laid.points, ends.map(|end| end.at()));
        straight(laid.pieces[0].kind)
    };
    assert_eq!(hop((0, 1), (1, 3)), (false, false), "from shore to facing shore");
    assert_eq!(hop((0, 3), (1, 3)), (true, true), "over its own island first");
    assert_eq!(hop((0, 1), (1, 1)), (true, true), "over the other island last");
}

#[test]
fn pieces_off_the_shore_are_straight() {
    let coast = pair_of_islands();
    let lay = |a: (f64, f64), b: (f64, f64)| {
        let ends = [Anchor::Free(at(a.0, a.1)), Anchor::Free(at(b.0, b.1))];
        straight(shorter(&coast, &ends, SHORE).pieces[0].kind)
    };
    assert_eq!(lay((-500.0, -10.0), (4500.0, -10.0)), (false, false));
    assert_eq!(lay((-500.0, 10.0), (4500.0, 10.0)), (true, true));
    assert_eq!(lay((300.0, 300.0), (700.0, 300.0)), (false, true), "all inland");
}

#[test]
fn changes_lay_what_laying_anew_lays() {
    let coast = pair_of_islands();
    let a = (on(&coast, 0, 0, 0.25), Way::Shorter);
    let b = (on(&coast, 0, 1, 0.5), Way::Shorter);
    let c = (on(&coast, 1, 3, 0.5), Way::Shorter);
    let d = (on(&coast, 1, 1, 0.5), Way::Longer);
    let free = (Anchor::Free(at(2000.0, -700.0)), Way::Shorter);
    let mut trace = Trace::new(SHORE).unwrap();
    let held = |trace: &Trace| {
        let anew = lay(&coast, trace.anchors(), SHORE, &patient).unwrap();
        assert_eq!(trace.laid(), &anew);
    };
    for (anchor, way) in [a, b, c, d] {
        trace.push(&coast, anchor, way, &patient).unwrap();
        held(&trace);
    }
    for index in [2, 0, 5] {
        trace.insert(&coast, index, free, &patient).unwrap();
        held(&trace);
    }
    for index in 0..6 {
        trace.set(&coast, index, b, &patient).unwrap();
        held(&trace);
    }
    for index in [6, 3, 0, 1, 1, 0, 0] {
        trace.remove(&coast, index, &patient).unwrap();
        held(&trace);
    }
    assert!(trace.laid().points.is_empty() && trace.anchors().is_empty());
}

#[test]
fn what_is_out_of_bounds_is_told() {
    let coast = square();
    let bad = |stand_off, step| Trace::new(Wishes { stand_off, step }).unwrap_err();
    assert_eq!(bad(2000.5, 0.0), TraceError::StandOff(2000.5));
    assert_eq!(bad(0.0, -1.0), TraceError::Step(-1.0));
    assert!(matches!(bad(f64::NAN, 0.0), TraceError::StandOff(_)));
    let Anchor::Shore(mut place) = on(&coast, 0, 0, 0.0) else { panic!() };
    place.line = LineId(7);
    let mut trace = Trace::new(SHORE).unwrap();
    let nowhere = trace.push(&coast, Anchor::Shore(place), Way::Shorter, &patient);
    assert_eq!(nowhere, Err(TraceError::NoSuchLine(7, 1)));
    let nan = Anchor::Free(at(f64::NAN, 0.0));
    assert!(matches!(
        trace.push(&coast, nan, Way::Shorter, &patient),
        Err(TraceError::NoPoint(..))
    ));
    assert_eq!(trace.remove(&coast, 0, &patient), Err(TraceError::NoSuchAnchor(0, 0)));
    assert!(trace.anchors().is_empty());
}
