//! Sittings: to their end, laid down, taken up, left.

use super::*;

#[test]
fn a_sitting_goes_to_its_end_and_back_to_the_list() {
    let mut driver = asked(Kind::Back, Level::First, 7);
    for number in 1..=3 {
        assert_eq!(put(&driver).number, number);
        keys(&mut driver, "o");
        assert_eq!(driver.record.answered().len(), number);
        keys(&mut driver, "Enter");
    }
    assert_eq!(*stage(&driver), Stage::Over);
    assert_eq!(driver.state.context(), Context::Marked);
    keys(&mut driver, "Enter");
    assert_eq!((driver.state.context(), driver.state.hand), (Context::Drills, Hand::Look));
    assert!(driver.state.practice.drill.is_none());
    let Some(Overlay::Drills(list)) = driver.state.overlays.last() else { panic!() };
    assert!(list.rows.iter().all(|row| row.does != DrillChoice::GoOn), "nothing is left of it");
    // Esc ends it, too, and stays on the chart.
    let mut driver = asked(Kind::Back, Level::First, 7);
    keys(&mut driver, "o Enter o Enter o Enter Esc");
    assert_eq!((driver.state.context(), &driver.state.practice.drill), (Context::Look, &None));
}

#[test]
fn the_last_question_may_end_after_the_time() {
    let mut driver = driven("b Enter");
    let until = driver.state.practice.drill.as_ref().unwrap().until.unwrap();
    driver.clock = until;
    keys(&mut driver, "o");
    assert_eq!(driver.record.answered().len(), 1);
    keys(&mut driver, "Enter");
    assert_eq!(*stage(&driver), Stage::Over);
}

#[test]
fn laid_down_and_taken_up_it_stands_as_it_stood() {
    let mut driver = driven("b Down Enter o Enter Tab '04' Esc");
    let before = put(&driver).clone();
    let view = driver.state.view;
    keys(&mut driver, "Esc");
    assert_eq!((driver.state.context(), driver.state.hand), (Context::Look, Hand::Look));
    assert!(message(&driver).contains("question 2 of 10; b goes on"), "{}", message(&driver));
    // Another hand, a waypoint, and the trace.
    keys(&mut driver, "Enter Right*9 Enter w t");
    assert_eq!(driver.state.document.route().points.len(), 2);
    driver.clock = driver.clock.saturating_add(jiff::SignedDuration::from_hours(9)).unwrap();
    keys(&mut driver, "b");
    let Some(Overlay::Drills(list)) = driver.state.overlays.last() else { panic!() };
    assert_eq!(list.rows[0].does, DrillChoice::GoOn);
    assert_eq!(list.rows[0].note, "question 2 of 10");
    keys(&mut driver, "Enter");
    assert_eq!((driver.state.context(), driver.state.hand), (Context::Drill, Hand::Drill));
    let after = put(&driver).clone();
    assert_eq!(driver.state.view.metres_per_column, view.metres_per_column);
    let took = driver.clock.duration_since(after.since);
    assert!(took.as_mins() < 3, "the hours away are not counted: {took}");
    assert_eq!(Put { since: before.since, ..after }, before);
}

#[test]
fn the_hours_away_are_not_taken_from_the_minutes() {
    let mut driver = driven("b Enter");
    let left = |driver: &Driver| {
        let until = driver.state.practice.drill.as_ref().unwrap().until.unwrap();
        until.duration_since(driver.clock)
    };
    let before = left(&driver);
    keys(&mut driver, "Esc");
    driver.clock = driver.clock.saturating_add(jiff::SignedDuration::from_hours(9)).unwrap();
    keys(&mut driver, "b Enter");
    assert!((left(&driver).as_secs() - before.as_secs()).abs() <= 80, "{before}");
    assert_eq!(put(&driver).number, 1);
}

#[test]
fn it_is_taken_in_hand_from_every_hand_and_what_was_carried_goes_back() {
    for before in ["", "Enter Right*9 Enter", "t Enter Up*9 Enter"] {
        let mut driver = driven(before);
        let route = driver.state.document.route().clone();
        keys(&mut driver, "b Enter");
        assert_eq!(driver.state.context(), Context::Drill, "{before}");
        assert_eq!(*driver.state.document.route(), route);
    }
    // The list is not opened while something is carried.
    let mut driver = driven("Enter Right*9 Enter m b");
    assert_eq!(driver.state.context(), Context::Carry);
    let now = driver.clock;
    driver.send(Msg::Clock(Wanted::Drills, now));
    keys(&mut driver, "Down*9 Enter");
    assert_eq!((driver.state.context(), driver.state.hand), (Context::Drill, Hand::Drill));
}

