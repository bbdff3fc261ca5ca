//! Charts that are refused, each at its line and column, with what would be right.

use rstest::rstest;

use super::{super::*, EXAMPLE};

/// The message for the example with `from` replaced by `to`.
fn message(from: &str, to: &str) -> String {
    let text = EXAMPLE.replacen(from, to, 1);
    assert_ne!(text, EXAMPLE, "{from} is not in the example");
    read(&text).unwrap_err().to_string()
}

const SHORE: &str = "(665000, 345000), (670000, 345000), (668000.5, 351000)";

#[rstest]
#[case::version(
    "version: 1",
    "version: 2",
    "2:14: version 2 of the chart format; this program reads version 1"
)]
#[case::no_version(
    "version: 1,",
    "",
    "1:1: a chart begins with its version, `(version: 1,`; this text begins otherwise"
)]
#[case::odd_version(
    "version: 1",
    "version: \"\u{1b}[1m\"",
    "2:14: version \"�[1m\" of the chart format; this program reads version 1"
)]
#[case::two_points(
    SHORE,
    "(665000, 345000), (670000, 345000)",
    "15:20: a ring of 2 points encloses nothing; it needs at least three"
)]
#[case::crosses_itself(
    SHORE,
    "(0, 0), (10, 10), (10, 0), (0, 10)",
    "15:21: the ring meets itself at (5, 5), where sides 1 and 3 cross; \
     a ring neither crosses nor touches itself"
)]
#[case::touches_itself(
    SHORE,
    "(0, 0), (10, 0), (10, 10), (5, 0), (0, 10)",
    "15:21: the ring meets itself at (5, 0), where sides 1 and 3 touch; \
     a ring neither crosses nor touches itself"
)]
#[case::repeats(
    SHORE,
    "(0, 0), (10, 0), (10, 0), (0, 10)",
    "15:38: the point (10, 0) repeats the one before it; leave it out"
)]
#[case::closed(
    SHORE,
    "(0, 0), (10, 0), (0, 10), (0, 0)",
    "15:47: the ring's last point repeats its first; rings close by themselves, leave it out"
)]
#[case::nan(
    SHORE,
    "(0, 0), (10, NaN), (0, 10)",
    "15:29: the point (10, NaN) is not a place; \
     eastings and northings are metres from -20000000 to 20000000"
)]
#[case::infinite(
    SHORE,
    "(0, 0), (10, inf), (0, 10)",
    "15:29: the point (10, inf) is not a place; \
     eastings and northings are metres from -20000000 to 20000000"
)]
#[case::out_of_range(
    "at: (672000, 348000)",
    "at: (672000, 3480000000)",
    "28:25: the point (672000, 3480000000) is not a place; \
     eastings and northings are metres from -20000000 to 20000000"
)]
#[case::lake(
    "(667500, 347000)]",
    "(667500, 346000)]",
    "16:22: the ring meets itself at (667750, 346000), where sides 1 and 2 touch; \
     a ring neither crosses nor touches itself"
)]
#[case::outside(
    "at: (667000, 345000)",
    "at: (60000, 345000)",
    "20:35: a landing at (60000, 345000) lies outside the chart's extent; \
     move it or widen the extent"
)]
#[case::no_name("\"Hollow Slip\"", "\"\"", "20:16: a landing has no name; give it one")]
#[case::unknown_port(
    "port: \"Hollow Quay\"",
    "port: \"Hallow Quay\"",
    "28:80: there is no port \"Hallow Quay\" on the chart; it has Hollow Quay"
)]
#[case::rate(
    "springs_kn: 4",
    "springs_kn: -4",
    "29:47: rate -4 is out of range; 0 to 30 knots are right"
)]
#[case::rows(
    "Greatest(flood_deg: 40, port: \"Hollow Quay\",\n            \
     flood_begins_h: -5.5, springs_kn: 4)",
    "Hourly(port: \"Hollow Quay\", rows: [(set_deg: 1, springs_kn: 2, neaps_kn: 1)])",
    "28:84: 1 rows; a stream has 13, from six hours before high water to six after"
)]
#[case::extent(
    "south_west: (660000, 340000)",
    "south_west: (690000, 340000)",
    "11:13: the extent from (690000, 340000) to (690000, 362000) covers nothing; \
     south_west comes first and lies west and south of north_east"
)]
#[case::small(
    "south_west: (660000, 340000)",
    "south_west: (689990, 340000)",
    "11:13: the extent is 10 m across; at least 100 m are wanted"
)]
#[case::unknown_field(
    "invented",
    "imagined",
    "4:5: Unexpected field named `imagined` in `Chart`, expected one of `version`, `title`, \
     `invented`, `source`, `grid`, `extent`, `shore`, `shorelines`, `drying`, `depths`, \
     `landings`, `hazards`, `races`, `gates`, `places`, `marks`, `ports`, or `streams` \
     instead"
)]
#[case::syntax(
    "ground: Slip",
    "ground: Slide",
    "20:61: Unexpected variant named `Slide` in enum `Ground`, expected one of `Sand`, \
     `Shingle`, `Boulders`, `Rock`, `Mud`, or `Slip` instead"
)]
#[case::letters(
    "rows: [\"QB\"]",
    "rows: [\"Q1\"]",
    "5:11: the square name \"Q1\" is not one to three letters A to Z"
)]
#[case::text_for_a_number(
    "(670000, 345000), (668000.5",
    "(670000, \"x\"), (668000.5",
    "15:48: Expected float"
)]
fn a_bad_chart_is_refused_at_its_place(
    #[case] from: &str,
    #[case] to: &str,
    #[case] expected: &str,
) {
    assert_eq!(message(from, to), expected);
}

