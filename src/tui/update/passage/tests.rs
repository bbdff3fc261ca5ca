//! The passage and the departure strip, by keys.

use chart::Point;
use plan::depart::Verdict;
use plan::{Limit, Steering};

use crate::action::Context;
use crate::driver::Driver;
use crate::job::{Outcome, Task, Ticket, Unwatched};
use crate::state::{FORTNIGHT, Overlay, StartsBox, StartsGrid};
use crate::testing::tidal_island;
use crate::{Command, Gesture, Msg, Pointer, State, layout, update};

/// A leg of 8 km northwards along the stream on the west side of the island, and one on from there.
fn along_the_stream(width: u16, height: u16) -> Driver {
    let mut driver = tidal_island(width, height);
    for (x, y) in [(506_000.0, 5_506_000.0), (506_000.0, 5_514_000.0), (509_000.0, 5_514_000.0)] {
        driver.state.cursor = Point { x, y };
        driver.keys("Enter").unwrap();
    }
    driver.keys("Esc ]").unwrap();
    driver
}

fn keys(driver: &mut Driver, text: &str) {
    driver.keys(text).unwrap();
}

fn opened(driver: &Driver) -> StartsBox {
    match driver.state.overlays.last() {
        Some(Overlay::Starts(open)) => *open,
        other => panic!("{other:?}"),
    }
}

fn departs(driver: &Driver) -> String {
    let route = driver.state.document.route();
    route.departure.as_ref().unwrap().moment().strftime("%Y-%m-%d %H:%M").to_string()
}

#[test]
fn the_passage_follows_departure_and_course() {
    let mut driver = along_the_stream(140, 40);
    let first = driver.state.sailed().unwrap().clone();
    assert_eq!(first.passage.legs.len(), 2);
    // Another departure walks the same course anew.
    keys(&mut driver, "D Ctrl-U '15:00' Enter");
    let later = driver.state.sailed().unwrap().clone();
    assert!(std::sync::Arc::ptr_eq(&first.course, &later.course));
    assert_ne!(first.passage.legs[0].time(), later.passage.legs[0].time());
    assert_eq!(later.passage.departs.to_string(), "2026-06-14T15:00:00Z");
    // What is taken back has its own passage again.
    keys(&mut driver, "u");
    assert_eq!(driver.state.sailed().unwrap().passage, first.passage);
    // Another pace makes another course.
    keys(&mut driver, "p Ctrl-U '4 kn' Enter");
    let faster = driver.state.sailed().unwrap();
    assert!(!std::sync::Arc::ptr_eq(&first.course, &faster.course));
    assert!(faster.passage.time() < first.passage.time());
    // While a waypoint is taken up, the passage is not that of what is shown.
    keys(&mut driver, "Tab m");
    assert_eq!(driver.state.context(), Context::Carry);
    assert!(driver.state.sailed().is_none());
    keys(&mut driver, "Esc D Ctrl-U 'none' Enter");
    assert!(driver.state.sailed().is_none(), "without a departure there is none");
}

/// Does what was asked for and gives the result back, not yet told to the state.
fn done(commands: Vec<Command>) -> Vec<(Ticket, Outcome)> {
    let jobs = commands.into_iter().filter_map(|command| match command {
        Command::Compute(job) => Some(job),
        _ => None,
    });
    jobs.filter_map(|job| Some((job.ticket(), job.run(&Unwatched)?))).collect()
}

fn tell(state: &mut State, (ticket, outcome): (Ticket, Outcome)) {
    update(state, Msg::Worked { ticket, outcome });
}

