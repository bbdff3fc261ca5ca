//! Files that are no shore, each refused at its place with what would be right.

use rstest::rstest;

use super::{collection, feature, geometry, import};

fn message(text: &str) -> String {
    import(text).unwrap_err().to_string()
}

#[rstest]
#[case::nothing("", "1:1: not GeoJSON (RFC 7946): the text ends in the middle of a value")]
#[case::not_json(
    "(version: 1)",
    "1:1: not GeoJSON (RFC 7946): a GeoJSON object should follow here"
)]
#[case::other_json("[1, 2]", "1:1: not GeoJSON (RFC 7946): a GeoJSON object should follow here")]
#[case::no_type(
    "{}",
    "1:2: an object of type \"\" where a feature collection, a feature or a geometry is wanted"
)]
#[case::other_type(
    "{\"type\":\"Topology\"}",
    "1:19: an object of type \"Topology\" where a feature collection, a feature or a geometry is wanted"
)]
#[case::no_features(
    "{\"type\":\"FeatureCollection\"}",
    "1:28: an object of type \"FeatureCollection\" where one with `features` is wanted"
)]
#[case::cut_off(
    "{\"type\":\"Polygon\",\n\"coordinates\":[[[15,68],[15",
    "2:27: not GeoJSON (RFC 7946): the text ends in the middle of a list"
)]
#[case::trailing(
    "{\"type\":\"LineString\",\"coordinates\":[[15,68],[16,68]]} x",
    "1:55: not GeoJSON (RFC 7946): something follows the end"
)]
#[case::projected(
    "{\"type\":\"LineString\",\n \"coordinates\":[[15,68],\n [500000.5,7543210]]}",
    "3:19: the position [500000.5, 7543210] is out of range; RFC 7946 wants longitude -180 to 180, \
     then latitude -90 to 90, on WGS 84 (are these metres of a projection? then convert them first)"
)]
#[case::swapped(
    "{\"type\":\"LineString\",\"coordinates\":[[68,115],[68,116]]}",
    "1:44: the position [68, 115] is out of range; RFC 7946 wants longitude -180 to 180, \
     then latitude -90 to 90, on WGS 84 (are latitude and longitude swapped?)"
)]
#[case::slightly(
    "{\"type\":\"LineString\",\"coordinates\":[[180.5,68],[68,16]]}",
    "1:46: the position [180.5, 68] is out of range; RFC 7946 wants longitude -180 to 180, \
     then latitude -90 to 90, on WGS 84"
)]
#[case::huge(
    "{\"type\":\"LineString\",\"coordinates\":[[1e999,68],[68,16]]}",
    "1:42: not GeoJSON (RFC 7946): a number beyond all bounds"
)]
#[case::nan(
    "{\"type\":\"LineString\",\"coordinates\":[[NaN,68],[68,16]]}",
    "1:38: not GeoJSON (RFC 7946): coordinates are numbers in nested lists"
)]
#[case::text(
    "{\"type\":\"LineString\",\"coordinates\":[[\"15\",68]]}",
    "1:38: not GeoJSON (RFC 7946): coordinates are numbers in nested lists"
)]
#[case::short(
    "{\"type\":\"LineString\",\"coordinates\":[[15],[16]]}",
    "1:40: a position of one number; [longitude, latitude] is right"
)]
#[case::mixed(
    "{\"type\":\"LineString\",\"coordinates\":[[15,68],[[16,68]]]}",
    "1:53: a list that mixes numbers and lists, or lists of different depths; \
     a position is [longitude, latitude], a line or ring a list of positions"
)]
#[case::nesting(
    "{\"type\":\"Polygon\",\"coordinates\":[[15,68],[16,68],[16,69],[15,68]]}",
    "1:66: the coordinates of a Polygon are nested 1 deep; 2 deep is right"
)]
#[case::deep(
    "{\"type\":\"Polygon\",\"coordinates\":[[[[[[15,68]]]]]]}",
    "1:50: the coordinates of a Polygon are nested 5 deep; 2 deep is right"
)]
#[case::open(
    "{\"type\":\"Polygon\",\"coordinates\":[[[15,68],[16,68],[16,69],[15,69]]]}",
    "1:68: feature 1: a ring begins at [15, 68] and does not return; its last position must repeat the first"
)]
#[case::empty(
    "{\"type\":\"Polygon\",\"coordinates\":[]}",
    "1:1: no shore in it: 1 empty geometry; polygons or lines are wanted"
)]
#[case::only_points(
    "{\"type\":\"MultiPoint\",\"coordinates\":[[15,68],[16,68]]}",
    "1:1: no shore in it: 2 points; polygons or lines are wanted"
)]
#[case::no_area(
    "{\"type\":\"Polygon\",\"coordinates\":[[[15,68],[16,68],[15,68]]]}",
    "1:1: no shore in it: 1 ring or line smaller than 1 cm; polygons or lines are wanted"
)]
#[case::nothing_in_it(
    "{\"type\":\"FeatureCollection\",\"features\":[]}",
    "1:1: no shore in it: nothing; polygons or lines are wanted"
)]
#[case::off_the_grid(
    "{\"type\":\"LineString\",\"coordinates\":[[15,68],[120,0]]}",
    "1:53: feature 1: the position [120, 0] is beyond the reach of the grid UTM:33N: \
     the place is too far from the grid's central meridian 15° (about 50° at the equator is the most); \
     choose the grid of the region, or cut the shore to it"
)]
#[case::datum(
    "{\"crs\":{\"type\":\"name\",\"properties\":{\"name\":\"urn:ogc:def:crs:EPSG::27700\"}},\"type\":\"Feature\"}",
    "1:74: the file is in the coordinate system \"urn:ogc:def:crs:EPSG::27700\"; \
     RFC 7946 wants WGS 84 longitude and latitude: convert it first"
)]
#[case::accents(
    "{\"type\":\"LineString\",\"name\":\"Øøåæ\",\"coordinates\":[[15]]}",
    "1:54: a position of one number; [longitude, latitude] is right"
)]
fn a_bad_file_is_refused_at_its_place(#[case] text: &str, #[case] expected: &str) {
    assert_eq!(message(text), expected);
}

