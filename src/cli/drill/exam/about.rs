//! What the questions of a test are about: what must be found on the chart that is worked on.

use std::cmp::Reverse;
use std::collections::HashSet;

use chart::Point;
use paper::map::Asked;
use practice::{Answer, Kind, Question, Shown, Spot};

/// What is to be looked at, and everything that is named, once each; unseen, room for the answers.
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
        let named = named(&words(question), spots);
        for spot in spots.iter().filter(|spot| named.contains(&*spot.name)) {
            point(&mut asked, spot.at, &spot.name);
        }
        asked.room.extend(room(question));
    }
    asked
}

/// The things whose names stand in a text: of two, one of which is part of the other, the longer.
fn named<'a>(words: &str, spots: &'a [Spot]) -> HashSet<&'a str> {
    let mut names: Vec<&str> = spots.iter().map(|spot| &*spot.name).collect();
    names.sort_by_key(|name| Reverse(name.len()));
    let mut words = words.to_owned();
    names.retain(|name| {
        let stands = words.contains(name);
        if stands {
            words = words.replace(name, "\n");
        }
        stands
    });
    names.into_iter().collect()
}

/// Where an answer is drawn, beyond what is shown.
fn room(question: &Question) -> Vec<Point> {
    let mut room = Vec::new();
    if let Answer::Place { at, .. } = question.answer {
        room.push(at);
    }
    for drawn in question.drawn.iter().filter(|_| question.kind == Kind::AlongShore) {
        if let Shown::Path(path) = drawn {
            room.extend(path);
        }
    }
    room
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
