//! What every action does, by keys and by pointer.

use chart::Point;
use nav::Figures;
use plan::Waypoint;
use ratatui::layout::Size;

use crate::action::{Act, Context, table};
use crate::driver::Driver;
use crate::state::{Access, Chosen, FoundKind, Hand, Overlay, Saving};
use crate::testing::{driver, tidal_island};
use crate::theme::{Colours, Theme, Tone};
use crate::{Command, Msg, State, update};

fn keys(driver: &mut Driver, text: &str) {
    driver.keys(text).unwrap();
}

fn driven(text: &str) -> Driver {
    let mut driver = driver(80, 24);
    keys(&mut driver, text);
    driver
}

fn points(driver: &Driver) -> Vec<Point> {
    driver.state.shown_points().into_iter().map(Option::unwrap).collect()
}

fn count(driver: &Driver) -> usize {
    driver.state.document.route().points.len()
}

fn message(driver: &Driver) -> &str {
    driver.state.message.as_ref().map_or("", |message| &message.text)
}

/// The cell of the screen in which a point of the chart lies.
fn cell(state: &State, point: Point) -> (u16, u16) {
    let (x, y) = state.view.cells_of(state.cells(), point);
    let sea = state.layout().sea();
    (sea.x + x as u16, sea.y + y as u16)
}

fn near(a: Point, b: Point, metres: f64) -> bool {
    (a.x - b.x).hypot(a.y - b.y) <= metres
}

const TWO: &str = "Enter Right*20 Enter";
const THREE: &str = "Enter Right*20 Enter Down*16 Enter";

#[test]
fn enter_twice_in_two_places_makes_a_leg_and_saves_it() {
    let driver = driven(TWO);
    assert_eq!(count(&driver), 2);
    assert_eq!(driver.state.hand, Hand::Plot { carried: None });
    assert_eq!(driver.state.chosen, Some(Chosen::Point(1)));
    assert_eq!(driver.saves, 2);
    assert!(driver.state.is_saved());
    let (across, _) = driver.state.dot();
    let [a, b] = points(&driver)[..] else { panic!() };
    assert!(near(a + Point { x: 20.0 * across, y: 0.0 }, b, 0.02));
}

#[test]
fn the_cursor_moves_by_a_dot_and_by_a_tenth_of_a_square() {
    let mut driver = driver(80, 24);
    let start = driver.state.cursor;
    let (across, down) = driver.state.dot();
    assert!((across - down).abs() < 1e-9, "braille dots are square");
    keys(&mut driver, "l l k");
    assert!(near(driver.state.cursor, start + Point { x: 2.0 * across, y: down }, 1e-6));
    keys(&mut driver, "h h j");
    assert!(near(driver.state.cursor, start, 1e-6));
    keys(&mut driver, "Shift-Right J");
    assert!(near(driver.state.cursor, start + Point { x: 1_000.0, y: -1_000.0 }, 1e-6));
    // Closer, the squares are those of a kilometre.
    keys(&mut driver, "+*6 Shift-Left");
    assert!(near(driver.state.cursor, start + Point { x: 900.0, y: -1_000.0 }, 1e-6));
}

#[test]
fn the_cursor_stays_on_the_chart_and_the_view_goes_with_it() {
    let driver = driven("+*6 Left*5000 Up*5000");
    let extent = driver.state.chart.extent;
    assert_eq!(driver.state.cursor, Point { x: extent.min().x, y: extent.max().y });
    let (x, y) = driver.state.view.cells_of(driver.state.cells(), driver.state.cursor);
    assert!(x >= 1.9 && y >= 1.9, "{x} {y}");
}

#[test]
fn zooming_keeps_the_cursor_in_its_place() {
    let mut driver = driven("Right*9 Up*7");
    let place = |d: &Driver| d.state.view.cells_of(d.state.cells(), d.state.cursor);
    let before = place(&driver);
    keys(&mut driver, "+*4");
    let after = place(&driver);
    assert!((before.0 - after.0).abs() < 1e-6 && (before.1 - after.1).abs() < 1e-6);
}

