//! Predictions against published ones.

use std::collections::HashMap;

use jiff::{SignedDuration, Timestamp};

use super::*;
use crate::Length;
use crate::published::{Row, rows};

const NOAA: &str = include_str!("../../../tests/data/tides/noaa_constants.csv");

fn metres(metres: f64) -> Length {
    Length::from_metres(metres).unwrap()
}

pub(super) fn time(text: &str) -> Timestamp {
    text.parse().unwrap()
}

/// NOAA's stations above mean lower low water.
pub(super) fn noaa() -> HashMap<String, Port> {
    let mut stations: HashMap<String, (f64, Vec<Harmonic>)> = HashMap::new();
    for row in rows(NOAA) {
        let station = stations.entry(row.text("station").to_owned()).or_default();
        station.0 = row.number("msl_above_mllw_m");
        station.1.push(Harmonic {
            constituent: Constituent::named(row.text("constituent")).unwrap(),
            amplitude: metres(row.number("amplitude_m")),
            phase: PhaseLag::from_degrees(row.number("phase_deg")).unwrap(),
        });
    }
    let port = |(name, (mean, harmonics)): (String, _)| {
        let port = Port::new(&name, Height::above_datum(metres(mean)), harmonics).unwrap();
        (name, port)
    };
    stations.into_iter().map(port).collect()
}

/// A port of the Rijkswaterstaat from its constants.
fn dutch(table: &str) -> Port {
    let hour = SignedDuration::from_hours(1);
    let harmonic = |row: &Row| {
        let constituent = Constituent::named(row.text("constituent")).unwrap();
        // Half of the printed digit, and what 120 years do to a speed.
        row.check("speed_deg_per_h", constituent.speed().as_degrees_per_hour(), 6e-7);
        Harmonic {
            constituent,
            amplitude: metres(row.number("amplitude_m")),
            phase: PhaseLag::in_zone(row.number("phase_deg"), constituent, hour).unwrap(),
        }
    };
    let harmonics: Vec<_> = rows(table).iter().map(harmonic).collect();
    assert_eq!(harmonics.len(), 95, "94 constituents and the mean level");
    Port::new("a Dutch port", Height::above_datum(Length::ZERO), harmonics).unwrap()
}

fn hoek() -> Port {
    dutch(include_str!("../../../tests/data/tides/rws_hoekvhld_constants.csv"))
}

#[test]
fn node_factors_and_arguments_of_sixty_years() {
    const TABLE: &str = include_str!("../../../tests/data/tides/schureman_1970_2035_computed.csv");
    let degrees = |lag: PhaseLag| lag.as_degrees();
    for row in rows(TABLE) {
        let year = row.text("year");
        let constituent = Constituent::named(row.text("constituent")).unwrap();
        let (middle, start) =
            (time(&format!("{year}-07-02T12:00Z")), time(&format!("{year}-01-01T00:00Z")));
        let close = |column: &str, angle: f64, tolerance: f64| {
            let off = (angle - row.number(column) + 180.0).rem_euclid(360.0) - 180.0;
            assert!(off.abs() <= tolerance, "{column}: {angle} in row {}", row.text);
        };
        let f = if constituent.name() == "OO1" { 0.003_1 } else { 0.001_5 };
        row.check("f", constituent.node_factor(middle).unwrap(), f);
        let u = degrees(constituent.node_angle(middle).unwrap());
        let v = degrees(constituent.equilibrium_argument(start).unwrap());
        close("u_deg", u, 0.01);
        close("v0_deg", v, 0.03);
        close("v0_plus_u_deg", v + u, 0.03);
    }
}

#[test]
fn low_waters_published_by_noaa() {
    let ports = noaa();
    for row in rows(include_str!("../../../tests/data/tides/noaa_highs_lows.csv")) {
        let at = time(row.text("time"));
        let port = &ports[row.text("station")];
        let hours = SignedDuration::from_hours(3);
        let curve = port.curve(at - hours, at + hours).unwrap();
        let turns = curve.turns();
        let turn = turns.iter().find(|turn| turn.water == Water::Low).unwrap();
        let off = turn.at.duration_since(at).abs();
        assert!(off <= SignedDuration::from_mins(2), "{} is {off} off", row.text);
        row.check("height_m", turn.height.as_metres(), 0.03);
    }
}

#[test]
fn heights_computed_for_noaas_stations() {
    let ports = noaa();
    for row in rows(include_str!("../../../tests/data/tides/noaa_computed_2026.csv")) {
        let port = &ports[row.text("station")];
        let height = port.height(time(row.text("time"))).unwrap();
        row.check("height_m", (height - port.mean_level()).as_metres(), 0.005);
    }
}

