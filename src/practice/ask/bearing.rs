//! Bearings between two points of the chart, by eye and by measuring.

use super::{Throw, leg};
use crate::words::whole;
use crate::{Answer, MistakeKind, NorthOf, Question, Shown, Tolerance};

/// Which way does it lie, without instruments?
pub(super) fn by_eye(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let near = Tolerance::Degrees(throw.level.of([15.0, 12.0, 10.0]));
    let mut question = asked(throw, "By eye, without a protractor: what", near)?;
    question.basis =
        "a practised eye is good to about ten degrees: common practice, no published source";
    question.hints = vec![
        "Which quarter is it: between which two of north, east, south and west?".to_owned(),
        "Halve the quarter, and halve it again: is it nearer to the one or to the other?"
            .to_owned(),
        about(&question),
    ];
    question.steps.insert(0, "Between north and east lie 0° to 90°, and so on clockwise: first the quarter, then its part.".to_owned());
    Some(question)
}

/// Which way does it lie, by protractor?
pub(super) fn measured(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let near = Tolerance::Degrees(throw.level.of([2.0, 2.0, 3.0]));
    let mut question = asked(throw, "By protractor: what", near)?;
    question.basis = "a degree in drawing the line and one in reading the protractor, three on a short line: common practice, no \
                      published source";
    question.hints = vec![
        "Draw the line, and lay the protractor's middle where it crosses a grid line that runs north."
            .to_owned(),
        "Estimate first, so that you read the right one of the two scales.".to_owned(),
        about(&question),
    ];
    Some(question)
}

/// How far apart the two points are, in metres: short lines are the harder ones to measure.
const APART: [(f64, f64); 3] = [(3000.0, 9000.0), (2000.0, 14_000.0), (800.0, 4000.0)];

fn asked(throw: &mut Throw<'_, '_>, begins: &str, near: Tolerance) -> Option<Question> {
    let (from, to) = throw.pair(APART)?;
    let bearings = leg(throw.ground, from, to)?.bearings?;
    let right = whole(bearings.from_grid?.as_degrees(), 1.0)?.rem_euclid(360) as f64;
    let text = format!("{begins} is the grid bearing from {} to {}?", from.name, to.name);
    let answer = Answer::bearing(right, NorthOf::Grid);
    let said = answer.to_string();
    let mut question = Question::new(text, answer, near, &throw.ground.chart.grid);
    question.shown = vec![
        Shown::Point { at: from.at, label: from.name.clone() },
        Shown::Point { at: to.at, label: to.name.clone() },
    ];
    question.drawn = vec![Shown::Line { from: from.at, to: to.at, label: said.clone() }];
    question.steps =
        vec![format!("From {} the line runs {} over the grid, {said}.", from.name, quarter(right))];
    let mut mistake =
        |kind, degrees| question.mistake(kind, Answer::bearing(degrees, NorthOf::Grid));
    mistake(MistakeKind::BackForBearing, right + 180.0);
    mistake(MistakeKind::CountedAnticlockwise, 360.0 - right);
    mistake(MistakeKind::MeasuredFromEast, 90.0 - right);
    mistake(MistakeKind::TrueForGrid, bearings.from_true.as_degrees().round());
    mistake(MistakeKind::QuarterTurn, right + 90.0);
    mistake(MistakeKind::QuarterTurn, right - 90.0);
    Some(question)
}

/// Between which two of twelve directions it lies.
fn about(question: &Question) -> String {
    let Answer::Bearing { degrees, .. } = question.answer else { return String::new() };
    let from = (degrees / 30.0).floor() * 30.0;
    format!("It lies between {from:03.0}° and {:03.0}°.", (from + 30.0).rem_euclid(360.0))
}

/// `to the north and east`
fn quarter(degrees: f64) -> &'static str {
    match degrees {
        d if d < 90.0 => "to the north and east",
        d if d < 180.0 => "to the south and east",
        d if d < 270.0 => "to the south and west",
        _ => "to the north and west",
    }
}