#[test]
fn panning_takes_the_cursor_along() {
    let driver = driven("+*6 PageUp*2 Ctrl-Left*2");
    let cells = driver.state.cells();
    let (x, y) = driver.state.view.cells_of(cells, driver.state.cursor);
    assert!(
        (0.0..f64::from(cells.columns)).contains(&x) && (0.0..f64::from(cells.rows)).contains(&y)
    );
}

#[test]
fn undo_and_redo_go_all_the_way() {
    let mut driver = driven(THREE);
    let drawn = driver.state.document.route().clone();
    keys(&mut driver, "R r 'Bight' Enter u*9");
    assert_eq!(count(&driver), 0);
    assert_eq!(message(&driver), "there is no change to take back");
    assert_eq!(driver.state.chosen, None);
    keys(&mut driver, "U*3");
    assert_eq!(*driver.state.document.route(), drawn);
    keys(&mut driver, "Ctrl-R*9");
    assert!(driver.state.document.route().points.iter().any(|point| point.name == "Bight"));
    assert!(driver.state.is_saved());
}

#[test]
fn insert_goes_into_the_chosen_leg_or_the_nearest() {
    let mut driver = driven(THREE);
    // On the second leg, a little beside it.
    keys(&mut driver, "Up*8 Right*2 i");
    assert_eq!(driver.state.chosen, Some(Chosen::Point(2)));
    assert_eq!(count(&driver), 4);
    // The first leg is chosen: there it goes, however far away the cursor is.
    keys(&mut driver, "u Esc Esc [ [");
    let Some(Chosen::Leg(leg)) = driver.state.chosen else { panic!("{:?}", driver.state.chosen) };
    keys(&mut driver, "i");
    assert_eq!(driver.state.chosen, Some(Chosen::Point(leg + 1)));
}

#[test]
fn a_waypoint_is_taken_up_and_put_down() {
    let mut driver = driven(TWO);
    let before = points(&driver);
    keys(&mut driver, "m Down*8");
    assert_eq!(driver.state.context(), Context::Carry);
    assert_eq!(driver.state.document.route().points.len(), 2);
    assert_eq!(points(&driver)[1], driver.state.cursor, "it follows the cursor");
    keys(&mut driver, "Enter");
    assert!(near(points(&driver)[1], driver.state.cursor, 0.02));
    assert!(!near(points(&driver)[1], before[1], 100.0));
    keys(&mut driver, "u");
    assert_eq!(points(&driver), before);
}

#[test]
fn escape_puts_back_what_was_taken_up_then_lays_the_pencil_down() {
    let mut driver = driven(TWO);
    let before = points(&driver);
    keys(&mut driver, "m Down*8 Esc");
    assert_eq!(points(&driver), before);
    assert_eq!(driver.state.hand, Hand::Plot { carried: None });
    assert!(near(driver.state.cursor, before[1], 0.02));
    keys(&mut driver, "Esc");
    assert_eq!(driver.state.hand, Hand::Look);
    keys(&mut driver, "Esc Esc");
    assert_eq!(driver.state.chosen, None);
    assert_eq!(points(&driver), before);
}

#[test]
fn a_run_of_nudges_is_one_change() {
    let mut driver = driven(TWO);
    let before = points(&driver);
    keys(&mut driver, "Alt-Up*3 Alt-Shift-Left");
    let (_, down) = driver.state.dot();
    let by = Point { x: -1_000.0, y: 3.0 * down };
    assert!(near(points(&driver)[1], before[1] + by, 0.1));
    assert!(near(driver.state.cursor, points(&driver)[1], 0.02));
    keys(&mut driver, "u");
    assert_eq!(points(&driver), before);
    keys(&mut driver, "Tab Alt-Up Left Alt-Up u");
    assert_eq!(message(&driver), "took back: move 1");
}