#[test]
fn another_begun_in_its_place_says_that_it_is_ended() {
    let mut driver = asked(Kind::Back, Level::First, 7);
    keys(&mut driver, "o Enter b Down*9 Enter");
    assert_eq!(message(&driver), "ended before: 0 of 1 right");
    assert_eq!(put(&driver).number, 1);
    assert_eq!(driver.state.practice.drill.as_ref().unwrap().sitting.answered().len(), 0);
}

#[test]
fn from_the_list_the_question_in_hand_is_gone_on_with() {
    let mut driver = asked(Kind::Back, Level::First, 7);
    let before = put(&driver).question.clone();
    keys(&mut driver, "b Enter");
    assert_eq!(put(&driver).question, before);
    keys(&mut driver, "o b Enter");
    assert_eq!(driver.state.context(), Context::Marked);
    assert_eq!(driver.record.answered().len(), 1, "what is marked is kept once");
}

#[test]
fn a_chart_without_what_it_takes_says_so() {
    let mut driver = crate::testing::driver(80, 24);
    driver.send(Msg::Record(Ok(std::sync::Arc::default())));
    let plan = Plan::Kinds {
        kinds: vec![Kind::Twelfths, Kind::AlongShore],
        level: Level::First,
        seed: 1,
        count: 3,
    };
    let now = driver.clock;
    driver.send(Msg::Clock(Wanted::Sitting(plan), now));
    if driver.state.practice.asked().is_none() {
        assert_eq!(*stage(&driver), Stage::Nothing);
        keys(&mut driver, "Enter");
        assert_eq!(driver.state.context(), Context::Drills);
    }
}

#[test]
fn the_session_is_kept_when_a_question_is_put_answered_or_laid_down() {
    let mut driver = asked(Kind::Back, Level::First, 7);
    let mut last = driver.sessions;
    assert!(last > 0);
    for step in ["o", "Enter", "Esc", "b Enter o"] {
        keys(&mut driver, step);
        assert!(driver.sessions > last, "{step}");
        last = driver.sessions;
    }
    keys(&mut driver, "q");
    assert!(driver.left, "it leaves at once");
}

#[test]
fn a_question_that_comes_after_it_was_laid_down_is_there_when_it_is_taken_up() {
    let mut driver = driven("b");
    let commands = update(&mut driver.state, Msg::Act(Act::Accept));
    let [Command::Clock(wanted)] = &commands[..] else { panic!("{commands:?}") };
    let mut thrown = update(&mut driver.state, Msg::Clock(wanted.clone(), driver.clock));
    assert_eq!(*stage(&driver), Stage::Throwing);
    let job = thrown.drain(..).find_map(|it| match it {
        Command::Compute(job) if job.ticket().task == crate::job::Task::Question => Some(job),
        _ => None,
    });
    keys(&mut driver, "Tab o a 7 Esc");
    assert_eq!(driver.state.hand, Hand::Look, "before it there is nothing to answer");
    let (job, view) = (job.unwrap(), driver.state.view);
    let ticket = job.ticket();
    let outcome = job.run(&crate::job::Unwatched).unwrap();
    driver.send(Msg::Worked { ticket, outcome });
    assert_eq!((driver.state.view, driver.state.context()), (view, Context::Look));
    keys(&mut driver, "b Enter");
    assert_eq!(put(&driver).number, 1);
}

#[test]
fn every_size_is_borne_and_nothing_is_lost_by_it() {
    let mut driver = driven("b Down Enter 12");
    let before = (put(&driver).clone(), driver.state.view);
    for (width, height) in
        [(0, 0), (1, 1), (59, 20), (60, 20), (0, 50), (200, 60), (80, 24), (120, 40)]
    {
        driver.send(Msg::Resize(Size { width, height }));
        keys(&mut driver, "PageDown PageUp Click@0,0");
        driver.buffer(&crate::theme::Theme::default());
    }
    assert_eq!(Put { top: 0, ..put(&driver).clone() }, before.0);
    driver.send(Msg::Resize(Size { width: 0, height: 0 }));
    let view = driver.state.view;
    keys(&mut driver, "Esc o Enter");
    assert_eq!(
        driver.state.view, view,
        "a screen without a drawing does not forget what was looked at"
    );
}
