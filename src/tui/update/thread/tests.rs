//! Tracing by keys and by pointer, on a square island with sides of four kilometres.

use chart::Point;
use chart::trace::{Anchor, Kind, Way};
use nav::Length;

use crate::driver::Driver;
use crate::job::{Outcome, Task};
use crate::state::{CaughtOn, Chosen, Hand, Reading};
use crate::testing::driver;
use crate::{Command, Gesture, Msg, Pointer, update};

/// The middle of the southern shore, the thread in hand and the first anchor there.
const ONE: &str = "/ '510000 5508000' Enter t Enter";
/// The same, on to the middle of the western shore.
const TWO: &str = "/ '510000 5508000' Enter t Enter / '508000 5510000' Enter Enter";

fn driven(keys: &str) -> Driver {
    let mut driver = driver(200, 60);
    driver.keys(keys).unwrap();
    driver
}

fn message(driver: &Driver) -> &str {
    driver.state.message.as_ref().map_or("", |message| &message.text)
}

fn anchors(driver: &Driver) -> Vec<Point> {
    driver.state.thread.anchors().iter().map(|(anchor, _)| anchor.at()).collect()
}

fn near(a: Point, x: f64, y: f64) -> bool {
    (a.x - x).hypot(a.y - y) < 1.0
}

/// The length of the line as it is shown, in kilometres on the ground.
fn along(driver: &Driver) -> f64 {
    driver.state.thread.reading().and_then(|it| it.length).map_or(0.0, Length::as_kilometres)
}

/// The cell of the screen in which a point of the chart lies.
fn cell(driver: &Driver, x: f64, y: f64) -> (u16, u16) {
    let state = &driver.state;
    let (column, row) = state.view.cells_of(state.cells(), Point { x, y });
    let sea = state.layout().sea();
    (sea.x + column as u16, sea.y + row as u16)
}

#[test]
fn two_anchors_lie_on_the_shore_and_the_line_between_them_is_the_shorter_way_round() {
    let driver = driven(TWO);
    let [a, b] = anchors(&driver)[..] else { panic!("two anchors") };
    assert!(near(a, 510_000.0, 5_508_000.0) && near(b, 508_000.0, 5_510_000.0), "{a:?} {b:?}");
    assert!((along(&driver) - 4.0).abs() < 0.01, "{}", along(&driver));
    let corner = Point { x: 508_000.0, y: 5_508_000.0 };
    assert!(driver.state.thread.line().unwrap().points.contains(&corner));
    let straight = driver.state.thread.reading().unwrap().straight.unwrap();
    assert!((straight.as_kilometres() - 8.0_f64.sqrt()).abs() < 0.01);
    assert!(driver.state.document.can_undo().is_none(), "a measurement is no part of the route");
}

#[test]
fn the_line_follows_the_cursor_and_the_shore_is_caught_before_the_click() {
    let mut driver = driven(ONE);
    driver.keys("/ '509000 5507700' Enter").unwrap();
    let caught = driver.state.thread.caught.unwrap();
    assert_eq!(caught.on, CaughtOn::Shore);
    assert!(near(caught.anchor.at(), 509_000.0, 5_508_000.0));
    assert!((caught.distance.as_metres() - 300.0).abs() < 1.0, "{}", caught.distance.as_metres());
    assert!((along(&driver) - 1.0).abs() < 0.01, "{}", along(&driver));
    assert_eq!(anchors(&driver).len(), 1);
    // Farther off than the reach nothing is caught: the line goes straight.
    driver.keys("/ '509000 5503000' Enter").unwrap();
    assert_eq!(driver.state.thread.caught.unwrap().on, CaughtOn::Nothing);
    let live = driver.state.thread.live().unwrap();
    assert!(matches!(live.pieces[0].kind, Kind::Straight { .. }));
}

#[test]
fn the_shore_is_left_uncaught_on_request() {
    let mut driver = driven("/ '510000 5507800' Enter t f Enter");
    let (anchor, _) = driver.state.thread.anchors()[0];
    assert!(matches!(anchor, Anchor::Free(at) if near(at, 510_000.0, 5_507_800.0)), "{anchor:?}");
    driver.keys("f / '508000 5510000' Enter Enter").unwrap();
    assert!(matches!(driver.state.thread.anchors()[1].0, Anchor::Shore(_)));
}

#[test]
fn the_other_way_round_leads_the_piece_at_the_cursor() {
    let mut driver = driven(ONE);
    driver.keys("/ '508000 5510000' Enter o").unwrap();
    assert!((along(&driver) - 12.0).abs() < 0.02, "{}", along(&driver));
    driver.keys("Enter").unwrap();
    assert!((along(&driver) - 12.0).abs() < 0.02, "{}", along(&driver));
    assert_eq!(driver.state.thread.way, Way::Shorter, "the next piece is led the shorter way");
    driver.keys("o").unwrap();
    assert!((along(&driver) - 4.0).abs() < 0.02, "of the anchor under the cursor");
}

