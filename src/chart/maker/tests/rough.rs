//! How rough the shores are that are made, measured with dividers.

use super::*;
use crate::measure::roughness;

/// The slope of the longest piece of shore on a chart, from 100 m to 1.6 km.
fn slope(chart: &Chart) -> f64 {
    roughness(chart, &Coast::of(chart)).unwrap().unwrap().slope
}

fn hold_slopes(seeds: std::ops::Range<u64>) {
    for character in Character::ALL {
        let (steepest, flattest) = character.slopes();
        for seed in seeds.clone() {
            let wishes = Wishes {
                character: *character,
                width_km: 24,
                height_km: 18,
                tide: [TideRange::USUAL, TideRange::MICRO, TideRange::MACRO][seed as usize % 3],
                ..Wishes::default()
            };
            let slope = slope(&make(seed, &wishes).unwrap());
            let within = (steepest..=flattest).contains(&slope);
            assert!(within, "{}, seed {seed}: {slope}", character.name());
        }
    }
}

#[test]
fn shores_are_as_rough_as_their_character() {
    hold_slopes(0..1);
}

#[test]
#[ignore = "takes a minute"]
fn shores_of_many_seeds_are_as_rough_as_their_character() {
    hold_slopes(0..60);
}

/// Richardson 1961 has 0.25 for the west coast of Britain, whose like the built-in chart is; a circle
/// has 0.
#[test]
fn the_built_in_shore_is_as_rough_as_a_real_one() {
    let (steepest, flattest) = Character::Mixed.slopes();
    assert!((steepest..=flattest).contains(&slope(&built_in())));
}
