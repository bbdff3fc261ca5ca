//! The tide that is wished is the tide that the chart has.

use super::*;

fn with(character: Character, tide: TideRange) -> Chart {
    let wishes = Wishes { width_km: 8, height_km: 7, character, tide, ..Wishes::default() };
    make(4, &wishes).unwrap()
}

#[test]
fn mean_springs_reach_the_shore_and_no_tide_falls_below_datum() {
    for tide in [TideRange::MICRO, TideRange::USUAL, TideRange::MACRO] {
        let chart = with(Character::SeaLochs, tide);
        let constants = chart.ports.iter().find_map(|p| match &p.tide {
            PortTide::Constants { mean_level_m, constituents } => {
                Some((mean_level_m, constituents))
            }
            PortTide::Differences { .. } | PortTide::Printed { .. } => None,
        });
        let (mean, all) = constants.unwrap();
        let of = |name: &str| all.iter().find(|c| c.name == name).map_or(0.0, |c| c.amplitude);
        // The shore is drawn at 4.6 m with the usual range. Half a millimetre of each constant.
        let high_water = 4.6 * tide.share();
        assert!((mean + of("M2") + of("S2") - high_water).abs() <= 0.0015);
        assert!((2.0 * (of("M2") + of("S2")) - tide.as_metres()).abs() <= 0.002);
        assert!(all.iter().map(|c| c.amplitude).sum::<f64>() <= *mean + 0.006);
        let dries = chart.drying.iter().map(|flat| flat.height_m);
        assert!(dries.fold(0.0, f64::max) < high_water, "ground that never covers dries");
    }
}

/// The share of a chart's ground that dries, by the area of its edges.
fn dries(chart: &Chart) -> f64 {
    chart.drying.iter().map(|flat| flat.edge.doubled_area() / 2.0).sum()
}

#[test]
fn a_larger_tide_dries_more_ground_and_runs_faster() {
    for character in [Character::Skerries, Character::SeaLochs, Character::Cliffs] {
        let [little, much] = [TideRange::MICRO, TideRange::MACRO].map(|tide| with(character, tide));
        assert!(dries(&much) > 1.5 * dries(&little), "{}", character.name());
        let fastest =
            |chart: &Chart| chart.streams.iter().map(|s| springs(&s.rates)).fold(0.0, f64::max);
        assert!(fastest(&much) > 2.0 * fastest(&little), "{}", character.name());
    }
}

#[test]
fn difficulty_makes_streams_faster_and_landings_fewer() {
    let of = |difficulty| {
        let (character, width_km, height_km) = (Character::Skerries, 18, 14);
        make(4, &Wishes { character, difficulty, width_km, height_km, ..Wishes::default() })
            .unwrap()
    };
    let [gentle, hard] = [Difficulty::Gentle, Difficulty::Hard].map(of);
    assert!(gentle.landings.len() > 3 * hard.landings.len() / 2);
    assert!(gentle.land.len() > hard.land.len());
    let off_capes = |chart: &Chart| {
        let off = chart.streams.iter().filter(|s| s.name.starts_with("Off "));
        off.map(|s| springs(&s.rates)).fold(0.0, f64::max)
    };
    assert!(off_capes(&hard) > 1.2 * off_capes(&gentle));
}

/// Where a basin lies behind a narrows its stream runs in while the tide rises: the hourly rows from six
/// to one before high water set one way, those from one to five after it the other.
#[test]
fn basins_fill_while_the_tide_rises() {
    let mut seen = 0;
    for seed in 0..4 {
        let (character, width_km, height_km) = (Character::Lagoon, 16, 12);
        let wishes = Wishes { character, width_km, height_km, ..Wishes::default() };
        let chart = make(seed, &wishes).unwrap();
        for stream in chart.streams.iter().filter(|s| s.name.ends_with(" Gat")) {
            let StreamRates::Hourly { rows, .. } = &stream.rates else { continue };
            let flood = rows[3].set_deg;
            assert!(rows[1..6].iter().all(|row| row.set_deg == flood), "{}", stream.name);
            let turned = (rows[9].set_deg - flood).rem_euclid(360.0);
            assert_eq!(turned, 180.0, "{}", stream.name);
            seen += 1;
        }
    }
    assert!(seen >= 2, "{seen}");
}