#[test]
fn a_whole_round_by_enter_on_the_first_anchor_by_a_key_and_from_several_anchors() {
    for keys in ["Enter", "O", "/ '508000 5510000' Enter Enter O"] {
        let mut driver = driven(ONE);
        driver.keys(keys).unwrap();
        assert!((along(&driver) - 16.0).abs() < 0.02, "{keys}: {}", along(&driver));
        driver.keys("O").unwrap();
        assert!(message(&driver).contains("right round already"), "{}", message(&driver));
    }
    // Two anchors near each other: the way back goes on round, not back.
    let mut driver = driven(ONE);
    driver.keys("/ '511000 5508000' Enter Enter / '510000 5508000' Enter Enter").unwrap();
    assert!((along(&driver) - 16.0).abs() < 0.02, "{}", along(&driver));
    let mut free = driven("/ '503000 5503000' Enter t Enter O");
    assert!(message(&free).contains("not on the shore of an island"));
    free.keys("Right*20 Enter Up*20 Enter O").unwrap();
    assert_eq!(anchors(&free).len(), 4, "a round of free points is closed straight");
}

#[test]
fn anchors_are_taken_back_deleted_and_both_can_be_undone() {
    let mut driver = driven(TWO);
    driver.keys("Backspace").unwrap();
    assert_eq!(anchors(&driver).len(), 1);
    driver.keys("u").unwrap();
    assert_eq!(anchors(&driver).len(), 2);
    driver.keys("Tab Delete").unwrap();
    assert!(near(anchors(&driver)[0], 508_000.0, 5_510_000.0));
    driver.keys("u u u u").unwrap();
    assert!(anchors(&driver).is_empty());
    assert!(message(&driver).contains("no change to take back"), "{}", message(&driver));
    driver.keys("U U X").unwrap();
    assert!(anchors(&driver).is_empty());
    driver.keys("u").unwrap();
    assert_eq!(anchors(&driver).len(), 2, "also what was cleared");
}

#[test]
fn an_anchor_is_moved_by_keys_and_back_by_esc() {
    let mut driver = driven(TWO);
    driver.keys("m / '508000 5511000' Enter").unwrap();
    assert_eq!(driver.state.hand, Hand::Trace { carried: Some(1) });
    assert!((along(&driver) - 5.0).abs() < 0.02, "while it is carried: {}", along(&driver));
    let mut put_back = driver.clone();
    put_back.keys("Esc").unwrap();
    assert!((along(&put_back) - 4.0).abs() < 0.02, "{}", along(&put_back));
    assert!(near(put_back.state.cursor, 508_000.0, 5_510_000.0));
    driver.keys("Enter").unwrap();
    assert!(near(anchors(&driver)[1], 508_000.0, 5_511_000.0));
    driver.keys("u").unwrap();
    assert!(near(anchors(&driver)[1], 508_000.0, 5_510_000.0), "one change");
}

#[test]
fn the_pointer_does_all_that_keys_do() {
    let mut driver = driven("t");
    let click = |driver: &mut Driver, x: f64, y: f64| {
        let (column, row) = cell(driver, x, y);
        driver.keys(&format!("Hover@{column},{row} Click@{column},{row}")).unwrap();
    };
    let (column, row) = cell(&driver, 510_000.0, 5_507_700.0);
    driver.keys(&format!("Hover@{column},{row}")).unwrap();
    assert_eq!(driver.state.thread.caught.unwrap().on, CaughtOn::Shore, "before the click");
    click(&mut driver, 510_000.0, 5_507_700.0);
    click(&mut driver, 507_700.0, 5_510_000.0);
    let [a, b] = anchors(&driver)[..] else { panic!("{:?}", anchors(&driver)) };
    assert!(a.y == 5_508_000.0 && b.x == 508_000.0, "{a:?} {b:?}");
    // Dragged along the shore: one change.
    let (from, to) = (cell(&driver, b.x, b.y), cell(&driver, 508_000.0, 5_511_500.0));
    driver.keys(&format!("Drag@{},{}>{},{}", from.0, from.1, to.0, to.1)).unwrap();
    let moved = anchors(&driver)[1];
    assert!(moved.x == 508_000.0 && (moved.y - 5_511_500.0).abs() < 300.0, "{moved:?}");
    driver.keys("u").unwrap();
    assert_eq!(anchors(&driver)[1], b);
    // A click on the first anchor leads right round, one on another chooses it.
    click(&mut driver, b.x, b.y);
    assert_eq!((driver.state.thread.chosen, anchors(&driver).len()), (Some(1), 2));
    click(&mut driver, a.x, a.y);
    assert!((along(&driver) - 16.0).abs() < 0.02, "{}", along(&driver));
}

