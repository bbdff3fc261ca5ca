//! Bearings taken on the screen, and the fixes that they give.

use chart::model::{Mark, MarkKind};
use chart::{Chart, Extent, Point, View};
use nav::{Bearing, ChartGrid, Grid, GridPoint, Length, Lettering, Position, True, geodesic};

use crate::action::Context;
use crate::driver::Driver;
use crate::state::{Access, Fixed, Hand, Overlay, Tone};
use crate::testing::{chart, driver_on};

fn point(x: f64, y: f64) -> Point {
    Point { x, y }
}

fn mark(name: &str, x: f64, y: f64) -> Mark {
    Mark { name: name.to_owned(), at: point(x, y), kind: MarkKind::Beacon }
}

/// The small chart with three beacons about the water west of its island.
fn marked() -> Driver {
    let marks = vec![
        mark("North Beacon", 504_000.0, 5_516_000.0),
        mark("East Beacon", 507_500.0, 5_512_000.0),
        mark("South Beacon", 505_500.0, 5_507_000.0),
    ];
    driver_on(Chart { marks, ..chart() }, 120, 40)
}

/// A boat in that water.
const BOAT: Point = Point { x: 504_500.0, y: 5_512_400.0 };

fn keys(driver: &mut Driver, keys: &str) {
    driver.keys(keys).unwrap();
}

fn fixed(driver: &Driver) -> Fixed {
    driver.state.fixed().unwrap().unwrap()
}

fn said(driver: &Driver) -> &str {
    driver.state.message.as_ref().map_or("", |message| &message.text)
}

/// The true bearing of a mark of the chart from a place.
fn bearing_of(driver: &Driver, name: &str, from: Position) -> Bearing<True> {
    let mark = driver.state.chart.marks.iter().find(|mark| mark.name == name).unwrap();
    let at = driver.state.point_of(from).map(|_| driver.state.position_of(mark.at).unwrap());
    geodesic::inverse(from, at.unwrap()).bearing_at_start
}

/// Goes to a beacon by its name and types a bearing of it.
fn take(driver: &mut Driver, name: &str, typed: &str) {
    keys(driver, &format!("/ '{name}' Enter Enter Ctrl-U '{typed}' Enter"));
}

/// Takes two bearings and lays them down.
const TWO: [(&str, &str); 2] = [("North Beacon", "350T"), ("East Beacon", "90T")];

fn two() -> Driver {
    let mut driver = marked();
    keys(&mut driver, "F");
    for (name, typed) in TWO {
        take(&mut driver, name, typed);
    }
    driver
}

const TABLE: &str = include_str!("../../../../tests/data/fix/intersections.csv");

/// The computed intersections on the plane of a grid, typed as bearings by the grid's lines, to what a geodesic leaves that plane
/// by: see the test of `nav::fix` with the same table. The lines are laid off from the marks, as the table has them, and told apart
/// from bearings from the boat by where they cross.
#[test]
fn intersections_typed_in() {
    let origin = Position::from_degrees(55.0, -4.0).unwrap();
    let at = |x: f64, y: f64| GridPoint::from_metres(x, y).unwrap();
    let plane =
        ChartGrid::new("plane", origin, 1.0, at(250_000.0, 640_000.0), Lettering::NONE).unwrap();
    let plane = Chart {
        grid: Grid::Chart(plane),
        extent: Extent::new(point(150_000.0, 540_000.0), point(350_000.0, 740_000.0)),
        land: Vec::new(),
        landings: Vec::new(),
        places: Vec::new(),
        ..chart()
    };
    let mut rows = 0;
    for row in TABLE.lines().filter(|line| !line.starts_with('#')).skip(1) {
        let cells: Vec<f64> = row.split(',').map(|cell| cell.parse().unwrap()).collect();
        let mut driver = driver_on(plane.clone(), 80, 24);
        keys(&mut driver, "F");
        for line in cells[..6].chunks(3) {
            let mark = point(line[0], line[1]);
            driver.state.view = View::new(mark, 20.0);
            driver.state.cursor = mark;
            keys(&mut driver, &format!("Enter '{}G' Enter", line[2]));
        }
        let found = fixed(&driver);
        let found = driver.state.point_of(found.fix.position).unwrap();
        let off = (found.x - cells[6]).hypot(found.y - cells[7]);
        assert!(off < 0.5, "{row}: {off} m off");
        rows += 1;
    }
    assert!(rows > 15);
}

