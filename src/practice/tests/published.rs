//! Worked examples in print, run through the marker: the printed answer is right, and a wrong one is named.

use jiff::SignedDuration;
use nav::tide::Water;
use nav::triangle::Stream;
use nav::{
    Bearing, ChartGrid, Figures, Grid, GridPoint, Lettering, Pace, PaceUnit, Position, Speed,
};
use serde_json::Value;

use crate::ask::fix::Asked;
use crate::ask::heading::Triangle;
use crate::ask::norths::Norths;
use crate::ask::pace::{Run, how_far};
use crate::ask::rate;
use crate::ask::reference::{mistakes, reference};
use crate::ask::tide;
use crate::ground::Spot;
use crate::water::Line;
use crate::{MistakeKind, Question, Tolerance, Unit};

/// The rows of a table, each by the names of its columns.
fn rows(text: &str) -> Vec<serde_json::Map<String, Value>> {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    let head = reader.headers().unwrap().clone();
    let row = |record: csv::StringRecord| {
        head.iter().zip(&record).map(|(name, cell)| (name.to_owned(), cell.into())).collect()
    };
    reader.records().map(|record| row(record.unwrap())).collect()
}

fn cell<'a>(row: &'a serde_json::Map<String, Value>, name: &str) -> &'a str {
    row[name].as_str().unwrap()
}

fn number(row: &serde_json::Map<String, Value>, name: &str) -> f64 {
    cell(row, name).parse().unwrap_or_else(|_| panic!("{name} of {row:?}"))
}

/// The printed answer is right; the wrong one is wrong and named.
fn marked(question: &Question, row: &serde_json::Map<String, Value>) {
    let mark = question.mark(cell(row, "printed")).unwrap();
    assert!(mark.right && mark.off.is_none(), "{row:?}\n{mark:?}");
    let mark = question.mark(cell(row, "wrong")).unwrap();
    let named = mark.mistake.map(MistakeKind::key);
    assert_eq!((mark.right, named), (false, Some(cell(row, "mistake"))), "{row:?}\n{question:?}");
}

#[test]
fn references() {
    let grid = Grid::parse("EPSG:27700").unwrap();
    let rows = rows(include_str!("../../../tests/data/practice/worked_references.csv"));
    assert_eq!(rows.len(), 8);
    for row in rows {
        let at = chart::Point { x: number(&row, "easting"), y: number(&row, "northing") };
        let answer = reference(&grid, at, Figures::Six).unwrap();
        let mut question = Question::new(String::new(), answer, Tolerance::Exact, &grid);
        mistakes(&mut question, at, Figures::Six);
        marked(&question, &row);
    }
}

#[test]
fn grid_and_magnetic() {
    let grid = Grid::parse("EPSG:27700").unwrap();
    let rows = rows(include_str!("../../../tests/data/practice/worked_norths.csv"));
    assert_eq!(rows.len(), 6);
    for row in rows {
        let norths = Norths::new(0.0, number(&row, "gm_east"), String::new(), None).unwrap();
        let given = number(&row, "given");
        let question = match cell(&row, "from") {
            "grid" => norths.to_magnetic(given, Tolerance::Exact, &grid),
            _ => norths.to_grid(given, Tolerance::Exact, &grid),
        };
        marked(&question.unwrap(), &row);
    }
}

fn tenths(row: &serde_json::Map<String, Value>, name: &str) -> i64 {
    (number(row, name) * 10.0).round() as i64
}

#[test]
fn heights_by_twelfths() {
    let grid = Grid::parse("EPSG:27700").unwrap();
    let rows = rows(include_str!("../../../tests/data/practice/worked_tides.csv"));
    assert_eq!(rows.len(), 7);
    for row in rows {
        let (from, to) = (tenths(&row, "from_m"), tenths(&row, "to_m"));
        let (first, second) =
            if from > to { (Water::High, Water::Low) } else { (Water::Low, Water::High) };
        let line =
            |minute, tenths, water| Line { minute: number(&row, minute) as i64, tenths, water };
        let lines = vec![line("from_minute", from, first), line("to_minute", to, second)];
        let asked = tide::Asked::new(lines, number(&row, "at_minute") as i64).unwrap();
        marked(&asked.question(Tolerance::Units(0.1), &grid).unwrap(), &row);
    }
}

