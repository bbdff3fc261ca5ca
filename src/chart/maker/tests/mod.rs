//! What every chart made from a seed has to be.

use std::collections::{BTreeMap, BTreeSet};

use super::*;
use crate::check::{doubts, faults};
use crate::coast::Coast;
use crate::model::{Chart, PlaceKind, Point, PortTide, Ring, StreamRates};
use crate::whereabouts::On;

/// A small chart: 7 by 6 km.
fn small(seed: u64) -> Chart {
    make(seed, &Wishes { width_km: 7, height_km: 6, ..Wishes::default() }).unwrap()
}

fn built_in() -> Chart {
    crate::practice().unwrap()
}

/// Everything that must hold of every chart that is made.
fn hold_all(seed: u64, chart: &Chart) {
    assert_eq!(faults(chart), [], "seed {seed}");
    assert_eq!(doubts(chart), [], "seed {seed}");
    rings_turn_left(seed, chart);
    rings_do_not_cross(seed, chart);
    landings_are_on_the_shore_and_reached_by_water(seed, chart);
    names_stand_by_what_they_name(seed, chart);
    names_are_invented_and_unique(seed, chart);
}

#[test]
fn small_charts_of_many_seeds_hold_together() {
    for seed in 0..200 {
        hold_all(seed, &small(seed));
    }
}

#[test]
fn the_built_in_chart_holds_together() {
    hold_all(crate::practice::SEED, &built_in());
}

#[test]
#[ignore = "takes minutes"]
fn many_more_charts_hold_together() {
    for seed in 0..3_000 {
        hold_all(seed, &small(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15)));
    }
    for seed in 0..60 {
        hold_all(seed, &make(seed, &Wishes::default()).unwrap());
    }
    let wide = Wishes { width_km: 60, height_km: 12, ..Wishes::default() };
    for seed in 0..10 {
        hold_all(seed, &make(seed, &wide).unwrap());
    }
}

/// All lines that come from the relief; the drying ground's last.
fn rings(chart: &Chart) -> (Vec<&Ring>, Vec<&Ring>) {
    let shores = chart.land.iter().flat_map(|l| std::iter::once(&l.shore).chain(&l.lakes));
    let lines = shores.chain(chart.depths.iter().map(|d| &d.edge)).collect();
    (lines, chart.drying.iter().map(|d| &d.edge).collect())
}

fn rings_turn_left(seed: u64, chart: &Chart) {
    let (lines, flats) = rings(chart);
    let races = chart.races.iter().map(|r| &r.edge);
    for ring in lines.into_iter().chain(flats).chain(races) {
        assert!(ring.doubled_area() > 0.0, "seed {seed}: a ring has its inside on the right");
        let whole = ring.0.iter().all(|p| p.x.fract() == 0.0 && p.y.fract() == 0.0);
        assert!(whole, "seed {seed}: a corner is not on a whole metre");
    }
}

/// Twice the area of a triangle, exact for whole metres.
fn turn(a: Point, b: Point, c: Point) -> f64 {
    (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)
}

fn rings_do_not_cross(seed: u64, chart: &Chart) {
    let (lines, flats) = rings(chart);
    let corners = lines.iter().flat_map(|r| r.0.iter().map(|p| (p.x as i64, p.y as i64)));
    let mut seen = BTreeSet::new();
    for corner in corners {
        assert!(seen.insert(corner), "seed {seed}: two lines meet at {corner:?}");
    }
    let mut squares: BTreeMap<(i64, i64), Vec<(Point, Point)>> = BTreeMap::new();
    for (a, b) in lines.into_iter().chain(flats).flat_map(Ring::sides) {
        let square = |v: f64| (v / 100.0) as i64;
        for x in square(a.x.min(b.x))..=square(a.x.max(b.x)) {
            for y in square(a.y.min(b.y))..=square(a.y.max(b.y)) {
                squares.entry((x, y)).or_default().push((a, b));
            }
        }
    }
    for sides in squares.values() {
        for (i, (a, b)) in sides.iter().enumerate() {
            for (c, d) in &sides[i + 1..] {
                let crosses = turn(*a, *b, *c) * turn(*a, *b, *d) < 0.0
                    && turn(*c, *d, *a) * turn(*c, *d, *b) < 0.0;
                assert!(!crosses, "seed {seed}: {a:?} {b:?} crosses {c:?} {d:?}");
            }
        }
    }
}