/// Bearings of a known place, from each north, to the ten-thousandth of a degree typed: 1e-4° over 5 km is 9 mm.
#[test]
fn a_boat_is_found_from_each_north() {
    for letter in ["", "M", "T", "G", "g", "°m"] {
        let mut driver = marked();
        let boat = driver.state.position_of(BOAT).unwrap();
        // A variation unlike that of the model, so that the route's own must come into it.
        keys(&mut driver, "V Ctrl-U '12W' Enter F");
        for name in ["North Beacon", "East Beacon", "South Beacon"] {
            let from_true = bearing_of(&driver, name, boat);
            let state = &driver.state;
            let variation = state.document.route().variation.at(boat, state.year()).variation;
            assert!((variation.as_degrees_east() + 12.0).abs() < 1e-9);
            let convergence = state.chart.grid.forward(boat).unwrap().convergence;
            let degrees = match letter {
                "T" => from_true.as_degrees(),
                "G" | "g" => from_true.to_grid(convergence).as_degrees(),
                _ => from_true.to_magnetic(variation).as_degrees(),
            };
            take(&mut driver, name, &format!("{degrees:.4}{letter}"));
        }
        let found = fixed(&driver);
        let off = geodesic::inverse(boat, found.fix.position).distance;
        assert!(off < 0.05 * Length::METRE, "{letter}: {off:?}");
        assert!(found.triangle().unwrap() < 0.1 * Length::METRE);
        assert_eq!(found.turned, [false; 3]);
    }
}

#[test]
fn what_is_typed_otherwise_is_asked_for_again() {
    let mut driver = marked();
    keys(&mut driver, "F / 'North Beacon' Enter Enter");
    assert_eq!(driver.state.context(), Context::Ask);
    for (typed, why) in [
        ("", "write the bearing"),
        ("north", "“north” is no bearing"),
        ("400", "not within 0° to 360°"),
        ("12Q", "“12Q” is no bearing"),
        ("-3", "not within"),
    ] {
        keys(&mut driver, &format!("Ctrl-U '{typed}' Enter"));
        assert!(said(&driver).contains(why), "{typed}: {}", said(&driver));
        assert!(matches!(driver.state.overlays.last(), Some(Overlay::Ask(_))));
    }
    keys(&mut driver, "Esc");
    assert!(driver.state.bearings.taken().is_empty() && driver.state.hand == Hand::Fix);
}

#[test]
fn bearings_are_taken_back_and_made_again_and_never_lost() {
    let mut driver = two();
    let found = fixed(&driver);
    keys(&mut driver, "Backspace");
    assert_eq!(driver.state.bearings.taken().len(), 1);
    keys(&mut driver, "u");
    assert_eq!(fixed(&driver), found);
    keys(&mut driver, "U X");
    assert!(driver.state.bearings.taken().is_empty());
    keys(&mut driver, "u u Esc");
    assert_eq!((driver.state.hand, fixed(&driver)), (Hand::Look, found.clone()));
    // The route's history is not touched, and the bearings are there when they are taken in hand again.
    keys(&mut driver, "Enter u F Backspace u");
    assert_eq!(fixed(&driver), found);
    keys(&mut driver, "F");
    assert_eq!(driver.state.hand, Hand::Look);
}

#[test]
fn a_mark_has_one_bearing_which_is_changed() {
    let mut driver = two();
    let before = fixed(&driver);
    keys(&mut driver, "/ 'North Beacon' Enter Enter");
    let Some(Overlay::Ask(asked)) = driver.state.overlays.last() else { panic!() };
    assert_eq!(asked.line.text(), "350T");
    keys(&mut driver, "Ctrl-U 10T Enter");
    assert_eq!(driver.state.bearings.taken().len(), 2);
    assert_ne!(fixed(&driver).fix, before.fix);
}

