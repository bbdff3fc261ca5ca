//! Tests that a card of any route has room on its pages: nothing beyond the margins, nothing on anything else, nothing
//! cut, nothing smaller than seven points.

use nav::{GridPoint, Position};
use plan::Waypoint;
use proptest::prelude::*;

use super::tests::Day;
use super::*;
use crate::draw::{Area, Item, Mm, Text};
use crate::font::{self, trace};
use crate::map::LEAST;

/// What is covered with ink.
fn ink(text: &Text) -> Option<Area> {
    let shaped = font::shape(text.face, &text.words);
    Area::around(trace::line(text, &shaped, trace::Curves::Coarse).spots())
}

/// Texts that are set on the page, and those that lie within a chart, which has rules of its own.
fn set(items: &[Item]) -> Vec<&Text> {
    let texts = items.iter().filter_map(|item| match item {
        Item::Text(text) => Some(text),
        _ => None,
    });
    texts.collect()
}

/// Every fault of a page.
pub(super) fn faults(page: &Page, margin: Mm) -> Vec<String> {
    let mut faults = Vec::new();
    let within = Area::of(page.size).inset(margin);
    for item in &page.items {
        if item.area().is_some_and(|area| !within.inset(Mm(-0.3)).holds(&area)) {
            faults.push(format!("beyond the margin: {item:?}"));
        }
    }
    for text in page.texts() {
        if text.size < LEAST {
            faults.push(format!("{:?} under seven points: {:?}", text.size, text.words));
        }
        if text.words.contains('…') {
            faults.push(format!("cut: {:?}", text.words));
        }
    }
    let inks: Vec<(Area, &str)> = set(&page.items)
        .into_iter()
        .filter_map(|text| Some((ink(text)?, text.words.as_str())))
        .collect();
    for (index, (one, words)) in inks.iter().enumerate() {
        // Some letters hang a little over their place.
        if !within.inset(Mm(-0.3)).holds(one) {
            faults.push(format!("beyond the margin: {words:?} {one:?}"));
        }
        // Where a line of tall marks stands under one of deep letters they may just meet.
        let core = one.between(one.top + Mm(0.35), one.bottom() - Mm(0.35)).inset(Mm(0.02));
        let on = inks[index + 1..].iter().find(|(other, _)| other.overlaps(&core));
        faults.extend(on.map(|(_, other)| format!("{words:?} on {other:?}")));
    }
    let words: Vec<&str> = page.texts().iter().map(|text| text.words.as_str()).collect();
    let all = words.join(" ");
    for caution in ["no such place", "Not for navigation"] {
        if !all.contains(caution) {
            faults.push(format!("without {caution:?}: {all}"));
        }
    }
    faults
}

/// A word in one of the scripts that names come in.
fn word() -> impl Strategy<Value = String> {
    prop_oneof![
        "[A-Z][a-z]{0,14}",
        "[ÅÄÖÞÐŁŻĉėőűß]{1,9}",
        "[А-Яа-я]{1,12}",
        "[Α-Ωα-ω]{1,12}",
        "[א-ת]{1,10}",
        "[ابتثجحدرسصطعقكلامنهوي]{1,10}",
        "[a-z]{30,60}",
        "[|*`<>&#_~]{1,6}",
    ]
}

fn name() -> impl Strategy<Value = String> {
    prop::collection::vec(word(), 0..6).prop_map(|words| {
        let all = words.join(" ");
        all.chars().take(60).collect::<String>().trim().to_owned()
    })
}

#[derive(Debug, Clone)]
struct Way {
    turn: f64,
    far: f64,
    name: String,
    note: String,
    stop: i64,
}

fn way() -> impl Strategy<Value = Way> {
    let note = prop_oneof![3 => Just(String::new()), 1 => name()];
    let stop = prop_oneof![4 => Just(0i64), 1 => 1i64..200];
    (0.0..360.0f64, 150.0..2_500.0f64, name(), note, stop)
        .prop_map(|(turn, far, name, note, stop)| Way { turn, far, name, note, stop })
}

