//! Practice on the screen, by keys and by pointer.

mod sight;
mod sittings;

use practice::memory::Outcome;
use practice::{Answer, Kind, Level, Plan};
use ratatui::layout::Size;

use crate::action::{Act, Context, table};
use crate::driver::Driver;
use crate::state::{Access, DrillChoice, Hand, Overlay, Put, Stage, Told};
use crate::testing::tidal;
use crate::{Command, Msg, Wanted, update};

fn keys(driver: &mut Driver, text: &str) {
    driver.keys(text).unwrap();
}

fn driven(text: &str) -> Driver {
    let mut driver = tidal(120, 40);
    keys(&mut driver, text);
    driver
}

/// Asked for one kind, the first question put.
fn asked(kind: Kind, level: Level, seed: u64) -> Driver {
    let mut driver = driven("");
    driver.send(Msg::Record(Ok(std::sync::Arc::default())));
    let plan = Plan::Kinds { kinds: vec![kind], level, seed, count: 3 };
    let now = driver.clock;
    driver.clock = now.saturating_add(jiff::SignedDuration::from_secs(30)).unwrap();
    driver.send(Msg::Clock(Wanted::Sitting(plan), now));
    driver
}

fn stage(driver: &Driver) -> &Stage {
    &driver.state.practice.drill.as_ref().unwrap().stage
}

fn put(driver: &Driver) -> &Put {
    driver.state.practice.asked().unwrap()
}

fn told(driver: &Driver) -> &Told {
    driver.state.practice.told().unwrap().1
}

fn line(driver: &Driver) -> String {
    driver.state.practice.line().unwrap().text()
}

fn message(driver: &Driver) -> &str {
    driver.state.message.as_ref().map_or("", |message| &message.text)
}

#[test]
fn the_list_has_what_is_due_progress_and_every_kind() {
    let mut driver = driven("b");
    let Some(Overlay::Drills(list)) = driver.state.overlays.last() else { panic!() };
    assert_eq!(list.rows.len(), 3 + Kind::ALL.len());
    assert_eq!(list.rows[2].does, DrillChoice::Progress);
    assert!(
        matches!(&list.rows[3].does, DrillChoice::Begin(Plan::Kinds { kinds, .. }) if kinds == &[Kind::Reference])
    );
    assert!(list.rows.iter().all(|row| row.note.is_empty() || row.note == "new"));
    // Progress lies on top of the list, which one comes back to.
    keys(&mut driver, "Down*2 Enter");
    assert_eq!(driver.state.context(), Context::Progress);
    keys(&mut driver, "Esc");
    assert_eq!(driver.state.context(), Context::Drills);
    keys(&mut driver, "B");
    assert_eq!(driver.state.context(), Context::Progress);
    keys(&mut driver, "Esc Esc B");
    assert_eq!(driver.state.overlays.len(), 1);
    // A second look reads nothing anew.
    let asked = update(&mut driver.state, Msg::Act(Act::Progress));
    assert_eq!(asked, [Command::Clock(Wanted::Progress)]);
}

#[test]
fn the_list_tells_level_and_when_a_kind_is_due() {
    let mut driver = asked(Kind::Back, Level::First, 7);
    let right = put(&driver).question.answer.to_string();
    keys(&mut driver, &format!("Enter '{right}' Enter Enter o Enter o Esc b"));
    let Some(Overlay::Drills(list)) = driver.state.overlays.last() else { panic!() };
    let note = |kind: Kind| {
        let row = list.rows.iter().find(
            |row| matches!(&row.does, DrillChoice::Begin(Plan::Kinds { kinds, .. }) if kinds == &[kind]),
        );
        row.unwrap().note.clone()
    };
    assert_eq!(note(Kind::Back), "level 1, due now");
    assert_eq!(note(Kind::Fix), "new");
}

