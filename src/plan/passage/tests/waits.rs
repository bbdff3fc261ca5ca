//! Waits, gates, races and where a passage comes to nothing.

use chart::water::RaceState;
use jiff::SignedDuration;

use super::lone::{Lone, gate, race};
use super::practice::instant;
use crate::passage::{HaltWhy, WaitFor};
use crate::{Passage, Route};

const WAIT: i64 = 240;

fn over_the_bar() -> (Lone, Route) {
    let lone = Lone::tidal_with(90.0, 3.0, |chart| chart.gates.push(gate(1.0)));
    let route = lone.route(&[(-2_500.0, 0.0), (2_500.0, 0.0)], "4 kn");
    (lone, route)
}

/// The same at every quarter of an hour of a tide, with so many minutes to wait.
fn through_a_tide(lone: &Lone, route: &Route, minutes: i64) -> Vec<Passage> {
    let at = |quarter: i64| {
        lone.passage(
            route,
            instant("2026-06-14T00:00Z") + SignedDuration::from_mins(15 * quarter),
            minutes,
        )
    };
    (0..50).map(at).collect()
}

#[test]
fn a_gate_is_waited_for_at_the_point_before_it() {
    let (lone, route) = over_the_bar();
    let (mut waited, mut passed) = (0, 0);
    for passage in through_a_tide(&lone, &route, WAIT) {
        let Some(leg) = passage.legs.first() else { continue };
        let [met] = leg.gates.as_slice() else { panic!("{leg:?}") };
        assert_eq!((&*met.name, met.open), ("The Narrows", Some(true)));
        passed += 1;
        if leg.waited.is_zero() {
            assert_eq!(leg.waited_for, None);
            continue;
        }
        waited += 1;
        assert_eq!(leg.waited_for, Some(WaitFor::Gate("The Narrows".into())));
        assert!(leg.waited <= SignedDuration::from_mins(WAIT));
        // It comes to the gate as it opens: the stream there is down to a knot, and a little before it
        // was more.
        let flows = lone.tides.flows(met.at - SignedDuration::from_hours(9), met.at).unwrap();
        let rate = |seconds| {
            let at = met.at - SignedDuration::from_secs(seconds);
            flows.at(&chart::water::Tides::only(0), at).unwrap().drift.as_knots()
        };
        assert!((0.98..1.001).contains(&rate(0)) && rate(30) > 1.0, "{} {}", rate(0), rate(30));
        assert_eq!(leg.departs - leg.waited, passage.departs);
        // While it waits the group is at the point.
        let waiting = passage.at(passage.departs + leg.waited / 2).unwrap();
        assert_eq!(waiting, route.points[0].at);
    }
    assert!(waited > 10 && passed > waited, "{waited} of {passed}");
}

#[test]
fn without_time_to_wait_a_shut_gate_is_the_end_of_it() {
    let (lone, route) = over_the_bar();
    let course = lone.course(&route);
    let mut shut = 0;
    for passage in through_a_tide(&lone, &route, 0) {
        let Some(halt) = &passage.halt else {
            assert!(passage.legs[0].gates[0].open == Some(true));
            continue;
        };
        if let HaltWhy::Shut { opens, .. } = &halt.why {
            shut += 1;
            assert!(opens.unwrap() > halt.at);
            assert!((halt.along.as_metres() - 2_500.0).abs() < 5.0, "{:?}", halt.along);
            let words = halt.words(&course);
            assert!(
                words.starts_with("leg 1 comes to The Narrows at ")
                    && words.contains(", when it is shut, 2.5 km from point 1; it opens at "),
                "{words}"
            );
        }
    }
    assert!(shut > 10, "{shut}");
}

