//! At a stand-off: never nearer, never over itself, and whole where there is no room.

use std::sync::LazyLock;

use proptest::prelude::*;

use super::super::{Hand, Kind, Laid, Offing, Way, Wishes, lay, patient};
use super::held::{afloat, least_distance, simple};
use super::library::{at, coast, from_corner, length, longer, on, p, shorter, square};
use super::smooth::{anchors, places};
use crate::Point;
use crate::coast::{Coast, LineKind};

fn off(metres: f64) -> Wishes {
    Wishes { stand_off: metres, step: 0.0 }
}

/// The points of the pieces along the shore, without the stubs.
pub(super) fn main_points(laid: &Laid) -> Vec<Point> {
    let along = laid.pieces.iter().filter(|piece| piece.kind != Kind::Stub);
    along.flat_map(|piece| laid.points[piece.range.clone()].to_vec()).collect()
}

pub(super) fn offing(laid: &Laid) -> Offing {
    let offs = laid.pieces.iter().filter_map(|piece| match piece.kind {
        Kind::Along { off, .. } => off,
        _ => None,
    });
    offs.fold(Offing::default(), |a, b| Offing {
        narrow: a.narrow || b.narrow,
        others: a.others || b.others,
    })
}

/// On the central meridian of UTM.
const SCALE: f64 = 0.9996;

#[track_caller]
fn keeps(coast: &Coast, laid: &Laid, metres: f64) {
    let points = main_points(laid);
    let least = least_distance(coast, &points, metres / 7.0) / SCALE;
    assert!(least >= metres - 1e-3, "{least} of {metres}: {:?}", from_corner(&points));
    assert!(least <= metres * 1.011, "{least} of {metres}");
    assert_eq!(simple(&points), Ok(()));
    assert_eq!(afloat(coast, &laid.points), Ok(()));
}

#[test]
fn round_a_corner_of_a_square_island() {
    let coast = square();
    let ends = [on(&coast, 0, 0, 0.5), on(&coast, 0, 1, 0.5)];
    let laid = shorter(&coast, &ends, off(100.0));
    keeps(&coast, &laid, 100.0);
    let kinds: Vec<bool> = laid.pieces.iter().map(|piece| piece.kind == Kind::Stub).collect();
    assert_eq!(kinds, [true, false, true]);
    assert_eq!((laid.points[0], *laid.points.last().unwrap()), (ends[0].at(), ends[1].at()));
    // A quarter of a circle between two straight stretches.
    let expected = 1000.0 + 101.0 * SCALE * std::f64::consts::FRAC_PI_2;
    let found = length(&main_points(&laid));
    assert!((found - expected).abs() < 0.01 * expected, "{found}, not {expected}");
    assert_eq!(offing(&laid), Offing { narrow: false, others: false });
    // The other way.
    let laid = longer(&coast, ends, off(100.0));
    keeps(&coast, &laid, 100.0);
    assert!(length(&main_points(&laid)) > 3000.0 + 300.0);
    let Kind::Along { land: Hand::Right, .. } = laid.pieces[1].kind else { panic!() };
    // And round.
    let laid = longer(&coast, [ends[0]; 2], off(100.0));
    keeps(&coast, &laid, 100.0);
    let expected = 4000.0 + 101.0 * SCALE * std::f64::consts::TAU;
    assert!((length(&main_points(&laid)) - expected).abs() < 0.01 * expected);
}

#[test]
fn to_b_and_on_to_c_is_to_c() {
    let coast = square();
    let [a, b, c] = [(0, 0.25), (0, 0.75), (1, 0.5)].map(|(side, part)| on(&coast, 0, side, part));
    let (through, direct) =
        (shorter(&coast, &[a, b, c], off(60.0)), shorter(&coast, &[a, c], off(60.0)));
    let line = main_points(&through);
    let (l, m) = (length(&line), length(&main_points(&direct)));
    assert!((l - m).abs() < 1e-6, "{l} {m}");
    let turned = shorter(&coast, &[c, a], off(60.0));
    let mut points = turned.points;
    points.reverse();
    let apart = points.iter().zip(&direct.points).map(|(a, b)| length(&[*a, *b]));
    assert!(apart.fold(0.0, f64::max) < 1e-6 && points.len() == direct.points.len());
}

/// Land to the north of the axis, with an inlet of a width and depth in the middle.
fn inlet(width: f64, depth: f64) -> Coast {
    let half = width / 2.0;
    coast(&[(
        LineKind::Land,
        &[
            (-half, 0.0),
            (-half, depth),
            (half, depth),
            (half, 0.0),
            (2000.0, 0.0),
            (2000.0, 3000.0),
            (-2000.0, 3000.0),
            (-2000.0, 0.0),
        ],
    )])
}

