//! What every chart made from a seed has to be.

mod bytes;
mod held;
mod rough;
mod tide;

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::atomic::{AtomicU64, Ordering};

use held::{springs, wrong};

use super::*;
use crate::check::{doubts, faults};
use crate::coast::Coast;
use crate::model::{Chart, PlaceKind, Point, PortTide, StreamRates};
use crate::whereabouts::On;

/// A small chart: 7 by 6 km.
fn small(seed: u64) -> Chart {
    make(seed, &Wishes { width_km: 7, height_km: 6, ..Wishes::default() }).unwrap()
}

fn built_in() -> Chart {
    crate::practice().unwrap()
}

/// The wishes of a number and its seed: characters, tides and difficulties go round.
fn wishes(number: u64, (width_km, height_km): (u32, u32)) -> (u64, Wishes) {
    let tides = [TideRange::USUAL, TideRange::MICRO, TideRange::MESO, TideRange::MACRO];
    let of = |count: usize, step: u64| (number / step) as usize % count;
    let wishes = Wishes {
        width_km,
        height_km,
        character: Character::ALL[of(6, 1)],
        tide: tides[of(4, 6)],
        difficulty: Difficulty::ALL[of(3, 24)],
        ..Wishes::default()
    };
    (number.wrapping_mul(0x9E37_79B9_7F4A_7C15), wishes)
}

/// What is wrong with the chart of a number, if anything.
fn wrong_with(number: u64, size: (u32, u32)) -> Option<String> {
    let (seed, wishes) = wishes(number, size);
    let found = wrong(&make(seed, &wishes).unwrap());
    let said = || format!("number {number}, seed {seed}, {}", wishes.character.name());
    (!found.is_empty()).then(|| format!("{}: {}", said(), found.join("; ")))
}

/// Makes and holds the charts of some numbers, on all cores, and gives every one with something wrong;
/// told is how many of each character there were.
#[allow(clippy::print_stdout, reason = "how many were held is told")]
fn wrong_of(numbers: std::ops::Range<u64>, size: (u32, u32)) -> Vec<String> {
    let next = AtomicU64::new(numbers.start);
    let part = || {
        let taken = std::iter::repeat_with(|| next.fetch_add(1, Ordering::Relaxed));
        let taken = taken.take_while(|number| *number < numbers.end);
        taken.filter_map(|number| wrong_with(number, size)).collect::<Vec<_>>()
    };
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    let all: Vec<String> = std::thread::scope(|scope| {
        let parts: Vec<_> = (0..cores).map(|_| scope.spawn(part)).collect();
        parts.into_iter().flat_map(|part| part.join().unwrap()).collect()
    });
    let mut made = BTreeMap::new();
    for number in numbers {
        *made.entry(wishes(number, size).1.character.name()).or_insert(0) += 1;
    }
    println!("{} by {} km: {made:?}, {} wrong", size.0, size.1, all.len());
    all.iter().for_each(|wrong| println!("  {wrong}"));
    all
}

#[test]
fn small_charts_of_many_seeds_hold_together() {
    assert_eq!(wrong_of(0..24, (7, 6)), [""; 0]);
}

#[test]
fn charts_that_were_wrong_once_hold_together() {
    let found = [1_503, 1_927, 5_606, 8_324, 9_066].map(|number| wrong_with(number, (7, 6)));
    assert_eq!(found, [const { None }; 5]);
}

#[test]
fn the_built_in_chart_holds_together() {
    assert_eq!(wrong(&built_in()), [""; 0]);
}

#[test]
#[ignore = "takes minutes"]
fn ten_thousand_charts_hold_together() {
    // All of them before any is complained of: faults are best mended together.
    let small = (0..10_000).step_by(1_000).map(|first| (first..first + 1_000, (7, 6)));
    let large = [(10_000..10_072, (30, 22)), (10_072..10_084, (12, 40))];
    let all: Vec<String> =
        small.chain(large).flat_map(|(numbers, size)| wrong_of(numbers, size)).collect();
    assert!(all.is_empty(), "{} charts are wrong:\n{}", all.len(), all.join("\n"));
}

#[test]
fn the_same_seed_gives_the_same_bytes_and_another_seed_another_chart() {
    let text = crate::format::write(&small(7));
    assert!(text == crate::format::write(&small(7)));
    let others: BTreeSet<String> = (0..6).map(|s| crate::format::write(&small(s))).collect();
    assert_eq!(others.len(), 6);
}

/// The last bits of a sine, a power or a fused product differ between platforms, and hashed
/// collections have no order: none of them has a place in the maker.
#[test]
fn the_maker_keeps_to_what_is_alike_everywhere() {
    let mut folders = vec![std::path::PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("maker")];
    let mut files = Vec::new();
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() { folders.push(path) } else { files.push(path) }
        }
    }
    assert!(files.len() > 30);
    let is_code = |path: &Path| {
        let name = path.to_string_lossy();
        name.ends_with(".rs") && !name.contains("tests")
    };
    for path in files.into_iter().filter(|path| is_code(path)) {
        let text = std::fs::read_to_string(&path).unwrap();
        let code = text.split("#[cfg(test)]\nmod tests {").next().unwrap();
        let words = [
            "sin(",
            "cos(",
            "sin_cos(",
            "tan(",
            "atan",
            "exp(",
            "ln(",
            "log",
            "powf(",
            "powi(",
            "cbrt(",
            "hypot(",
            "mul_add(",
            "HashMap",
            "HashSet",
            "to_radians(",
        ];
        for word in words {
            assert!(!code.contains(word), "{} has {word}", path.display());
        }
    }
}

