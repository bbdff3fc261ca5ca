//! The tables of the ground's own water, held against the tides and streams of the chart by other ways through them.

use chart::maker::{Wishes, make};
use chart::water::Tides;
use jiff::{SignedDuration, Timestamp};
use nav::tide::Water as Turned;

use super::Water;
use super::again::{clock_after, numbers};
use crate::water::{DAY, factor};
use crate::{Kind, Level, Question, ask, seed_of};

fn waters() -> [Water; 2] {
    let wishes = Wishes { width_km: 14, height_km: 12, ..Wishes::default() };
    [Water::practice(), Water::of(make(3, &wishes).unwrap())]
}

fn instant(minute: i64) -> Timestamp {
    Timestamp::UNIX_EPOCH + SignedDuration::from_mins(minute)
}

/// Each printed height is the curve's at its minute, and half an hour before and after the water is lower, or higher.
#[test]
fn the_tables_are_the_tides_of_the_ports() {
    for water in waters() {
        let (ground, tides) = (water.ground(), Tides::of(&water.chart).unwrap());
        let mut lines = 0;
        for (table, gauge) in ground.waters().ports.iter().zip(tides.gauges()) {
            assert_eq!(table.name, gauge.name());
            for line in table.lines.iter().step_by(17).flatten() {
                let height = |minutes: i64| {
                    let at = instant(line.minute + minutes);
                    gauge.height(at).unwrap().unwrap().as_metres()
                };
                let printed = line.tenths as f64 / 10.0;
                // Half a tenth, and what a minute of rounding does at a turn.
                assert!((height(0) - printed).abs() < 0.052, "{line:?} {}", table.name);
                let high = line.water == Turned::High;
                for beside in [-30, 30] {
                    assert_eq!(height(beside) < height(0), high, "{line:?} {}", table.name);
                }
                lines += 1;
            }
        }
        assert!(lines > 20, "{lines}");
    }
}

/// At slack the chart's stream hardly runs; at each hour of a table it sets and runs as the table says.
#[test]
fn the_streams_are_slack_and_run_as_the_chart_has_them() {
    for water in waters() {
        let (ground, tides) = (water.ground(), Tides::of(&water.chart).unwrap());
        let waters = ground.waters();
        let mut hours = 0;
        for stream in &waters.streams {
            let port = &waters.ports[stream.port];
            let station = tides.station(&stream.name).unwrap();
            for tide in port.tides().step_by(29) {
                let from = instant(tide.high - DAY);
                let flows = tides.flows(from, from + SignedDuration::from_hours(48)).unwrap();
                let at = |minutes: i64| {
                    let run = flows.station(station).unwrap();
                    run.at(instant(tide.high + minutes)).unwrap()
                };
                for slack in &stream.slacks {
                    let still = at(slack.later).drift.as_knots();
                    // Another tide's slack may be half an hour off.
                    let far = if slack.later.abs() > 300 { 1.6 } else { 0.25 };
                    assert!(still < far, "{still} kn {slack:?} {}", stream.name);
                }
                let part = factor(port.ranges.unwrap(), tide.range).unwrap();
                for hour in stream.hours.iter().filter(|hour| hour.later.abs() <= 240) {
                    let said =
                        (hour.neaps as f64 + (hour.springs - hour.neaps) as f64 * part) / 10.0;
                    let runs = at(hour.later);
                    // The day's factor is that of the fall alone, the chart's that of rise and fall.
                    assert!(
                        (runs.drift.as_knots() - said).abs() < 0.1 + 0.1 * said,
                        "{said} {runs:?} {hour:?} {}",
                        stream.name
                    );
                    let turned =
                        (runs.set.as_degrees() - hour.set as f64 + 180.0).rem_euclid(360.0) - 180.0;
                    assert!(said < 0.5 || turned.abs() < 1.0, "{runs:?} {hour:?}");
                    hours += 1;
                }
            }
        }
        assert!(hours > 20, "{hours}");
    }
}

fn asked(water: &Water, kind: Kind) -> Vec<Question> {
    let ground = water.ground();
    let one = |seed: u64| ask(kind, &ground, seed_of(4, seed), Level::ALL[(seed % 3) as usize]);
    (0..300).filter_map(one).collect()
}

