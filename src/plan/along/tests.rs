//! Lines taken apart and put together.

use nav::{Length, Position};
use proptest::prelude::*;

use super::*;
use crate::testing::{any_along, any_edit, any_position, any_route};
use crate::{Document, Edit, Route, Waypoint};

fn at(lat: f64, lon: f64) -> Position {
    Position::from_degrees(lat, lon).unwrap()
}

fn click(lat: f64, lon: f64, other_way: bool) -> Through {
    Through { at: at(lat, lon), free: false, other_way }
}

/// North along a meridian and then east: a bay between two points, clicked once on the way.
fn bay(other_way: bool) -> Along {
    let line = Line::new([at(50.01, 1.0), at(50.02, 1.0), at(50.02, 1.01)]).unwrap();
    let clicks = [click(50.0, 1.0, false), click(50.02, 1.0, true), click(50.02, 1.02, other_way)];
    Along::new(line, &clicks, 50.0 * Length::METRE, Length::ZERO)
}

fn route() -> Route {
    let points =
        vec![Waypoint::new(at(50.0, 1.0)), Waypoint::new(at(50.02, 1.02)).reached(bay(false))];
    Route { points, ..Route::new("C") }
}

fn line_of(document: &Document, leg: usize) -> Vec<Position> {
    document.route().line_of(leg).unwrap().collect()
}

fn insert(index: usize, at: Position) -> Edit {
    Edit::Insert { index, waypoint: Waypoint::new(at) }
}

#[test]
fn a_point_on_the_line_splits_it_and_taken_out_joins_it() {
    let mut document = Document::new(route()).unwrap();
    document.apply(insert(1, at(50.015, 1.0))).unwrap();
    assert_eq!(line_of(&document, 0), [at(50.0, 1.0), at(50.01, 1.0), at(50.015, 1.0)]);
    let rest = [at(50.015, 1.0), at(50.02, 1.0), at(50.02, 1.01), at(50.02, 1.02)];
    assert_eq!(line_of(&document, 1), rest);
    document.apply(Edit::Delete { index: 1 }).unwrap();
    let joined = document.route().points[1].along.clone().unwrap();
    assert_eq!(joined.line.len(), 4);
    let ways: Vec<_> = joined.through.iter().map(|point| (point.at, point.other_way)).collect();
    // The first piece ran the longer way: it is laid through two points more on the way to the new one.
    let there = [at(50.015, 1.0), at(50.02, 1.0)];
    assert_eq!((ways.len(), ways.iter().any(|way| way.1)), (4, false));
    assert!(there.iter().all(|at| ways.iter().any(|way| way.0 == *at)), "{ways:?}");
    document.undo();
    document.undo();
    assert_eq!(document.route(), &route());
}

#[test]
fn a_point_on_a_vertex_takes_its_place() {
    let mut document = Document::new(route()).unwrap();
    document.apply(insert(1, at(50.02, 1.0))).unwrap();
    assert_eq!(line_of(&document, 0), [at(50.0, 1.0), at(50.01, 1.0), at(50.02, 1.0)]);
    assert_eq!(line_of(&document, 1), [at(50.02, 1.0), at(50.02, 1.01), at(50.02, 1.02)]);
}

#[test]
fn a_point_off_the_line_leaves_straight_legs_unless_it_brings_its_own() {
    let mut document = Document::new(route()).unwrap();
    // Two metres off a side of 1.1 km: a three-hundredth of it is four.
    document.apply(insert(1, at(50.005, 1.000_03))).unwrap();
    assert!(document.route().points.iter().skip(1).all(|point| point.along.is_some()));
    document.undo();
    // Ten metres off.
    document.apply(insert(1, at(50.005, 1.000_14))).unwrap();
    assert!(document.route().points.iter().all(|point| point.along.is_none()));
    // The caller lays both again in the same step.
    for index in [1, 2] {
        document.apply_joined(Edit::SetAlong { index, along: Some(bay(false)) }).unwrap();
    }
    assert!(document.route().points.iter().skip(1).all(|point| point.along.is_some()));
    assert_eq!(document.undo().as_deref(), Some("insert 2"));
    assert_eq!(document.route(), &route());
}

#[test]
fn a_drag_that_lays_its_legs_again_is_one_step() {
    let mut document = Document::new(route()).unwrap();
    for lat in [50.03, 50.04] {
        document.apply_joined(Edit::Move { index: 1, to: at(lat, 1.02) }).unwrap();
        assert_eq!(document.route().points[1].along, None);
        document.apply_joined(Edit::SetAlong { index: 1, along: Some(bay(true)) }).unwrap();
    }
    let dragged = document.route().clone();
    assert_eq!(document.undo().as_deref(), Some("move 2"));
    assert_eq!((document.route(), document.can_undo()), (&route(), None));
    document.redo();
    assert_eq!(document.route(), &dragged);
}