#[test]
fn losing_the_focus_puts_back_an_anchor_that_is_dragged() {
    let mut driver = driven(TWO);
    let before = anchors(&driver);
    let (column, row) = cell(&driver, before[1].x, before[1].y);
    driver.send(Msg::Pointer(Pointer { what: Gesture::Press, column, row }));
    driver.send(Msg::Pointer(Pointer { what: Gesture::Drag, column, row: row - 4 }));
    assert_eq!(driver.state.hand, Hand::Trace { carried: Some(1) });
    driver.send(Msg::FocusLost);
    assert_eq!(anchors(&driver), before);
    assert_eq!(driver.state.hand, Hand::Trace { carried: None });
}

#[test]
fn esc_lays_the_thread_down_and_the_line_stays_until_it_is_cleared() {
    let mut driver = driven(TWO);
    driver.keys("Esc").unwrap();
    assert_eq!(driver.state.hand, Hand::Look);
    assert!(driver.state.thread.line().is_some() && driver.state.thread.caught.is_none());
    assert!((along(&driver) - 4.0).abs() < 0.02);
    driver.keys("X").unwrap();
    assert!(driver.state.thread.line().is_none() && driver.state.thread.reading().is_none());
}

#[test]
fn a_trace_becomes_a_leg_and_its_start_a_waypoint() {
    let mut driver = driven("/ '503000 5508000' Enter Enter");
    driver.keys("/ '510000 5508000' Enter t Enter / '508000 5510000' Enter Enter r").unwrap();
    let points = &driver.state.document.route().points;
    assert_eq!(points.len(), 3, "a straight leg leads to where the trace begins");
    assert!(points[1].along.is_none());
    let along = points[2].along.as_ref().unwrap();
    assert!(!along.free_start && !along.free_end && along.through.is_empty());
    assert_eq!(driver.state.hand, Hand::Plot { carried: None });
    assert_eq!(driver.state.chosen, Some(Chosen::Point(2)));
    assert!(driver.state.thread.anchors().is_empty());
    let legs = plan::reckon(driver.state.document.route(), &driver.state.chart.grid).legs;
    assert!((legs[1].distance.as_kilometres() - 4.0).abs() < 0.01);
    // One that begins where the route ends joins it.
    driver.keys("t Enter / '510000 5512000' Enter Enter r").unwrap();
    assert_eq!(driver.state.document.route().points.len(), 4);
    assert!(driver.state.track(2).is_some() && driver.state.track(0).is_none());
}

#[test]
fn a_traced_leg_is_taken_up_and_put_back() {
    let mut driver = driven(TWO);
    driver.keys("/ '510000 5512000' Enter o Enter r").unwrap();
    let before = driver.state.document.route().clone();
    driver.keys("Esc e").unwrap();
    assert_eq!(driver.state.thread.set().leg, Some(0));
    let ways: Vec<Way> = driver.state.thread.anchors().iter().map(|anchor| anchor.1).collect();
    assert_eq!(ways[1..], [Way::Shorter, Way::Longer]);
    assert_eq!(*driver.state.document.route(), before, "it stays until it is put back");
    driver.keys("Shift-Tab o r").unwrap();
    let after = driver.state.document.route();
    assert_eq!(after.points.len(), 2);
    let leg = &plan::reckon(after, &driver.state.chart.grid).legs[0];
    assert!((leg.distance.as_kilometres() - 8.0).abs() < 0.02, "{:?}", leg.distance);
    driver.keys("u").unwrap();
    assert_eq!(*driver.state.document.route(), before, "one change");
}

#[test]
fn a_waypoint_at_the_end_of_a_traced_leg_takes_the_line_along_in_one_change() {
    let mut driver = driven(TWO);
    driver.keys("r").unwrap();
    let before = driver.state.document.route().clone();
    driver.keys("m / '508000 5511000' Enter Enter").unwrap();
    let leg = |driver: &Driver| {
        let route = driver.state.document.route();
        assert!(route.points[1].along.is_some());
        plan::reckon(route, &driver.state.chart.grid).legs[0].distance.as_kilometres()
    };
    assert!((leg(&driver) - 5.0).abs() < 0.02, "{}", leg(&driver));
    driver.keys("u").unwrap();
    assert_eq!(*driver.state.document.route(), before);
    // A run of nudges is one change too.
    driver.keys("Alt-Shift-Up Alt-Shift-Up").unwrap();
    assert!(driver.state.document.route().points[1].along.is_some());
    driver.keys("u").unwrap();
    assert_eq!(*driver.state.document.route(), before);
}