#[test]
fn every_kind_is_answered_rightly_as_it_is_written() {
    for kind in Kind::ALL {
        let mut driver = asked(*kind, Level::Second, 12);
        let right = put(&driver).question.told();
        let text = match put(&driver).question.answer {
            Answer::Choice(index) => ('a'..).nth(index).unwrap().to_string(),
            _ => right,
        };
        keys(&mut driver, &format!("a \"{text}\" Enter"));
        assert!(told(&driver).mark.as_ref().unwrap().right, "{kind}: {text}");
        assert_eq!(told(&driver).reply, text);
        let kept = driver.record.answered().last().unwrap();
        assert_eq!((kept.kind, kept.outcome, kept.hints), (*kind, Outcome::Right, 0));
        assert_eq!(kept.chart, driver.state.chart.title);
        assert!(kept.seconds > 0);
    }
}

#[test]
fn a_wrong_answer_names_the_mistake_and_is_kept_with_it() {
    let mut driver = asked(Kind::Back, Level::First, 7);
    let mistake = put(&driver).question.mistakes[0].clone();
    keys(&mut driver, &format!("Enter '{}' Enter", mistake.answer));
    let mark = told(&driver).mark.clone().unwrap();
    assert_eq!((mark.right, mark.mistake), (false, Some(mistake.kind)));
    assert_eq!(driver.record.answered()[0].mistake, Some(mistake.kind));
    assert_eq!(driver.state.context(), Context::Marked);
}

#[test]
fn what_is_not_understood_is_said_and_is_no_wrong_answer() {
    let mut driver = asked(Kind::Back, Level::First, 7);
    keys(&mut driver, "Enter Enter");
    assert_eq!(put(&driver).not_understood.as_deref(), Some("there is no answer yet"));
    keys(&mut driver, "'half past' Enter");
    let why = put(&driver).not_understood.clone().unwrap();
    assert!(why.contains("“half past” is no bearing"), "{why}");
    assert!(driver.record.answered().is_empty());
    assert_eq!((driver.state.context(), line(&driver).as_str()), (Context::Reply, "half past"));
    keys(&mut driver, "Ctrl-W");
    assert_eq!(put(&driver).not_understood, None);
}

#[test]
fn a_digit_a_paste_and_a_key_open_the_line_and_escape_keeps_what_it_holds() {
    let mut driver = asked(Kind::Back, Level::First, 7);
    keys(&mut driver, "'04'");
    assert_eq!(line(&driver), "04");
    // In the line, keys of the chart are letters.
    keys(&mut driver, "'ohb' Left Backspace");
    assert_eq!(line(&driver), "04ob");
    keys(&mut driver, "Esc");
    assert_eq!(
        (driver.state.context(), put(&driver).draft.text().as_str()),
        (Context::Drill, "04ob")
    );
    assert_eq!(driver.state.hand, Hand::Drill);
    driver.send(Msg::Paste("7\u{1b}\n".to_owned()));
    assert_eq!(line(&driver), "04o7 b", "where its place was");
    keys(&mut driver, "Esc a");
    assert_eq!(line(&driver), "04o7 b", "where its place was");
    // Nowhere else does it open.
    keys(&mut driver, "Esc Esc 7");
    assert!(message(&driver).contains("does nothing here"));
    driver.send(Msg::Paste("7".to_owned()));
    assert!(message(&driver).contains("no line"));
}

#[test]
fn hints_come_one_by_one_and_are_kept() {
    let mut driver = asked(Kind::Twelfths, Level::First, 7);
    let all = put(&driver).question.hints.len();
    keys(&mut driver, "Tab a Tab");
    assert_eq!((put(&driver).hints, line(&driver).as_str()), (2.min(all), ""));
    keys(&mut driver, "Tab*9");
    assert_eq!(put(&driver).hints, all);
    assert_eq!(message(&driver), "there is no other hint");
    keys(&mut driver, "Esc o");
    let kept = &driver.record.answered()[0];
    assert_eq!((kept.outcome, kept.hints as usize), (Outcome::Passed, all));
    assert_eq!((told(&driver).mark.clone(), told(&driver).reply.as_str()), (None, ""));
}

