//! Distances between two points of the chart, by eye and by grid squares.

use super::{Throw, leg};
use crate::ground::Spot;
use crate::words::whole;
use crate::{Answer, MistakeKind, Question, Shown, Tolerance, Unit};

/// How far is it, without instruments?
pub(super) fn by_eye(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let (from, to) = throw.pair([(1000.0, 6000.0), (1000.0, 12_000.0), (1000.0, 20_000.0)])?;
    let miles = throw.level.number() > 1 && throw.dice.coin();
    let unit = if miles { Unit::Miles } else { Unit::Kilometres };
    let near = Tolerance::Share(throw.level.of([0.3, 0.25, 0.2]));
    let mut question = asked(throw, (from, to), "By eye, without a ruler: how", unit, near)?;
    question.basis =
        "a practised eye is good to about a quarter: common practice, no published source";
    question.hints = vec![
        "Find a side of a grid square: it is one kilometre. How often does it go into the line?"
            .to_owned(),
        "Halve the line in your mind until it is as long as a side of a square.".to_owned(),
        squares(from, to)?,
    ];
    Some(question)
}

/// How far is it, by the squares of the grid?
pub(super) fn by_squares(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let (from, to) = throw.pair([(1500.0, 7000.0), (1500.0, 14_000.0), (1500.0, 20_000.0)])?;
    let unit = if throw.level.number() == 3 { Unit::Miles } else { Unit::Kilometres };
    let asked_so = "With dividers and the grid's squares: how";
    let mut question = asked(throw, (from, to), asked_so, unit, Tolerance::Share(0.05))?;
    question.basis = "half a millimetre at each end of the dividers on 1:50,000, and a square judged to a tenth: common \
                      practice, no published source";
    question.hints = vec![
        "Open the dividers to a few squares along a grid line, and step them along the way.".to_owned(),
        "Or count the squares along and the squares up, and take the root of the sum of their squares.".to_owned(),
        squares(from, to)?,
    ];
    let (along, up) = ((to.at.x - from.at.x).abs() / 1000.0, (to.at.y - from.at.y).abs() / 1000.0);
    let counted = format!(
        "It is {along:.1} squares along and {up:.1} up; the root of the sum of the squares is {:.1} km.",
        along.hypot(up)
    );
    whole(along.hypot(up), 0.1)?;
    whole(along, 0.1)?;
    whole(up, 0.1)?;
    if unit == Unit::Miles {
        let kilometres = whole(along.hypot(up), 0.1)? as f64 / 10.0;
        let told = question.told();
        question.steps = vec![format!("{kilometres:.1} km by 1.852 are about {told}.")];
    }
    question.steps.insert(0, counted);
    let in_unit = |kilometres: f64| match unit {
        Unit::Miles => kilometres / 1.852,
        _ => kilometres,
    };
    for (kind, kilometres) in [
        (MistakeKind::WrongScale, along.hypot(up) * 2.0),
        (MistakeKind::WrongScale, along.hypot(up) / 2.0),
        (MistakeKind::SidesAdded, along + up),
        (MistakeKind::LongerSideOnly, along.max(up)),
    ] {
        question.mistake(kind, amount(in_unit(kilometres), unit));
    }
    Some(question)
}

/// How many squares along and up, roughly.
fn squares(from: &Spot, to: &Spot) -> Option<String> {
    let squares = |metres: f64| whole(metres.abs() / 1000.0, 1.0);
    let (along, up) = (squares(to.at.x - from.at.x)?, squares(to.at.y - from.at.y)?);
    Some(format!("It is about {along} squares along and {up} up."))
}

pub(super) fn amount(value: f64, unit: Unit) -> Answer {
    Answer::Amount { value: (value * 10.0).round() / 10.0, unit, decimals: 1 }
}

fn asked(
    throw: &Throw<'_, '_>,
    (from, to): (&Spot, &Spot),
    begins: &str,
    unit: Unit,
    near: Tolerance,
) -> Option<Question> {
    let way = leg(throw.ground, from, to)?.distance;
    let (name, here, other) = match unit {
        Unit::Miles => ("nautical miles", way.as_nautical_miles(), way.as_kilometres()),
        _ => ("kilometres", way.as_kilometres(), way.as_nautical_miles()),
    };
    whole(here, 0.1)?;
    let text = format!("{begins} far is it from {} to {}? In {name}.", from.name, to.name);
    let answer = amount(here, unit);
    let said = answer.to_string();
    let mut question = Question::new(text, answer, near, &throw.ground.chart.grid);
    question.shown = vec![
        Shown::Point { at: from.at, label: from.name.clone() },
        Shown::Point { at: to.at, label: to.name.clone() },
    ];
    question.drawn = vec![Shown::Line { from: from.at, to: to.at, label: said.clone() }];
    question.steps = vec![format!("Straight from {} to {} it is {said}.", from.name, to.name)];
    let kind = match unit {
        Unit::Miles => MistakeKind::KilometresForMiles,
        _ => MistakeKind::MilesForKilometres,
    };
    question.mistake(kind, amount(other, unit));
    Some(question)
}