#[test]
fn tab_goes_from_mark_to_mark_to_the_fix() {
    let mut driver = two();
    let at = |driver: &Driver| driver.state.cursor;
    let marks = [0, 1].map(|index| driver.state.bearings.taken()[index].mark.at);
    let fix = driver.state.point_of(fixed(&driver).fix.position).unwrap();
    keys(&mut driver, "Tab");
    assert_eq!(at(&driver), marks[0]);
    keys(&mut driver, "Tab");
    assert_eq!(at(&driver), marks[1]);
    keys(&mut driver, "Tab");
    assert_eq!(at(&driver), fix);
    keys(&mut driver, "Shift-Tab");
    assert_eq!(at(&driver), marks[1]);
    keys(&mut driver, "Delete");
    assert_eq!(driver.state.bearings.taken().len(), 1);
    assert!(driver.state.fixed().is_none());
}

#[test]
fn the_fix_becomes_a_waypoint() {
    let mut driver = two();
    keys(&mut driver, "r");
    let points = &driver.state.document.route().points;
    assert_eq!((points.len(), points[0].name.as_str(), driver.saves), (1, "Fix", 1));
    assert_eq!(points[0].at, plan::rounded(fixed(&driver).fix.position));
    assert!(said(&driver).starts_with("waypoint 1 is at the fix, "), "{}", said(&driver));
    keys(&mut driver, "Esc u");
    assert!(driver.state.document.route().points.is_empty());
    driver.state.access = Access::ReadOnly("another program has it".to_owned());
    keys(&mut driver, "F r");
    assert_eq!(said(&driver), "read-only: another program has it");
}

#[test]
fn what_makes_no_fix_is_said() {
    let mut driver = marked();
    keys(&mut driver, "F r");
    assert_eq!(said(&driver), "a fix needs two bearings");
    take(&mut driver, "North Beacon", "350T");
    take(&mut driver, "East Beacon", "350T");
    let message = driver.state.message.clone().unwrap();
    assert_eq!(message.tone, Tone::Refusal);
    assert!(message.text.starts_with("the bearings cross at 0.00°"), "{}", message.text);
    keys(&mut driver, "r");
    assert!(said(&driver).starts_with("the bearings cross"), "{}", said(&driver));
    // No bearing is lost by it.
    assert_eq!(driver.state.bearings.taken().len(), 2);
}

/// A bearing from the mark to the boat crosses behind the mark's back: told, and the fix is the same.
#[test]
fn a_bearing_the_other_way_round_is_told() {
    let mut driver = two();
    let right = fixed(&driver).fix.position;
    take(&mut driver, "East Beacon", "270T");
    let found = fixed(&driver);
    assert_eq!(found.turned, [false, true]);
    // Meridians lean by 0.02° on these 3 km, a metre.
    assert!(geodesic::inverse(right, found.fix.position).distance < 2.0 * Length::METRE);
}

#[test]
fn how_far_bearings_are_off_moves_what_is_said_of_the_fix() {
    let mut driver = two();
    let three = fixed(&driver).reach.by;
    keys(&mut driver, "s Ctrl-U 6 Enter");
    let six = fixed(&driver).reach.by;
    assert!((six / three - 2.0).abs() < 1e-9);
    // By hand: two lines that cut at 80°, each off by 3° at its distance.
    let far = |index: usize| {
        let mark = driver.state.bearings.taken()[index].mark.position;
        geodesic::inverse(mark, fixed(&driver).fix.position).distance * 3_f64.to_radians()
    };
    let (a, b, cut) = (far(0).as_metres(), far(1).as_metres(), 80_f64.to_radians());
    let diagonal = (a * a + b * b + 2.0 * a * b * cut.cos()).sqrt() / cut.sin();
    assert!((three.as_metres() / diagonal - 1.0).abs() < 1e-3, "{three:?} {diagonal}");
    keys(&mut driver, "s Ctrl-U 20 Enter");
    assert_eq!(said(&driver), "“20” is no angle from 0° to 15°; write degrees: 3");
}

#[test]
fn the_pointer_catches_a_mark_and_asks() {
    let mut driver = marked();
    let at = driver.state.chart.marks[1].at;
    keys(&mut driver, "F");
    let (x, y) = driver.state.view.cells_of(driver.state.cells(), at);
    let sea = driver.state.layout().sea();
    let (x, y) = (sea.x + x as u16 + 1, sea.y + y as u16);
    keys(&mut driver, &format!("Hover@{x},{y}"));
    assert_eq!(driver.state.sighted().unwrap().name, "East Beacon");
    keys(&mut driver, &format!("Click@{x},{y}"));
    assert_eq!((driver.state.context(), driver.state.cursor), (Context::Ask, at));
    keys(&mut driver, "90T Enter");
    assert_eq!(driver.state.bearings.taken()[0].mark.name, "East Beacon");
}

