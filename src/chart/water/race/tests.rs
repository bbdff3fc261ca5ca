//! Races and gates, each beside a plain look at every minute or every metre.

use std::sync::LazyLock;

use jiff::{SignedDuration, Timestamp};
use nav::Length;
use nav::tide::Height;
use proptest::prelude::*;

use super::super::TidalGate;
use super::*;
use crate::Chart;
use crate::model::{Gate, Sill};

static PRACTICE: LazyLock<(Chart, Tides, Flows)> = LazyLock::new(|| {
    let chart = crate::practice().unwrap();
    let tides = Tides::of(&chart).unwrap();
    let flows = tides.flows(time("2026-06-14T00:00Z"), time("2026-06-17T00:00Z")).unwrap();
    (chart, tides, flows)
});

fn time(text: &str) -> Timestamp {
    text.parse().unwrap()
}

/// Every minute of two days, and a second to either side.
fn minutes() -> impl Iterator<Item = [Timestamp; 3]> {
    let start = time("2026-06-14T12:00Z");
    let second = SignedDuration::from_secs(1);
    (0..2880).map(move |minute| {
        let at = start + SignedDuration::from_mins(minute);
        [at - second, at, at + second]
    })
}

#[test]
fn a_race_does_what_its_stream_does() {
    let (_, tides, flows) = &*PRACTICE;
    let mut met = Vec::new();
    for race in tides.races() {
        let conditions = race.conditions().unwrap();
        let states = race.states(flows).unwrap();
        assert!(states.changes().windows(2).all(|pair| pair[0].0 < pair[1].0));
        let state = |at| conditions.state(flows.at(&Tides::only(conditions.station), at).unwrap());
        let mut worst = RaceState::Quiet;
        for [before, at, after] in minutes() {
            met.push(state(at));
            // Within a second of a change either may be seen.
            if state(before) == state(after) {
                assert_eq!(states.at(at), Some(state(at)), "{} at {at}", race.name());
            }
            worst = worst.max(state(at));
        }
        let (from, to) = (time("2026-06-14T12:00Z"), time("2026-06-16T12:00Z"));
        assert!(states.worst(from, to) >= Some(worst));
        for (at, then) in states.changes().iter().skip(1) {
            assert_eq!(states.worst(*at, *at), Some(*then));
            let second = SignedDuration::from_secs(1);
            let over = states.worst(*at - second, *at + second).unwrap();
            assert!(over >= *then && over >= states.at(*at - second).unwrap());
        }
        let quiet = states.next_no_worse(from, RaceState::Quiet).unwrap();
        assert_eq!(states.at(quiet), Some(RaceState::Quiet));
        assert!(quiet == from || states.at(from) > Some(RaceState::Quiet));
        assert_eq!(states.next_no_worse(from, RaceState::Worst), Some(from));
        assert_eq!(states.at(states.end() + SignedDuration::from_secs(1)), None);
    }
    for state in [RaceState::Quiet, RaceState::Running, RaceState::Worst] {
        assert!(met.contains(&state), "{state}");
    }
}

#[test]
fn a_race_without_conditions_is_not_known_and_not_quiet() {
    let (chart, _, flows) = &*PRACTICE;
    let mut chart = chart.clone();
    chart.races[0].runs = None;
    let tides = Tides::of(&chart).unwrap();
    assert_eq!(tides.races()[0].states(flows), None);
    chart.races[1].runs.as_mut().unwrap().station = "Nowhere".to_owned();
    let error = Tides::of(&chart).unwrap_err().to_string();
    assert_eq!(error, "the race \"Quelild Tumble\": the chart has no stream \"Nowhere\"");
}

#[test]
fn a_gate_is_open_while_its_stream_is_slow() {
    let (_, tides, flows) = &*PRACTICE;
    for gate in tides.gates() {
        let openings = gate.openings(tides, flows).unwrap();
        let open = |at| flows.at(&Tides::only(gate.station()), at).unwrap().drift < gate.limit();
        let mut minutes_open = 0;
        for [before, at, after] in minutes() {
            minutes_open += usize::from(open(at));
            if open(before) == open(after) {
                assert_eq!(openings.is_open(at), Some(open(at)), "{} at {at}", gate.name());
            }
            let next = openings.next_open(at).unwrap();
            assert!(next >= at && (next == at) == openings.is_open(at).unwrap());
        }
        // Springs: shut most of the time, yet open four times a day.
        assert!((200..1440).contains(&minutes_open), "{}: {minutes_open} min", gate.name());
        let day = openings.between(time("2026-06-15T00:00Z"), time("2026-06-16T00:00Z"));
        assert!((3..=5).contains(&day.len()), "{}: {day:?}", gate.name());
    }
}