#[test]
fn the_line_is_laid_anew_when_its_wishes_change_and_what_is_out_of_bounds_is_refused() {
    let mut driver = driven(TWO);
    driver.keys("S Ctrl-U '5 km' Enter").unwrap();
    assert_eq!(driver.state.thread.set().step, 5.0 * Length::KILOMETRE);
    driver.keys("u").unwrap();
    assert_eq!(driver.state.thread.set().step, Length::ZERO);
    driver.keys("s Ctrl-U '3 km' Enter").unwrap();
    assert!(message(&driver).contains("2.0 km"), "{}", message(&driver));
    driver.keys("Ctrl-U '0.1 NM' Enter").unwrap();
    assert!((driver.state.thread.set().stand_off.as_metres() - 185.2).abs() < 1e-9);
    assert!(driver.state.thread.is_laid());
    driver.keys("r").unwrap();
    let along = driver.state.document.route().points[1].along.clone().unwrap();
    assert!((along.stand_off.as_metres() - 185.2).abs() < 1e-9);
}

/// The job that a message asks for.
fn job(commands: Vec<Command>) -> crate::job::Job {
    commands
        .into_iter()
        .find_map(|command| match command {
            Command::Compute(job) => Some(job),
            _ => None,
        })
        .expect("a job")
}

fn key(name: &str) -> Msg {
    Msg::Key(name.parse().unwrap())
}

#[test]
fn what_was_asked_for_before_the_last_change_never_reaches_the_screen() {
    let mut state = driven(TWO).state;
    for press in ["s", "Ctrl-U", "9", "0"] {
        assert!(update(&mut state, key(press)).is_empty());
    }
    let first = job(update(&mut state, key("Enter")));
    assert!(!state.thread.is_laid() && state.thread.line().is_some(), "the plain line meanwhile");
    for press in ["s", "Ctrl-U", "5", "0"] {
        update(&mut state, key(press));
    }
    let second = job(update(&mut state, key("Enter")));
    let (old, new) = (first.ticket(), second.ticket());
    let stale = first.run(&crate::job::Unwatched).unwrap();
    assert!(update(&mut state, Msg::Worked { ticket: old, outcome: stale }).is_empty());
    assert!(!state.thread.is_laid(), "the first result is of a line that is wished no more");
    update(&mut state, Msg::Working { ticket: old, done: Some(0.5) });
    assert_eq!(state.work.slow(), None);
    let fresh = second.run(&crate::job::Unwatched).unwrap();
    update(&mut state, Msg::Worked { ticket: new, outcome: fresh.clone() });
    assert!(state.thread.is_laid());
    update(&mut state, Msg::Worked { ticket: new, outcome: fresh });
    assert!(!state.work.does(Task::Lay));
}

#[test]
fn esc_gives_up_work_that_takes_long_before_it_does_anything_else() {
    let mut state = driven(TWO).state;
    for press in ["s", "Ctrl-U", "9", "9"] {
        update(&mut state, key(press));
    }
    let ticket = job(update(&mut state, key("Enter"))).ticket();
    // Work that is not slow yet is not in the way of Esc.
    let mut quick = state.clone();
    update(&mut quick, key("Esc"));
    assert_eq!(quick.hand, Hand::Look);
    update(&mut state, Msg::Working { ticket, done: Some(0.4) });
    assert_eq!(state.work.slow(), Some((Task::Lay, Some(0.4))));
    assert_eq!(update(&mut state, key("Esc")), [Command::Abandon(Task::Lay)]);
    assert_eq!(state.hand, Hand::Trace { carried: None }, "the thread stays in hand");
    let late = Outcome::Read(std::sync::Arc::new(Reading::default()));
    update(&mut state, Msg::Worked { ticket, outcome: late });
    assert!(!state.thread.is_laid());
}

#[test]
fn a_line_that_becomes_a_leg_waits_until_it_is_laid() {
    let mut state = driven(TWO).state;
    for press in ["s", "Ctrl-U", "9", "0"] {
        update(&mut state, key(press));
    }
    let job = job(update(&mut state, key("Enter")));
    assert!(update(&mut state, key("r")).is_empty());
    assert!(state.document.route().points.is_empty());
    let (ticket, outcome) = (job.ticket(), job.run(&crate::job::Unwatched).unwrap());
    assert!(update(&mut state, Msg::Worked { ticket, outcome }).contains(&Command::Save));
    assert_eq!(state.document.route().points.len(), 2);
}

#[test]
fn read_only_allows_measuring_and_refuses_legs() {
    let mut driver = driven("");
    driver.state.access = crate::state::Access::ReadOnly("it is another's".to_owned());
    driver.keys(TWO).unwrap();
    assert!((along(&driver) - 4.0).abs() < 0.01);
    driver.keys("r").unwrap();
    assert_eq!(message(&driver), "read-only: it is another's");
    driver.keys("u").unwrap();
    assert_eq!(anchors(&driver).len(), 1, "the trace's own history is not the route's");
}
