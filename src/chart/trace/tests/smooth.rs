//! Smoothing: from headland to headland, never over land.

use std::sync::LazyLock;

use proptest::prelude::*;

use super::super::{Anchor, Way, Wishes, lay, patient};
use super::held::{afloat, simple};
use super::library::{coast, from_corner, length, longer, on, shorter};
use crate::coast::{Coast, LineId, LineKind};

fn step(step: f64) -> Wishes {
    Wishes { stand_off: 0.0, step }
}

/// A shore to the north, land behind it, with an inlet 100 m wide and 400 m deep and a point that
/// stands out 150 m.
fn inlet() -> Coast {
    coast(&[(
        LineKind::Land,
        &[
            (0.0, 0.0),
            (0.0, 1000.0),
            (-2000.0, 1000.0),
            (-2000.0, 0.0),
            (-1200.0, 0.0),
            (-1150.0, -150.0),
            (-1100.0, 0.0),
            (-600.0, 0.0),
            (-600.0, 400.0),
            (-500.0, 400.0),
            (-500.0, 0.0),
        ]
        .map(|(x, y)| (x, y)),
    )])
}

#[test]
fn an_inlet_narrower_than_the_step_is_cut_across_and_a_point_is_kept() {
    let coast = inlet();
    let ends = [on(&coast, 0, 3, 0.0), on(&coast, 0, 0, 0.0)];
    let at = |metres: f64| from_corner(&shorter(&coast, &ends, step(metres)).points);
    let goes_in = |metres| at(metres).iter().any(|(_, y)| *y > 300.0);
    // The mouth is 100 m on a plane at a scale of 0.9996.
    assert!(goes_in(0.0) && goes_in(99.0) && goes_in(100.0) && !goes_in(100.1));
    for metres in [0.0, 99.0, 101.0] {
        assert!(at(metres).contains(&(-1150.0, -150.0)), "{metres}");
    }
    // A long step goes from the corner to the point and on, never inside it.
    let wide = at(5000.0);
    assert_eq!(wide, [(-2000.0, 0.0), (-1150.0, -150.0), (0.0, 0.0)]);
}

#[test]
fn the_narrow_end_of_a_bay_with_long_sides_is_cut_off() {
    let coast = coast(&[(
        LineKind::Land,
        &[(0.0, 0.0), (0.0, 3000.0), (-4000.0, 3000.0), (-4000.0, 0.0), (-2000.0, 2000.0)],
    )]);
    let ends = [on(&coast, 0, 3, 0.0), on(&coast, 0, 0, 0.0)];
    let whole = length(&shorter(&coast, &ends, step(0.0)).points);
    let smooth = shorter(&coast, &ends, step(1000.0)).points;
    // It leaves each side where the bay is a step wide: 500 m from its end in each direction.
    let saved = whole - length(&smooth);
    assert!((saved - 1000.0 * (2f64.sqrt() - 1.0)).abs() < 60.0, "{saved}");
    assert!(afloat(&coast, &smooth).is_ok());
}

#[test]
fn a_step_wider_than_an_island_does_not_take_the_other_way_round() {
    let coast =
        coast(&[(LineKind::Land, &[(0.0, 0.0), (300.0, 0.0), (300.0, 300.0), (0.0, 300.0)])]);
    let ends = [on(&coast, 0, 0, 0.4), on(&coast, 0, 0, 0.6)];
    let laid = longer(&coast, ends, step(2000.0));
    assert!((length(&laid.points) - 1140.0).abs() < 1e-6, "{laid:?}");
    let round = longer(&coast, [ends[0]; 2], step(2000.0));
    assert!((length(&round.points) - 1200.0).abs() < 1e-6, "{round:?}");
}

#[test]
fn a_lake_is_smoothed_on_its_water() {
    let lake = [(0.0, 0.0), (400.0, 0.0), (400.0, 400.0), (200.0, 100.0), (0.0, 400.0)];
    let coast = coast(&[(LineKind::Lake, &lake)]);
    let ends = [on(&coast, 0, 4, 0.0), on(&coast, 0, 2, 0.0)];
    let laid = shorter(&coast, &ends, step(5000.0));
    assert!((length(&laid.points) - 2.0 * 200f64.hypot(300.0)).abs() < 1e-6, "{laid:?}");
    let round = longer(&coast, ends, step(5000.0)).points;
    assert!(length(&round) < 1000.0 && afloat(&coast, &round).is_ok());
}

static PRACTICE: LazyLock<Coast> = LazyLock::new(|| Coast::of(&crate::practice().unwrap()));

/// Two places on one line of the practice chart, mostly its longest.
pub(super) fn places() -> impl Strategy<Value = (u32, [f64; 2])> {
    (0u32..12, [0.0..1.0, 0.0..1.0])
}

pub(super) fn anchors(coast: &Coast, (rank, places): (u32, [f64; 2])) -> [Anchor; 2] {
    let mut lines: Vec<_> = coast.lines().map(|line| (line.sides(), line.id())).collect();
    lines.sort_unstable_by(|a, b| b.cmp(a));
    let rank = rank.saturating_sub(8) as usize % lines.len();
    let LineId(line) = lines[rank].1;
    places.map(|place| {
        let along = place * f64::from(lines[rank].0);
        on(coast, line, along as u32, along.fract())
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 6, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn on_the_practice_chart_it_stays_afloat_and_shrinks_as_the_step_grows(places in places()) {
        let coast = &*PRACTICE;
        let ends = anchors(coast, places).map(|anchor| (anchor, Way::Shorter));
        let mut before = f64::INFINITY;
        for metres in [0.0, 60.0, 200.0, 700.0, 2500.0] {
            let laid = lay(coast, &ends, step(metres), &patient).unwrap();
            prop_assert_eq!(afloat(coast, &laid.points), Ok(()));
            prop_assert_eq!(simple(&laid.points), Ok(()));
            prop_assert_eq!(laid.points.first(), Some(&ends[0].0.at()));
            prop_assert_eq!(laid.points.last(), Some(&ends[1].0.at()));
            let now = length(&laid.points);
            prop_assert!(now <= before + 0.01, "{} m at {}, {} before", now, metres, before);
            before = now;
            // Turned round it is as long.
            let back = lay(coast, &[ends[1], ends[0]], step(metres), &patient).unwrap();
            prop_assert!((length(&back.points) - now).abs() < 0.01);
        }
    }
}