#[test]
fn choices_are_lit_by_their_letter_and_taken_by_enter_or_by_a_click() {
    let mut driver = asked(Kind::Card, Level::First, 7);
    let Answer::Choice(right) = put(&driver).question.answer else { panic!() };
    assert_eq!(put(&driver).choice, None);
    let letter = |index: usize| ('a'..).nth(index).unwrap();
    keys(&mut driver, &format!("Enter '{}'", letter(right)));
    assert_eq!(put(&driver).choice, Some(right));
    keys(&mut driver, "Backspace z");
    assert_eq!(put(&driver).choice, None);
    let mut clicked = driver.clone();
    keys(&mut driver, &format!("Ctrl-U {} Enter", letter(right)));
    assert!(told(&driver).mark.as_ref().unwrap().right);

    let cells = (0..40).flat_map(|y| (0..120).map(move |x| (x, y)));
    let mut found = cells.filter(|(x, y)| {
        let cell = ratatui::layout::Position::new(*x, *y);
        crate::view::drill_choice_at(&clicked.state, cell) == Some(right)
    });
    let (x, y) = found.next_back().expect("the choice is seen");
    keys(&mut clicked, &format!("Click@{x},{y}"));
    assert!(told(&clicked).mark.as_ref().unwrap().right);
    assert_eq!(clicked.record.answered().len(), 1);
}

#[test]
fn the_line_of_the_answer_is_opened_by_a_click() {
    let mut driver = asked(Kind::Find, Level::First, 7);
    let cells = (0..40).flat_map(|y| (0..120).map(move |x| (x, y)));
    let mut found = cells.filter(|(x, y)| {
        crate::view::drill_is_answer(&driver.state, ratatui::layout::Position::new(*x, *y))
    });
    let (x, y) = found.next().expect("the line is seen");
    drop(found);
    keys(&mut driver, &format!("Click@{x},{y}"));
    assert_eq!(driver.state.context(), Context::Reply);
}

/// Where a place is asked for, by its point.
fn sought(driver: &Driver) -> chart::Point {
    match &put(driver).question.answer {
        Answer::Place { at, .. } => *at,
        Answer::Square { name, .. } => {
            let named = put(driver).question.choices.iter().find(|it| it.text == *name);
            named.and_then(|it| it.at).unwrap()
        }
        _ => panic!("no place"),
    }
}

#[test]
fn a_place_is_answered_by_the_cursor() {
    for kind in [Kind::Find, Kind::Fix, Kind::Where] {
        let mut driver = asked(kind, Level::First, 7);
        let at = sought(&driver);
        let mut off = driver.clone();
        driver.state.cursor = at;
        keys(&mut driver, "Enter");
        assert!(told(&driver).mark.as_ref().unwrap().right, "{kind}");
        assert_eq!(told(&driver).at, Some(at));
        // Five kilometres off it is wrong.
        off.state.cursor = at + chart::Point { x: 3_000.0, y: -4_000.0 };
        keys(&mut off, "Enter");
        assert!(!told(&off).mark.as_ref().unwrap().right, "{kind}");
    }
}

#[test]
fn a_place_is_answered_by_a_click_where_the_cursor_stands() {
    let mut driver = asked(Kind::Find, Level::First, 7);
    // Closer, so that a cell is within what is near enough.
    driver.state.cursor = sought(&driver);
    keys(&mut driver, "c +*8");
    let (x, y) = driver.state.cell_of(sought(&driver)).unwrap();
    keys(&mut driver, &format!("Click@{},{}", x + 9, y + 3));
    assert!(driver.state.practice.asked().is_some(), "the first click puts the cursor there");
    keys(&mut driver, &format!("Drag@{x},{y}>{},{y}", x + 4));
    assert!(driver.state.practice.asked().is_some(), "a drag moves the chart");
    let (x, y) = driver.state.cell_of(sought(&driver)).unwrap();
    keys(&mut driver, &format!("Click@{x},{y}"));
    assert_eq!(driver.state.cell_of(driver.state.cursor), Some((x, y)));
    keys(&mut driver, &format!("Click@{x},{y}"));
    assert!(told(&driver).mark.as_ref().unwrap().right);
    // Where no place is asked for, clicks only move the cursor.
    let mut back = asked(Kind::Back, Level::First, 7);
    keys(&mut back, "Click@30,10 Click@30,10 Click@30,10");
    assert!(back.state.practice.asked().is_some());
}