#[test]
fn a_year_of_hourly_heights_at_hoek_van_holland() {
    let rows = rows(include_str!("../../../tests/data/tides/rws_hoekvhld_hourly.csv"));
    assert_eq!(rows.len(), 183 * 24);
    let curve = hoek().curve(time(rows[0].text("time")), time(rows[4391].text("time"))).unwrap();
    for row in rows {
        row.check("height_m", curve.height(time(row.text("time"))).as_metres(), 0.01);
    }
}

#[test]
fn hourly_heights_at_vlissingen_within_what_its_own_factors_do() {
    let port = dutch(include_str!("../../../tests/data/tides/rws_vlissgn_constants.csv"));
    let curve = port.curve(time("2019-01-01T00Z"), time("2020-01-01T00Z")).unwrap();
    for row in rows(include_str!("../../../tests/data/tides/rws_vlissgn_hourly.csv")) {
        row.check("height_m", curve.height(time(row.text("time"))).as_metres(), 0.025);
    }
}

#[test]
fn a_year_of_low_waters_at_hoek_van_holland() {
    // Its one row that names a halt of the falling tide of which the formulas make no low water:
    // ours is half an hour later.
    const HALT: &str = "2019-04-09T00:09+01";
    let curve = hoek().curve(time("2018-12-31T00Z"), time("2020-01-02T00Z")).unwrap();
    let turns = curve.turns();
    let lows: Vec<&Turn> = turns.iter().filter(|turn| turn.water == Water::Low).collect();
    let mut sharp = 0;
    for row in rows(include_str!("../../../tests/data/tides/rws_hoekvhld_lows.csv")) {
        if row.text("time") == HALT {
            continue;
        }
        let at = time(row.text("time"));
        let low = lows.iter().min_by_key(|low| low.at.duration_since(at).abs()).unwrap();
        // A centimetre, and half of the printed one.
        row.check("height_m", low.height.as_metres(), 0.015);
        let off = low.at.duration_since(at).abs();
        if off <= SignedDuration::from_mins(3) {
            sharp += 1;
        } else {
            // Flat: at the printed minute our curve stands at our low, to the printed centimetre.
            let above = (curve.height(at) - low.height).as_metres();
            assert!(above <= 0.006, "{} is {off} and {above} m off", row.text);
        }
    }
    assert!(sharp > 400, "{sharp}");
}

#[test]
fn the_37_constituents_that_noaa_publishes() {
    let ports = noaa();
    assert_eq!(ports.len(), 6);
    let names = |port: &Port| {
        let mut names: Vec<&str> =
            port.harmonics().iter().map(|harmonic| harmonic.constituent.name()).collect();
        names.sort_unstable();
        names.dedup();
        names
    };
    let first = names(&ports["9447130"]);
    assert_eq!(first.len(), 37);
    assert!(ports.values().all(|port| names(port) == first));
}

/// The hourly rows of a whole year have only low waters beside them; where their high waters lie
/// they say themselves.
#[test]
fn high_waters_at_hoek_van_holland_lie_where_the_hourly_rows_peak() {
    let rows = rows(include_str!("../../../tests/data/tides/rws_hoekvhld_hourly.csv"));
    let curve = hoek().curve(time("2019-12-31T00Z"), time("2021-01-01T00Z")).unwrap();
    let turns = curve.turns();
    let highs: Vec<&Turn> = turns.iter().filter(|turn| turn.water == Water::High).collect();
    let (hour, mut peaks) = (SignedDuration::from_hours(1), 0);
    for three in rows.windows(3) {
        let [before, at, after] = [0, 1, 2].map(|index| time(three[index].text("time")));
        let [low, peak, other] = [0, 1, 2].map(|index| three[index].number("height_m"));
        // A step of a day, or no peak beyond the printed digit.
        if after.duration_since(before) != hour * 2 || peak < low + 0.02 || peak < other + 0.02 {
            continue;
        }
        let within = |high: &&&Turn| (before..=after).contains(&high.at);
        let mut close = highs.iter().filter(within);
        assert!(close.any(|high| high.height.as_metres() > peak - 0.01), "{at} {peak}");
        peaks += 1;
    }
    // Two a day on 183 days, but for those about midnight.
    assert!(peaks > 300, "{peaks}");
}

#[test]
fn an_independent_sum_without_phasors_or_spans() {
    // The curve's quick heights are the port's own, hour by hour, over a New Year.
    for nodal in [NodalFactors::MidYear, NodalFactors::Daily] {
        let port = noaa()["9447130"].clone().with_nodal_factors(nodal);
        let start = time("2026-12-20T00:10Z");
        let hour = SignedDuration::from_hours(1);
        let curve = port.curve(start, time("2027-01-20T00Z")).unwrap();
        let heights: Vec<Height> = curve.heights(hour).collect();
        assert_eq!(heights.len(), 31 * 24);
        let mut at = start;
        for height in heights {
            for slow in [port.height(at).unwrap(), curve.height(at)] {
                assert!((height - slow).as_metres().abs() < 1e-9, "{height:?} {slow:?} at {at}");
            }
            at += hour;
        }
    }
}