#[test]
fn a_sill_wants_its_height_as_well() {
    let (chart, tides, flows) = &*PRACTICE;
    let mut chart = chart.clone();
    let sill = |port: &str| Some(Sill { port: port.to_owned(), least_m: 3.1 });
    chart.gates[0].sill = sill("Port Ustorna");
    chart.gates[1].sill = sill("Galamond Quay");
    let with = Tides::of(&chart).unwrap();
    let least = Height::above_datum(3.1 * Length::METRE);
    for (gate, port) in [(0, "Port Ustorna"), (1, "Galamond Quay")] {
        let open = with.gates()[gate].openings(&with, flows).unwrap();
        let slow = tides.gates()[gate].openings(tides, flows).unwrap();
        let gauge = with.gauge(port).unwrap();
        let curve = gauge.curve(time("2026-06-14T00:00Z"), time("2026-06-17T00:00Z")).unwrap();
        let high = |at| curve.height(at).unwrap() >= least;
        for [before, at, after] in minutes() {
            if high(before) == high(after) && slow.is_open(before) == slow.is_open(after) {
                let both = high(at) && slow.is_open(at).unwrap();
                assert_eq!(open.is_open(at), Some(both), "{port} at {at}");
            }
        }
        assert!(open.stretches().len() < slow.stretches().len());
    }
    chart.gates[2].sill = sill("Nowhere");
    let error = Tides::of(&chart).unwrap_err().to_string();
    assert_eq!(error, "the gate \"Cadaran Sluice\": the chart has no port \"Nowhere\"");
}

/// A place in or about Jasinna Overfalls and the gate at Farum Gut, by turns.
fn places() -> impl Strategy<Value = (Point, Point)> {
    let about =
        |x: f64, y: f64, far: f64| (x - far..x + far, y - far..y + far).prop_map(Point::from);
    prop_oneof![
        (about(665_400.0, 359_800.0, 1200.0), about(665_400.0, 359_800.0, 1200.0)),
        (about(673_840.0, 352_500.0, 250.0), about(673_840.0, 352_500.0, 250.0)),
    ]
}

proptest! {
    #[test]
    fn a_line_is_in_a_race_where_its_places_are((a, b) in places()) {
        let (_, tides, _) = &*PRACTICE;
        let along = tides.races_along(a, b);
        prop_assert!(along.windows(2).all(|pair| pair[0].1.0 <= pair[1].1.0));
        for (number, race) in tides.races().iter().enumerate() {
            for place in 0..=200 {
                let part = f64::from(place) / 200.0;
                let mine = along.iter().filter(|met| met.0 == number).map(|met| met.1);
                let near = |cut: f64| (cut - part).abs() < 1e-9 && cut > 0.0 && cut < 1.0;
                if mine.clone().any(|(from, to)| near(from) || near(to)) {
                    continue;
                }
                let within = mine.clone().any(|(from, to)| (from..=to).contains(&part));
                prop_assert_eq!(within, race.edge().encloses(a + (b - a) * part));
            }
        }
    }

    /// However a way is parted into lines, it crosses a gate as often.
    #[test]
    fn a_gate_is_crossed_once_by_lines_in_a_row((a, b) in places(), part in 0.0..=1.0) {
        let (_, tides, _) = &*PRACTICE;
        let whole = tides.gates_along(a, b);
        for (number, at) in &whole {
            let gate = &tides.gates()[*number];
            let (one, other) = gate.line();
            let cross = a + (b - a) * *at;
            let off = (other - one).x * (cross - one).y - (other - one).y * (cross - one).x;
            prop_assert!(off.abs() / (other - one).x.hypot((other - one).y) < 1e-6);
        }
        // Parted anywhere, at the gate itself, and there and back from it.
        let ends = whole.iter().map(|met| met.1).chain([part]);
        for part in ends {
            let between = a + (b - a) * part;
            let parts = tides.gates_along(a, between).len() + tides.gates_along(between, b).len();
            prop_assert_eq!(parts, whole.len());
            let turned = tides.gates_along(b, between).len() + tides.gates_along(between, a).len();
            prop_assert_eq!(turned, whole.len());
        }
    }
}

#[test]
fn a_line_past_the_end_of_a_gate_is_not_through_it() {
    let (chart, ..) = &*PRACTICE;
    let gate = Gate {
        line: (Point { x: 0.0, y: 0.0 }, Point { x: 100.0, y: 0.0 }),
        ..chart.gates[0].clone()
    };
    let tides = &PRACTICE.1;
    let gate = TidalGate::of(tides.gauges(), tides.stations(), &gate).unwrap();
    let meets = |x: f64, from: f64, to: f64| gate.along(Point { x, y: from }, Point { x, y: to });
    assert_eq!(meets(40.0, -30.0, 10.0), Some(0.75));
    assert_eq!(meets(101.0, -30.0, 10.0), None);
    assert_eq!(meets(40.0, 5.0, 10.0), None);
    // Along the gate, and standing still, nothing is crossed.
    assert_eq!(gate.along(Point { x: -9.0, y: 0.0 }, Point { x: 9.0, y: 0.0 }), None);
    assert_eq!(meets(40.0, 0.0, 0.0), None);
}
