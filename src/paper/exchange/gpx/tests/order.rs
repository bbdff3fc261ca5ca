//! The elements of what is written stand in the order of the GPX 1.1 schema, each with what the schema wants.

use std::io::Read;

use crate::exchange::gpx::xml::{Piece, Xml};
use crate::exchange::tests::practice;
use crate::exchange::{Export, Form, With};
use plan::{Along, Line, Route, Waypoint};

/// The children of each type in their order, as <http://www.topografix.com/GPX/1/1/gpx.xsd> has them.
const WPT: &[&str] = &[
    "ele",
    "time",
    "magvar",
    "geoidheight",
    "name",
    "cmt",
    "desc",
    "src",
    "link",
    "sym",
    "type",
    "fix",
    "sat",
    "hdop",
    "vdop",
    "pdop",
    "ageofdgpsdata",
    "dgpsid",
    "extensions",
];
const ORDER: &[(&str, &[&str])] = &[
    ("gpx", &["metadata", "wpt", "rte", "trk", "extensions"]),
    (
        "metadata",
        &[
            "name",
            "desc",
            "author",
            "copyright",
            "link",
            "time",
            "keywords",
            "bounds",
            "extensions",
        ],
    ),
    ("wpt", WPT),
    ("rtept", WPT),
    ("trkpt", WPT),
    ("rte", &["name", "cmt", "desc", "src", "link", "number", "type", "extensions", "rtept"]),
    ("trk", &["name", "cmt", "desc", "src", "link", "number", "type", "extensions", "trkseg"]),
    ("trkseg", &["trkpt", "extensions"]),
];
/// Those that may stand more than once.
const MANY: &[&str] = &["wpt", "rte", "trk", "rtept", "trkseg", "trkpt", "link"];

/// Holds the order below an element that has been opened.
fn ordered<R: Read>(xml: &mut Xml<R>, within: &str, seen: &mut usize) {
    let order = ORDER.iter().find(|(name, _)| *name == within).map(|(_, order)| *order);
    let mut last: Option<usize> = None;
    loop {
        let name = match xml.next().unwrap() {
            Piece::Open(tag) => {
                if matches!(tag.name(), "wpt" | "rtept" | "trkpt") {
                    let at = tag.position("a point").unwrap();
                    assert!(at.lon.as_degrees() < 180.0, "the schema ends before 180");
                }
                tag.name().to_owned()
            }
            Piece::Close => return,
            _ => continue,
        };
        *seen += 1;
        let Some(order) = order.filter(|_| within != "extensions") else {
            assert!(name.starts_with("s:") || within.starts_with("s:"), "<{name}> in <{within}>");
            ordered(xml, &name, seen);
            continue;
        };
        let place = order.iter().position(|one| *one == name);
        let place = place.unwrap_or_else(|| panic!("<{name}> in <{within}>"));
        let follows =
            last.is_none_or(|last| place > last || (place == last && MANY.contains(&order[place])));
        assert!(follows, "<{name}> after <{}> in <{within}>", order[last.unwrap_or(0)]);
        last = Some(place);
        ordered(xml, &name, seen);
    }
}

fn hold(text: &str) -> usize {
    let mut xml = Xml::new(text.as_bytes());
    let mut seen = 0;
    loop {
        if let Piece::Open(tag) = xml.next().unwrap() {
            assert_eq!(tag.attribute("version").unwrap().as_deref(), Some("1.1"));
            assert_eq!(tag.attribute("creator").unwrap().as_deref(), Some("Strandline"));
            break;
        }
    }
    ordered(&mut xml, "gpx", &mut seen);
    seen
}

#[test]
fn what_is_written_is_in_the_order_of_the_schema() {
    let at = |lat, lon| nav::Position::from_degrees(lat, lon).unwrap();
    let along = Along::new(
        Line::new([at(52.245, -27.11), at(52.246, 180.0)]).unwrap(),
        &[],
        nav::Length::ZERO,
        nav::Length::ZERO,
    );
    let points = vec![
        Waypoint { note: "<&>".into(), ..Waypoint::new(at(52.24, -27.12)).named("Slip") },
        Waypoint::new(at(52.25, 180.0)).named("]]>").reached(along),
    ];
    let chart = practice();
    let route = Route { title: "Day".into(), points, ..Route::new(&chart.title) };
    let with = [With::Landings, With::Hazards, With::Marks, With::Places];
    let export =
        Export { route: &route, chart: &chart, with: &with, most_points: None, track: true };
    assert!(hold(&export.write(Form::Gpx).text) > 100);
}

#[test]
#[should_panic(expected = "<name> after <desc> in <wpt>")]
fn a_wrong_order_is_found() {
    hold(
        "<gpx version='1.1' creator='Strandline'><wpt lat='1' lon='2'><desc>d</desc><name>n</name></wpt></gpx>",
    );
}