#[test]
fn node_factors_by_the_day_and_by_the_year_agree_at_mid_year() {
    let port = noaa()["8443970"].clone();
    let daily = port.clone().with_nodal_factors(NodalFactors::Daily);
    for at in ["2026-07-02T12:00Z", "2026-07-02T23:59Z"].map(time) {
        let off = port.height(at).unwrap() - daily.height(at).unwrap();
        // A year's arguments run on at its middle's speed: some 1e-9 of a turn.
        assert!(off.as_metres().abs() < 1e-7);
    }
    let winter = time("2026-01-02T12:00Z");
    let off = (port.height(winter).unwrap() - daily.height(winter).unwrap()).as_metres().abs();
    assert!((0.001..0.05).contains(&off), "{off}");
    // A day's step at midnight: 0.2 mm a metre, 4 mm for L2 and M1.
    let midnight = time("2026-05-01T00Z");
    let curve = daily.curve(midnight - SignedDuration::from_hours(1), midnight).unwrap();
    let after = daily.height(midnight).unwrap();
    let before = Height::metres(curve.spans[0].height(curve.to));
    assert!((after - before).as_metres().abs() < 0.001);
}

#[test]
fn turns_are_where_fine_steps_see_them() {
    for (name, port) in noaa() {
        let curve = port.curve(time("2026-12-10T00Z"), time("2027-01-25T00Z")).unwrap();
        let turns = curve.turns();
        for pair in turns.windows(2) {
            assert_ne!(pair[0].water, pair[1].water, "{name}");
            assert!(pair[0].at < pair[1].at, "{name}");
        }
        for turn in &turns {
            // A hundredth of a millimetre an hour, but where two years' factors meet.
            let rise = curve.rise_per_hour(turn.at).as_metres().abs();
            assert!(rise < 1e-5 || turn.at == time("2027-01-01T00Z"), "{name} {rise}");
        }
        // Ten-second steps see as many, and perhaps two at the New Year's step of the factors.
        let step = SignedDuration::from_secs(10);
        let heights: Vec<f64> = curve.heights(step).map(Height::as_metres).collect();
        let seen = heights.windows(3).filter(|h| (h[1] > h[0]) != (h[2] > h[1])).count();
        assert!(
            turns.len() <= seen && seen <= turns.len() + 2,
            "{name}: {} and {seen}",
            turns.len()
        );
    }
}

#[test]
fn a_double_low_water_counts_once() {
    let curve = hoek().curve(time("2019-01-01T00Z"), time("2019-02-01T00Z")).unwrap();
    let all = curve.turns();
    let main = curve.high_and_low_waters(metres(0.25));
    // 31 days of 24 h 50 min hold 60 high waters.
    assert!((59..=60).contains(&main.iter().filter(|turn| turn.water == Water::High).count()));
    assert!(all.len() > main.len() + 20, "{} {}", all.len(), main.len());
    for pair in main.windows(2) {
        assert_ne!(pair[0].water, pair[1].water);
        assert!((pair[0].height - pair[1].height).abs() >= metres(0.25));
    }
}

#[test]
fn a_stand_is_where_the_height_leaves_the_turn() {
    let curve = hoek().curve(time("2019-01-01T00Z"), time("2019-01-10T00Z")).unwrap();
    let within = metres(0.01);
    for turn in &curve.turns()[2..10] {
        let stand = curve.stand(turn, within);
        assert!(stand.from < turn.at && turn.at < stand.to);
        for end in [stand.from, stand.to] {
            let off = (curve.height(end) - turn.height).abs();
            assert!((off - within).abs() < metres(1e-6), "{turn:?} {stand:?}");
        }
    }
}

#[test]
fn the_one_constituent_in_closed_form() {
    let s2 = Constituent::named("s2").unwrap();
    let harmonic = Harmonic {
        constituent: s2,
        amplitude: metres(1.5),
        phase: PhaseLag::from_degrees(90.0).unwrap(),
    };
    let port = Port::new("solar", Height::above_datum(metres(2.0)), vec![harmonic]).unwrap();
    // High water lags the sun's transit by a quarter of twelve hours.
    let curve = port.curve(time("1900-01-01T00Z"), time("1900-01-02T00Z")).unwrap();
    let turns = curve.turns();
    let expected = [("03", 3.5), ("09", 0.5), ("15", 3.5), ("21", 0.5)];
    assert_eq!(turns.len(), 4);
    for (turn, (hour, height)) in turns.iter().zip(expected) {
        assert!((turn.height.as_metres() - height).abs() < 1e-12);
        let off = turn.at.duration_since(time(&format!("1900-01-01T{hour}Z"))).abs();
        assert!(off < SignedDuration::from_millis(1), "{turn:?}");
    }
}