#[test]
fn a_place_without_a_name_is_taken_by_its_reference() {
    let mut driver = marked();
    driver.state.cursor = point(515_000.0, 5_503_000.0);
    keys(&mut driver, "F Enter 120 Enter");
    let taken = &driver.state.bearings.taken()[0];
    assert_eq!(taken.mark.at, point(515_000.0, 5_503_000.0));
    assert!(taken.mark.name.contains("150 030"), "{}", taken.mark.name);
}

#[test]
fn the_pencil_and_the_thread_take_over_and_give_way() {
    let mut driver = two();
    keys(&mut driver, "Space");
    assert_eq!(driver.state.context(), Context::Plot);
    keys(&mut driver, "F");
    assert_eq!(driver.state.context(), Context::Fix);
    keys(&mut driver, "t");
    assert_eq!(driver.state.context(), Context::Trace);
    keys(&mut driver, "F Esc");
    assert_eq!(driver.state.context(), Context::Look);
}

#[test]
fn a_digit_and_a_paste_open_the_line_of_the_bearing() {
    let mut driver = marked();
    keys(&mut driver, "F / 'North Beacon' Enter 350T Enter / 'East Beacon' Enter 90T Enter");
    let found = fixed(&driver);
    assert_eq!(found, fixed(&two()));
    // It is written anew, and Esc leaves what was read before.
    keys(&mut driver, "1");
    let Some(Overlay::Ask(asked)) = driver.state.overlays.last() else { panic!() };
    assert_eq!((asked.line.text().as_str(), asked.answer.is_ok()), ("1", true));
    keys(&mut driver, "Esc");
    assert_eq!(fixed(&driver), found);
    driver.send(crate::Msg::Paste("85T".to_owned()));
    keys(&mut driver, "Enter");
    assert_eq!(driver.state.bearings.taken()[1].read.to_string(), "085°T");
    // Elsewhere a digit is no bearing.
    keys(&mut driver, "Esc 1");
    assert!(said(&driver).contains("1 does nothing here"), "{}", said(&driver));
}

#[test]
fn each_change_of_the_bearings_is_kept_at_once() {
    let mut driver = marked();
    keys(&mut driver, "F");
    let mut sessions = driver.sessions;
    let mut kept = |driver: &mut Driver, pressed: &str, is_kept: bool| {
        keys(driver, pressed);
        assert_eq!(driver.sessions > sessions, is_kept, "{pressed}");
        sessions = driver.sessions;
    };
    kept(&mut driver, "/ 'North Beacon' Enter 350T Enter", true);
    kept(&mut driver, "/ 'East Beacon' Enter 90T Enter", true);
    kept(&mut driver, "Backspace", true);
    kept(&mut driver, "u", true);
    kept(&mut driver, "U", true);
    kept(&mut driver, "s Ctrl-U 2 Enter", true);
    kept(&mut driver, "Tab Delete", true);
    kept(&mut driver, "u X", true);
    kept(&mut driver, "Right Tab Esc F", false);
}

/// Two lines side by side and one across them: the corner of the two, a kilometre and more off, is not the triangle's.
#[test]
fn lines_side_by_side_are_left_out_of_the_triangle_and_narrow_cuts_are_warned_of() {
    let mut driver = two();
    let place = fixed(&driver).fix.position;
    let at = driver.state.point_of(place).unwrap();
    // A place 3 km north of the fix and 60 m to the east, in a line that is nearly the first one's.
    driver.state.cursor = point(at.x - 520.0 + 60.0, at.y + 3000.0);
    keys(&mut driver, "352T Enter");
    let found = fixed(&driver);
    assert_eq!(found.fix.left_out, 1);
    assert!(found.triangle().unwrap() < 200.0 * Length::METRE, "{:?}", found.fix);
    let screen = crate::picture::text(&driver.buffer(&crate::theme::Theme::default()));
    assert!(screen.contains("by cuts from 30°") || screen.contains("triangle"), "{screen}");
    keys(&mut driver, "/ 'East Beacon' Enter Delete");
    let screen = crate::picture::text(&driver.buffer(&crate::theme::Theme::default()));
    assert!(screen.contains("narrow cut: take a mark across"), "{screen}");
}