/// Nothing that reads a place, a bearing, a distance or the water off the chart has a key while one practises.
#[test]
fn what_would_give_an_answer_away_has_no_key() {
    use Act::*;
    let chart = [
        CursorLeft,
        CursorRight,
        CursorUp,
        CursorDown,
        TenthWest,
        TenthEast,
        TenthNorth,
        TenthSouth,
        ZoomIn,
        ZoomOut,
        WholeChart,
        Centre,
        PanWest,
        PanEast,
        Names,
        GridLines,
        Dots,
        Help,
        Actions,
        Back,
        Redraw,
        Suspend,
        Quit,
        QuitAnywhere,
        DrillList,
        Progress,
        Answer,
        WriteAnswer,
        Hint,
        PassOver,
        NextQuestion,
        ReadUp,
        ReadDown,
    ];
    for context in [Context::Drill, Context::Marked] {
        for row in table().iter().filter(|row| row.contexts.contains(&context)) {
            assert!(chart.contains(&row.act), "{} in {context:?}", row.name);
        }
    }
    // Nor has the pointer, wherever it is pressed: it opens nothing.
    for size in [(200, 60), (120, 40), (80, 24), (60, 20)] {
        let mut driver = asked(Kind::Bearing, Level::First, 7);
        driver.send(Msg::Resize(Size { width: size.0, height: size.1 }));
        let (route, moment) = (driver.state.document.route().clone(), driver.state.moment.at());
        for y in (0..size.1 - 1).step_by(2) {
            for x in (0..size.0).step_by(5) {
                keys(&mut driver, &format!("Click@{x},{y} WheelUp@{x},{y}"));
                assert!(driver.state.overlays.is_empty(), "at {x},{y}");
            }
        }
        assert_eq!((driver.state.document.route(), driver.state.moment.at()), (&route, moment));
    }
}

#[test]
fn a_route_that_may_only_be_read_does_not_keep_one_from_practising() {
    let mut driver = tidal(80, 24);
    driver.state.access = Access::ReadOnly("another program has it open".to_owned());
    keys(&mut driver, "b Down*9 Enter Tab 12 Enter Enter o");
    assert_eq!(driver.record.answered().len(), 2);
}

#[test]
fn what_cannot_be_kept_is_told_once_and_practice_goes_on() {
    let mut driver = driven("b Down*9 Enter");
    driver.not_kept = Some("no space".to_owned());
    keys(&mut driver, "o");
    assert_eq!(message(&driver), "what is answered is not kept: no space");
    keys(&mut driver, "Enter o");
    assert_eq!(message(&driver), "", "once is enough");
    assert_eq!(driver.state.practice.not_kept.as_deref(), Some("no space"));
    let sitting = |driver: &Driver| driver.state.practice.drill.as_ref().unwrap().sitting.clone();
    assert_eq!(sitting(&driver).tally().passed, 2);
    assert_eq!(driver.state.practice.record.as_ref().unwrap().answered().len(), 2);
    // It is kept again: that is told by the word's end.
    driver.not_kept = None;
    keys(&mut driver, "Enter o");
    assert_eq!(driver.state.practice.not_kept, None);
}

#[test]
fn a_record_that_cannot_be_read_does_not_keep_one_from_practising() {
    let mut driver = driven("");
    let asked = update(&mut driver.state, Msg::Act(Act::DrillList));
    assert_eq!(asked, [Command::OpenRecord, Command::Clock(Wanted::Drills)]);
    driver.send(Msg::Record(Err("results.csv:1:1: is no record".to_owned())));
    assert!(message(&driver).contains("results.csv:1:1"));
    keys(&mut driver, "b Enter");
    assert_eq!(put(&driver).number, 1);
}

#[test]
fn what_the_clock_says_late_changes_nothing() {
    let all = [
        Wanted::Question,
        Wanted::Result,
        Wanted::LaidDown,
        Wanted::TakenUp,
        Wanted::Drills,
        Wanted::Progress,
    ];
    for wanted in all {
        let mut driver = tidal(80, 24);
        let now = driver.clock;
        driver.send(Msg::Clock(wanted.clone(), now));
        assert!(driver.record.answered().is_empty());
        let mut asked = asked(Kind::Back, Level::First, 7);
        asked.send(Msg::Clock(wanted, now));
        assert!(asked.record.answered().is_empty());
        keys(&mut asked, "Esc Esc q");
        assert!(asked.left);
    }
}
