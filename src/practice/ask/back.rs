//! The bearing back.

use super::Throw;
use crate::{Answer, MistakeKind, NorthOf, Question, Tolerance};

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
    let way = if out < 180 { ("more", out + 180) } else { ("less", out - 180) };
    let answer = Answer::bearing(out_bearing.back().as_degrees(), NorthOf::Magnetic);
    let text = format!("You paddle out on {out_bearing}. Which bearing leads straight back?");
    let mut question = Question::new(text, answer, Tolerance::Exact, &throw.ground.chart.grid);
    question.hints = vec![
        "The way back is half a turn away.".to_owned(),
        format!("Is {out:03}° less than 180°, or more?"),
    ];
    question.steps =
        vec![format!("Half a turn is 180°: {out:03}° and 180° {} is {:03}°.", way.0, way.1)];
    let mut mistake = |kind, degrees| {
        question.mistake(kind, Answer::bearing(degrees, NorthOf::Magnetic));
    };
    mistake(MistakeKind::BearingForBack, degrees);
    mistake(MistakeKind::CountedAnticlockwise, 360.0 - degrees);
    mistake(MistakeKind::QuarterTurn, degrees + 90.0);
    mistake(MistakeKind::QuarterTurn, degrees - 90.0);
    Some(question)
}
