//! What the questions of a test are about: what must be found on the chart that is worked on.

use std::collections::HashSet;

use chart::Point;
use paper::map::Asked;
use practice::{Question, Shown, Spot};

/// What is to be looked at, and everything that is named, once each.
pub(super) fn about(questions: &[Question], spots: &[Spot]) -> Asked {
    let mut asked = Asked::default();
    let mut seen = HashSet::new();
    let mut point = |asked: &mut Asked, at: Point, name: &str| {
        if seen.insert(name.to_owned()) {
            asked.points.push((at, name.to_owned()));
        }
    };
    for question in questions {
        for shown in &question.shown {
            match shown {
                Shown::Point { at, label } | Shown::Tick { at, label } => {
                    point(&mut asked, *at, label);
                }
                Shown::Line { from, to, .. } => asked.lines.push(vec![*from, *to]),
                Shown::Path(path) => asked.lines.push(path.clone()),
                Shown::Square(square) => asked.lines.push(around(square)),
            }
        }
        let words = words(question);
        for spot in spots.iter().filter(|spot| words.contains(&spot.name)) {
            point(&mut asked, spot.at, &spot.name);
        }
    }
    asked
}

/// The edge of a square.
fn around(square: &nav::Square) -> Vec<Point> {
    let (west, south) = (square.south_west.easting, square.south_west.northing);
    let (east, north) = (west + square.side, south + square.side);
    let corners = [(west, south), (east, south), (east, north), (west, north), (west, south)];
    corners.map(|(x, y)| Point { x: x.as_metres(), y: y.as_metres() }).to_vec()
}

/// All that a question says.
fn words(question: &Question) -> String {
    let given = question.given.iter().flat_map(|given| given.rows.iter().flatten());
    let choices = question.choices.iter().map(|choice| &choice.text);
    let all: Vec<&str> = given.chain(choices).chain([&question.text]).map(String::as_str).collect();
    all.join("\n")
}
