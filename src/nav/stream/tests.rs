//! Streams: knots, turns, limits, and the rules.

use jiff::{SignedDuration, Timestamp};

use super::*;
use crate::tide::{Constituent, PhaseLag};
use crate::triangle::Stream;
use crate::{Bearing, Speed};

fn time(text: &str) -> Timestamp {
    text.parse().unwrap()
}

fn knots(knots: f64) -> Speed {
    Speed::from_knots(knots).unwrap()
}

fn stream(set: f64, drift: f64) -> Stream {
    Stream { set: Bearing::from_degrees(set).unwrap(), drift: knots(drift) }
}

fn minutes(minutes: i64) -> SignedDuration {
    SignedDuration::from_mins(minutes)
}

/// North-going to +0, then south-going: a strait that turns half an hour after high water.
fn strait() -> HourlyStation {
    let row = |hour: i8| {
        // A stream of 3 kn at springs and 1.5 at neaps, by a sine of 12 hours.
        let rate = 3.0 * (std::f64::consts::PI * (f64::from(hour) - 0.5) / 6.0).sin();
        let set = if rate < 0.0 { 10.0 } else { 190.0 };
        let rows = HourlyRow {
            set: Bearing::from_degrees(set).unwrap(),
            springs: knots(rate.abs()),
            neaps: knots(rate.abs() / 2.0),
        };
        (hour, rows)
    };
    HourlyStation::new(&(-6..=6).map(row).collect::<Vec<_>>()).unwrap()
}

fn waters(factor: f64) -> [HighWater; 2] {
    ["2026-06-14T06:00Z", "2026-06-14T18:25Z"].map(|at| HighWater { at: time(at), factor })
}

#[test]
fn rows_stand_at_their_hours_and_by_the_days_factor() {
    for (factor, times) in [(1.0, 1.0), (0.0, 0.5), (0.5, 0.75), (1.2, 1.1)] {
        let run = strait().run(&waters(factor));
        let stream = run.at(time("2026-06-14T09:00Z")).unwrap();
        let expected = 3.0 * times * (std::f64::consts::PI * 2.5 / 6.0).sin();
        assert!((stream.drift.as_knots() - expected).abs() < 1e-12, "{factor}");
        assert!((stream.set.as_degrees() - 190.0).abs() < 1e-9);
    }
    // Rates end at nothing, and do not turn round.
    let far = strait().run(&waters(-3.0));
    assert!(far.at(time("2026-06-14T09:00Z")).unwrap().drift.as_knots() < 1e-12);
}

#[test]
fn the_gap_between_two_tides_is_bridged() {
    let run = strait().run(&waters(1.0));
    assert_eq!(run.start(), Some(time("2026-06-14T00:00Z")));
    assert_eq!(run.end(), Some(time("2026-06-15T00:25Z")));
    let mut at = run.start().unwrap();
    let mut before = run.at(at).unwrap();
    while at < run.end().unwrap() {
        at += minutes(1);
        let after = run.at(at).unwrap();
        // No jump: the quickest change is 3 kn · π / 6 h.
        let apart = (after.drift.as_knots() - before.drift.as_knots()).abs();
        assert!(apart < 0.03, "{at}: {before:?} {after:?}");
        before = after;
    }
    assert_eq!(run.at(time("2026-06-13T23:59Z")), None);
    assert_eq!(run.at(time("2026-06-15T00:26Z")), None);
}

#[test]
fn a_direction_goes_the_short_way_over_north() {
    let row = |set: f64| HourlyRow {
        set: Bearing::from_degrees(set).unwrap(),
        springs: knots(1.0),
        neaps: knots(1.0),
    };
    let rows: Vec<_> =
        (-6..=6).map(|hour| (hour, row(if hour < 0 { 350.0 } else { 20.0 }))).collect();
    let run = HourlyStation::new(&rows).unwrap().run(&waters(1.0));
    let middle = run.at(time("2026-06-14T05:30Z")).unwrap();
    assert!((middle.set.as_degrees() - 5.0).abs() < 1e-9, "{middle:?}");
    // The chord's middle, which is shorter than either end.
    assert!((middle.drift.as_knots() - 15.0_f64.to_radians().cos()).abs() < 1e-12);
}

