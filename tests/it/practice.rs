//! The practice chart's water hangs together: its streams turn when a real strait's would, its races run
//! and its gates shut by the streams in which they lie.
//!
//! Which rule a station is held to is found from the chart alone, by flooding it with the channel
//! walled up:
//!
//! - A **basin** at one end fills and empties through the channel: its stream turns at the high and low
//!   waters of the nearest port (continuity).
//! - A **narrows** with the sea at both ends follows the difference of level between them, as it lies
//!   in a plane through the heights at all ports: its stream turns when that does, held back by its bed.
//! - **Open water** is driven by the same slope and goes on by its weight: it turns later, by a quarter of
//!   a tide at most.
//! - A channel **across** the slope says nothing of the sense: it turns with the slope's own turns.
//!
//! Hourly stations are rounded to the hour, differences of ports to five minutes and ten
//! centimetres; the tolerances are made of that.

use std::sync::LazyLock;

use chart::coast::Coast;
use chart::model::PlaceKind;
use chart::water::{Flows, GaugeCurve, RaceState, Tides};
use chart::{Chart, Point};
use jiff::{SignedDuration, Timestamp};
use nav::GridPoint;
use nav::stream::StreamTurn;
use nav::tide::{Turn, Water};

struct Practice {
    chart: Chart,
    coast: Coast,
    tides: Tides,
    flows: Flows,
    /// The height of tide at each port.
    curves: Vec<GaugeCurve>,
    land: Land,
}

/// From before springs, on the new moon of 15 June 2026, to neaps.
const FROM: &str = "2026-06-13T00:00Z";
const TO: &str = "2026-06-24T00:00Z";

static PRACTICE: LazyLock<Practice> = LazyLock::new(|| {
    let chart = chart::practice().unwrap();
    let tides = Tides::of(&chart).unwrap();
    let (from, to) = (time(FROM), time(TO));
    let curves = tides.gauges().iter().map(|gauge| gauge.curve(from, to).unwrap()).collect();
    let (coast, land) = (Coast::of(&chart), Land::of(&chart));
    Practice { coast, flows: tides.flows(from, to).unwrap(), curves, land, tides, chart }
});

fn time(text: &str) -> Timestamp {
    text.parse().unwrap()
}

/// Hours from one instant to another.
fn hours(from: Timestamp, to: Timestamp) -> f64 {
    to.duration_since(from).as_secs_f64() / 3600.0
}

/// The chart's land as squares, and a flood over the others.
struct Land {
    columns: usize,
    rows: usize,
    corner: Point,
    dry: Vec<bool>,
}

const SQUARE: f64 = 25.0;

impl Land {
    fn of(chart: &Chart) -> Land {
        let side = |metres: f64| (metres / SQUARE) as usize;
        let (columns, rows) = (side(chart.extent.width()), side(chart.extent.height()));
        let corner = chart.extent.min();
        let mut dry = vec![false; columns * rows];
        for row in 0..rows {
            let y = corner.y + (row as f64 + 0.5) * SQUARE;
            // The crossings of all shores with the row, the lands' by twos.
            let sides = chart.land.iter().flat_map(|land| land.shore.sides());
            let over = sides.filter(|(a, b)| (a.y > y) != (b.y > y));
            let mut cuts: Vec<f64> =
                over.map(|(a, b)| a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x)).collect();
            cuts.sort_by(f64::total_cmp);
            for pair in cuts.chunks_exact(2) {
                for column in 0..columns {
                    let x = corner.x + (column as f64 + 0.5) * SQUARE;
                    dry[row * columns + column] |= (pair[0]..pair[1]).contains(&x);
                }
            }
        }
        Land { columns, rows, corner, dry }
    }

    fn square(&self, at: Point) -> Option<usize> {
        let (x, y) = ((at.x - self.corner.x) / SQUARE, (at.y - self.corner.y) / SQUARE);
        let on = (0.0..self.columns as f64).contains(&x) && (0.0..self.rows as f64).contains(&y);
        on.then(|| y as usize * self.columns + x as usize)
    }

    /// Whether a channel is shut ahead, if it is walled up across its axis at a place: nothing where
    /// it is so wide that nothing shuts it.
    fn shut_ahead(&self, at: Point, axis: Point) -> Option<bool> {
        let mut wall = self.dry.clone();
        for across in [Point { x: axis.y, y: -axis.x }, Point { x: -axis.y, y: axis.x }] {
            let mut gone = 0.0;
            loop {
                let square = self.square(at + across * gone)?;
                if self.dry[square] {
                    break;
                }
                if gone > 2_600.0 {
                    return None;
                }
                wall[square] = true;
                gone += SQUARE / 4.0;
            }
        }
        let starts = (4..12).filter_map(|step| self.square(at + axis * (f64::from(step) * 12.5)));
        let start = starts.into_iter().find(|square| !wall[*square])?;
        Some(!self.reaches_frame(start, wall))
    }

    fn reaches_frame(&self, start: usize, mut met: Vec<bool>) -> bool {
        met[start] = true;
        let mut next = vec![start];
        while let Some(square) = next.pop() {
            let (column, row) = (square % self.columns, square / self.columns);
            if column == 0 || row == 0 || column + 1 == self.columns || row + 1 == self.rows {
                return true;
            }
            for beside in [square - 1, square + 1, square - self.columns, square + self.columns] {
                if !met[beside] {
                    met[beside] = true;
                    next.push(beside);
                }
            }
        }
        false
    }
}