#[test]
fn a_ring_that_crosses_itself_is_refused_by_place_and_feature() {
    let eight = geometry("Polygon", "[[[15,68],[15.02,68.02],[15.02,68],[15,68.02],[15,68]]]");
    let line = geometry("LineString", "[[15,68],[16,68]]");
    let text = collection(&[feature("\"one\"", &line), feature("\"tw\\u001bo\"", &eight)]);
    let expected = "feature 2 \"tw�o\": a ring crosses itself at [15.01, 68.010005]; \
                    repair it, or have it mended or left out";
    assert!(message(&text).ends_with(expected), "{}", message(&text));
}

#[test]
fn bytes_that_are_not_text_are_refused() {
    let ring = "[[[15,68],[16,68],[16,69],[15,68]]]";
    let mut bytes = feature("\"Name\"", &geometry("Polygon", ring)).into_bytes();
    let at = bytes.windows(4).position(|four| four == b"Name").unwrap();
    bytes[at] = 0xFF;
    let outcome = super::read(&bytes[..], &super::grid(), super::BadRings::Refuse, |_| {
        std::ops::ControlFlow::Continue(())
    });
    let error = outcome.unwrap_err().to_string();
    assert!(error.ends_with("a text is not UTF-8; GeoJSON is saved as UTF-8"), "{error}");
}

#[test]
fn a_file_cut_off_anywhere_is_refused_without_harm() {
    let ring = "[[[15,68],[16,68],[16,69],[15,68]]]";
    let text = collection(&[feature("\"x\"", &geometry("Polygon", ring))]);
    assert!(import(&text).is_ok());
    for end in 0..text.len() {
        assert!(import(&text[..end]).is_err(), "{}", &text[..end]);
    }
}

#[test]
fn deep_nesting_is_refused_without_harm() {
    for beginning in ["{\"type\":\"Polygon\",\"coordinates\":", "{\"other\":", ""] {
        for deeper in ["[", "{\"a\":", "{\"type\":\"GeometryCollection\",\"geometries\":["] {
            let text = format!("{beginning}{}", deeper.repeat(100_000));
            assert!(import(&text).is_err());
        }
    }
    let text = format!("{{\"other\":{}", "{\"a\":".repeat(100_000));
    assert_eq!(
        message(&text),
        "1:505: lists and objects nested more than 100 deep; in a shore nothing is"
    );
}