/// The chart's land as dots of 10 m, drawn from its shores alone.
struct Dots {
    columns: usize,
    rows: usize,
    land: Vec<bool>,
    south_west: Point,
}

const DOT: f64 = 10.0;

impl Dots {
    fn new(chart: &Chart) -> Self {
        let columns = (chart.extent.width() / DOT) as usize;
        let rows = (chart.extent.height() / DOT) as usize;
        let south_west = chart.extent.min();
        let mut dots = Self { columns, rows, land: vec![false; columns * rows], south_west };
        for land in &chart.land {
            dots.fill(&land.shore);
        }
        dots
    }

    /// Turns every dot within a ring, row by row.
    fn fill(&mut self, ring: &Ring) {
        let mut crossings: BTreeMap<usize, Vec<f64>> = BTreeMap::new();
        for (a, b) in ring.sides() {
            let row = |y: f64| ((y - self.south_west.y) / DOT + 0.5).floor() as usize;
            for row in row(a.y.min(b.y))..row(a.y.max(b.y)) {
                let y = self.south_west.y + (row as f64 + 0.5) * DOT;
                let x = a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x) - self.south_west.x;
                crossings.entry(row).or_default().push(x / DOT - 0.5);
            }
        }
        for (row, mut xs) in crossings {
            xs.sort_by(f64::total_cmp);
            for pair in xs.chunks_exact(2) {
                for column in pair[0].ceil() as usize..=pair[1].floor() as usize {
                    self.land[row * self.columns + column] = true;
                }
            }
        }
    }

    /// Whether each dot is reached by water from the chart's south-west corner.
    fn sea(&self) -> Vec<bool> {
        let mut sea = vec![false; self.land.len()];
        sea[0] = true;
        let mut next = vec![0];
        while let Some(dot) = next.pop() {
            let (column, row) = (dot % self.columns, dot / self.columns);
            for beside in [
                (column + 1 < self.columns).then_some(dot + 1),
                (column > 0).then(|| dot - 1),
                (row + 1 < self.rows).then_some(dot + self.columns),
                (row > 0).then(|| dot - self.columns),
            ] {
                if let Some(beside) = beside.filter(|b| !self.land[*b] && !sea[*b]) {
                    sea[beside] = true;
                    next.push(beside);
                }
            }
        }
        sea
    }
}

fn from_shore(chart: &Chart, at: Point) -> f64 {
    let sides = chart.land.iter().flat_map(|l| l.shore.sides());
    sides.fold(f64::MAX, |least, (a, b)| {
        let (d, _) = sketch::to_segment((at.x, at.y), (a.x, a.y), (b.x, b.y));
        least.min(d)
    })
}

fn landings_are_on_the_shore_and_reached_by_water(seed: u64, chart: &Chart) {
    let dots = Dots::new(chart);
    let sea = dots.sea();
    for landing in &chart.landings {
        let off = from_shore(chart, landing.at);
        assert!(off <= 1.0, "seed {seed}: {} is {off} m off the shore", landing.name);
        let column = ((landing.at.x - dots.south_west.x) / DOT) as usize;
        let row = ((landing.at.y - dots.south_west.y) / DOT) as usize;
        let reached = (row.saturating_sub(9)..row + 5)
            .any(|r| (column.saturating_sub(9)..column + 10).any(|c| sea[r * dots.columns + c]));
        assert!(reached, "seed {seed}: no water leads to {}", landing.name);
    }
}