#[test]
fn a_passage_that_comes_too_late_is_never_shown() {
    let mut state = along_the_stream(140, 40).state;
    let ask = |state: &mut State, time: &str| {
        let mut commands = Vec::new();
        for step in crate::action::script(&format!("D Ctrl-U '{time}' Enter")).unwrap() {
            let crate::action::Step::Key(key) = step else { panic!() };
            commands.extend(update(state, Msg::Key(key)));
        }
        assert!(state.sailed().is_none(), "the older one is gone at once");
        done(commands)
    };
    let mut first = ask(&mut state, "11:00");
    let mut second = ask(&mut state, "13:00");
    assert_eq!((first.len(), second.len()), (1, 1));
    assert_eq!(first[0].0.task, Task::Sail);
    tell(&mut state, first.remove(0));
    assert!(state.sailed().is_none(), "the answer to the older question");
    tell(&mut state, second.remove(0));
    let departs = state.sailed().unwrap().passage.departs;
    assert_eq!(departs.to_string(), "2026-06-14T13:00:00Z");
}

#[test]
fn steering_and_wind_are_edits_that_are_taken_back() {
    let mut driver = along_the_stream(140, 40);
    let steer = |driver: &Driver| driver.state.document.route().points[2].steer;
    keys(&mut driver, "] I");
    assert_eq!(steer(&driver), Steering::OneHeading);
    let sailed = driver.state.sailed().unwrap();
    assert!(sailed.passage.legs[1].off_line.is_some() && sailed.track(1).is_some());
    assert!(sailed.track(0).is_none());
    assert!(driver.state.message.as_ref().unwrap().text.contains("leg 2"));
    keys(&mut driver, "I");
    assert_eq!(steer(&driver), Steering::Line);
    keys(&mut driver, "u");
    assert_eq!(steer(&driver), Steering::OneHeading);

    let before = driver.state.sailed().unwrap().passage.time();
    keys(&mut driver, "v Ctrl-U '180 12 kn' Enter");
    let wind = driver.state.document.route().wind.unwrap();
    assert_eq!((wind.wind.from.as_degrees(), wind.wind.speed.as_knots()), (180.0, 12.0));
    assert_ne!(driver.state.sailed().unwrap().passage.time(), before);
    keys(&mut driver, "v Ctrl-U '180 25 kn' Enter");
    assert!(driver.state.message.as_ref().unwrap().text.contains("force 4"));
    keys(&mut driver, "Esc u");
    assert_eq!(driver.state.document.route().wind, None);
    keys(&mut driver, "U v Ctrl-U Enter");
    assert_eq!(driver.state.document.route().wind, None, "nothing clears it");
}

#[test]
fn a_start_is_looked_at_and_taken() {
    let mut driver = along_the_stream(140, 40);
    keys(&mut driver, "E");
    assert_eq!(driver.state.context(), Context::Starts);
    let days = driver.state.starts.days().unwrap();
    assert_eq!((days.len(), days[0].starts.len()), (1, 144));
    assert_eq!(opened(&driver).chosen.unwrap().to_string(), "2026-06-14T09:00:00Z");
    keys(&mut driver, "Right*2 Shift-Right Left");
    assert_eq!(opened(&driver).chosen.unwrap().to_string(), "2026-06-14T10:10:00Z");
    keys(&mut driver, "Down");
    assert_eq!(opened(&driver).chosen.unwrap().to_string(), "2026-06-15T10:10:00Z");
    assert_eq!(opened(&driver).first.to_string(), "2026-06-15");
    let saves = driver.saves;
    keys(&mut driver, "Enter");
    assert!(driver.state.overlays.is_empty());
    assert_eq!(departs(&driver), "2026-06-15 10:10");
    assert_eq!(driver.saves, saves + 1);
    assert!(driver.state.message.as_ref().unwrap().text.starts_with("departs Monday 15 June"));
    assert_eq!(driver.state.sailed().unwrap().passage.departs.to_string(), "2026-06-15T10:10:00Z");
    keys(&mut driver, "u");
    assert_eq!(departs(&driver), "2026-06-14 09:00");
}

