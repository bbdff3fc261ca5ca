//! Other methods: what is read off the words of a question, and other libraries' geodesics and projections.

use chart::{Chart, Point};
use geographiclib_rs::{DirectGeodesic, Geodesic, InverseGeodesic};

use crate::ground::Spot;
use crate::{Ground, Question};

/// Every number in a text, in order; a sign belongs to the words.
pub(super) fn numbers(text: &str) -> Vec<f64> {
    let mut found = Vec::new();
    let mut word = String::new();
    for c in text.chars().chain([' ']) {
        if c.is_ascii_digit() || (c == '.' && !word.is_empty()) {
            word.push(c);
        } else if !word.is_empty() {
            found.push(word.trim_end_matches('.').parse().unwrap());
            word.clear();
        }
    }
    found
}

/// Hours and minutes after a word: `at 09:05`.
pub(super) fn clock_after(text: &str, word: &str) -> i64 {
    let rest = text.split(word).nth(1).unwrap();
    let found = numbers(rest);
    found[0] as i64 * 60 + found[1] as i64
}

/// East is positive: the words behind a number of degrees.
pub(super) fn signed(text: &str, degrees: &str) -> f64 {
    let at = text.find(degrees).unwrap_or_else(|| panic!("{degrees} in {text}"));
    let rest = &text[at..];
    let number = numbers(rest)[0];
    let west = rest.find("west").unwrap_or(usize::MAX);
    let east = rest.find("east").unwrap_or(usize::MAX);
    if west < east { -number } else { number }
}

/// The things on the chart that a text names, in the order in which it does; the longest name where one is in another.
pub(super) fn named<'a>(question: &Question, ground: &'a Ground<'_>) -> Vec<&'a Spot> {
    let mut found: Vec<(usize, &Spot)> = Vec::new();
    for spot in ground.spots() {
        if let Some(at) = question.text.find(&spot.name) {
            found.push((at, spot));
        }
    }
    let inside = |it: &(usize, &Spot)| {
        found.iter().any(|other| {
            other.0 <= it.0
                && it.0 + it.1.name.len() <= other.0 + other.1.name.len()
                && other.1.name.len() > it.1.name.len()
        })
    };
    let mut whole: Vec<(usize, &Spot)> = found.iter().copied().filter(|it| !inside(it)).collect();
    whole.sort_by_key(|it| it.0);
    whole.into_iter().map(|it| it.1).collect()
}

/// Latitude and longitude in degrees of a point on the practice grid, by PROJ's formulas in Rust.
pub(super) fn position(chart: &Chart, at: Point) -> (f64, f64) {
    assert_eq!(chart.grid.title(), "Ocean grid");
    let grid = proj4rs::Proj::from_proj_string(
        "+proj=tmerc +lat_0=49 +lon_0=-31 +k=0.9996 +x_0=500000 +y_0=300000 +ellps=WGS84 +units=m",
    )
    .unwrap();
    let earth = proj4rs::Proj::from_proj_string("+proj=longlat +ellps=WGS84").unwrap();
    let mut point = (at.x, at.y, 0.0);
    proj4rs::transform::transform(&grid, &earth, &mut point).unwrap();
    (point.1.to_degrees(), point.0.to_degrees())
}

/// Metres and the bearing at the middle of the geodesic between two positions.
pub(super) fn geodesic(from: (f64, f64), to: (f64, f64)) -> (f64, f64) {
    let (metres, start, end, _): (f64, f64, f64, f64) =
        Geodesic::wgs84().inverse(from.0, from.1, to.0, to.1);
    let turn = (end - start + 180.0).rem_euclid(360.0) - 180.0;
    (metres, (start + turn / 2.0).rem_euclid(360.0))
}

/// The bearing at which a geodesic leaves.
pub(super) fn azimuth(from: (f64, f64), to: (f64, f64)) -> f64 {
    let (_, start, _, _): (f64, f64, f64, f64) =
        Geodesic::wgs84().inverse(from.0, from.1, to.0, to.1);
    start.rem_euclid(360.0)
}

pub(super) fn direct(from: (f64, f64), bearing: f64, metres: f64) -> (f64, f64) {
    Geodesic::wgs84().direct(from.0, from.1, bearing, metres)
}

/// Degrees from one direction to another, the shorter way.
pub(super) fn apart(one: f64, other: f64) -> f64 {
    ((one - other + 180.0).rem_euclid(360.0) - 180.0).abs()
}