#[test]
fn a_stream_that_stops_the_boat_is_waited_for() {
    let lone = Lone::tidal(90.0, 3.0);
    let route = lone.route(&[(-1_500.0, 0.0), (1_500.0, 0.0), (1_500.0, 1_000.0)], "2 kn");
    let course = lone.course(&route);
    let (mut waited, mut halted) = (0, 0);
    for passage in through_a_tide(&lone, &route, WAIT) {
        if let Some(leg) = passage.legs.first().filter(|leg| !leg.waited.is_zero()) {
            assert_eq!(leg.waited_for, Some(WaitFor::Stream));
            // A minute sooner it does not get there.
            let sooner = passage.departs + leg.waited - SignedDuration::from_secs(2);
            assert!(lone.passage(&route, sooner, 0).halt.is_some());
            waited += 1;
        }
    }
    for passage in through_a_tide(&lone, &route, 0) {
        let Some(halt) = &passage.halt else { continue };
        let words = halt.words(&course);
        match &halt.why {
            HaltWhy::NoWay(Some(stream)) => {
                assert!(stream.drift.as_knots() > 1.89, "{words}");
                assert!(words.contains("makes no way against"), "{words}");
            }
            HaltWhy::CannotHold(Some(stream)) => {
                assert!(stream.drift.as_knots() > 1.99 && halt.leg == 1, "{words}");
                assert!(words.contains("leg 2 cannot hold its line across"), "{words}");
            }
            other => panic!("{other:?}"),
        }
        // What comes after is not known.
        assert_eq!(passage.legs.len(), halt.leg);
        halted += 1;
    }
    assert!(waited > 5 && halted > 20, "{waited} {halted}");
}

#[test]
fn a_race_is_met_in_the_state_that_it_is_in() {
    let lone = Lone::tidal_with(90.0, 3.0, |chart| chart.races.push(race(-400.0, 700.0, 2.0)));
    let route = lone.route(&[(-2_000.0, 0.0), (2_000.0, 0.0)], "4 kn");
    let span = SignedDuration::from_hours(12);
    let mut seen = std::collections::BTreeSet::new();
    for passage in through_a_tide(&lone, &route, 0) {
        let leg = &passage.legs[0];
        let [met] = leg.races.as_slice() else { panic!("{leg:?}") };
        // Its edges are where they are on the ground, within what the grid's scale makes of them.
        for (when, east) in [(met.from, -400.0), (met.to, 700.0)] {
            let off = nav::geodesic::inverse(passage.at(when).unwrap(), lone.at((east, 0.0)));
            assert!(off.distance.as_metres() < 3.0, "{off:?}");
        }
        let flows = lone.tides.flows(met.from - span, met.to + span).unwrap();
        let rate = |at| flows.at(&chart::water::Tides::only(0), at).unwrap().drift.as_knots();
        let seconds = met.to.duration_since(met.from).as_secs();
        let rates = (0..=seconds).map(|second| rate(met.from + SignedDuration::from_secs(second)));
        let most = rates.fold(0.0, f64::max);
        let expected = if most > 2.0 {
            RaceState::Worst
        } else if most >= 0.5 {
            RaceState::Running
        } else {
            RaceState::Quiet
        };
        if (most - 2.0).abs() > 1e-3 && (most - 0.5).abs() > 1e-3 {
            assert_eq!(met.state, Some(expected), "{most}");
        }
        seen.insert(expected);
    }
    assert!(seen.len() >= 2, "{seen:?}");
}

#[test]
fn stops_are_kept_and_clock_marks_lie_on_the_way() {
    let lone = Lone::tidal(90.0, 1.0);
    let mut route = lone.route(&[(-2_000.0, 0.0), (1_000.0, 300.0), (2_500.0, 1_800.0)], "3 kn");
    route.points[0].stop = SignedDuration::from_mins(50);
    route.points[1].stop = SignedDuration::from_mins(25);
    let departs = instant("2026-06-14T09:07Z");
    let passage = lone.passage(&route, departs, 0);
    // The day begins at the first point: a stop there is none.
    assert_eq!(passage.legs[0].departs, departs);
    let stayed = passage.legs[1].departs.duration_since(passage.legs[0].arrives);
    assert_eq!(stayed, SignedDuration::from_mins(25));
    let zone = jiff::tz::TimeZone::UTC;
    let marks = passage.marks(SignedDuration::from_mins(15), &zone);
    assert_eq!(marks[0].when, instant("2026-06-14T09:15Z"));
    for mark in &marks {
        assert_eq!(mark.when.as_second() % 900, 0);
        assert_eq!(passage.at(mark.when), Some(mark.at));
        let leg = passage.legs.iter().find(|leg| (leg.departs..=leg.arrives).contains(&mark.when));
        assert!(leg.is_some(), "not while it stays: {mark:?}");
    }
    assert!(marks.len() > 2, "{marks:?}");
    assert_eq!(passage.at(departs - SignedDuration::from_secs(1)), None);
    assert_eq!(passage.at(passage.ends() + SignedDuration::from_secs(1)), None);
}