#[test]
fn deleting_goes_back_along_the_route() {
    let mut driver = driven(THREE);
    keys(&mut driver, "Backspace");
    assert_eq!((count(&driver), driver.state.chosen), (2, Some(Chosen::Point(1))));
    keys(&mut driver, "Delete Delete");
    assert_eq!((count(&driver), driver.state.chosen), (0, None));
    keys(&mut driver, "Delete");
    assert!(message(&driver).contains("no waypoint"), "{}", message(&driver));
}

#[test]
fn reversing_keeps_the_choice() {
    let mut driver = driven(THREE);
    let before = driver.state.document.route().points.clone();
    keys(&mut driver, "R");
    let after: Vec<Waypoint> = driver.state.document.route().points.iter().rev().cloned().collect();
    assert_eq!(before, after);
    assert_eq!(driver.state.chosen, Some(Chosen::Point(0)));
}

#[test]
fn tab_goes_round_the_waypoints_and_brackets_round_the_legs() {
    let mut driver = driven(THREE);
    keys(&mut driver, "Tab");
    assert_eq!(driver.state.chosen, Some(Chosen::Point(0)));
    assert!(near(driver.state.cursor, points(&driver)[0], 1e-6));
    keys(&mut driver, "Shift-Tab");
    assert_eq!(driver.state.chosen, Some(Chosen::Point(2)));
    keys(&mut driver, "]");
    assert_eq!(driver.state.chosen, Some(Chosen::Leg(0)));
    keys(&mut driver, "[");
    assert_eq!(driver.state.chosen, Some(Chosen::Leg(1)));
    assert_eq!(driver.state.lit_leg(), Some(1));
}

#[test]
fn the_jump_box_finds_references_positions_and_names() {
    let found = |text: &str| {
        let driver = driven(&format!("/ '{text}'"));
        let Some(Overlay::Jump(jump)) = driver.state.overlays.last() else { panic!() };
        let found = jump.found.iter().map(|f| (f.kind, f.title.clone())).collect::<Vec<_>>();
        (found, jump.wrong.clone().unwrap_or_default())
    };
    assert_eq!(found("otter").0.len(), 3);
    assert_eq!(found("otter").0[0].1, "Otter Slip");
    assert_eq!(found("otter").0[2].1, "North Otter");
    assert_eq!(found("49 45N 2 55W").0[0].0, FoundKind::Position);
    assert_eq!(found("509000 5509000").0[0].0, FoundKind::Reference);
    assert!(found("").0.is_empty() && found("").1.is_empty());
    assert!(found("heron").1.contains("begins with “heron”"));
    assert!(found("12 00N 2 55W").1.contains("not on this chart"), "{}", found("12 00N 2 55W").1);
    assert!(found("57°75′N 002°04.8′W").1.contains("75"));
    assert!(found("123").1.contains("odd"), "{}", found("123").1);
}

#[test]
fn a_jump_puts_the_cursor_there() {
    let mut driver = driven("+*8 / 'otter slip' Enter");
    assert_eq!(driver.state.cursor, Point { x: 508_000.0, y: 5_509_000.0 });
    assert!(driver.state.overlays.is_empty());
    keys(&mut driver, "/ 'nowhere' Enter");
    assert!(matches!(driver.state.overlays.last(), Some(Overlay::Jump(_))), "it stays open");
    keys(&mut driver, "Ctrl-U 'otter' Down Down Enter");
    assert_eq!(driver.state.cursor, Point { x: 505_000.0, y: 5_515_000.0 });
}

