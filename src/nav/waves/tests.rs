//! Waves beside the tables, the worked examples and one another.

use proptest::prelude::*;

use super::*;
use crate::published;

const TABLE: &str = include_str!("../../../tests/data/waves/fetch_limited.csv");
const EXAMPLES: &str = include_str!("../../../tests/data/waves/worked_examples.csv");

fn blow(wind: f64, fetch: f64, depth: Option<f64>, hours: Option<f64>) -> Blow {
    Blow {
        wind: Speed::from_metres_per_second(wind).unwrap(),
        fetch: Length::from_metres(fetch).unwrap(),
        depth: depth.map(|depth| Length::from_metres(depth).unwrap()),
        time: hours.map(|hours| SignedDuration::try_from_secs_f64(hours * 3600.0).unwrap()),
    }
}

/// Metres and seconds.
fn made(wind: f64, fetch: f64, depth: Option<f64>, hours: Option<f64>) -> (f64, f64) {
    let waves = waves(&blow(wind, fetch, depth, hours)).unwrap();
    (waves.height.as_metres(), waves.period.as_secs_f64())
}

/// Half a unit of the sixth figure that the table has.
const SIXTH: f64 = 5.001e-6;

/// Every row: deep, shallow where that is the lower, and the time after which the fetch is the bound.
#[test]
fn the_table() {
    let (mut bounded, mut rows) = (0, 0);
    for row in published::rows(TABLE) {
        let [wind, fetch, depth] = ["U10_m_s", "fetch_m", "depth_m"].map(|name| row.number(name));
        let stress = row.number("spm_UA_m_s");
        row.check("spm_UA_m_s", super::stress(blow(wind, fetch, None, None).wind), stress * SIXTH);
        let (height, period) = made(wind, fetch, None, None);
        row.check("spm_deep_H_m", height, height * SIXTH);
        row.check("spm_deep_T_s", period, period * SIXTH);
        let (shallow, short) = made(wind, fetch, Some(depth), None);
        for (name, found, open) in
            [("spm_shallow_H_m", shallow, height), ("spm_shallow_T_s", short, period)]
        {
            if row.number(name) <= open {
                row.check(name, found, found * SIXTH);
            } else {
                assert_eq!(found, open, "{}", row.text);
                bounded += 1;
            }
        }
        let hours = row.number("spm_deep_tmin_s") / 3600.0;
        // The height goes with the 0.75th power of the time.
        let then = made(wind, fetch, None, Some(hours)).0;
        assert!((then / height - 1.0).abs() < 0.75 * SIXTH, "{then} in {}", row.text);
        let before = made(wind, fetch, None, Some(0.99 * hours)).0;
        // A fully developed sea has stood for a while when the printed cap of the time is come to.
        let developed = height > 0.2432 * stress * stress / GRAVITY;
        let expected = if developed { height } else { height * 0.99_f64.powf(0.75) };
        assert!((before / expected - 1.0).abs() < 2.0 * SIXTH, "{before} in {}", row.text);
        rows += 1;
    }
    // The deep ones bound two heights in the table, of 3 m/s on the longest fetches, and no period.
    assert_eq!((rows, bounded), (84, 2));
}

#[test]
fn the_worked_examples() {
    for row in published::rows(EXAMPLES) {
        let waves = grown(row.number("ua_ms"), row.number("fetch_m"), row.maybe("depth_m"), None);
        row.check("height_m", waves.height.as_metres(), row.number("height_tolerance_m"));
        row.check_printed("period_s", waves.period.as_secs_f64());
    }
}

/// What the module says of the other methods, on the table's rows that are not fully developed.
#[test]
fn beside_other_methods() {
    for row in published::rows(TABLE) {
        let [wind, fetch, depth] = ["U10_m_s", "fetch_m", "depth_m"].map(|name| row.number(name));
        let open = made(wind, fetch, None, None);
        if open.1 * GRAVITY / row.number("spm_UA_m_s") > 8.13 {
            continue;
        }
        let bounded = made(wind, fetch, Some(depth), None);
        for (name, height) in
            [("cem_H_m", open.0), ("jonswap73_Hm0_m", open.0), ("young_verhagen_Hs_m", bounded.0)]
        {
            let times = height / row.number(name);
            assert!((0.9..1.45).contains(&times), "{name}: {times} in {}", row.text);
            assert!(wind < 8.0 || times > 1.0, "{name}: {times} in {}", row.text);
        }
    }
}

