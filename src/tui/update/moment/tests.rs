//! The moment by keys, by the pointer and by itself.

use jiff::{SignedDuration, Timestamp};
use nav::tide::Water;

use crate::action::Act;
use crate::driver::Driver;
use crate::job::Task;
use crate::state::Overlay;
use crate::testing::{driver, tidal};
use crate::{Command, Msg, Wanted, layout, update};

fn at(driver: &Driver) -> Timestamp {
    driver.state.moment.at()
}

/// How many minutes these keys move the moment.
fn moved(driver: &mut Driver, keys: &str) -> i64 {
    let before = at(driver);
    driver.keys(keys).unwrap();
    at(driver).duration_since(before).as_mins()
}

fn message(driver: &Driver) -> &str {
    driver.state.message.as_ref().map_or("", |message| &message.text)
}

#[test]
fn it_begins_at_the_departure_and_moves_by_steps() {
    let mut driver = tidal(80, 24);
    let departs = driver.state.document.route().departure.clone().unwrap();
    assert_eq!(at(&driver), departs.moment().timestamp());
    assert_eq!(moved(&mut driver, "> > <"), 10);
    assert_eq!(moved(&mut driver, "}*30"), 1800);
    assert_eq!(moved(&mut driver, "{"), -60);
    driver.keys("@").unwrap();
    assert_eq!(at(&driver), departs.moment().timestamp());
    driver.keys("}*3 D Ctrl-U '2026-07-01 08:15' Enter").unwrap();
    let departs = driver.state.document.route().departure.clone().unwrap();
    assert_eq!(at(&driver), departs.moment().timestamp(), "a departure set is looked at");
    assert!(driver.state.water_day().unwrap().ports()[0].day.turns.iter().all(|turn| {
        turn.at.duration_since(at(&driver)).abs() < SignedDuration::from_hours(24)
    }));
}

#[test]
fn it_goes_from_water_to_water_at_the_port_and_to_the_streams_turn() {
    let mut driver = tidal(80, 24);
    let mut last = at(&driver);
    let mut waters = Vec::new();
    for _ in 0..9 {
        driver.keys(")").unwrap();
        let (port, day) = (driver.state.port().unwrap(), driver.state.water_day().unwrap());
        let turn = day.ports()[port].turns.iter().find(|turn| turn.at == at(&driver)).unwrap();
        assert!(at(&driver) > last);
        last = at(&driver);
        waters.push(turn.water);
        let word = if turn.water == Water::High { "high water" } else { "low water" };
        assert!(message(&driver).contains(word), "{}", message(&driver));
    }
    assert!(waters.windows(2).all(|pair| pair[0] != pair[1]), "none is left out: {waters:?}");
    driver.keys("(").unwrap();
    assert!(at(&driver) < last);
    // At a station the stream turns; on land nothing is known.
    let station = driver.state.tides().unwrap().stations()[0].at();
    driver.state.cursor = station;
    driver.keys("@ ;").unwrap();
    let still = driver.state.flows().unwrap().at(driver.state.shares_here().unwrap(), at(&driver));
    assert!(still.unwrap().drift.as_knots() < 0.1, "{still:?}");
    driver.state.cursor = driver.state.chart.land[0].shore.0[0];
    driver.keys(";").unwrap();
    assert_eq!(message(&driver), "nothing is known of the stream at the cursor");
}

#[test]
fn it_plays_by_ticks_until_a_key_of_time() {
    let mut driver = tidal(80, 24);
    let start = at(&driver);
    driver.send(Msg::Tick);
    assert_eq!(at(&driver), start, "it stands until it is played");
    driver.keys("P").unwrap();
    assert!(driver.state.moment.is_playing());
    driver.send(Msg::Tick);
    driver.send(Msg::Tick);
    assert_eq!(at(&driver).duration_since(start).as_mins(), 20);
    driver.keys("y Left A").unwrap();
    assert!(driver.state.moment.is_playing(), "what is no key of time does not stop it");
    driver.keys(">").unwrap();
    assert!(!driver.state.moment.is_playing());
    driver.keys("P P").unwrap();
    assert!(!driver.state.moment.is_playing());
    driver.keys("P q").unwrap();
    assert!(driver.left);
}

