//! Charts to work on, measured on the page.

use chart::Point;

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
    let asked = Asked { points, ..Asked::default() };
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
    let side = 1_000_000.0 / f64::from(sheet.scale().one_to());
    assert!((frame.of_grid_metres(1000.0).0 - side).abs() < 0.02);
    let wanted = format!("a side of a grid square of 1 km measures {side:.1} mm; square QB");
    assert!(texts.iter().any(|text| text.contains(&wanted)), "{texts:?}");
}

#[test]
fn the_scale_is_the_largest_usual_one_and_the_page_lies_as_fits() {
    let chart = chart::practice().unwrap();
    let coast = Coast::of(&chart);
    let middle = chart.extent.center();
    let asked = |width: f64, height: f64| Asked {
        points: vec![(middle, "A".to_owned())],
        lines: vec![vec![middle, middle + Point { x: width, y: height }]],
        room: Vec::new(),
    };
    let laid = |asked: &Asked| {
        let sheet = Workchart::new(&chart, &coast, asked, "Test", Paper::A4).unwrap();
        (sheet.scale().to_string(), sheet.paper.sheet.width > sheet.paper.sheet.height)
    };
    assert_eq!(laid(&asked(8_000.0, 3_000.0)), ("1:40,000".to_owned(), true));
    assert_eq!(laid(&asked(3_000.0, 8_000.0)), ("1:40,000".to_owned(), false));
    // What has room without being seen counts as well.
    let room = vec![middle + Point { x: 8_000.0, y: 3_000.0 }];
    assert_eq!(laid(&Asked { lines: Vec::new(), room, ..asked(0.0, 0.0) }).0, "1:40,000");
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

/// The bar of ten miles on the page, and a grid square, as a ruler finds them.
#[test]
fn bar_and_grid_are_as_long_on_paper_as_they_say() {
    let chart = chart::practice().unwrap();
    let coast = Coast::of(&chart);
    let middle = chart.extent.center();
    for (paper, (across, up), one_to, bar) in [
        (Paper::A4, (8_000.0, 10_000.0), 50_000, 2.0),
        (Paper::A3, (8_000.0, 10_000.0), 40_000, 2.0),
        (Paper::A4, (28_000.0, 19_000.0), 150_000, 10.0),
    ] {
        let half = Point { x: across / 2.0, y: up / 2.0 };
        let asked = Asked { room: vec![middle - half, middle + half], ..Asked::default() };
        let sheet = Workchart::new(&chart, &coast, &asked, "Test", paper).unwrap();
        assert_eq!(sheet.scale().one_to(), one_to);
        let pages = sheet.pages().unwrap();
        let words = pages[0].texts();
        let unit = words.iter().find(|text| text.words == "NM").unwrap();
        // Its number stands over its end, on the same line as the unit and the zero over its beginning.
        let on_line = |number: &str| {
            let same = words.iter().find(|text| text.words == number && text.at.y == unit.at.y);
            same.map(|text| text.at.x).unwrap()
        };
        let long = (on_line(&bar.to_string()) - on_line("0")).0;
        let wanted = bar * 1852.0 * 1000.0 / f64::from(one_to);
        assert!((long - wanted).abs() < 0.01, "{long} {wanted}");
        // From one grid line to the next but nine: the numbers stand in the middle under their lines.
        let side = 1_000_000.0 / f64::from(one_to);
        let frame = sheet.frame().unwrap();
        let (a, b) = (frame.spot(middle), frame.spot(middle + Point { x: 3_000.0, y: 0.0 }));
        assert!((a.distance(b).0 - 3.0 * side).abs() < 0.02 * side);
    }
}

#[test]
fn the_lettered_squares_are_told() {
    let told = |corners: [&str; 4]| squares(corners.map(str::to_owned));
    assert_eq!(told(["QB"; 4]), "square QB");
    assert_eq!(told(["QB", "RB", "QB", "RB"]), "squares QB (west), RB (east)");
    assert_eq!(told(["QB", "QB", "QC", "QC"]), "squares QB (south), QC (north)");
    assert_eq!(
        told(["QB", "RB", "QC", "RC"]),
        "squares QB (south-west), RB (south-east), QC (north-west), RC (north-east)"
    );
}