#[test]
fn a_move_of_either_end_straightens_and_undo_brings_the_line_back() {
    for index in [0, 1] {
        let mut document = Document::new(route()).unwrap();
        document.apply(Edit::Move { index, to: at(50.0, 1.03) }).unwrap();
        assert!(document.route().points.iter().all(|point| point.along.is_none()));
        document.undo();
        assert_eq!(document.route(), &route());
    }
}

#[test]
fn ways_stay_with_their_pieces_when_the_route_is_turned_about() {
    let mut document = Document::new(route()).unwrap();
    document.apply(Edit::Reverse).unwrap();
    let back = document.route().points[1].along.as_ref().unwrap();
    let ways: Vec<bool> =
        back.clicks(at(50.02, 1.02), at(50.0, 1.0)).iter().map(|click| click.other_way).collect();
    assert_eq!(ways, [false, false, true]);
    assert_eq!(back.line[0], at(50.02, 1.01));
}

#[test]
fn a_line_goes_on_across_the_180th_meridian() {
    let line = Line::new([at(-17.0, 179.99), at(-17.0, -179.99)]).unwrap();
    let along = Along { through: Vec::new(), line, ..bay(false) };
    let (first, second) =
        along.split(at(-17.01, 179.99), at(-17.0, -179.995), at(-17.01, -179.99)).unwrap();
    assert_eq!((first.line.len(), second.line.len()), (1, 1));
    // On the far side of the Earth, where longitudes step by a whole turn, there is no line.
    assert_eq!(along.split(at(-17.01, 179.99), at(-17.0, 0.0), at(-17.01, -179.99)), None);
}

#[test]
fn bounds_are_kept_and_named() {
    let long = Line::new(std::iter::repeat_n(at(1.0, 2.0), Line::MOST + 1)).unwrap_err();
    assert_eq!(long.to_string(), "100001 vertices in a traced leg; at most 100000 fit");
    let full = Line::new(std::iter::repeat_n(at(1.0, 2.0), Line::MOST)).unwrap();
    let full = Along { line: full, ..bay(false) };
    let mut document = Document::new(route()).unwrap();
    let end = |index: usize, along: &Along| Edit::Insert {
        index,
        waypoint: Waypoint::new(at(2.0, 2.0)).reached(along.clone()),
    };
    document.apply(end(2, &full)).unwrap();
    document.apply(end(3, &full)).unwrap();
    let said = |document: &mut Document, edit| document.apply(edit).unwrap_err().to_string();
    assert_eq!(
        said(&mut document, end(4, &full)),
        "300003 vertices in the route's traced legs; at most 250000 fit"
    );
    // Joined they are too much for one leg.
    assert_eq!(
        said(&mut document, Edit::Delete { index: 2 }),
        "200001 vertices in a traced leg; at most 100000 fit"
    );
    let first = Edit::SetAlong { index: 0, along: Some(bay(true)) };
    assert_eq!(
        said(&mut document, first),
        "the first point ends no leg, so that no line can lead to it"
    );
    let far = Along { stand_off: 2001.0 * Length::METRE, ..bay(false) };
    assert_eq!(
        said(&mut document, end(4, &far)),
        "a stand-off of 2001 m is not within 0 to 2000 m"
    );
}

proptest! {
    /// Every line leads from the end of the leg before to its own: none is left at a first point, and
    /// positions are rounded, so that the file and the document agree.
    #[test]
    fn no_edit_leaves_a_line_loose(route in any_route(), edits in proptest::collection::vec(any_edit(), 0..12)) {
        let mut document = Document::new(route.clone()).unwrap();
        let made = edits.into_iter().filter_map(|edit| document.apply(edit).ok()).count();
        let after = document.route();
        prop_assert!(after.points.first().is_none_or(|first| first.along.is_none()));
        let taken = Document::new(after.clone()).unwrap();
        prop_assert_eq!(taken.route(), after);
        prop_assert_eq!(&crate::format::read(&crate::format::write(after)).unwrap(), after);
        for _ in 0..made {
            document.undo();
        }
        prop_assert_eq!(document.route(), &route);
    }

    #[test]
    fn a_line_turned_about_twice_is_the_same(along in any_along()) {
        prop_assert_eq!(along.reversed().reversed(), along);
    }

    /// Split anywhere along it and joined again a line has its vertices and the new one; no vertex moves.
    #[test]
    fn a_line_split_and_joined_is_the_same_line(
        along in any_along(),
        (from, to) in (any_position(), any_position()),
        vertex in 0usize..12,
    ) {
        let Some(&at) = along.line.get(vertex) else { return Ok(()) };
        let (first, second) = along.split(crate::rounded(from), at, crate::rounded(to)).unwrap();
        let joined = first.joined(at, &second).unwrap();
        prop_assert_eq!(joined.line, along.line);
    }
}