#[test]
fn without_wind_or_water_there_are_no_waves() {
    for (wind, fetch, depth, hours) in [
        (0.0, 1000.0, None, None),
        (10.0, 0.0, None, None),
        (10.0, 1000.0, Some(0.0), None),
        (10.0, 1000.0, None, Some(0.0)),
        (0.0, 0.0, Some(0.0), Some(0.0)),
    ] {
        assert_eq!(made(wind, fetch, depth, hours), (0.0, 0.0));
    }
}

#[test]
fn what_cannot_be_is_named() {
    let said = |fetch, depth, hours| waves(&blow(9.0, fetch, depth, hours)).unwrap_err();
    let fetch = said(-1.0, Some(-2.0), None);
    assert!(matches!(fetch, WavesError::Fetch(_)));
    assert_eq!(fetch.to_string(), "fetch in metres -1 is not within 0 and more");
    assert!(matches!(said(1.0, Some(-2.0), Some(-1.0)), WavesError::Depth(_)));
    assert!(matches!(said(1.0, Some(2.0), Some(-1.0)), WavesError::Time(_)));
}

/// The largest and smallest of everything give numbers, and a fully developed sea at most.
#[test]
fn the_ends_of_what_can_be_asked() {
    for wind in [1e-300, 1e-9, 0.1, 514.0] {
        for fetch in [1e-300, 1.0, 1e300] {
            for depth in [None, Some(1e-300), Some(1e300)] {
                for hours in [None, Some(1e-9), Some(1e9)] {
                    let (height, period) = made(wind, fetch, depth, hours);
                    let stress = super::stress(blow(wind, 0.0, None, None).wind);
                    assert!((0.0..=0.2434 * stress * stress / GRAVITY).contains(&height));
                    assert!((0.0..=8.135 * stress / GRAVITY + 1e-9).contains(&period));
                }
            }
        }
    }
}

/// Rounding, and a nanosecond of the period.
fn no_less(one: (f64, f64), other: (f64, f64)) -> bool {
    one.0 * (1.0 + 1e-12) >= other.0 && one.1 + 2e-9 >= other.1
}

fn perhaps(range: std::ops::Range<f64>) -> impl Strategy<Value = Option<f64>> {
    prop::option::of(range)
}

proptest! {
    /// More of anything never makes less of waves, and no bound at all is the most.
    #[test]
    fn more_makes_no_less(
        wind in 0.1..45.0f64,
        fetch in 1.0..6.0f64,
        depth in perhaps(0.1..200.0),
        hours in perhaps(0.05..72.0),
        more in 1.0..4.0f64,
    ) {
        let fetch = 10f64.powf(fetch);
        let here = made(wind, fetch, depth, hours);
        prop_assert!(no_less(made(wind * more, fetch, depth, hours), here), "wind");
        prop_assert!(no_less(made(wind, fetch * more, depth, hours), here), "fetch");
        prop_assert!(no_less(made(wind, fetch, depth.map(|depth| depth * more), hours), here), "depth");
        prop_assert!(no_less(made(wind, fetch, None, hours), here), "deep");
        prop_assert!(no_less(made(wind, fetch, depth, hours.map(|hours| hours * more)), here), "time");
        prop_assert!(no_less(made(wind, fetch, depth, None), here), "developed");
    }

    /// Very deep water is deep water, but for the thousandth by which the two sets of constants differ: 0.283 × 0.00565 is 0.0015990
    /// and 7.54 × 0.0379 is 0.28577. The hyperbolic tangents of the fetch itself take more, as it grows long.
    #[test]
    fn the_limit_of_depth(wind in 1.0..30.0f64, x in 0.0..2.5f64) {
        let stress = 0.71 * wind.powf(1.23);
        let fetch = 10f64.powf(x) * stress * stress / GRAVITY;
        let (height, period) = made(wind, fetch, Some(1e6), None);
        let deep = made(wind, fetch, None, None);
        // x - tanh x is under a third of the cube of x.
        let root = 0.00565 * 10f64.powf(x / 2.0);
        let cube = 0.0379 * 10f64.powf(x / 3.0);
        prop_assert!((height / deep.0 - 1.0).abs() < 1e-3 + root * root / 3.0, "{height} {deep:?}");
        prop_assert!((period / deep.1 - 1.0).abs() < 1e-3 + cube * cube / 3.0, "{period} {deep:?}");
    }
}