fn routed(ways: &[Way], title: &str, dated: bool) -> Day {
    let mut day = Day::new(0, &[""]);
    day.route.title = title.to_owned();
    day.route.points.clear();
    if !dated {
        day.route.departure = None;
    }
    let (mut x, mut y) = (676_000.0, 351_000.0);
    for way in ways {
        let (sin, cos) = way.turn.to_radians().sin_cos();
        (x, y) = (x + way.far * sin, y + way.far * cos);
        let at: Position =
            day.chart.grid.inverse(GridPoint::from_metres(x, y).unwrap()).unwrap().position;
        let mut point = Waypoint::new(at).named(&way.name);
        point.note.clone_from(&way.note);
        point.stop = jiff::SignedDuration::from_mins(way.stop);
        day.route.points.push(point);
    }
    day
}

/// What stands on the pages in tables and paragraphs, without spaces, so that it does not matter where lines break.
fn said(pages: &[Page]) -> String {
    let texts = pages.iter().flat_map(|page| set(&page.items));
    texts.flat_map(|text| text.words.chars()).filter(|c| !c.is_whitespace()).collect()
}

fn sizes() -> impl Strategy<Value = Card> {
    let size = prop_oneof![Just(Size::A4), Just(Size::A5), Just(Size::A6)];
    let sides = prop_oneof![Just(Sides::One), Just(Sides::Two)];
    let inks = prop_oneof![Just(Inks::Black), Just(Inks::Colour)];
    (size, sides, inks).prop_map(|(size, sides, inks)| Card { size, sides, inks })
}

#[test]
fn a_name_of_two_scripts_keeps_clear_of_its_reference() {
    let card = Card { size: Size::A6, sides: Sides::Two, inks: Inks::Black };
    // Whatever room the column has, some of these just fill a line of it.
    for letters in 0..24 {
        let name = format!("{} סכלםשל ييجسثثت", "a".repeat(letters));
        let ways = ["", &"a".repeat(46), name.trim(), "", name.trim()].map(|name| {
            let (name, note) = (name.to_owned(), String::new());
            Way { turn: 40.0, far: 700.0, name, note, stop: 0 }
        });
        let day = routed(&ways, "ردنبميطا", true);
        for page in &card.set(&day.plan(None)).unwrap() {
            assert_eq!(faults(page, Mm(4.5)), Vec::<String>::new(), "{name}");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn any_route_has_room(
        ways in prop_oneof![
            prop::collection::vec(way(), 0..5),
            prop::collection::vec(way(), 4..32),
        ],
        title in name(),
        dated in any::<bool>(),
        walked in any::<bool>(),
        tides in any::<bool>(),
        card in sizes(),
    ) {
        let day = routed(&ways, &title, dated);
        let course = day.course();
        let passage = (dated && walked && ways.len() > 1).then(|| day.passage(&course));
        let mut plan = day.plan(passage.as_ref().map(|passage| (&course, passage)));
        plan.tides = plan.tides.filter(|_| tides);
        let pages = card.set(&plan).unwrap();
        prop_assert!(!pages.is_empty());
        let margin = if card.size == Size::A6 { Mm(4.5) } else { Mm(9.0) };
        for page in &pages {
            let faults = faults(page, margin);
            prop_assert!(faults.is_empty(), "{faults:#?}");
        }
        let said = said(&pages);
        let bare = |words: &str| words.split_whitespace().collect::<String>();
        let content = Content::of(&plan);
        for leg in &content.legs {
            prop_assert!(said.contains(&bare(&leg.to.name)), "{}", leg.to.name);
            prop_assert!(said.contains(leg.bearing.trim_end_matches(['M', 'T'])));
        }
        for way in &content.ways_out {
            prop_assert!(said.contains(&bare(&way.reference)), "{way:?}");
        }
    }
}