#[test]
fn now_is_asked_of_the_clock() {
    let mut state = tidal(80, 24).state;
    assert_eq!(update(&mut state, Msg::Act(Act::Now)), [Command::Clock(Wanted::Water)]);
    let now: Timestamp = "2026-06-20T12:34:56Z".parse().unwrap();
    update(&mut state, Msg::Clock(Wanted::Water, now));
    assert_eq!(state.moment.at(), now);
    assert_eq!(state.moment_on_clock().date(), jiff::civil::date(2026, 6, 20));
}

#[test]
fn ports_are_told_of_in_turn() {
    let mut driver = tidal(80, 24);
    let nearest = driver.state.port().unwrap();
    let count = driver.state.tides().unwrap().gauges().len();
    for port in 0..count {
        driver.keys("Y").unwrap();
        assert_eq!(driver.state.port(), Some(port));
    }
    driver.keys("Y").unwrap();
    assert_eq!(driver.state.port(), Some(nearest));
    assert!(message(&driver).contains("nearest"));
}

#[test]
fn beyond_the_years_of_the_tides_nothing_is_told_and_nothing_breaks() {
    let mut driver = tidal(80, 24);
    for far in [Timestamp::MAX, Timestamp::MIN, "2101-05-01T00Z".parse().unwrap()] {
        driver.send(Msg::Clock(Wanted::Water, far));
        assert!(driver.state.water_day().is_none());
        assert!(driver.state.arrows().is_empty() && driver.state.covered().is_empty());
        driver.keys("P > < } ) ( ; y Esc").unwrap();
        driver.send(Msg::Tick);
        driver.buffer(&crate::theme::Theme::default());
    }
    driver.keys("@").unwrap();
    assert!(driver.state.water_day().is_some());
}

#[test]
fn a_click_on_the_curve_and_a_drag_go_to_that_time_and_the_wheel_steps() {
    for (width, height) in [(200, 60), (80, 24)] {
        let mut driver = tidal(width, height);
        let layout = driver.state.layout();
        let water = if layout.water.is_empty() { layout.folded } else { layout.water };
        assert_eq!(moved(&mut driver, &format!("WheelDown@{},{}", water.x, water.y)), 10);
        driver.keys(&format!("Click@{},{}", water.x, water.y)).unwrap();
        assert_eq!(driver.state.overlays, [Overlay::Tide]);
        let plot = layout::tide_plot(layout::overlay(driver.state.size, &Overlay::Tide).rows);
        driver.keys(&format!("Click@{},{}", plot.x, plot.y + 2)).unwrap();
        let (from, to) = {
            let day = &driver.state.water_day().unwrap().ports()[0].day;
            (day.from, day.to)
        };
        assert_eq!(at(&driver), from);
        let (middle, y) = (plot.x + plot.width / 2, plot.y + 3);
        driver.keys(&format!("Drag@{},{y}>{middle},{y}", plot.x)).unwrap();
        assert!(at(&driver).duration_since(from).as_hours().abs_diff(12) <= 1);
        driver.keys(&format!("Drag@{middle},{y}>{},{y}", width - 1)).unwrap();
        assert!(at(&driver) < to && to.duration_since(at(&driver)).as_mins() <= 30);
        assert_eq!(moved(&mut driver, &format!("WheelUp@{middle},{y}")), -10);
        driver.keys("Click@0,0").unwrap();
        if (width, height) == (200, 60) {
            assert!(driver.state.overlays.is_empty(), "a press beside it closes it");
        }
    }
}