#[test]
fn best_and_latest_are_gone_to_and_a_refused_start_says_why() {
    let mut driver = along_the_stream(140, 40);
    keys(&mut driver, "E b");
    let at = |driver: &Driver| opened(driver).chosen;
    let day = driver.state.starts.days().unwrap()[0].clone();
    assert_eq!(at(&driver), day.best().map(|start| start.at));
    keys(&mut driver, "e");
    assert_eq!(at(&driver), day.latest().map(|start| start.at));
    // The first start of the day is in the dark.
    keys(&mut driver, "PageUp*24");
    assert_eq!(at(&driver), Some(day.starts[0].at));
    assert_eq!(day.starts[0].verdict, Verdict::Refused);
    keys(&mut driver, "Enter");
    let message = &driver.state.message.as_ref().unwrap().text;
    assert!(message.contains("not within your limits: leaves"), "{message}");
    assert_eq!(departs(&driver), "2026-06-14 00:00");
}

#[test]
fn limits_are_set_one_by_one_and_judged_by_at_once() {
    let mut driver = along_the_stream(140, 40);
    let acceptable = |driver: &Driver| {
        let starts = &driver.state.starts.days().unwrap()[0].starts;
        starts.iter().filter(|start| start.verdict.is_acceptable()).count()
    };
    keys(&mut driver, "E");
    let before = acceptable(&driver);
    keys(&mut driver, "z");
    assert_eq!(driver.state.context(), Context::Limits);
    let day = Limit::ALL.iter().position(|limit| *limit == Limit::Day).unwrap();
    keys(&mut driver, &format!("Down*{day} Enter Ctrl-U '1 h 75' Enter"));
    assert!(driver.state.message.as_ref().unwrap().text.contains("1 h 75"));
    keys(&mut driver, "Ctrl-U '2 h 05' Enter Esc");
    assert_eq!(driver.state.document.route().limits.written(Limit::Day), "2 h 05");
    assert_eq!(driver.state.context(), Context::Starts);
    assert!(acceptable(&driver) < before, "{} of {before}", acceptable(&driver));
    assert!(driver.state.document.can_undo().is_some_and(|word| word == "limits"));
}

#[test]
fn a_fortnight_has_a_strip_a_day_and_a_click_chooses() {
    let mut driver = along_the_stream(200, 60);
    keys(&mut driver, "E f");
    assert_eq!(driver.state.starts.days().unwrap().len(), usize::from(FORTNIGHT));
    let at = |driver: &Driver, x: u16, y: u16| {
        let rows = layout::overlay(driver.state.size, driver.state.overlays.last().unwrap()).rows;
        let cells = StartsGrid::of(rows, opened(driver).days).cells;
        let (column, row) = (cells.x + x, cells.y + y);
        Msg::Pointer(Pointer { what: Gesture::Press, column, row })
    };
    // Cells of ten minutes: the 60th begins at ten o'clock.
    let press = at(&driver, 60, 3);
    driver.send(press);
    assert_eq!(opened(&driver).chosen.unwrap().to_string(), "2026-06-17T10:00:00Z");
    keys(&mut driver, "f");
    assert_eq!((opened(&driver).days, opened(&driver).first.to_string()), (1, "2026-06-17".into()));
    let press = at(&driver, 61, 1);
    driver.send(press);
    assert_eq!(opened(&driver).chosen.unwrap().to_string(), "2026-06-17T10:10:00Z");
    driver.send(Msg::Pointer(Pointer { what: Gesture::Press, column: 0, row: 0 }));
    assert!(driver.state.overlays.is_empty(), "a press beside the box closes it");
    assert_eq!(departs(&driver), "2026-06-14 09:00");
}

#[test]
fn starts_that_come_too_late_are_never_shown() {
    let mut state = along_the_stream(140, 40).state;
    let press = |state: &mut State, key: &str| done(update(state, Msg::Key(key.parse().unwrap())));
    let mut day = press(&mut state, "E");
    assert_eq!(day.len(), 1);
    update(&mut state, Msg::Key("Esc".parse().unwrap()));
    tell(&mut state, day.remove(0));
    assert!(state.starts.days().is_none(), "the strip was closed");
}
