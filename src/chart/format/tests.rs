//! The format: what is written reads back the same, and what cannot be is refused at its place.

mod bad;
mod round_trip;

use super::{ChartFile, read};
use crate::Chart;

/// The chart of the format's own description, with everything that it shows.
pub(crate) const EXAMPLE: &str = r#"(
    version: 1,
    title: "Hollow Sound",
    invented: true,
    grid: Own(
        title: "Hollow grid",
        origin: (lat: 47.3, lon: -38.6),
        false_origin: (670000, 350000),
        lettering: (south_west: (600000, 300000), rows: ["QB"]),
    ),
    extent: (south_west: (660000, 340000), north_east: (690000, 362000)),
    shore: Here([
        (
            name: "Great Hollow",
            shore: [(665000, 345000), (670000, 345000), (668000.5, 351000)],
            lakes: [[(667000, 346000), (668000, 346000), (667500, 347000)]],
        ),
    ]),
    landings: [
        (name: "Hollow Slip", at: (667000, 345000), ground: Slip, serves: AnyTide),
    ],
    ports: [
        (name: "Hollow Quay", at: (667100, 345100), tide: Constants(mean_level_m: 2.4, constituents: [
            (name: "M2", amplitude: 1.31, phase_deg: 96.4),
        ])),
    ],
    streams: [
        (name: "A", at: (672000, 348000), rates: Greatest(flood_deg: 40, port: "Hollow Quay",
            flood_begins_h: -5.5, springs_kn: 4)),
    ],
)
"#;

/// A chart that is whole in its text.
pub(crate) fn whole(text: &str) -> Chart {
    match read(text).unwrap() {
        ChartFile::Whole(chart) => chart,
        ChartFile::ShoreBeside(_) => panic!("the shore is beside it"),
    }
}

#[test]
fn the_described_examples_can_be_read() {
    let fence = "```ron\n";
    let description = include_str!("FORMAT.md");
    let first = description.split(fence).nth(1).unwrap().split("```").next().unwrap();
    let chart = whole(first);
    assert_eq!(chart.landings.len(), 1);
    // The other examples are fields, which a chart around them must take.
    let examples = description.split(fence).skip(2);
    let examples: Vec<_> =
        examples.map(|fields| fields.split("```").next().unwrap().to_owned()).collect();
    let streams = examples.iter().find(|fields| fields.contains("streams:")).unwrap();
    for fields in &examples {
        // Races and gates go by the streams of the example before.
        let more = if fields.contains("station:") { streams.as_str() } else { "" };
        let fields = format!("{fields}{more}");
        let head = if fields.contains("grid:") { "" } else { "grid: Named(\"UTM:25N\"),\n" };
        let extent = "extent: (south_west: (500000, 5200000), north_east: (530000, 5222000))";
        whole(&format!("(version: 1, title: \"x\", shore: Here([]),\n{head}{extent},\n{fields})"));
    }
}

#[test]
fn rings_are_turned_left_and_keep_their_first_point() {
    let turned = EXAMPLE.replace(
        "(665000, 345000), (670000, 345000), (668000.5, 351000)",
        "(665000, 345000), (668000.5, 351000), (670000, 345000)",
    );
    assert_ne!(turned, EXAMPLE);
    assert_eq!(whole(&turned), whole(EXAMPLE));
}

#[test]
fn what_is_left_out_is_empty() {
    let text = "(version: 1, title: \"Bare\", grid: Named(\"UTM:33N\"), shore: Here([]), \
                extent: (south_west: (500000, 0), north_east: (501000, 1000)))";
    let chart = whole(text);
    assert!(!chart.invented && chart.source.is_empty() && chart.streams.is_empty());
    assert_eq!(chart.grid.name(), "UTM:33N");
}

#[test]
fn a_byte_order_mark_and_comments_are_no_matter() {
    let bytes = format!("\u{feff}// about\n/* more */ {EXAMPLE}");
    assert_eq!(whole(super::text_of(bytes.as_bytes()).unwrap()), whole(EXAMPLE));
}

#[test]
fn names_are_cleaned_where_they_are_read() {
    let text = EXAMPLE
        .replace("Hollow Slip", "Hollow\\u{1b}[2J\\nSlip\u{202e}")
        .replace("Great Hollow", "\u{1b}]0;x\u{7}");
    let chart = whole(&text);
    assert_eq!(chart.landings[0].name, "Hollow�[2J�Slip�");
    assert_eq!(chart.land[0].name, "�]0;x�");
}

#[test]
fn the_shore_may_be_beside_the_chart() {
    let text = "(version: 1, title: \"x\", grid: Named(\"UTM:33N\"), shore: File(\"a/coast.geojson\"), \
                extent: (south_west: (500000, 0), north_east: (501000, 1000)))";
    let ChartFile::ShoreBeside(beside) = read(text).unwrap() else { panic!("whole") };
    assert_eq!(beside.path, "a/coast.geojson");
    assert_eq!(beside.grid().name(), "UTM:33N");
}