#[test]
fn an_inlet_is_entered_only_where_there_is_room() {
    for (width, enters) in [(190.0, false), (201.0, false), (203.0, true), (400.0, true)] {
        let coast = inlet(width, 600.0);
        let ends = [on(&coast, 0, 7, 0.5), on(&coast, 0, 3, 0.5)];
        let laid = shorter(&coast, &ends, off(100.0));
        keeps(&coast, &laid, 100.0);
        let deepest = main_points(&laid).iter().map(|q| q.y - at(0.0, 0.0).y).fold(-1e9, f64::max);
        assert_eq!(deepest > 400.0, enters, "{width}: {deepest}");
        assert_eq!(offing(&laid), Offing::default(), "{width}");
    }
}

#[test]
fn an_anchor_in_an_inlet_is_left_by_its_mouth() {
    let coast = inlet(100.0, 600.0);
    // In the middle of the end of the inlet, from which the mouth is seen.
    let ends = [on(&coast, 0, 1, 0.5), on(&coast, 0, 3, 0.5)];
    let laid = shorter(&coast, &ends, off(100.0));
    keeps(&coast, &laid, 100.0);
    assert_eq!(from_corner(&laid.points[..1]), [(0.0, 600.0)]);
    assert!(length(&laid.points[..2]) > 600.0 + 80.0, "{laid:?}");
    // Between both sides of the inlet the line goes to the mouth and back.
    let across = shorter(&coast, &[on(&coast, 0, 0, 0.5), on(&coast, 0, 2, 0.5)], off(100.0));
    assert_eq!(afloat(&coast, &across.points), Ok(()));
    assert!(length(&across.points) < 1000.0);
}

/// A basin 1000 m wide behind a mouth 100 m wide.
fn harbour() -> Coast {
    coast(&[(
        LineKind::Land,
        &[
            (-50.0, 0.0),
            (-50.0, 200.0),
            (-500.0, 200.0),
            (-500.0, 1200.0),
            (500.0, 1200.0),
            (500.0, 200.0),
            (50.0, 200.0),
            (50.0, 0.0),
            (3000.0, 0.0),
            (3000.0, 3000.0),
            (-3000.0, 3000.0),
            (-3000.0, 0.0),
        ],
    )])
}

#[test]
fn out_of_a_harbour_through_a_mouth_with_no_room() {
    let coast = harbour();
    let (inside, outside) = (on(&coast, 0, 4, 0.5), on(&coast, 0, 7, 0.5));
    for ends in [[inside, outside], [outside, inside]] {
        let laid = shorter(&coast, &ends, off(100.0));
        assert_eq!(offing(&laid), Offing { narrow: true, others: false });
        assert_eq!(afloat(&coast, &laid.points), Ok(()));
        assert_eq!(simple(&laid.points), Ok(()), "{:?}", from_corner(&laid.points));
        assert_eq!((laid.points[0], *laid.points.last().unwrap()), (ends[0].at(), ends[1].at()));
        assert!(length(&laid.points) < 4000.0);
    }
}

fn strait(width: f64) -> Coast {
    let main = [(0.0, 0.0), (0.0, -3000.0), (6000.0, -3000.0), (6000.0, 0.0)];
    let island = [(2000.0, 0.0), (4000.0, 0.0), (4000.0, 500.0), (2000.0, 500.0)]
        .map(|(x, y)| (x, y + width));
    coast(&[(LineKind::Land, &main), (LineKind::Land, &island)])
}

#[test]
fn a_strait_is_passed_only_where_there_is_room() {
    for (width, others) in [(150.0, true), (201.8, true), (202.2, false), (300.0, false)] {
        let coast = strait(width);
        let ends = [on(&coast, 0, 3, 0.9), on(&coast, 0, 3, 0.1)];
        let laid = shorter(&coast, &ends, off(100.0));
        keeps(&coast, &laid, 100.0);
        assert_eq!(offing(&laid), Offing { narrow: false, others }, "{width}");
        let highest = main_points(&laid).iter().map(|q| q.y - at(0.0, 0.0).y).fold(0.0, f64::max);
        assert_eq!(highest > 500.0, others);
        // To an anchor in the strait a stub leads in from its end.
        if others {
            let laid = shorter(&coast, &[ends[0], on(&coast, 0, 3, 0.5)], off(100.0));
            assert_eq!(afloat(&coast, &laid.points), Ok(()));
        }
    }
}