#[test]
fn a_title_may_be_wished_and_sizes_out_of_range_are_refused() {
    let title = Some("Exercise 3".to_owned());
    let wishes = Wishes { title, width_km: 8, height_km: 6, ..Wishes::default() };
    assert_eq!(make(1, &wishes).unwrap().title, "Exercise 3");
    for (width_km, height_km) in [(5, 22), (30, 81), (0, 0)] {
        let error = make(1, &Wishes { width_km, height_km, ..Wishes::default() }).unwrap_err();
        let words = format!("a chart of {width_km} by {height_km} km cannot be made");
        assert!(error.to_string().starts_with(&words), "{error}");
    }
}

#[test]
fn the_built_in_chart_is_what_the_maker_makes() {
    let made = crate::format::write(&make(crate::practice::SEED, &Wishes::default()).unwrap());
    assert!(made == crate::practice::TEXT, "maps/practice.ron is not what the maker makes now");
}

/// Run after the maker has changed: `cargo test -p chart -- --ignored write_the_built_in_chart`.
#[test]
#[ignore = "writes maps/practice.ron"]
fn write_the_built_in_chart() {
    let made = make(crate::practice::SEED, &Wishes::default()).unwrap();
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../maps/practice.ron");
    std::fs::write(path, crate::format::write(&made)).unwrap();
}

#[test]
fn the_built_in_chart_is_rich() {
    let chart = built_in();
    let corners: usize = chart.land.iter().map(|l| l.shore.0.len()).sum();
    assert!(corners >= 6_000, "{corners} shore corners");
    let count = |kind| chart.places.iter().filter(|p| p.kind == kind).count();
    assert!(count(PlaceKind::Settlement) >= 5 && count(PlaceKind::Island) >= 12);
    assert!(count(PlaceKind::Narrows) >= 3 && count(PlaceKind::Inlet) >= 10);
    assert!(chart.landings.len() >= 30 && chart.races.len() >= 2 && chart.marks.len() >= 15);
    let standard = |p: &&crate::model::Port| matches!(p.tide, PortTide::Constants { .. });
    assert_eq!(chart.ports.iter().filter(standard).count(), 1);
    assert!(chart.ports.len() >= 5 && chart.streams.len() >= 10);
    let kind = |s: &crate::model::Stream| match s.rates {
        StreamRates::Hourly { .. } => 0,
        StreamRates::Axis { .. } => 1,
        StreamRates::Greatest { .. } => 2,
    };
    assert_eq!(chart.streams.iter().map(kind).collect::<BTreeSet<_>>().len(), 3);
}

#[test]
fn the_charts_lie_in_mid_ocean_where_grid_north_differs_from_true() {
    let chart = built_in();
    let centre = chart.extent.center();
    let middle = GridPoint::from_metres(centre.x, centre.y).unwrap();
    let place = chart.grid.inverse(middle).unwrap().position;
    // The nearest land is the Azores, then Ireland and Newfoundland, all beyond 1,000 km.
    for (lat, lon) in [(39.7, -31.1), (38.7, -27.2), (51.9, -10.6), (47.6, -52.6)] {
        let land = nav::Position::from_degrees(lat, lon).unwrap();
        let distance = nav::geodesic::inverse(place, land).distance.as_metres();
        assert!(distance > 1_000_000.0, "{distance} m from {lat} {lon}");
    }
    let convergence = chart.grid.forward(place).unwrap().convergence.as_degrees_east();
    assert!((1.5..2.5).contains(&convergence), "{convergence}");
    let reference = chart.grid.reference(middle, nav::Figures::Six).unwrap();
    assert_eq!(reference, "QB 750 510");
}

#[test]
fn streams_in_narrows_run_along_them() {
    let chart = built_in();
    let coast = Coast::of(&chart);
    let narrows: Vec<_> = chart.places.iter().filter(|p| p.kind == PlaceKind::Narrows).collect();
    let mut checked = 0;
    for stream in chart.streams.iter().filter(|s| narrows.iter().any(|n| n.name == s.name)) {
        let flood = match &stream.rates {
            StreamRates::Hourly { rows, .. } => {
                rows.iter().find(|r| r.springs_kn > 0.0).unwrap().set_deg
            }
            StreamRates::Axis { flood_deg, .. } | StreamRates::Greatest { flood_deg, .. } => {
                *flood_deg
            }
        };
        let reach = |degrees: f64| {
            let (sine, cosine) = degrees.to_radians().sin_cos();
            let at = |step: i32| {
                let metres = f64::from(step) * 10.0;
                Point { x: stream.at.x + sine * metres, y: stream.at.y + cosine * metres }
            };
            let dry = (0..60).find(|s| matches!(chart.whereabouts(&coast, at(*s)).on, On::Land(_)));
            dry.unwrap_or(60) * 10
        };
        // Grid north lies about two degrees east of true north.
        let along = reach(flood - 1.8) + reach(flood + 178.2);
        let across = reach(flood + 88.2) + reach(flood + 268.2);
        assert!(along > 2 * across, "{}: {along} m along, {across} m across", stream.name);
        checked += 1;
    }
    assert!(checked >= 5, "{checked}");
}