/// How much the water stands higher to the east and to the north, in metres to a kilometre: the plane
/// through the heights at the ports by least squares.
fn slope(at: Timestamp) -> Point {
    let Practice { tides, curves, .. } = &*PRACTICE;
    let ports: Vec<(Point, f64)> = tides
        .gauges()
        .iter()
        .zip(curves)
        .map(|(gauge, curve)| (gauge.at().unwrap() / 1000.0, curve.height(at).unwrap().as_metres()))
        .collect();
    let count = ports.len() as f64;
    let middle = ports.iter().fold(Point::default(), |sum, port| sum + port.0) / count;
    let level = ports.iter().map(|port| port.1).sum::<f64>() / count;
    let sum = |of: &dyn Fn(Point, f64) -> f64| -> f64 {
        ports.iter().map(|(at, height)| of(*at - middle, height - level)).sum()
    };
    let (xx, xy, yy) = (sum(&|d, _| d.x * d.x), sum(&|d, _| d.x * d.y), sum(&|d, _| d.y * d.y));
    let (xh, yh) = (sum(&|d, h| d.x * h), sum(&|d, h| d.y * h));
    let whole = xx * yy - xy * xy;
    Point { x: (xh * yy - yh * xy) / whole, y: (yh * xx - xh * xy) / whole }
}

/// When the fall of the water along an axis turns, and whether to fall ahead, which drives a flood.
fn falls(axis: Point) -> Vec<(Timestamp, bool)> {
    let minutes = (hours(time(FROM), time(TO)) * 60.0) as i64 - 1;
    let at = |minute: i64| time(FROM) + SignedDuration::from_mins(minute);
    let ahead = |minute: i64| {
        let slope = slope(at(minute));
        slope.x * axis.x + slope.y * axis.y < 0.0
    };
    let mut turns = Vec::new();
    let mut before = ahead(1);
    for minute in (1..minutes).step_by(5) {
        let now = ahead(minute);
        if now != before {
            turns.push((at(minute), now));
        }
        before = now;
    }
    turns
}

/// A stream station with its axis on the grid and the turns of its stream.
struct Channel {
    name: String,
    at: Point,
    narrow: bool,
    /// The way of the flood.
    axis: Point,
    /// Each with whether the flood begins.
    turns: Vec<(Timestamp, bool)>,
}

/// The grid's direction of a true one at a place, as a vector of length 1.
fn axis_of(flood_deg: f64, at: Point) -> Point {
    let chart = &PRACTICE.chart;
    let point = GridPoint::from_metres(at.x, at.y).unwrap();
    let position = chart.grid.inverse(point).unwrap().position;
    let convergence = chart.grid.forward(position).unwrap().convergence.as_degrees_east();
    let (x, y) = (flood_deg - convergence).to_radians().sin_cos();
    Point { x, y }
}