#[test]
fn answers_change_the_route() {
    let driver = driven(
        "Enter Right*9 Enter r 'Teal Bight' Enter s Ctrl-U 25 Enter p Ctrl-U '5.5 km/h' Enter \
         D Ctrl-U '2027-05-01 8:15' Enter V Ctrl-U '4W 2019 6E' Enter T 'Round the Block' Enter",
    );
    let route = driver.state.document.route();
    assert_eq!(route.points[1].name, "Teal Bight");
    assert_eq!(route.points[1].stop.as_mins(), 25);
    assert_eq!(route.pace.to_string(), "5.5 km/h");
    assert_eq!(route.departure.as_ref().unwrap().to_string(), "2027-05-01T08:15:00+00:00[UTC]");
    assert!(matches!(route.variation, nav::magnetic::VariationSource::Printed(_)));
    assert_eq!(route.title, "Round the Block");
}

/// The pace that a group has kept, by its name; the mean of its one trip.
#[test]
fn a_profile_answers_for_its_pace() {
    let text = "(version: 1, profiles: [(name: \"Thursdays\", trips: [(date: \"2026-06-14\", \
                began: \"2026-06-14T08:00:00Z\", moving_s: 3600, distance_m: 5000, ground_kn: 2.7, \
                water: Some((kn: 3.15, s: 3600, spread_kn: 0.2)))])])";
    let mut driver = driven("");
    driver.state.profiles = plan::profile::read(text).unwrap();
    keys(&mut driver, "p Ctrl-U 'thursdays' Enter");
    assert_eq!(driver.state.document.route().pace.to_string(), "3.15 kn");
}

#[test]
fn an_answer_that_is_none_stays_open_and_changes_nothing() {
    let mut driver = driven("p Ctrl-U 'fast' Enter");
    assert!(matches!(driver.state.overlays.last(), Some(Overlay::Ask(_))));
    assert!(message(&driver).contains("fast"));
    keys(&mut driver, "Esc");
    assert!(driver.state.document.can_undo().is_none());
}

#[test]
fn the_action_list_filters_and_does() {
    let mut driver = driven("Ctrl-P 'refer fig'");
    let Some(Overlay::List(list)) = driver.state.overlays.last() else { panic!() };
    assert_eq!(list.acts, [Act::Figures]);
    keys(&mut driver, "Enter");
    assert_eq!(driver.state.settings.figures, Figures::Eight);
    assert!(driver.state.overlays.is_empty());
}

#[test]
fn every_action_can_be_done_where_its_keys_count_and_none_fails() {
    for row in table() {
        for context in row.contexts {
            let before = match context {
                Context::Look => "Enter Right*9 Enter Esc",
                Context::Plot => "Enter Right*9 Enter",
                Context::Carry => "Enter Right*9 Enter m",
                Context::Trace => "t Enter Up*30 Enter",
                Context::Anchor => "t Enter Up*30 Enter m",
                Context::Fix => {
                    "F / 'Otter Sound' Enter Enter 30T Enter / 'Otter Slip' Enter Enter 100T Enter"
                }
                Context::Dividers => "t Enter Up*30 Enter d",
                Context::Tide => "y",
                Context::Help => "Enter Right*9 Enter ?",
                Context::Legs => "Enter Right*9 Enter a",
                Context::List => "Enter Right*9 Enter Ctrl-P",
                Context::Jump => "Enter Right*9 Enter /",
                Context::Ask => "Enter Right*9 Enter p",
                Context::Starts => "Enter Right*9 Enter E",
                Context::Limits => "Enter Right*9 Enter z",
                Context::Drill => "b Enter",
                Context::Reply => "b Enter Enter",
                Context::Marked => "b Enter o",
                Context::Drills => "b",
                Context::Progress => "B",
            };
            let mut driver = tidal_island(80, 24);
            keys(&mut driver, before);
            assert_eq!(driver.state.context(), *context);
            for key in row.keys {
                keys(&mut driver.clone(), key);
            }
            driver.send(Msg::Act(row.act));
        }
    }
}