#[test]
fn a_spiral_inlet_a_lake_too_small_and_one_of_one_triangle() {
    let spiral = [
        (0.0, 0.0),
        (0.0, 1000.0),
        (-1000.0, 1000.0),
        (-1000.0, 150.0),
        (-150.0, 150.0),
        (-150.0, 850.0),
        (-850.0, 850.0),
        (-850.0, 300.0),
        (-300.0, 300.0),
        (-300.0, 700.0),
        (-700.0, 700.0),
        (-700.0, 450.0),
        (-450.0, 450.0),
        (-450.0, 550.0),
        (-600.0, 550.0),
        (-600.0, 600.0),
        (-400.0, 600.0),
        (-400.0, 400.0),
        (-750.0, 400.0),
        (-750.0, 750.0),
        (-250.0, 750.0),
        (-250.0, 250.0),
        (-900.0, 250.0),
        (-900.0, 900.0),
        (-100.0, 900.0),
        (-100.0, 100.0),
        (-1000.0, 100.0),
        (-1000.0, 0.0),
    ];
    let winding = coast(&[(LineKind::Land, &spiral)]);
    assert!(crate::Ring(spiral.map(|(x, y)| p(x, y)).to_vec()).doubled_area() > 0.0);
    for metres in [5.0, 20.0, 26.0, 60.0, 200.0] {
        for (from, to) in [((26, 0.5), (14, 0.5)), ((3, 0.1), (12, 0.5)), ((0, 0.5), (27, 0.5))] {
            let ends = [on(&winding, 0, from.0, from.1), on(&winding, 0, to.0, to.1)];
            let laid = shorter(&winding, &ends, off(metres));
            assert_eq!(afloat(&winding, &laid.points), Ok(()), "{metres} {from:?}");
        }
    }
    let lake = coast(&[(LineKind::Lake, &[(0.0, 0.0), (90.0, 0.0), (0.0, 90.0)])]);
    let laid = longer(&lake, [on(&lake, 0, 0, 0.5), on(&lake, 0, 1, 0.5)], off(100.0));
    assert!(offing(&laid).narrow);
    assert_eq!(afloat(&lake, &laid.points), Ok(()));
    let island = coast(&[(LineKind::Land, &[(0.0, 0.0), (90.0, 0.0), (0.0, 90.0)])]);
    for way in [Way::Shorter, Way::Longer] {
        let ends = [on(&island, 0, 0, 0.5), on(&island, 0, 1, 0.5)].map(|end| (end, way));
        keeps(&island, &lay(&island, &ends, off(2000.0), &patient).unwrap(), 2000.0);
    }
    let lake = coast(&[(LineKind::Lake, &[(0.0, 0.0), (900.0, 0.0), (0.0, 900.0)])]);
    let laid = longer(&lake, [on(&lake, 0, 0, 0.5), on(&lake, 0, 1, 0.5)], off(100.0));
    keeps(&lake, &laid, 100.0);
}

#[test]
fn an_open_line_has_its_land_on_the_left() {
    let coast = coast(&[(LineKind::Open, &[(0.0, 0.0), (500.0, 0.0), (1000.0, 200.0)])]);
    let ends = [on(&coast, 0, 0, 0.2), on(&coast, 0, 1, 0.8)];
    let laid = shorter(&coast, &ends, off(50.0));
    keeps(&coast, &laid, 50.0);
    assert!(main_points(&laid).iter().all(|q| q.y < at(0.0, 200.0).y));
    // The other end is beyond both ends of the line.
    let tip = shorter(&coast, &[on(&coast, 0, 0, 0.0), on(&coast, 0, 1, 1.0)], off(50.0));
    keeps(&coast, &tip, 50.0);
}

static PRACTICE: LazyLock<Coast> = LazyLock::new(|| Coast::of(&crate::practice().unwrap()));

/// Metres of the grid to one on the ground, least on the practice chart.
fn scale(coast: &Coast, at: Point) -> f64 {
    let point = nav::GridPoint::from_metres(at.x, at.y).unwrap();
    coast.grid().inverse(point).unwrap().scale
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 6, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn on_the_practice_chart_it_keeps_its_distance(places in places(), metres in 5.0..1500.0f64) {
        let coast = &*PRACTICE;
        let ends = anchors(coast, places).map(|anchor| (anchor, Way::Shorter));
        let laid = lay(coast, &ends, off(metres), &patient).unwrap();
        prop_assert_eq!(afloat(coast, &laid.points), Ok(()));
        let points = main_points(&laid);
        prop_assert_eq!(simple(&points), Ok(()));
        if !offing(&laid).narrow {
            let least = least_distance(coast, &points, metres / 5.0) / scale(coast, points[0]);
            prop_assert!(least >= metres * 0.9999, "{} of {}", least, metres);
        }
        let mut before = length(&points);
        for step in [100.0, 500.0, 2500.0] {
            let smooth = lay(coast, &ends, Wishes { step, ..off(metres) }, &patient).unwrap();
            let points = main_points(&smooth);
            prop_assert_eq!(afloat(coast, &smooth.points), Ok(()));
            prop_assert_eq!(simple(&points), Ok(()));
            if !offing(&smooth).narrow {
                let least = least_distance(coast, &points, metres / 5.0) / scale(coast, points[0]);
                prop_assert!(least >= metres * 0.9999, "{} of {} with {}", least, metres, step);
                let now = length(&points);
                prop_assert!(now <= before + 0.01, "{} m, {} before", now, before);
                before = now;
            }
        }
        let back = lay(coast, &[ends[1], ends[0]], off(metres), &patient).unwrap();
        prop_assert!((length(&back.points) - length(&laid.points)).abs() < 1e-3);
    }
}