fn channels() -> Vec<Channel> {
    use chart::model::StreamRates::{Axis, Greatest, Hourly};
    let Practice { chart, tides, flows, .. } = &*PRACTICE;
    let channel = |(index, stream): (usize, &chart::model::Stream)| {
        let flood_deg = match &stream.rates {
            Axis { flood_deg, .. } | Greatest { flood_deg, .. } => *flood_deg,
            // The flood of the chart's wave goes to the north-east; a basin's is turned below.
            Hourly { rows, .. } => {
                let sets = rows.iter().filter(|row| row.springs_kn > 0.0).map(|row| row.set_deg);
                sets.min_by(|a, b| off(*a, 47.0).total_cmp(&off(*b, 47.0))).unwrap()
            }
        };
        let run = flows.run(&Tides::only(index)).unwrap();
        let begins = |turn: &StreamTurn| (turn.at, off(turn.then.as_degrees(), flood_deg) < 90.0);
        let within = |turn: &StreamTurn| turn.at > time(FROM) && turn.at < time(TO);
        let named = |kind| chart.places.iter().any(|p| p.kind == kind && p.name == stream.name);
        assert_eq!(tides.stations()[index].name(), stream.name);
        Channel {
            name: stream.name.clone(),
            at: stream.at,
            narrow: named(PlaceKind::Narrows),
            axis: axis_of(flood_deg, stream.at),
            turns: run.turns().iter().filter(|turn| within(turn)).map(begins).collect(),
        }
    };
    chart.streams.iter().enumerate().map(channel).collect()
}

/// Degrees between two directions.
fn off(a: f64, b: f64) -> f64 {
    let turn = (a - b).rem_euclid(360.0);
    turn.min(360.0 - turn)
}

/// The high and low waters at the port nearest to a place.
fn nearest_waters(at: Point) -> Vec<Turn> {
    let far = |gauge: &&chart::water::Gauge| {
        let away = gauge.at().unwrap() - at;
        away.x.hypot(away.y)
    };
    let gauges = PRACTICE.tides.gauges().iter();
    let gauge = gauges.min_by(|a, b| far(a).total_cmp(&far(b))).unwrap();
    gauge.waters(time(FROM), time(TO)).unwrap()
}

/// Hours by which each turn of a stream comes after the nearest of these; those at the ends of the
/// time left out.
fn later(channel: &Channel, than: impl Fn(bool) -> Vec<Timestamp>) -> Vec<f64> {
    let day = SignedDuration::from_hours(12);
    let inside = |at: &Timestamp| *at > time(FROM) + day && *at < time(TO) - day;
    let nearest = |&(at, flood): &(Timestamp, bool)| {
        let all = than(flood);
        let by = all.iter().map(|other| hours(*other, at));
        by.min_by(|a, b| a.abs().total_cmp(&b.abs())).unwrap()
    };
    let all: Vec<f64> = channel.turns.iter().filter(|turn| inside(&turn.0)).map(nearest).collect();
    // Four a day for ten days.
    assert!((36..=42).contains(&all.len()), "{}: {} turns", channel.name, all.len());
    all
}

/// Holds the mean of a fortnight's half; single turns stray with the fortnight's unlike differences.
fn hold(name: &str, rule: &str, later: &[f64], (least, most): (f64, f64)) {
    let mean = later.iter().sum::<f64>() / later.len() as f64;
    assert!((least..=most).contains(&mean), "{name}, {rule}: {mean:.2} h");
}