#[test]
fn read_only_refuses_changes_with_a_word() {
    let mut driver = driven(TWO);
    driver.state.access = Access::ReadOnly("another program has the route open".to_owned());
    let before = driver.state.document.route().clone();
    for key in ["Enter", "i", "m", "Delete", "r", "p", "u", "R", "Alt-Up", "D", "V", "T", "s"] {
        keys(&mut driver, key);
        assert_eq!(message(&driver), "read-only: another program has the route open", "{key}");
        assert!(driver.state.overlays.is_empty());
    }
    let at = cell(&driver.state, points(&driver)[0]);
    keys(&mut driver, &format!("Drag@{},{}>40,12", at.0, at.1));
    assert_eq!(*driver.state.document.route(), before);
}

#[test]
fn a_drag_of_a_waypoint_is_one_change_and_leaves_no_jump() {
    let mut driver = driven(TWO);
    let before = points(&driver);
    let (x, y) = cell(&driver.state, before[0]);
    keys(&mut driver, &format!("Drag@{x},{y}>{},{}", x + 6, y + 3));
    let view = driver.state.view;
    let by = Point { x: 6.0 * view.metres_per_column, y: -3.0 * view.metres_per_row() };
    assert!(near(points(&driver)[0], before[0] + by, 0.1));
    assert_eq!(driver.saves, 3);
    keys(&mut driver, "u");
    assert_eq!(points(&driver), before);
}

#[test]
fn a_press_without_a_move_chooses_a_waypoint() {
    let mut driver = driven(TWO);
    let (x, y) = cell(&driver.state, points(&driver)[0]);
    keys(&mut driver, &format!("Click@{x},{y}"));
    assert_eq!(driver.state.chosen, Some(Chosen::Point(0)));
    assert_eq!((count(&driver), driver.saves), (2, 2));
}

#[test]
fn a_click_moves_the_cursor_and_drops_with_the_pencil_in_hand() {
    let mut driver = driven("Click@35,8");
    assert_eq!(cell(&driver.state, driver.state.cursor), (35, 8));
    assert_eq!(count(&driver), 0);
    keys(&mut driver, "Space Click@36,9 Click@40,12");
    assert_eq!(count(&driver), 2);
}

#[test]
fn the_chart_is_dragged_and_the_wheel_zooms_about_the_pointer() {
    let mut driver = driven("+*4");
    let under = driver.state.point_at(30, 10).unwrap();
    keys(&mut driver, "Drag@30,10>36,12");
    assert!(near(driver.state.point_at(36, 12).unwrap(), under, 1e-6));
    keys(&mut driver, "WheelUp@36,12*3");
    assert!(near(driver.state.point_at(36, 12).unwrap(), under, 1e-6));
    assert_eq!(count(&driver), 0);
}

#[test]
fn losing_the_focus_puts_back_what_was_held() {
    use crate::{Gesture, Pointer};
    let mut driver = driven(TWO);
    let before = points(&driver);
    let (column, row) = cell(&driver.state, before[0]);
    driver.send(Msg::Pointer(Pointer { what: Gesture::Press, column, row }));
    driver.send(Msg::Pointer(Pointer { what: Gesture::Drag, column: column + 5, row }));
    assert_ne!(points(&driver), before);
    driver.send(Msg::FocusLost);
    assert_eq!(points(&driver), before);
    driver.send(Msg::Pointer(Pointer { what: Gesture::Release, column: column + 5, row }));
    assert_eq!(points(&driver), before);
}

#[test]
fn hints_and_rows_are_pressed() {
    let mut driver = driven(TWO);
    let hint =
        crate::action::hints(&driver.state).into_iter().find(|h| h.act == Act::Undo).unwrap();
    keys(&mut driver, &format!("Click@{},{}", hint.area.x, hint.area.y));
    assert_eq!(count(&driver), 1);
    let mut wide = driver_wide();
    let rows = wide.state.layout().leg_rows();
    keys(&mut wide, &format!("Click@{},{}", rows.x + 2, rows.y + 1));
    assert_eq!(wide.state.chosen, Some(Chosen::Leg(1)));
}

