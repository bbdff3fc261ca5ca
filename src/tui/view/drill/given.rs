//! The reader's own answer, as it is drawn on the chart beside the right one.
//!
//! What is drawn of an answer is what the right answer is drawn as, so that what was mistaken is seen: a place or a square
//! where it lies; a bearing as the right line turned about its start; a distance as the right line made so much longer or
//! shorter; a leg of a card as that leg.

use chart::Point;
use practice::{Answer, Question, Reply, Shown};

use crate::state::Told;

/// The sign of the right answer, and of the reader's.
pub(crate) const ANSWER: char = '◎';
pub(crate) const YOURS: char = '⊗';

/// What is drawn of an answer that was given; empty where it cannot be drawn, or was right and lies where the right one does.
pub(crate) fn given(it: &Question, told: &Told) -> Vec<Shown> {
    if told.mark.is_none() {
        return Vec::new();
    }
    if let Some(at) = told.at {
        return vec![place(at)];
    }
    let Ok(reply) = it.read(&told.reply) else { return Vec::new() };
    match (&it.answer, reply) {
        (_, Reply::At(at)) => vec![place(at)],
        (_, Reply::Reference(square)) => {
            let middle = square.centre();
            let at = Point { x: middle.easting.as_metres(), y: middle.northing.as_metres() };
            vec![Shown::Square(square), Shown::Point { at, label: told.reply.clone() }]
        }
        (Answer::Bearing { degrees: right, .. }, Reply::Bearing { degrees, .. }) => {
            line(it).map(|line| turned(line, degrees - right, &told.reply)).into_iter().collect()
        }
        (Answer::Amount { value: right, .. }, Reply::Amount(value)) if only_line(it) => {
            line(it).map(|line| made_long(line, value / right, &told.reply)).into_iter().collect()
        }
        (_, Reply::Position(at)) => {
            let there = it.grid().forward(at).ok();
            let there =
                there.map(|on| (on.point.easting.as_metres(), on.point.northing.as_metres()));
            there
                .map(|(x, y)| Shown::Point { at: Point { x, y }, label: told.reply.clone() })
                .into_iter()
                .collect()
        }
        (Answer::Choice(_), Reply::Choice(index)) => leg(it, index).into_iter().collect(),
        _ => Vec::new(),
    }
}

fn place(at: Point) -> Shown {
    Shown::Point { at, label: "yours".to_owned() }
}

/// The line that is the right answer: the last that is drawn.
fn line(it: &Question) -> Option<(Point, Point)> {
    it.drawn.iter().rev().find_map(|shown| match shown {
        Shown::Line { from, to, .. } => Some((*from, *to)),
        _ => None,
    })
}

/// Whether nothing but one line is drawn.
fn only_line(it: &Question) -> bool {
    matches!(it.drawn.as_slice(), [Shown::Line { .. }])
}

/// A line turned clockwise about its start.
fn turned((from, to): (Point, Point), degrees: f64, label: &str) -> Shown {
    let (sin, cos) = degrees.to_radians().sin_cos();
    let Point { x, y } = to - from;
    let to = from + Point { x: x * cos + y * sin, y: y * cos - x * sin };
    Shown::Line { from, to, label: label.to_owned() }
}

/// A line made so many times as long. What is much too long is drawn four times as long.
fn made_long((from, to): (Point, Point), times: f64, label: &str) -> Shown {
    let to = from + (to - from) * times.clamp(0.0, 4.0);
    Shown::Line { from, to, label: label.to_owned() }
}

/// A leg of the way that the question shows.
fn leg(it: &Question, index: usize) -> Option<Shown> {
    let at = |index: usize| match it.shown.get(index)? {
        Shown::Point { at, .. } => Some(*at),
        _ => None,
    };
    let label = it.choices.get(index)?.text.clone();
    Some(Shown::Line { from: at(index)?, to: at(index + 1)?, label })
}