#[test]
fn turns_slack_and_greatest_rates() {
    let run = strait().run(&waters(1.0));
    let axis = run.main_axis().unwrap().as_degrees();
    assert!((axis - 10.0).abs() < 1e-9, "{axis}");
    let turns = run.turns();
    // Half an hour after each high water, and six hours before and after that; of the sine's chords.
    assert_eq!(turns.len(), 4, "{turns:?}");
    assert_eq!(turns[1].at, time("2026-06-14T06:30Z"));
    assert!((turns[1].then.as_degrees() - 190.0).abs() < 1e-9);
    for turn in &turns {
        assert!(run.at(turn.at).unwrap().drift.as_knots() < 1e-6);
    }
    // The chord from -0.776 to 0.776 kn in an hour is under 0.5 kn for 60 · 0.5 / 0.776 minutes.
    let slack = run.under(knots(0.5));
    assert_eq!(slack.len(), 4);
    let chord = 3.0 * (std::f64::consts::PI / 12.0).sin();
    let wide = slack[1].to.duration_since(slack[1].from).as_secs_f64();
    assert!((wide - 3600.0 * 0.5 / chord).abs() < 1e-3, "{wide}");
    assert_eq!(slack[1].least_at, time("2026-06-14T06:30Z"));
    assert!(slack[1].least.as_knots() < 1e-9);
    for limit in [0.1, 1.0, 2.0] {
        for under in run.under(knots(limit)) {
            for end in [under.from, under.to] {
                if Some(end) != run.start() && Some(end) != run.end() {
                    let rate = run.at(end).unwrap().drift.as_knots();
                    assert!((rate - limit).abs() < 1e-6, "{limit} {under:?}");
                }
            }
        }
    }
    assert_eq!(run.under(knots(9.0)).len(), 1, "all the time");
    let greatest = run.greatest();
    assert_eq!(greatest.len(), 5);
    assert!(
        (greatest[2].stream.drift.as_knots() - 3.0 * (std::f64::consts::PI * 2.5 / 6.0).sin())
            .abs()
            < 1e-9
    );
}

#[test]
fn rows_that_are_missing_twice_or_beyond_are_named() {
    let row = HourlyRow { set: Bearing::NORTH, springs: knots(2.0), neaps: knots(1.0) };
    let said = |hours: &[i8]| {
        let rows: Vec<_> = hours.iter().map(|&hour| (hour, row)).collect();
        HourlyStation::new(&rows).unwrap_err().to_string()
    };
    assert_eq!(
        said(&[-6, -5, -4, -3, -2, -1, 0, 1, 2, 4, 5, 6]),
        "no row for the hour +3; a station has one for each hour from -6 to +6 about high water"
    );
    assert_eq!(said(&[0, 0]), "two rows for the hour +0; one is needed");
    assert_eq!(
        said(&[7]),
        "a row for the hour +7; the hours are those from -6 to +6 about high water"
    );
}

#[test]
fn one_constituent_along_an_axis_in_closed_form() {
    let s2 = StreamHarmonic {
        constituent: Constituent::named("S2").unwrap(),
        rate: knots(2.0),
        phase: PhaseLag::from_degrees(90.0).unwrap(),
    };
    let axis = Bearing::from_degrees(40.0).unwrap();
    let still = stream(0.0, 0.0);
    let station = AxisStation::new("narrows", axis, &[s2], &[], still).unwrap();
    let run = station.run(time("2026-06-14T00:01Z"), time("2026-06-15T00:01Z")).unwrap();
    // Greatest at 3 h, turning at 6 h, and so on.
    let expected = ["06:00", "12:00", "18:00"];
    let turns = run.turns();
    assert_eq!(turns.len(), 4, "and midnight: {turns:?}");
    for (turn, clock) in turns.iter().zip(expected) {
        let at = time(&format!("2026-06-14T{clock}Z"));
        assert!(turn.at.duration_since(at).abs() < SignedDuration::from_secs(2), "{turn:?}");
    }
    for greatest in run.greatest() {
        assert!(greatest.stream.drift.as_knots() <= 2.0 + 1e-9);
    }
    let three = run.at(time("2026-06-14T03:00Z")).unwrap();
    assert!((three.drift.as_knots() - 2.0).abs() < 1e-3);
    assert!((three.set.as_degrees() - 40.0).abs() < 1e-6);
    // As much across, a quarter later: round the clock at one rate.
    let across = StreamHarmonic { phase: PhaseLag::from_degrees(180.0).unwrap(), ..s2 };
    let round = AxisStation::new("open", axis, &[s2], &[across], still).unwrap();
    let run = round.run(time("2026-06-14T00:00Z"), time("2026-06-14T12:00Z")).unwrap();
    for hour in 0..12 {
        let at = time(&format!("2026-06-14T{hour:02}:20Z"));
        assert!((run.at(at).unwrap().drift.as_knots() - 2.0).abs() < 1e-3);
    }
    // Clockwise: a quarter after its greatest along the axis it sets to the right of it.
    let six = run.at(time("2026-06-14T06:00Z")).unwrap();
    assert!((six.set.as_degrees() - 130.0).abs() < 0.1, "{six:?}");
    // A mean stream goes on top.
    let station = AxisStation::new("narrows", axis, &[s2], &[], stream(40.0, 0.5)).unwrap();
    let run = station.run(time("2026-06-14T00:00Z"), time("2026-06-14T12:00Z")).unwrap();
    assert!((run.at(time("2026-06-14T06:00Z")).unwrap().drift.as_knots() - 0.5).abs() < 1e-6);
}