fn driver_wide() -> Driver {
    let mut driver = driver(200, 60);
    keys(&mut driver, THREE);
    driver
}

#[test]
fn resizing_loses_nothing_down_to_no_screen_at_all() {
    let mut driver = driven("+*3 Right*9 Enter Down*9 Enter / 'QB'");
    let (view, cursor) = (driver.state.view, driver.state.cursor);
    for (width, height) in [(0, 0), (1, 1), (59, 20), (60, 19), (0, 50), (80, 24)] {
        driver.send(Msg::Resize(Size { width, height }));
        keys(&mut driver, "a Backspace Click@0,0");
        driver.keys("/ 'QB'").unwrap();
    }
    assert_eq!((driver.state.view, driver.state.cursor), (view, cursor));
    assert_eq!(count(&driver), 2);
}

#[test]
fn a_save_that_fails_is_shown_tried_again_and_holds_the_program_back_once() {
    let mut state = driver(80, 24).state;
    let key = |name: &str| Msg::Key(name.parse().unwrap());
    assert_eq!(update(&mut state, key("Enter")), [Command::Save]);
    assert!(update(&mut state, Msg::SaveFailed("no space".to_owned())).is_empty());
    assert!(state.message.as_ref().unwrap().text.contains("no space"));
    assert_eq!(update(&mut state, Msg::Retry), [Command::Save]);
    assert_eq!(update(&mut state, key("q")), [Command::Save]);
    assert!(update(&mut state, Msg::SaveFailed("no space".to_owned())).is_empty());
    assert!(matches!(state.saving, Saving::FailedLeaving(_)));
    let mut patient = state.clone();
    assert_eq!(update(&mut state, key("q")), [Command::Quit]);
    // Anything else, and leaving is asked anew.
    update(&mut patient, key("Left"));
    assert_eq!(update(&mut patient, key("q")), [Command::Save]);
    assert_eq!(update(&mut patient, Msg::Saved), [Command::Quit]);
}

#[test]
fn positions_are_given_in_each_form_in_turn() {
    let mut driver = driver(200, 60);
    let theme = Theme::new(Tone::Dark, Colours::None);
    let mut shows = |keys: &str, signs: &str| {
        let screen = crate::picture::text(&driver.keys(keys).unwrap().buffer(&theme));
        let pane = screen.split("Position").nth(1).unwrap();
        let position = pane.lines().nth(2).unwrap();
        let found: String = position.chars().filter(|c| "°′″".contains(*c)).collect();
        assert_eq!(found, signs.repeat(2), "{position}");
    };
    shows("", "°′");
    shows("%", "°′″");
    shows("%", "°");
    shows("%", "°′");
}

#[test]
fn what_another_program_wrote_is_said_to_be_kept() {
    let mut state = driver(80, 24).state;
    update(&mut state, Msg::Key("Enter".parse().unwrap()));
    assert!(update(&mut state, Msg::SavedOver("day.other-1.ron".to_owned())).is_empty());
    assert!(state.message.as_ref().unwrap().text.contains("kept as day.other-1.ron"));
    assert!(state.document.is_saved());
}

#[test]
fn keys_without_an_action_say_so_and_text_is_pasted_into_lines() {
    let mut driver = driven("F9");
    assert!(message(&driver).contains("F9 does nothing here"));
    driver.send(Msg::Paste("hello".to_owned()));
    assert!(message(&driver).contains("no line"));
    keys(&mut driver, "/");
    driver.send(Msg::Paste("otter\nslip\u{1b}".to_owned()));
    let Some(Overlay::Jump(jump)) = driver.state.overlays.last() else { panic!() };
    assert_eq!(jump.line.text(), "otter slip");
    assert_eq!(jump.found.len(), 1);
}

#[test]
fn q_leaves_and_is_a_letter_in_a_line() {
    assert!(driven("q").left);
    assert!(!driven("/ q").left);
    assert!(driven("/ q Ctrl-C").left);
}
