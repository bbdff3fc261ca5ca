//! The bearing back.

use super::Throw;
use super::rose::{ray, reach};
use crate::question::RECKONED;
use crate::{Answer, Ground, MistakeKind, NorthOf, Question, Shown, Tolerance};

/// What is the back bearing of 047°M?
pub(super) fn back(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let step = throw.level.of([10, 1, 1]);
    let out = throw.dice.stepped(step, 360 - step, step);
    // At the third level the sum or the difference runs through a hundred, which is where it goes wrong.
    if throw.choosy && throw.level.number() == 3 && out % 100 >= 20 && out % 100 < 80 {
        return None;
    }
    let degrees = out as f64;
    let out_bearing = nav::Bearing::<nav::Magnetic>::from_degrees(degrees).ok()?;
    let way = if out < 180 { ("plus", out + 180) } else { ("less", out - 180) };
    let answer = Answer::bearing(out_bearing.back().as_degrees(), NorthOf::Magnetic);
    let text = format!("You paddle out on {out_bearing}. Which bearing leads straight back?");
    let mut question = Question::new(text, answer, Tolerance::Exact, &throw.ground.chart.grid);
    question.hints = vec![
        "The way back is half a turn away.".to_owned(),
        format!("Is {out:03}° less than 180°, or more?"),
        format!("It is {out:03}° {} 180°.", way.0),
    ];
    question.basis = RECKONED;
    question.steps =
        vec![format!("Half a turn is 180°: {out:03}° {} 180° is {:03}°.", way.0, way.1)];
    question.drawn = drawn(throw.ground, degrees, out_bearing.to_string(), question.told());
    let mut mistake = |kind, degrees| {
        question.mistake(kind, Answer::bearing(degrees, NorthOf::Magnetic));
    };
    mistake(MistakeKind::BearingForBack, degrees);
    mistake(MistakeKind::CountedAnticlockwise, 360.0 - degrees);
    mistake(MistakeKind::QuarterTurn, degrees + 90.0);
    mistake(MistakeKind::QuarterTurn, degrees - 90.0);
    Some(question)
}

/// Out from the middle of the chart, and back beside it, as if magnetic north were the grid's.
fn drawn(ground: &Ground<'_>, degrees: f64, out: String, back: String) -> Vec<Shown> {
    let (start, far) = (ground.middle(), reach(ground));
    let way = ray(start, degrees, far, out);
    let Shown::Line { to, .. } = &way else { return Vec::new() };
    // The two ways would lie on one another.
    let Shown::Line { to: beside, .. } = ray(*to, degrees + 90.0, far / 12.0, String::new()) else {
        return Vec::new();
    };
    vec![way, ray(beside, degrees + 180.0, far, back)]
}
