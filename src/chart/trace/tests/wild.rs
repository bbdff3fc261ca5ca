//! Shores made at random, to break what rolls along them: spikes, slivers, points in line, sides
//! that touch, islands close to each other.

use proptest::prelude::*;

use super::super::{Way, Wishes, lay, patient};
use super::held::{afloat, least_distance, simple};
use super::library::{coast, length, on};
use super::off::{main_points, offing};
use crate::coast::LineKind;

/// A ring that rays from its middle meet once, its corners on whole metres or between.
fn ring(whole: bool) -> impl Strategy<Value = Vec<(f64, f64)>> {
    prop::collection::vec((0.15..1.0f64, 20.0..900.0f64), 3..40).prop_map(move |corners| {
        let sum: f64 = corners.iter().map(|corner| corner.0).sum();
        let mut turn = 0.0;
        let place = |(gap, radius): (f64, f64)| {
            turn += gap / sum * std::f64::consts::TAU;
            let (x, y) = (radius * f64::cos(turn), radius * f64::sin(turn));
            if whole { ((x / 10.0).round() * 10.0, (y / 10.0).round() * 10.0) } else { (x, y) }
        };
        corners.into_iter().map(place).collect()
    })
}

fn rings() -> impl Strategy<Value = Vec<Vec<(f64, f64)>>> {
    let moved = |whole| {
        (ring(whole), 0.0..2.0f64).prop_map(move |(ring, apart)| (ring, 400.0 + 900.0 * apart))
    };
    any::<bool>().prop_flat_map(move |whole| prop::collection::vec(moved(whole), 1..3)).prop_map(
        |rings| {
            let place = |(index, (ring, apart)): (usize, (Vec<(f64, f64)>, f64))| {
                // Two rings do not reach into each other.
                let east = if index == 0 { 0.0 } else { 1400.0 + apart };
                ring.into_iter().map(|(x, y)| (x + east, y)).collect()
            };
            rings.into_iter().enumerate().map(place).collect()
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn whatever_the_shore_the_line_holds(
        rings in rings(),
        places in [0.0..1.0f64, 0.0..1.0f64],
        at_vertices in any::<bool>(),
        metres in 3.0..900.0f64,
        step in prop_oneof![Just(0.0), 10.0..900.0f64],
        longer in any::<bool>(),
    ) {
        let rings: Vec<_> = rings.iter().map(|ring| (LineKind::Land, ring.as_slice())).collect();
        let coast = coast(&rings);
        let sides = coast.lines().next().unwrap().sides();
        let ends = places.map(|place| {
            let along = place * f64::from(sides);
            on(&coast, 0, along as u32, if at_vertices { 0.0 } else { along.fract() })
        });
        let way = if longer { Way::Longer } else { Way::Shorter };
        let wishes = Wishes { stand_off: metres, step };
        let laid = lay(&coast, &ends.map(|end| (end, way)), wishes, &patient).unwrap();
        prop_assert_eq!(afloat(&coast, &laid.points), Ok(()));
        let points = main_points(&laid);
        prop_assert_eq!(simple(&points), Ok(()));
        if !offing(&laid).narrow {
            let least = least_distance(&coast, &points, metres / 5.0) / 0.9996;
            prop_assert!(least >= metres * 0.9999, "{} of {}", least, metres);
        }
        let back = lay(&coast, &[ends[1], ends[0]].map(|end| (end, way)), wishes, &patient).unwrap();
        prop_assert!((length(&back.points) - length(&laid.points)).abs() < 1e-2);
        let smooth = Wishes { stand_off: 0.0, step };
        let laid = lay(&coast, &ends.map(|end| (end, way)), smooth, &patient).unwrap();
        prop_assert_eq!(afloat(&coast, &laid.points), Ok(()));
    }
}