/// Common practice, no published source.
#[test]
fn rules_of_thumb_between_two_turns() {
    for (rule, parts) in [
        (Rule::FiftyNinety, [0.0, 0.5, 0.9, 1.0, 0.9, 0.5, 0.0]),
        (Rule::Thirds, [0.0, 1.0 / 3.0, 2.0 / 3.0, 1.0, 2.0 / 3.0, 1.0 / 3.0, 0.0]),
    ] {
        let station = GreatestRates {
            first: stream(90.0, 4.0),
            first_begins: minutes(-60),
            second: stream(275.0, 2.0),
            second_begins: minutes(300),
            rule,
        };
        let run = station.run(&waters(1.0).map(|water| water.at));
        for (sixth, part) in parts.into_iter().enumerate() {
            let at = time("2026-06-14T05:00Z") + minutes(60) * i32::try_from(sixth).unwrap();
            let found = run.at(at).unwrap();
            assert!((found.drift.as_knots() - 4.0 * part).abs() < 1e-9, "{rule:?} {sixth}");
        }
        // The other way from 11:00 to the next turn at 17:25.
        let found = run.at(time("2026-06-14T14:12:30Z")).unwrap();
        assert!((found.drift.as_knots() - 2.0).abs() < 1e-9);
        assert!((found.set.as_degrees() - 275.0).abs() < 1e-9);
    }
}

#[test]
fn a_ports_own_high_waters_with_their_factors() {
    let harmonic = |name: &str, metres: f64, phase: f64| crate::tide::Harmonic {
        constituent: Constituent::named(name).unwrap(),
        amplitude: crate::Length::from_metres(metres).unwrap(),
        phase: PhaseLag::from_degrees(phase).unwrap(),
    };
    let port = crate::tide::Port::new(
        "Skarv",
        crate::tide::Height::above_datum(2.0 * crate::Length::METRE),
        vec![harmonic("M2", 1.5, 100.0), harmonic("S2", 0.5, 140.0)],
    )
    .unwrap();
    let turns = port.curve(time("2026-06-01T00Z"), time("2026-07-01T00Z")).unwrap().turns();
    let waters = high_waters(&turns, port.mean_ranges().unwrap());
    let factors: Vec<f64> = waters.iter().map(|water| water.factor).collect();
    let (low, high) =
        (factors.iter().copied().fold(9.0, f64::min), factors.iter().copied().fold(-9.0, f64::max));
    // M2's node factor of the year is 1.03 or less from 1, on a range of 3 m in 2.
    assert!(low.abs() < 0.12 && (high - 1.0).abs() < 0.12, "{low} {high}");
}

#[test]
fn a_blend_is_the_sum_of_its_parts_at_every_instant() {
    let row = |_| HourlyRow {
        set: Bearing::from_degrees(90.0).unwrap(),
        springs: knots(2.0),
        neaps: knots(1.0),
    };
    let rows: Vec<_> = (-6..=6).map(|hour| (hour, row(hour))).collect();
    let east = HourlyStation::new(&rows).unwrap();
    let later = waters(1.0).map(|water| HighWater { at: water.at + minutes(17), ..water });
    let (one, other) = (strait().run(&waters(1.0)), east.run(&later));
    let blend = Run::blended(&[(0.25, &one), (0.75, &other)]);
    assert_eq!((blend.start(), blend.end()), (other.start(), one.end()));
    let parts = |stream: Stream| {
        let (sin, cos) = stream.set.as_degrees().to_radians().sin_cos();
        (stream.drift.as_knots() * sin, stream.drift.as_knots() * cos)
    };
    let mut at = blend.start().unwrap();
    while at < blend.end().unwrap() {
        let [a, b, sum] = [&one, &other, &blend].map(|run| parts(run.at(at).unwrap()));
        assert!((sum.0 - 0.25 * a.0 - 0.75 * b.0).abs() < 1e-9, "{at}");
        assert!((sum.1 - 0.25 * a.1 - 0.75 * b.1).abs() < 1e-9, "{at}");
        at += minutes(7);
    }
    assert_eq!(Run::blended(&[(1.0, &one)]), one);
    assert_eq!(Run::blended(&[]).start(), None);
}

#[test]
fn greatest_rates_by_the_days_range() {
    let station = GreatestRates {
        first: stream(90.0, 4.0),
        first_begins: minutes(-60),
        second: stream(270.0, 2.0),
        second_begins: minutes(300),
        rule: Rule::FiftyNinety,
    };
    let scaled = waters(1.0).map(|water| (water.at, 0.5));
    let run = station.run_scaled(&scaled);
    let found = run.at(time("2026-06-14T08:00Z")).unwrap();
    assert!((found.drift.as_knots() - 2.0).abs() < 1e-9, "{found:?}");
}