#[test]
fn streams_turn_when_a_real_straits_would() {
    let land = &PRACTICE.land;
    let steepest = axis_of(47.0, PRACTICE.chart.extent.center());
    let (mut basins, mut narrows, mut open, mut across) = (0, 0, 0, 0);
    for channel in channels() {
        let Channel { name, at, axis, .. } = &channel;
        let ahead = land.shut_ahead(*at, *axis).unwrap_or(false);
        let astern = land.shut_ahead(*at, *axis * -1.0).unwrap_or(false);
        if ahead != astern {
            let waters = nearest_waters(*at);
            let turns = later(&channel, |flood| {
                // What runs in begins at low water.
                let wanted = if flood == ahead { Water::Low } else { Water::High };
                waters.iter().filter(|turn| turn.water == wanted).map(|turn| turn.at).collect()
            });
            // Half an hour of rounding, and as much of the wave's way to the nearest port.
            hold(name, "a basin", &turns, (-1.2, 1.0));
            basins += 1;
            continue;
        }
        let along = axis.x * steepest.x + axis.y * steepest.y;
        let crosswise = along.abs() < 0.25;
        let falls = falls(if crosswise { steepest } else { *axis });
        let turns = later(&channel, |flood| {
            let same = falls.iter().filter(|fall| crosswise || fall.1 == flood);
            same.map(|fall| fall.0).collect()
        });
        // Of either sense: after a turn by up to half a tide, not before the next.
        let after = |hours: f64| if crosswise && hours < -1.5 { hours + 6.21 } else { hours };
        let turns: Vec<f64> = turns.into_iter().map(after).collect();
        // Half an hour of rounding on both sides of 20 minutes and of a fifth of a tide, and half an
        // hour for the plane through five ports.
        let (rule, bounds) = match channel.narrow {
            true => ("a narrows", (-0.2, 1.4)),
            false => ("open water", (1.6, 3.6)),
        };
        narrows += usize::from(channel.narrow);
        open += usize::from(!channel.narrow);
        across += usize::from(crosswise);
        hold(name, rule, &turns, bounds);
    }
    assert!(basins >= 2 && narrows >= 4 && open >= 8 && across <= 4, "{basins} {narrows} {open}");
}

#[test]
fn races_run_by_the_stream_that_they_lie_in() {
    let Practice { tides, flows, .. } = &*PRACTICE;
    assert!(tides.races().len() >= 2);
    for race in tides.races() {
        let name = race.name();
        let conditions = race.conditions().unwrap();
        assert!(conditions.quiet_under < conditions.worst_over, "{name}");
        let station = &tides.stations()[conditions.station];
        assert!(race.edge().encloses(station.at()), "{name} breaks off {}", station.name());
        let states = race.states(flows).unwrap();
        let day =
            |from: &str| states.worst(time(from), time(from) + SignedDuration::from_hours(25));
        assert_eq!(day("2026-06-16T00:00Z"), Some(RaceState::Worst), "{name} at springs");
        assert!(day("2026-06-22T12:00Z") < Some(RaceState::Worst), "{name} at neaps");
        let all: Vec<RaceState> = states.changes().iter().map(|change| change.1).collect();
        assert!(all.contains(&RaceState::Quiet) && all.contains(&RaceState::Running), "{name}");
    }
}

#[test]
fn gates_lie_in_their_narrows_and_are_shut_for_most_of_a_spring_tide() {
    let Practice { chart, coast, tides, flows, .. } = &*PRACTICE;
    assert!(!tides.gates().is_empty());
    for gate in tides.gates() {
        let (name, (one, other)) = (gate.name(), gate.line());
        let station = &tides.stations()[gate.station()];
        let narrows =
            chart.places.iter().find(|p| p.kind == PlaceKind::Narrows && p.name == name).unwrap();
        assert_eq!(station.name(), narrows.name);
        let span = other - one;
        let reach = station.at() - one;
        let beside = (span.x * reach.y - span.y * reach.x).abs() / span.x.hypot(span.y);
        assert!(beside < 60.0, "{name}: its station is {beside} m off its line");
        assert!(coast.on_land(one) && coast.on_land(other), "{name} ends in the water");
        assert_eq!(coast.crossings(one, other).len(), 2, "{name} leads over more than one water");
        let openings = gate.openings(tides, flows).unwrap();
        let open = |from: &str| -> f64 {
            let to = time(from) + SignedDuration::from_hours(25);
            openings.between(time(from), to).iter().map(|(a, b)| hours(*a, *b)).sum()
        };
        let (springs, neaps) = (open("2026-06-16T00:00Z"), open("2026-06-22T12:00Z"));
        assert!((2.0..12.5).contains(&springs), "{name}: open {springs} h of 25 at springs");
        assert!(neaps > 1.5 * springs, "{name}: {neaps} h at neaps, {springs} h at springs");
    }
}
