//! How near is right on the chart of a test, as pencil, ruler and protractor allow at its scale.

use chart::Point;
use practice::set::BY_COACH;
use practice::{Answer, Kind, Question, Shown, Tolerance, Unit};

/// Where these tolerances come from.
const READ: &str =
    "half a millimetre on the test's own chart: common practice, no published source";
const STEPPED: &str = "half a millimetre at each end of the dividers on the test's own chart: common practice, no published source";
const DRAWN: &str = "a degree in reading the protractor, and half a millimetre in drawing the line on the test's own chart: common \
                     practice, no published source";

/// The question as it is marked where a pencil comes so near, in metres of the ground: nothing that is measured on the chart is asked
/// nearer than that, unless the coach says how near.
pub(super) fn marked(question: &Question, pencil: f64) -> Question {
    match least(question, pencil).filter(|_| question.basis != BY_COACH) {
        Some((tolerance, basis)) => question.clone().with_tolerance(tolerance, basis),
        None => question.clone(),
    }
}

/// The least tolerance, and why; nothing where the question's own is no less, and of what is not measured on the chart.
fn least(question: &Question, pencil: f64) -> Option<(Tolerance, &'static str)> {
    match (&question.answer, question.tolerance) {
        (Answer::Reference { .. }, Tolerance::Metres(own)) => {
            (own < pencil).then_some((Tolerance::Metres(pencil), READ))
        }
        (Answer::Position(at), Tolerance::ArcMinutes(own)) => {
            // The same millimetres are more minutes of longitude than of latitude.
            let minutes = pencil / 1852.0 / at.lat.as_degrees().to_radians().cos();
            let least = up(minutes, 0.05);
            (own < least).then_some((Tolerance::ArcMinutes(least), READ))
        }
        (Answer::Bearing { .. }, Tolerance::Degrees(own)) if question.kind == Kind::Bearing => {
            let least = up(1.0 + (pencil / long(question)?).to_degrees(), 0.5);
            (own < least).then_some((Tolerance::Degrees(least), DRAWN))
        }
        (Answer::Amount { value, unit, .. }, Tolerance::Share(share))
            if question.kind == Kind::DistanceBySquares =>
        {
            let metres = if *unit == Unit::Miles { 1852.0 } else { 1000.0 };
            let least = up(2.0 * pencil / metres, 0.01);
            (share * value < least).then_some((Tolerance::Units(least), STEPPED))
        }
        _ => None,
    }
}

/// How far apart the two points of a question are, in grid metres.
fn long(question: &Question) -> Option<f64> {
    let point = |shown: &Shown| match shown {
        Shown::Point { at, .. } => Some(*at),
        _ => None,
    };
    let points: Vec<Point> = question.shown.iter().filter_map(point).collect();
    let [from, to] = points[..] else { return None };
    Some((to.x - from.x).hypot(to.y - from.y))
}

/// The next multiple of a step that is no less.
fn up(amount: f64, step: f64) -> f64 {
    // The last bit of a whole multiple is not to make it the next one.
    (amount / step - 1e-9).ceil() * step
}