fn names_stand_by_what_they_name(seed: u64, chart: &Chart) {
    let coast = Coast::of(chart);
    for place in &chart.places {
        let ashore = matches!(chart.whereabouts(&coast, place.at).on, On::Land(_));
        let (name, off) = (&place.name, from_shore(chart, place.at));
        match place.kind {
            PlaceKind::Island | PlaceKind::Skerry => {
                let own = chart.land.iter().find(|l| l.name == *name);
                let inside = own.is_some_and(|l| l.shore.encloses(place.at));
                assert!(inside, "seed {seed}: {name} is not on its island");
            }
            PlaceKind::Water | PlaceKind::Narrows | PlaceKind::Inlet => {
                assert!(!ashore, "seed {seed}: {name} is on land");
            }
            PlaceKind::Headland | PlaceKind::Settlement => {
                assert!(off < 100.0, "seed {seed}: {name} is {off} m off the shore");
            }
            PlaceKind::Hill => assert!(ashore, "seed {seed}: {name} is in the water"),
        }
    }
    for race in &chart.races {
        for corner in &race.edge.0 {
            let ashore = matches!(chart.whereabouts(&coast, *corner).on, On::Land(_));
            assert!(!ashore, "seed {seed}: {} breaks on land", race.name);
        }
    }
}

/// Well-known names of real coasts, islands and waters, none of which may come out by chance.
const REAL: &[&str] = &[
    "Achill",
    "Aland",
    "Alderney",
    "Anglesey",
    "Aran",
    "Arran",
    "Barra",
    "Bantry",
    "Bardsey",
    "Bergen",
    "Bressay",
    "Brest",
    "Brittany",
    "Bute",
    "Caldey",
    "Canna",
    "Colonsay",
    "Copinsay",
    "Cornwall",
    "Corran",
    "Corryvreckan",
    "Cumbrae",
    "Dingle",
    "Donegal",
    "Eday",
    "Eigg",
    "Eriskay",
    "Falmouth",
    "Faroe",
    "Fastnet",
    "Fetlar",
    "Foula",
    "Galway",
    "Gigha",
    "Gometra",
    "Graemsay",
    "Gruinard",
    "Guernsey",
    "Harris",
    "Herm",
    "Hoy",
    "Hitra",
    "Iona",
    "Islay",
    "Jersey",
    "Jura",
    "Kerrera",
    "Kintyre",
    "Lewis",
    "Lindisfarne",
    "Lismore",
    "Lofoten",
    "Lundy",
    "Luing",
    "Mallaig",
    "Mingulay",
    "Moray",
    "Muck",
    "Mull",
    "Norway",
    "Norwick",
    "Orkney",
    "Oronsay",
    "Ouessant",
    "Pabbay",
    "Papa",
    "Pentland",
    "Plockton",
    "Polish",
    "Portree",
    "Raasay",
    "Ramsey",
    "Rathlin",
    "Rona",
    "Ronay",
    "Rousay",
    "Rum",
    "Runde",
    "Sanday",
    "Sandray",
    "Sark",
    "Scalpay",
    "Scarba",
    "Scilly",
    "Senja",
    "Shapinsay",
    "Shetland",
    "Shuna",
    "Skellig",
    "Skerries",
    "Skokholm",
    "Skomer",
    "Skye",
    "Smola",
    "Staffa",
    "Stroma",
    "Stronsay",
    "Swona",
    "Taransay",
    "Texel",
    "Tiree",
    "Tory",
    "Ulva",
    "Unst",
    "Vaila",
    "Vatersay",
    "Westray",
    "Whalsay",
    "Wick",
    "Yell",
];

