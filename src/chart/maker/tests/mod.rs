//! What every chart made from a seed has to be.

mod bytes;
mod rough;
mod tide;

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

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
fn hold_all(seed: &str, chart: &Chart) {
    assert_eq!(faults(chart), [], "{seed}");
    assert_eq!(doubts(chart), [], "{seed}");
    rings_turn_left(seed, chart);
    rings_do_not_cross(seed, chart);
    ports_and_landings_are_on_the_shore_and_joined_by_water(seed, chart);
    names_stand_by_what_they_name(seed, chart);
    names_are_unique(seed, chart);
    streams_suit_the_tide(seed, chart);
}

/// Makes and holds charts of seeds, whose characters, tides and difficulties go round.
fn hold_seeds(numbers: std::ops::Range<u64>, (width_km, height_km): (u32, u32)) {
    let tides = [TideRange::USUAL, TideRange::MICRO, TideRange::MESO, TideRange::MACRO];
    for number in numbers {
        let of = |count: usize, step: u64| (number / step) as usize % count;
        let wishes = Wishes {
            width_km,
            height_km,
            character: Character::ALL[of(6, 1)],
            tide: tides[of(4, 6)],
            difficulty: Difficulty::ALL[of(3, 24)],
            ..Wishes::default()
        };
        let seed = number.wrapping_mul(0x9E37_79B9_7F4A_7C15);
        let said = format!("number {number}, seed {seed}, {}", wishes.character.name());
        hold_all(&said, &make(seed, &wishes).unwrap());
    }
}

#[test]
fn small_charts_of_many_seeds_hold_together() {
    hold_seeds(0..48, (7, 6));
}

#[test]
fn the_built_in_chart_holds_together() {
    hold_all("practice", &built_in());
}

#[test]
#[ignore = "takes minutes"]
fn ten_thousand_charts_hold_together() {
    hold_seeds(0..10_000, (7, 6));
    hold_seeds(10_000..10_072, (30, 22));
    hold_seeds(10_072..10_084, (12, 40));
}

/// All lines that come from the relief; the drying ground's last.
fn rings(chart: &Chart) -> (Vec<&Ring>, Vec<&Ring>) {
    let shores = chart.land.iter().flat_map(|l| std::iter::once(&l.shore).chain(&l.lakes));
    let lines = shores.chain(chart.depths.iter().map(|d| &d.edge)).collect();
    (lines, chart.drying.iter().map(|d| &d.edge).collect())
}

fn rings_turn_left(seed: &str, chart: &Chart) {
    let (lines, flats) = rings(chart);
    let races = chart.races.iter().map(|r| &r.edge);
    for ring in lines.into_iter().chain(flats).chain(races) {
        assert!(ring.doubled_area() > 0.0, "{seed}: a ring has its inside on the right");
        let whole = ring.0.iter().all(|p| p.x.fract() == 0.0 && p.y.fract() == 0.0);
        assert!(whole, "{seed}: a corner is not on a whole metre");
    }
}

/// Twice the area of a triangle, exact for whole metres.
fn turn(a: Point, b: Point, c: Point) -> f64 {
    (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)
}

