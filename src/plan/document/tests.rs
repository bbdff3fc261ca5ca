//! The document against a plain list of routes.

use nav::Position;
use proptest::collection::vec;
use proptest::prelude::*;

use super::*;
use crate::Waypoint;
use crate::testing::{any_edit, any_route};

/// What a test does to a document.
#[derive(Debug, Clone)]
enum Act {
    Apply(Edit),
    Join(Edit),
    Undo,
    Redo,
    Save,
}

fn any_act() -> impl Strategy<Value = Act> {
    prop_oneof![
        6 => any_edit().prop_map(Act::Apply),
        2 => any_edit().prop_map(Act::Join),
        3 => Just(Act::Undo),
        2 => Just(Act::Redo),
        1 => Just(Act::Save),
    ]
}

/// The plainest history that there is: every revision whole.
struct Model {
    revisions: Vec<Route>,
    at: usize,
    saved: Option<usize>,
}

impl Model {
    fn push(&mut self, route: Route) {
        self.revisions.truncate(self.at + 1);
        self.saved = self.saved.filter(|&saved| saved <= self.at);
        self.revisions.push(route);
        self.at += 1;
    }

    fn replace(&mut self, route: Route) {
        self.revisions.truncate(self.at);
        self.saved = self.saved.filter(|&saved| saved < self.at);
        self.revisions.push(route);
    }

    fn step(&mut self, by: isize) {
        if let Some(at) = self.at.checked_add_signed(by).filter(|at| *at < self.revisions.len()) {
            self.at = at;
        }
    }
}

/// Whether an edit that may join goes on with the change of this word.
fn goes_on(word: Option<&str>, edit: &Edit) -> bool {
    let (what, number) = word.and_then(|word| word.rsplit_once(' ')).unwrap_or_default();
    let number: usize = number.parse().unwrap_or(0);
    match (edit, what) {
        (Edit::Move { index, .. }, "move") => index + 1 == number,
        (Edit::SetAlong { index, .. }, "trace leg" | "straighten leg") => *index == number,
        (Edit::SetAlong { index, .. }, "delete") => index + 1 == number,
        (Edit::SetAlong { index, .. }, "move" | "drop" | "insert") => {
            index + 1 == number || *index == number
        }
        _ => false,
    }
}

proptest! {
    #[test]
    fn history_is_a_list_of_routes(route in any_route(), acts in vec(any_act(), 0..60)) {
        let mut document = Document::new(route.clone()).unwrap();
        let mut model = Model { revisions: vec![route], at: 0, saved: Some(0) };
        for act in acts {
            let joins = matches!(&act, Act::Join(edit) if goes_on(document.can_undo(), edit));
            match act {
                Act::Apply(edit) | Act::Join(edit) if !joins => {
                    if document.apply(edit).is_ok() {
                        model.push(document.route().clone());
                    }
                }
                Act::Apply(edit) | Act::Join(edit) => {
                    if document.apply_joined(edit).is_ok() {
                        model.replace(document.route().clone());
                    }
                }
                Act::Undo => { document.undo(); model.step(-1); }
                Act::Redo => { document.redo(); model.step(1); }
                Act::Save => { document.mark_saved(); model.saved = Some(model.at); }
            }
            prop_assert_eq!(document.route(), &model.revisions[model.at]);
            prop_assert_eq!(document.is_saved(), model.saved == Some(model.at));
            prop_assert_eq!(document.can_undo().is_some(), model.at > 0);
            prop_assert_eq!(document.can_redo().is_some(), model.at + 1 < model.revisions.len());
        }
    }

    #[test]
    fn an_edit_that_fails_leaves_the_document_whole(route in any_route(), edit in any_edit()) {
        let mut document = Document::new(route.clone()).unwrap();
        if document.apply(edit).is_err() {
            prop_assert_eq!(document.route(), &route);
            prop_assert!(document.is_saved() && document.can_undo().is_none());
        } else {
            document.undo();
            prop_assert_eq!(document.route(), &route);
        }
    }
}

#[test]
fn a_point_that_is_moved_leaves_the_height_of_its_old_place() {
    let height = Some(3.0 * nav::Length::METRE);
    let kept = crate::Kept { height, class: "slip".to_owned(), ..crate::Kept::default() };
    let points = vec![Waypoint { kept: kept.some(), ..point(1.0) }];
    let mut document = Document::new(Route { points, ..Route::new("C") }).unwrap();
    document.apply(Edit::Move { index: 0, to: point(2.0).at }).unwrap();
    let kept = |document: &Document| document.route().points[0].kept.clone().unwrap();
    assert_eq!((kept(&document).height, kept(&document).class.as_str()), (None, "slip"));
    document.undo();
    assert_eq!(kept(&document).height, height);
}

fn point(lat: f64) -> Waypoint {
    Waypoint::new(Position::from_degrees(lat, 0.0).unwrap())
}

#[test]
fn revisions_have_words() {
    let mut document = Document::new(Route::new("C")).unwrap();
    for index in [0, 1, 0] {
        document.apply(Edit::Insert { index, waypoint: point(1.0) }).unwrap();
    }
    document.apply(Edit::Reverse).unwrap();
    let words: Vec<_> = std::iter::from_fn(|| document.undo()).collect();
    assert_eq!(words, ["reverse", "insert 1", "drop 2", "drop 1"]);
    assert_eq!(document.redo().as_deref(), Some("drop 1"));
}

#[test]
fn a_run_of_nudges_is_taken_back_at_once() {
    let mut document = Document::new(Route::new("C")).unwrap();
    document.apply(Edit::Insert { index: 0, waypoint: point(1.0) }).unwrap();
    for lat in [2.0, 3.0, 4.0] {
        let to = point(lat).at;
        document.apply_joined(Edit::Move { index: 0, to }).unwrap();
        document.mark_saved();
    }
    document.undo();
    assert_eq!(document.route().points[0].at, point(1.0).at);
    document.redo();
    assert_eq!(document.route().points[0].at, point(4.0).at);
}

#[test]
fn errors_name_the_value_and_the_bound() {
    let mut document = Document::new(Route::new("C")).unwrap();
    let said = |document: &mut Document, edit| document.apply(edit).unwrap_err().to_string();
    let delete = Edit::Delete { index: 4 };
    assert_eq!(said(&mut document, delete), "there is no point 5; the route has 0");
    let title = Edit::SetTitle("x".repeat(81));
    assert_eq!(said(&mut document, title), "the title has 81 characters; at most 80 fit");
    for index in 0..999 {
        document.apply(Edit::Insert { index, waypoint: point(1.0) }).unwrap();
    }
    let one_more = Edit::Insert { index: 0, waypoint: point(1.0) };
    assert_eq!(said(&mut document, one_more), "a route holds at most 999 points");
    let stop = Edit::SetStop { index: 0, stop: jiff::SignedDuration::from_hours(200) };
    assert_eq!(said(&mut document, stop), "a stop of 12000 min is not within 0 min to 168 h");
}

#[test]
fn positions_are_rounded_once_to_what_the_file_holds() {
    let at = Position::from_degrees(52.123_456_789_6, -0.000_000_000_1).unwrap();
    let point = Waypoint::new(at);
    assert_eq!((point.at.lat.as_degrees(), point.at.lon.as_degrees()), (52.123_456_79, 0.0));
    assert!(point.at.lon.as_degrees().is_sign_positive());
    let mut document = Document::new(Route::new("C")).unwrap();
    document.apply(Edit::Insert { index: 0, waypoint: Waypoint { at, ..point } }).unwrap();
    assert_eq!(document.route().points[0].at, crate::rounded(at));
}