fn all_names(chart: &Chart) -> Vec<&str> {
    let mut names: Vec<&str> = chart.places.iter().map(|p| p.name.as_str()).collect();
    names.extend(chart.landings.iter().map(|l| l.name.as_str()));
    names.extend(chart.hazards.iter().map(|h| h.name.as_str()).filter(|n| !n.is_empty()));
    names.extend(chart.races.iter().map(|r| r.name.as_str()));
    names.extend(chart.marks.iter().map(|m| m.name.as_str()));
    names
}

fn names_are_invented_and_unique(seed: u64, chart: &Chart) {
    let mut seen = BTreeSet::new();
    for name in all_names(chart) {
        assert!(seen.insert(name), "seed {seed}: {name} stands twice");
        // A word of the trade, as in "Corran Skerries", is no place's name.
        let real = name.split(' ').find(|w| *w != "Skerries" && REAL.contains(w));
        assert_eq!(real, None, "seed {seed}: {name} is the name of a real place");
    }
}

#[test]
fn the_same_seed_gives_the_same_bytes_and_another_seed_another_chart() {
    let text = crate::format::write(&small(7));
    assert!(text == crate::format::write(&small(7)));
    let others: BTreeSet<String> = (0..20).map(|s| crate::format::write(&small(s))).collect();
    assert_eq!(others.len(), 20);
}

/// The last bits of a sine, a power or a fused product differ between platforms, and hashed
/// collections have no order: none of them has a place in the maker.
#[test]
fn the_maker_keeps_to_what_is_alike_everywhere() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/maker");
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let text = std::fs::read_to_string(&path).unwrap();
        let code = text.split("#[cfg(test)]\nmod tests {").next().unwrap();
        if path.ends_with("tests.rs") {
            continue;
        }
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
fn mean_springs_reach_the_shore_and_no_tide_falls_below_datum() {
    let chart = built_in();
    let tide = chart.ports.iter().find_map(|p| match &p.tide {
        PortTide::Constants { mean_level_m, constituents } => Some((mean_level_m, constituents)),
        PortTide::Differences { .. } | PortTide::Printed { .. } => None,
    });
    let (mean, all) = tide.unwrap();
    let of = |name: &str| all.iter().find(|c| c.name == name).map_or(0.0, |c| c.amplitude);
    // Half a printed digit of the constituents, twice.
    assert!((mean + of("M2") + of("S2") - 4.6).abs() <= 0.01);
    assert!(all.iter().map(|c| c.amplitude).sum::<f64>() <= *mean);
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

/// How much longer the longest shore of the built-in chart gets as the dividers close from
/// 1600 m to 100 m: its length grows as the step to the power of minus 0.19. Real indented coasts
/// have 0.2 to 0.3 (Richardson 1961: 0.25 for the west coast of Britain), a circle 0.
#[test]
fn the_shore_is_as_rough_as_a_real_one() {
    let chart = built_in();
    let shore = &chart.land[0].shore.0;
    let steps = [100.0, 200.0, 400.0, 800.0, 1_600.0_f64];
    let points: Vec<(f64, f64)> =
        steps.iter().map(|step| (step.ln(), walked(shore, *step).ln())).collect();
    let count = points.len() as f64;
    let (mx, my) = points.iter().fold((0.0, 0.0), |m, p| (m.0 + p.0 / count, m.1 + p.1 / count));
    let over: f64 = points.iter().map(|p| (p.0 - mx) * (p.1 - my)).sum();
    let slope = over / points.iter().map(|p| (p.0 - mx) * (p.0 - mx)).sum::<f64>();
    assert!((-0.3..-0.15).contains(&slope), "{slope}");
}

/// The length of a shore walked with dividers.
fn walked(shore: &[Point], step: f64) -> f64 {
    let mut at = shore[0];
    let mut length = 0.0;
    for corner in shore {
        let gone = ((corner.x - at.x).powi(2) + (corner.y - at.y).powi(2)).sqrt();
        if gone >= step {
            length += gone;
            at = *corner;
        }
    }
    length
}