#[test]
fn the_streams_in_sight_are_asked_for_once_and_follow_the_view() {
    let mut state = tidal(120, 40).state;
    assert!(state.unknown_nodes().is_empty() && state.arrows().len() > 50);
    assert!(update(&mut state, Msg::Act(Act::TimeOn)).is_empty(), "another time asks for nothing");
    let asked = update(&mut state, Msg::Act(Act::ZoomIn));
    assert!(
        matches!(asked.as_slice(), [Command::Compute(job)] if job.ticket().task == Task::Field)
    );
    assert!(update(&mut state, Msg::Act(Act::ZoomIn)).is_empty(), "one request at a time");
    state.work.drop(Task::Field);
    let hidden = update(&mut state, Msg::Act(Act::StreamArrows));
    assert!(hidden.is_empty() && state.arrows().is_empty());
    assert_eq!(update(&mut state, Msg::Act(Act::StreamArrows)).len(), 1);
}

#[test]
fn looking_for_streams_is_given_up_by_hiding_them() {
    let mut state = tidal(120, 40).state;
    let asked = update(&mut state, Msg::Act(Act::ZoomIn));
    let [Command::Compute(job)] = asked.as_slice() else { panic!() };
    update(&mut state, Msg::Working { ticket: job.ticket(), done: None });
    let commands = update(&mut state, Msg::Act(Act::Back));
    assert_eq!(commands, [Command::Abandon(Task::Field)]);
    assert!(!state.settings.streams);
}

#[test]
fn drying_ground_is_covered_by_the_tide_and_comes_out_again() {
    let mut driver = tidal(80, 24);
    let mut counts = Vec::new();
    for _ in 0..2 {
        driver.keys(")").unwrap();
        let covered = driver.state.covered();
        assert_eq!(covered.len(), driver.state.chart.drying.len());
        counts.push(covered.iter().filter(|it| **it).count());
    }
    assert!(counts[0].abs_diff(counts[1]) > driver.state.chart.drying.len() / 4, "{counts:?}");
    let index = driver.state.covered().iter().position(|it| *it).unwrap();
    let edge = &driver.state.chart.drying[index].edge;
    let inside =
        edge.0.iter().copied().reduce(|sum, point| sum + point).unwrap() / edge.0.len() as f64;
    if edge.encloses(inside)
        && driver.state.chart.drying.iter().filter(|it| it.edge.encloses(inside)).count() == 1
    {
        assert!(driver.state.stand_at(inside).unwrap().over_m > 0.0);
    }
}

#[test]
fn a_chart_without_tides_refuses_with_a_word() {
    let mut driver = driver(80, 24);
    assert!(driver.state.layout().water.is_empty());
    for key in ["<", ">", "{", "}", "(", ")", ";", "@", "N", "P", "y", "Y", "A"] {
        driver.keys(key).unwrap();
        assert_eq!(message(&driver), "the chart has no tides", "{key}");
    }
    assert!(driver.state.overlays.is_empty() && driver.state.arrows().is_empty());
}

#[test]
fn tides_that_cannot_be_told_say_why_and_the_rest_goes_on() {
    let mut chart = chart::practice().unwrap();
    let chart::model::PortTide::Constants { constituents, .. } = &mut chart.ports[0].tide else {
        panic!()
    };
    constituents[0].name = "MX2".to_owned();
    let before = tidal(80, 24).state;
    let now = before.moment_on_clock();
    let mut driver = Driver::new(crate::State::new(
        before.size,
        std::sync::Arc::new(chart),
        before.document,
        before.keymap,
        &now,
    ));
    assert!(message(&driver).contains("MX2"), "{}", message(&driver));
    driver.keys("y").unwrap();
    assert!(message(&driver).contains("MX2") && driver.state.overlays.is_empty());
    driver.keys("Enter Right*9 Enter").unwrap();
    assert_eq!(driver.state.document.route().points.len(), 2);
}
