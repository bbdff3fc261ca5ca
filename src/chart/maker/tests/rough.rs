//! How rough the shores are that are made, measured with dividers.

use super::*;
use crate::measure::roughness;

/// The slope of the longest piece of shore on a chart, from 250 m to 4 km.
fn slope(chart: &Chart) -> f64 {
    roughness(chart, &Coast::of(chart)).unwrap().unwrap().slope
}

/// The slopes of the charts of a character of some seeds, the roughest first.
fn slopes(character: Character, seeds: std::ops::Range<u64>) -> Vec<(f64, u64)> {
    let tides = [TideRange::USUAL, TideRange::MICRO, TideRange::MACRO];
    let of = |seed: u64| {
        let tide = tides[seed as usize % 3];
        slope(&make(seed, &Wishes { character, tide, ..Wishes::default() }).unwrap())
    };
    let mut all: Vec<(f64, u64)> = seeds.map(|seed| (of(seed), seed)).collect();
    all.sort_by(|a, b| a.0.total_cmp(&b.0));
    all
}

#[allow(clippy::print_stdout, reason = "how rough they are is told")]
fn hold_slopes(seeds: std::ops::Range<u64>) {
    let found: Vec<_> = std::thread::scope(|scope| {
        let of = |character: &'static Character| {
            let seeds = seeds.clone();
            scope.spawn(move || (character, slopes(*character, seeds)))
        };
        let all: Vec<_> = Character::ALL.iter().map(of).collect();
        all.into_iter().map(|one| one.join().unwrap()).collect()
    });
    let mut wrong = Vec::new();
    for (character, all) in found {
        let (steepest, flattest) = character.slopes();
        let (first, last) = (all[0].0, all[all.len() - 1].0);
        let middle = all[all.len() / 2].0;
        println!("{}: {first:.3} to {last:.3}, half above {middle:.3}", character.name());
        let out = all.into_iter().filter(|(slope, _)| !(steepest..=flattest).contains(slope));
        wrong
            .extend(out.map(|(slope, seed)| format!("{}, seed {seed}: {slope}", character.name())));
    }
    assert_eq!(wrong, [""; 0]);
}

#[test]
fn shores_are_as_rough_as_their_character() {
    hold_slopes(7..8);
}

#[test]
#[ignore = "takes minutes"]
fn shores_of_many_seeds_are_as_rough_as_their_character() {
    hold_slopes(0..60);
}

/// The bands follow from real coasts, see the table's header; that of sea lochs ends where the west coast of Britain
/// lies, which is published.
#[test]
fn bands_are_those_of_real_coasts() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/data/coast/windows.csv");
    let text = std::fs::read_to_string(path).unwrap();
    let rows = text.lines().filter(|line| !line.starts_with('#')).skip(1);
    let rows: Vec<(&str, f64)> = rows
        .map(|row| {
            let cells: Vec<&str> = row.split(',').collect();
            (cells[0], cells[6].parse().unwrap())
        })
        .collect();
    for character in Character::ALL {
        let of = rows.iter().filter(|row| row.0 == character.name());
        let mut real: Vec<f64> = of.map(|row| row.1).collect();
        real.sort_by(f64::total_cmp);
        assert!(real.len() >= 25, "{} windows of {}", real.len(), character.name());
        let smooth = real[(real.len() - 1) * 3 / 4];
        let as_rough = real.iter().filter(|slope| **slope <= -0.25).count();
        let flattest = match character {
            Character::SeaLochs => 5,
            _ => (-smooth * 20.0).floor() as u32,
        };
        assert!(*character != Character::SeaLochs || as_rough * 8 >= real.len(), "{as_rough}");
        let steepest = (-real[0] * 20.0).ceil() as u32;
        assert_eq!(character.twentieths(), (steepest, flattest), "{}", character.name());
    }
}

/// Richardson 1961 has 0.25 for the west coast of Britain, whose like the built-in chart is; a circle
/// has 0.
#[test]
fn the_built_in_shore_is_as_rough_as_a_real_one() {
    let (steepest, flattest) = Character::Mixed.slopes();
    assert!((steepest..=flattest).contains(&slope(&built_in())));
}