#[test]
fn rates_by_fifty_ninety() {
    let grid = Grid::parse("EPSG:27700").unwrap();
    let rows = rows(include_str!("../../../tests/data/practice/worked_streams.csv"));
    assert_eq!(rows.len(), 6);
    for row in rows {
        let asked = rate::Asked {
            of: None,
            springs: tenths(&row, "rate_springs"),
            neaps: tenths(&row, "rate_neaps"),
            ranges: (tenths(&row, "range_springs"), tenths(&row, "range_neaps")),
            range: tenths(&row, "range"),
            slack: 8 * 60,
            hours: number(&row, "hours") as i64,
        };
        marked(&asked.question(Tolerance::Units(0.1), &grid).unwrap(), &row);
    }
}

/// Two hundred triangles of an independent method: its heading is right, the one on the other side of the track is named.
#[test]
fn headings_computed() {
    let grid = Grid::parse("EPSG:27700").unwrap();
    let (mut marked, mut named) = (0, 0);
    for row in rows(include_str!("../../../tests/data/sailings/current_triangles_computed.csv")) {
        if cell(&row, "course_to_steer_deg") == "none" {
            continue;
        }
        let degrees = |name| Bearing::from_degrees(number(&row, name)).unwrap();
        let knots = |name| Speed::from_knots(number(&row, name)).unwrap();
        let triangle = Triangle {
            track: degrees("track_deg"),
            speed: knots("boat_speed_kn"),
            stream: Stream { set: degrees("set_deg"), drift: knots("drift_kn") },
            variation: None,
        };
        // Under a knot made good it is no question.
        let Some(question) = triangle.question(&grid) else { continue };
        let right = number(&row, "course_to_steer_deg");
        let mark = question.mark(&format!("{right:.0}")).unwrap();
        assert!(mark.right, "{row:?} {mark:?}");
        marked += 1;
        let mirrored = (2.0 * number(&row, "track_deg") - right).rem_euclid(360.0);
        let mark = question.mark(&format!("{mirrored:.0}")).unwrap();
        if !mark.right {
            assert_eq!(mark.mistake, Some(MistakeKind::StreamAdded), "{row:?} {question:?}");
            named += 1;
        }
    }
    assert!(marked > 70 && named > 60, "{marked} {named}");
}

/// Headings plotted in print, to within what plotting keeps; the other side of the track is named.
#[test]
fn headings() {
    let grid = Grid::parse("EPSG:27700").unwrap();
    let mut marked = 0;
    for row in rows(include_str!("../../../tests/data/sailings/current_triangles.csv")) {
        if cell(&row, "kind") != "heading" || cell(&row, "answer_deg").is_empty() {
            continue;
        }
        let degrees = |name| Bearing::from_degrees(number(&row, name)).unwrap();
        let knots = |name| Speed::from_knots(number(&row, name)).unwrap();
        let track = degrees("direction_deg");
        let triangle = Triangle {
            track,
            speed: knots("speed_kn"),
            stream: Stream { set: degrees("set_deg"), drift: knots("drift_kn") },
            variation: None,
        };
        let Some(question) = triangle.question(&grid) else { continue };
        let printed = number(&row, "answer_deg");
        assert!(question.mark(&printed.to_string()).unwrap().right, "{row:?}");
        let mirrored = (2.0 * track.as_degrees() - printed).rem_euclid(360.0);
        let mark = question.mark(&mirrored.to_string()).unwrap();
        if !mark.right {
            assert_eq!(mark.mistake, Some(MistakeKind::StreamAdded), "{row:?} {question:?}");
        }
        marked += 1;
    }
    assert!(marked >= 3, "{marked}");
}

/// The American Practical Navigator's table of speed, time and distance.
#[test]
fn distances_run() {
    let grid = Grid::parse("EPSG:27700").unwrap();
    let mut marked = 0;
    for row in rows(include_str!("../../../tests/data/sailings/bowditch2024_table11.csv")) {
        let (minutes, knots) = (number(&row, "minutes"), number(&row, "knots"));
        let printed = number(&row, "distance_nm_printed");
        let pace = Pace::new(Speed::from_knots(knots).unwrap(), PaceUnit::Knots);
        let time = SignedDuration::from_mins(minutes as i64);
        let Some(question) = how_far(pace, time, Unit::Miles, Tolerance::Units(0.1), &grid) else {
            continue;
        };
        assert!(question.mark(&format!("{printed} NM")).unwrap().right, "{row:?}");
        // Divided where it is multiplied: named, unless it comes to nearly the same.
        let divided = minutes / 60.0 / knots;
        let mark = question.mark(&format!("{divided:.1} NM")).unwrap();
        assert!(mark.right || mark.mistake.is_some(), "{row:?} {mark:?}");
        marked += 1;
    }
    assert!(marked > 12, "{marked}");
}