#[rstest]
#[case("/etc/coast.geojson")]
#[case("../coast.geojson")]
#[case("a/./coast.geojson")]
#[case("c:coast.geojson")]
#[case("a\\\\coast.geojson")]
#[case("")]
#[case("a\u{202e}.geojson")]
fn a_shore_file_that_leads_out_is_refused(#[case] path: &str) {
    let text = format!(
        "(version: 1, title: \"x\", grid: Named(\"UTM:33N\"), shore: File(\"{path}\"), \
         extent: (south_west: (500000, 0), north_east: (501000, 1000)))"
    );
    let error = read(&text).unwrap_err().to_string();
    assert!(error.contains("is not a plain path from the chart's folder"), "{error}");
    assert!(!error.contains('\u{202e}'));
}

#[rstest]
#[case("UTM:77N", "\"UTM:77N\" names no grid: ")]
#[case("MGRS", "MGRS is a grid for each zone, a chart lies on one; name its zone, as in UTM:33N")]
fn a_grid_that_a_chart_cannot_lie_on_is_refused(#[case] name: &str, #[case] expected: &str) {
    let text = format!(
        "(version: 1, title: \"x\", grid: Named(\"{name}\"), shore: Here([]), \
         extent: (south_west: (500000, 0), north_east: (501000, 1000)))"
    );
    let error = read(&text).unwrap_err();
    assert_eq!((error.line, error.column), (1, 32));
    assert!(error.why.to_string().starts_with(expected), "{error}");
}

#[test]
fn an_extent_beyond_the_grid_is_refused() {
    let text = "(version: 1, title: \"x\", grid: Named(\"EPSG:27700\"), shore: Here([]), \
                extent: (south_west: (500000, 0), north_east: (5010000, 1000)))";
    let error = read(text).unwrap_err().to_string();
    assert!(error.starts_with("1:78: the corner (5010000, 0) of the extent is beyond"), "{error}");
}

#[test]
fn a_chart_cut_off_anywhere_is_refused_without_harm() {
    for end in 0..EXAMPLE.trim_end().len() {
        let error = read(&EXAMPLE[..end]).unwrap_err();
        assert!(error.line <= EXAMPLE.lines().count());
    }
    let cut = &EXAMPLE[..EXAMPLE.find("670000, 345000").unwrap() + 4];
    assert_eq!(
        read(cut).unwrap_err().to_string(),
        "15:44: the text stops in the middle of the chart (Expected comma); \
         it may have been cut off, or a closing bracket is missing"
    );
}