#[test]
fn ranges_springs_and_neaps_of_boston() {
    let port = &noaa()["8443970"];
    let ranges = port.mean_ranges().unwrap();
    let amplitude = |name| port.harmonic(name).unwrap().amplitude;
    assert_eq!(ranges.springs(), (amplitude("M2") + amplitude("S2")) * 2.0);
    assert_eq!(ranges.neaps(), (amplitude("M2") - amplitude("S2")) * 2.0);
    assert_eq!(port.form().unwrap().kind(), TideKind::SemiDiurnal);
    assert_eq!(noaa()["9447130"].form().unwrap().kind(), TideKind::MixedMainlySemiDiurnal);
    let dates = port.springs_and_neaps(time("2026-01-01T00Z"), time("2027-01-01T00Z")).unwrap();
    // 29.53 days from springs to springs but one.
    assert!((49..=50).contains(&dates.len()), "{}", dates.len());
    for pair in dates.windows(2) {
        assert_ne!(pair[0].1, pair[1].1);
        let days = pair[1].0.duration_since(pair[0].0).as_secs_f64() / 86_400.0;
        assert!((days - 29.530_59 / 4.0).abs() < 0.05, "{days}");
    }
}

#[test]
fn bad_ports_are_named() {
    let m2 = Harmonic {
        constituent: Constituent::named("M2").unwrap(),
        amplitude: metres(1.0),
        phase: PhaseLag::from_degrees(0.0).unwrap(),
    };
    let port = |harmonics| Port::new("Skarv", Height::above_datum(Length::ZERO), harmonics);
    let said = |harmonics| port(harmonics).unwrap_err().to_string();
    assert_eq!(said(vec![]), "the port \"Skarv\" has no constituents; at least one is needed");
    assert_eq!(said(vec![m2, m2]), "the port \"Skarv\" has two lines for M2; one is needed");
    let negative = Harmonic { amplitude: metres(-1.0), ..m2 };
    assert_eq!(
        said(vec![negative]),
        "the amplitude of M2 at \"Skarv\", -1 m, is not within 0 to 20 m"
    );
    let unknown = Constituent::named("M2X").unwrap_err().to_string();
    assert_eq!(
        unknown,
        "no constituent is called \"M2X\"; the nearest name is M2, and all are those of the \
         international lists"
    );
    let nearest = |name| Constituent::named(name).unwrap_err().nearest;
    for (typed, meant) in [("LAMDA2", "LAMBDA2"), ("ms 4", "MS4"), ("01", "O1"), ("K", "K1")] {
        assert_eq!(nearest(typed), meant, "{typed}");
    }
    let early = port(vec![m2]).unwrap().height(time("1899-12-31T23:59Z")).unwrap_err();
    assert_eq!(
        early.to_string(),
        "1899-12-31T23:59:00Z is not within the years 1900 to 2100, for which tides and light are reckoned"
    );
    let missing = port(vec![m2]).unwrap().mean_ranges().unwrap_err().to_string();
    assert_eq!(missing, "the port has no S2; springs and neaps are told from M2 and S2");
}

#[test]
fn the_table_of_constituents_holds_together() {
    let mut names = std::collections::HashSet::new();
    for constituent in Constituent::all() {
        let entry_names = std::iter::once(constituent.name());
        for name in entry_names {
            assert!(names.insert(name), "{name} twice");
            assert_eq!(Constituent::named(name).unwrap(), constituent);
        }
        // The figure at a name's end is its kind: how many times a day.
        let species = constituent.name().trim_end_matches(|c: char| !c.is_ascii_digit());
        let digits: String = species.chars().rev().take_while(char::is_ascii_digit).collect();
        let species: String = digits.chars().rev().collect();
        let ends_in_figure = constituent.name().ends_with(|c: char| c.is_ascii_digit());
        if ends_in_figure && constituent.name() != "Z0" {
            assert_eq!(species.parse::<i8>().unwrap(), constituent.doodson()[0], "{constituent}");
        }
    }
    assert!(names.len() > 200);
    for (other, name) in [("LAM2", "LAMBDA2"), ("LABDA2", "LAMBDA2"), ("RHO", "RHO1")] {
        assert_eq!(Constituent::named(other).unwrap().name(), name);
    }
}
