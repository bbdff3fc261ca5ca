//! How rough the shores are that are made, measured with dividers.

use super::*;
use crate::measure::Measured;
use nav::Length;

/// The pieces of a chart's shores that lie on it, each with whether it is whole.
fn pieces(chart: &Chart) -> Vec<(Vec<Point>, bool)> {
    let (low, high) = (chart.extent.min(), chart.extent.max());
    let on_chart = |p: &Point| (low.x..=high.x).contains(&p.x) && (low.y..=high.y).contains(&p.y);
    let mut found = Vec::new();
    for ring in chart.land.iter().map(|land| &land.shore.0) {
        let Some(off) = ring.iter().position(|p| !on_chart(p)) else {
            found.push((ring.clone(), true));
            continue;
        };
        // From a corner off the chart once round.
        let mut piece = Vec::new();
        for point in ring[off..].iter().chain(&ring[..=off]) {
            if on_chart(point) {
                piece.push(*point);
            } else if !piece.is_empty() {
                found.push((std::mem::take(&mut piece), false));
            }
        }
    }
    found
}

/// The slope of the longest piece of shore on a chart, from 100 m to 1.6 km.
fn slope(chart: &Chart) -> f64 {
    let steps = [100.0, 200.0, 400.0, 800.0, 1_600.0].map(|m| Length::from_metres(m).unwrap());
    let length = |piece: &[Point]| {
        piece.windows(2).map(|p| (p[1].x - p[0].x).hypot(p[1].y - p[0].y)).sum::<f64>()
    };
    let pieces = pieces(chart);
    let longest = pieces.iter().max_by(|a, b| length(&a.0).total_cmp(&length(&b.0)));
    let (piece, closed) = longest.unwrap();
    Measured::new(&chart.grid, piece, *closed, &steps).unwrap().slope.unwrap().slope
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

#[test]
fn dividers_find_no_roughness_in_a_square() {
    let mut chart = small(1);
    let corner = |x: f64, y: f64| chart.extent.min() + Point { x, y };
    let square = [(500.0, 500.0), (5_000.0, 500.0), (5_000.0, 5_000.0), (500.0, 5_000.0)];
    let shore = Ring(square.iter().map(|(x, y)| corner(*x, *y)).collect());
    chart.land = vec![crate::model::Land { shore, ..Default::default() }];
    assert!(slope(&chart).abs() < 0.05, "{}", slope(&chart));
}