#[test]
fn bytes_that_are_not_text_are_refused_at_their_place() {
    let mut bytes = EXAMPLE.as_bytes().to_vec();
    let at = EXAMPLE.find("Hollow Sound").unwrap();
    bytes[at] = 0xFF;
    assert_eq!(
        text_of(&bytes).unwrap_err().to_string(),
        "3:13: the byte 0xFF is not part of UTF-8 text; a chart is saved as UTF-8"
    );
}

#[test]
fn other_texts_are_no_charts() {
    for text in ["", "\n", "hello", "{}", "[1, 2]", "{\"type\": \"FeatureCollection\"}", "(((("] {
        assert_eq!(read(text).unwrap_err().why, Why::NoVersion, "{text:?}");
    }
}

#[test]
fn deep_nesting_is_refused_without_harm() {
    let deep = format!("(version: 1, title: {}", "(".repeat(100_000));
    assert!(read(&deep).is_err());
    let deep = format!("(version: 1, places: {}", "[".repeat(100_000));
    assert!(read(&deep).is_err());
}

#[test]
fn everything_wrong_is_listed_in_the_order_of_the_format() {
    let text = EXAMPLE
        .replace("Hollow Sound", "")
        .replace("springs_kn: 4", "springs_kn: 400")
        .replace("\"Hollow Slip\"", "\"\"");
    let (_, findings) = examine(&text).unwrap();
    let lines: Vec<_> = findings.iter().map(|finding| finding.line).collect();
    assert_eq!(lines, [3, 20, 29]);
}

/// The example with a race and a gate, on lines 31 to 35.
const MOVING: &str = r#"    races: [(name: "R", edge: [(671000, 347000), (673000, 347000), (672000, 349000)],
        runs: (station: "A", quiet_under_kn: 1.5, worst_over_kn: 3, sets_deg: [(20, 60)]))],
    gates: [
        (name: "G", line: ((671500, 348000), (672500, 348000)), station: "A", limit_kn: 2,
            sill: (port: "Hollow Quay", least_m: 1.2))],
"#;

#[rstest]
#[case("", "", "")]
#[case(
    "runs: (station: \"A\"",
    "runs: (station: \"B\"",
    "32:25: there is no stream \"B\" on the chart; it has A"
)]
#[case(
    "quiet_under_kn: 1.5",
    "quiet_under_kn: 3.5",
    "32:46: quiet under 3.5 knots and at its worst over 3; the lesser rate comes first"
)]
#[case("(20, 60)", "(20, 460)", "32:85: direction 460 is out of range; 0 to 360 degrees are right")]
#[case(
    "(672500, 348000)",
    "(671500, 348000)",
    "34:27: the line of the gate begins and ends at (671500, 348000); it leads from shore to shore"
)]
#[case("limit_kn: 2", "limit_kn: -2", "34:89: limit -2 is out of range; 0 to 30 knots are right")]
#[case(
    "station: \"A\", limit",
    "station: \"C\", limit",
    "34:74: there is no stream \"C\" on the chart; it has A"
)]
#[case(
    "sill: (port: \"Hollow Quay\"",
    "sill: (port: \"Far\"",
    "35:26: there is no port \"Far\" on the chart; it has Hollow Quay"
)]
#[case("sill: ", "step: ", "35:13: Unexpected field named `step`")]
fn races_and_gates_are_refused_at_their_place(
    #[case] from: &str,
    #[case] to: &str,
    #[case] expected: &str,
) {
    let whole = EXAMPLE.trim_end().strip_suffix(')').unwrap().to_owned() + MOVING + ")";
    let text = whole.replacen(from, to, 1);
    let said = read(&text).err().map(|error| error.to_string()).unwrap_or_default();
    assert!(
        if expected.is_empty() { said.is_empty() } else { said.starts_with(expected) },
        "{said}"
    );
    if let Ok(file) = read(&text) {
        let ChartFile::Whole(chart) = file else { panic!("the shore is here") };
        assert_eq!(read(&write(&chart)).unwrap(), ChartFile::Whole(chart));
    }
}
