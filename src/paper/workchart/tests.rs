//! Charts to work on, measured on the page.

use super::*;
use crate::draw::Item;

/// Every text of a page.
fn texts(pages: &[Page]) -> Vec<String> {
    pages.iter().flat_map(|page| page.texts()).map(|text| text.words.clone()).collect()
}

#[test]
fn the_scale_is_true_and_everything_asked_about_is_named() {
    let chart = chart::practice().unwrap();
    let coast = Coast::of(&chart);
    let points: Vec<(Point, String)> =
        chart.marks.iter().map(|it| (it.at, it.name.clone())).collect();
    let asked = Asked { points, lines: Vec::new() };
    let sheet = Workchart::new(&chart, &coast, &asked, "Test", Paper::A4).unwrap();
    // Two marks, measured on paper, against their distance on the ellipsoid.
    let frame = sheet.frame().unwrap();
    let (one, other) = (chart.marks[0].at, chart.marks[1].at);
    let position = |at| chart.position(at).unwrap();
    let ground = nav::geodesic::inverse(position(one), position(other)).distance.as_metres();
    let paper = frame.spot(one).distance(frame.spot(other)).0;
    let stated = paper / 1000.0 * f64::from(sheet.scale().one_to());
    // The grid's own scale differs over the chart by a few parts in ten thousand.
    assert!((stated / ground - 1.0).abs() < 5e-4, "{stated} {ground}");
    let pages = sheet.pages().unwrap();
    assert_eq!(pages.len(), 1);
    let texts = texts(&pages);
    for mark in &chart.marks {
        assert_eq!(texts.iter().filter(|text| **text == mark.name).count(), 1, "{}", mark.name);
    }
    let (side, metres) = sheet.square().unwrap();
    let wanted = format!("a side of a grid square of {} measures {:.1} mm", far(metres), side.0);
    assert!(texts.iter().any(|text| text.contains(&wanted)), "{texts:?}");
    assert!((side.0 - metres * 1000.0 / f64::from(sheet.scale().one_to())).abs() < 0.02);
}

#[test]
fn the_scale_is_the_largest_usual_one_and_the_page_lies_as_fits() {
    let chart = chart::practice().unwrap();
    let coast = Coast::of(&chart);
    let middle = chart.extent.center();
    let asked = |width: f64, height: f64| Asked {
        points: vec![(middle, "A".to_owned())],
        lines: vec![vec![middle, middle + Point { x: width, y: height }]],
    };
    let laid = |asked: &Asked| {
        let sheet = Workchart::new(&chart, &coast, asked, "Test", Paper::A4).unwrap();
        (sheet.scale().to_string(), sheet.paper.sheet.width > sheet.paper.sheet.height)
    };
    assert_eq!(laid(&asked(8_000.0, 3_000.0)), ("1:40,000".to_owned(), true));
    assert_eq!(laid(&asked(3_000.0, 8_000.0)), ("1:40,000".to_owned(), false));
    // Two lines more: the ring of a point without a sign, and the line.
    let one = asked(8_000.0, 3_000.0);
    let sheet = Workchart::new(&chart, &coast, &one, "Test", Paper::A4).unwrap();
    let pages = sheet.pages().unwrap();
    let count = |items: &[Item]| -> usize {
        items
            .iter()
            .map(|item| if let Item::Group(group) = item { group.items.len() } else { 1 })
            .sum()
    };
    let none = Asked { points: Vec::new(), ..one.clone() };
    let bare = Workchart { asked: &none, ..sheet.clone() }.pages().unwrap();
    assert!(count(&pages[0].items) > count(&bare[0].items));
}

#[test]
fn the_same_page_every_time() {
    let chart = chart::practice().unwrap();
    let coast = Coast::of(&chart);
    let asked = Asked::default();
    let made = || {
        let sheet = Workchart::new(&chart, &coast, &asked, "Test", Paper::A4).unwrap();
        crate::pdf::write(&sheet.pages().unwrap(), &crate::pdf::About { title: "Test", made: None })
            .bytes
    };
    assert!(made() == made());
}