/// The same table the other way: the time of a printed distance, to what a rounded distance leaves open; a decimal fraction of
/// an hour read as minutes is named.
#[test]
fn times_run() {
    let grid = Grid::parse("EPSG:27700").unwrap();
    let (mut marked, mut named) = (0, 0);
    for row in rows(include_str!("../../../tests/data/sailings/bowditch2024_table11.csv")) {
        let (minutes, knots) = (number(&row, "minutes"), number(&row, "knots"));
        let distance = number(&row, "distance_nm_printed");
        let pace = Pace::new(Speed::from_knots(knots).unwrap(), PaceUnit::Knots);
        let run = Run { distance, unit: Unit::Miles, pace };
        let near = 0.051 / knots * 60.0 + 0.5;
        let Some(question) = run.time(Tolerance::Units(near), &grid) else { continue };
        assert!(question.mark(&format!("{minutes} min")).unwrap().right, "{row:?}");
        marked += 1;
        let hours = distance / knots;
        let slipped = hours.floor() * 60.0 + (hours.fract() * 100.0).round();
        let mark = question.mark(&format!("{slipped} min")).unwrap();
        // A fraction of a few minutes slips by no more than the distance's rounding.
        if !mark.right && minutes > 15.0 {
            assert_eq!(mark.mistake, Some(MistakeKind::MinutesForTenths), "{row:?} {mark:?}");
            named += 1;
        }
    }
    assert!(marked > 12 && named > 5, "{marked} {named}");
}

/// Intersections of two lines laid off from known points: the point is right, that of the marks swapped is named.
#[test]
fn intersections() {
    let origin = Position::from_degrees(55.0, -4.0).unwrap();
    let false_origin = GridPoint::from_metres(250_000.0, 640_000.0).unwrap();
    let corner = GridPoint::from_metres(100_000.0, 500_000.0).unwrap();
    let lettering = Lettering::rows(corner, &["AA BA CA", "AB BB CB", "AC BC CC"]).unwrap();
    let grid = Grid::Chart(ChartGrid::new("plane", origin, 1.0, false_origin, lettering).unwrap());
    let (mut marked, mut named) = (0, 0);
    for row in rows(include_str!("../../../tests/data/fix/intersections.csv")) {
        let mark = |east, north, bearing| {
            let at = chart::Point { x: number(&row, east), y: number(&row, north) };
            let there = grid.inverse(GridPoint::from_metres(at.x, at.y).unwrap()).unwrap();
            let spot = Spot { name: east.to_owned(), at, position: there.position };
            (spot, (number(&row, bearing) + there.convergence.as_degrees_east()).rem_euclid(360.0))
        };
        let one = mark("e1", "n1", "grid_bearing1");
        let other = mark("e2", "n2", "grid_bearing2");
        let asked = Asked { marks: [&one.0, &other.0], read: [one.1, other.1], variation: None };
        let Some(question) = asked.question(&grid) else { continue };
        let (east, north) = (number(&row, "intersection_e"), number(&row, "intersection_n"));
        let six = grid.reference(GridPoint::from_metres(east, north).unwrap(), Figures::Six);
        assert!(question.mark(&format!("{east:.0} {north:.0}")).unwrap().right, "{row:?}");
        assert!(question.mark(&six.unwrap()).unwrap().right, "{row:?}");
        marked += 1;
        by_compass(&asked, (east, north), &grid);
        for mistake in &question.mistakes {
            assert_eq!(mistake.kind, MistakeKind::MarksSwapped);
            assert_eq!(
                question.mark(&mistake.answer.to_string()).unwrap().mistake,
                Some(mistake.kind)
            );
            named += 1;
        }
    }
    assert!(marked > 10 && named > 5, "{marked} {named}");
}

/// The same by a compass 20° off: the printed point is right, and where the variation was left out or put on the wrong way
/// is named.
fn by_compass(asked: &Asked<'_>, (east, north): (f64, f64), grid: &Grid) {
    let read = asked.read.map(|bearing| (bearing - 20.0).rem_euclid(360.0));
    let asked = Asked { marks: asked.marks, read, variation: Some(20) };
    let Some(question) = asked.question(grid) else { return };
    assert!(question.mark(&format!("{east:.0} {north:.0}")).unwrap().right, "{question:?}");
    for mistake in &question.mistakes {
        let mark = question.mark_reply(&mistake.answer.reply());
        assert!(!mark.right && mark.mistake.is_some(), "{mistake:?}");
    }
}