/// Where a chart has ports and streams the exercises are of them: the table's lines are those of the port on the day.
#[test]
fn exercises_are_of_the_charts_own_ports_and_streams() {
    let water = Water::practice();
    let ground = water.ground();
    for it in asked(&water, Kind::Twelfths) {
        let said = it.text.strip_prefix("These are the tides of ").unwrap();
        let (name, rest) = said.split_once(" on ").unwrap();
        let day = rest.split(", in UTC").next().unwrap();
        let table = ground.waters().ports.iter().find(|port| port.name == name).unwrap();
        for row in &it.given.as_ref().unwrap().rows {
            let tenths = (numbers(&row[2])[0] * 10.0).round() as i64;
            let minute = clock_after(&format!("at {}", row[1]), "at ");
            let line = table.lines.iter().flatten().find(|line| {
                let there = instant(line.minute).strftime("%-d %B %Y").to_string();
                there == day && line.minute.rem_euclid(DAY) == minute && line.tenths == tenths
            });
            assert!(line.is_some(), "{it:#?}");
        }
    }
    for kind in [Kind::Rate, Kind::Heading, Kind::Leave, Kind::Where] {
        let of_a_stream = |it: &Question| kind != Kind::Where || it.level != Level::First;
        for it in asked(&water, kind).into_iter().filter(of_a_stream) {
            let of = ground.waters().streams.iter().any(|stream| it.text.starts_with(&stream.name));
            assert!(of && it.text.contains(" 2026"), "{it:#?}");
        }
    }
}

/// What a question says of a stream at its minute is what the chart's stream does there and then.
#[test]
fn a_stream_in_a_question_sets_as_the_chart_has_it() {
    let water = Water::practice();
    let tides = Tides::of(&water.chart).unwrap();
    let mut seen = 0;
    for it in [Kind::Heading, Kind::Where].into_iter().flat_map(|kind| asked(&water, kind)) {
        let Some((name, rest)) = it.text.split_once(", ").filter(|_| it.text.contains(" UTC on "))
        else {
            continue;
        };
        let (time, rest) = rest.split_once(" UTC on ").unwrap();
        let day = rest.split(". ").next().unwrap();
        let at: jiff::civil::DateTime =
            jiff::fmt::strtime::parse("%d %B %Y %H:%M", format!("{day} {time}"))
                .unwrap()
                .to_datetime()
                .unwrap();
        let at = at.in_tz("UTC").unwrap().timestamp();
        let said = numbers(it.text.split("stream sets ").nth(1).unwrap());
        let station = tides.station(name).unwrap();
        let from = at - SignedDuration::from_hours(24);
        let flows = tides.flows(from, from + SignedDuration::from_hours(48)).unwrap();
        let runs = flows.station(station).unwrap().at(at).unwrap();
        // The hours of another tide come between the farther they are from high water.
        let off = (runs.drift.as_knots() - said[1]).abs();
        assert!(off < 0.35 + 0.15 * said[1], "{runs:?} {it:?}");
        let turned = (runs.set.as_degrees() - said[0] + 180.0).rem_euclid(360.0) - 180.0;
        assert!(turned.abs() < 1.0 || runs.drift.as_knots() < 0.7, "{runs:?} {it:?}");
        seen += 1;
    }
    assert!(seen > 300, "{seen}");
}

/// At the first level the numbers are round ones, wherever the season has any.
#[test]
fn the_first_level_is_of_round_numbers() {
    let water = Water::practice();
    let first = |kind| asked(&water, kind).into_iter().filter(|it| it.level == Level::First);
    for it in first(Kind::Twelfths) {
        let rows = &it.given.as_ref().unwrap().rows;
        let range = (numbers(&rows[0][2])[0] - numbers(&rows[1][2])[0]).abs() * 10.0;
        assert_eq!(range.round() as i64 % 6, 0, "{it:#?}");
    }
    for it in first(Kind::Rate) {
        assert!(it.steps[0].contains("mean "), "{it:#?}");
    }
}

#[test]
fn a_chart_without_ports_has_tides_all_the_same() {
    let mut water = Water::practice();
    water.chart.ports.clear();
    water.chart.streams.clear();
    water.chart.races.clear();
    water.chart.gates.clear();
    for kind in [Kind::Twelfths, Kind::Rate, Kind::Heading, Kind::Leave, Kind::Where] {
        for it in asked(&water, kind) {
            assert!(!it.text.contains("2026"), "{it:#?}");
            super::by_kind::found_again(&it, &water.ground());
        }
    }
}