fn rings_do_not_cross(seed: &str, chart: &Chart) {
    let (lines, flats) = rings(chart);
    let corners = lines.iter().flat_map(|r| r.0.iter().map(|p| (p.x as i64, p.y as i64)));
    let mut seen = BTreeSet::new();
    for corner in corners {
        assert!(seen.insert(corner), "{seed}: two lines meet at {corner:?}");
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
                assert!(!crosses, "{seed}: {a:?} {b:?} crosses {c:?} {d:?}");
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
        for (row, mut xs) in crossings.into_iter().filter(|(row, _)| *row < self.rows) {
            xs.sort_by(f64::total_cmp);
            for pair in xs.chunks_exact(2) {
                let end = (pair[1].floor() as usize + 1).min(self.columns);
                for column in pair[0].ceil() as usize..end {
                    self.land[row * self.columns + column] = true;
                }
            }
        }
    }

    fn dot(&self, at: Point) -> (usize, usize) {
        let (x, y) = ((at.x - self.south_west.x) / DOT, (at.y - self.south_west.y) / DOT);
        ((x as usize).min(self.columns - 1), (y as usize).min(self.rows - 1))
    }

    /// Whether each dot is reached by water from a place on the chart without leaving it.
    fn sea(&self, from: Point) -> Vec<bool> {
        let mut sea = vec![false; self.land.len()];
        let (column, row) = self.dot(from);
        let mut near = (row.saturating_sub(2)..(row + 3).min(self.rows)).flat_map(|row| {
            let columns = column.saturating_sub(2)..(column + 3).min(self.columns);
            columns.map(move |column| row * self.columns + column)
        });
        let start = near.find(|dot| !self.land[*dot]).expect("water beside a port");
        sea[start] = true;
        let mut next = vec![start];
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

fn ports_and_landings_are_on_the_shore_and_joined_by_water(seed: &str, chart: &Chart) {
    let dots = Dots::new(chart);
    let sea = dots.sea(chart.ports.first().expect("a chart has a port").at);
    for port in &chart.ports {
        let ashore = chart.land.iter().any(|land| land.shore.encloses(port.at));
        assert!(!ashore, "{seed}: the port {} is on land", port.name);
        // Its own dot may have its middle on the shore beside it.
        let (column, row) = dots.dot(port.at);
        let mut near = (row.saturating_sub(2)..(row + 3).min(dots.rows)).flat_map(|row| {
            let columns = column.saturating_sub(2)..(column + 3).min(dots.columns);
            columns.map(move |column| row * dots.columns + column)
        });
        let joined = near.any(|dot| sea[dot]);
        assert!(joined, "{seed}: no water leads from the first port to {}", port.name);
    }
    for landing in &chart.landings {
        let off = from_shore(chart, landing.at);
        assert!(off <= 1.0, "{seed}: {} is {off} m off the shore", landing.name);
        let (column, row) = dots.dot(landing.at);
        let mut near = (row.saturating_sub(9)..(row + 5).min(dots.rows)).flat_map(|row| {
            let columns = column.saturating_sub(9)..(column + 10).min(dots.columns);
            columns.map(move |column| (column, row))
        });
        let reached = near.any(|(column, row)| sea[row * dots.columns + column]);
        assert!(reached, "{seed}: no water leads to {}", landing.name);
    }
}

/// The greatest rate at springs that a stream is told with, roughly for constituents.
fn springs(rates: &StreamRates) -> f64 {
    match rates {
        StreamRates::Hourly { rows, .. } => rows.iter().fold(0.0, |most, r| r.springs_kn.max(most)),
        StreamRates::Axis { constituents, .. } => {
            constituents.iter().take(2).map(|part| part.amplitude).sum()
        }
        StreamRates::Greatest { springs_kn, .. } => *springs_kn,
    }
}

/// A race breaks in a stream that is strong enough, a gate shuts one, and streams lie on the chart.
fn streams_suit_the_tide(seed: &str, chart: &Chart) {
    let of = |name: &str| {
        let stream = chart.streams.iter().find(|stream| stream.name == name);
        springs(&stream.expect("a station").rates)
    };
    for race in &chart.races {
        let runs = race.runs.as_ref().expect("a made race runs at known times");
        // Half a printed digit of each constituent.
        assert!(of(&runs.station) > 1.4, "{seed}: {} breaks in a weak stream", race.name);
    }
    for gate in &chart.gates {
        assert!(of(&gate.station) > 2.9, "{seed}: {} is shut by a weak stream", gate.name);
    }
    for stream in &chart.streams {
        assert!((0.1..=8.0).contains(&springs(&stream.rates)), "{seed}: {}", stream.name);
    }
}

fn names_stand_by_what_they_name(seed: &str, chart: &Chart) {
    let coast = Coast::of(chart);
    let on_chart = |at: Point| {
        let (low, high) = (chart.extent.min(), chart.extent.max());
        (low.x..=high.x).contains(&at.x) && (low.y..=high.y).contains(&at.y)
    };
    for place in &chart.places {
        assert!(on_chart(place.at), "{seed}: {} is off the chart", place.name);
        let ashore = matches!(chart.whereabouts(&coast, place.at).on, On::Land(_));
        let (name, off) = (&place.name, from_shore(chart, place.at));
        match place.kind {
            PlaceKind::Island | PlaceKind::Skerry => {
                let own = chart.land.iter().find(|l| l.name == *name);
                let inside = own.is_some_and(|l| l.shore.encloses(place.at));
                assert!(inside, "{seed}: {name} is not on its island");
            }
            PlaceKind::Water | PlaceKind::Narrows | PlaceKind::Inlet => {
                assert!(!ashore, "{seed}: {name} is on land");
            }
            PlaceKind::Headland | PlaceKind::Settlement => {
                assert!(off < 100.0, "{seed}: {name} is {off} m off the shore");
            }
            PlaceKind::Hill => assert!(ashore, "{seed}: {name} is in the water"),
        }
    }
    for race in &chart.races {
        for corner in &race.edge.0 {
            let ashore = matches!(chart.whereabouts(&coast, *corner).on, On::Land(_));
            assert!(!ashore, "{seed}: {} breaks on land", race.name);
        }
    }
}

fn all_names(chart: &Chart) -> Vec<&str> {
    let mut names: Vec<&str> = chart.places.iter().map(|p| p.name.as_str()).collect();
    names.extend(chart.landings.iter().map(|l| l.name.as_str()));
    names.extend(chart.hazards.iter().map(|h| h.name.as_str()).filter(|n| !n.is_empty()));
    names.extend(chart.races.iter().map(|r| r.name.as_str()));
    names.extend(chart.marks.iter().map(|m| m.name.as_str()));
    names
}

fn names_are_unique(seed: &str, chart: &Chart) {
    let mut seen = BTreeSet::new();
    for name in all_names(chart) {
        assert!(seen.insert(name), "{seed}: {name} stands twice");
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
