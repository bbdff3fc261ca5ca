//! Marking: right or wrong, how far off, and which mistake it looks like.

mod off;
#[cfg(test)]
mod tests;

use chart::Point;
use nav::Square;

use crate::ground::on_chart;
use crate::question::letter;
use crate::{Answer, Mistake, MistakeKind, NorthOf, NotUnderstood, Question, Reply, Tolerance};

/// What an answer is worth.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Whether it is right.
    pub right: bool,
    /// How far off it is, in words: `12° too far clockwise`; nothing where it is the answer itself, or of another kind.
    pub off: Option<String>,
    /// The likeliest mistake that leads there.
    pub mistake: Option<MistakeKind>,
    /// What an examiner says, in sentences: the verdict, the mistake, and the right answer.
    pub said: Vec<String>,
}

impl Question {
    /// Marks an answer in words.
    ///
    /// # Errors
    /// [`NotUnderstood`] where it cannot be read; it is no wrong answer then.
    pub fn mark(&self, text: &str) -> Result<Mark, NotUnderstood> {
        Ok(self.mark_reply(&self.read(text)?))
    }

    /// Marks a place that the cursor was put on. Where no place is asked for it is wrong.
    #[must_use]
    pub fn mark_at(&self, at: Point) -> Mark {
        self.mark_reply(&Reply::At(at))
    }

    /// Marks an answer that was read.
    #[must_use]
    pub fn mark_reply(&self, reply: &Reply) -> Mark {
        self.mark_knowing(reply, &[])
    }

    /// The same of a learner who made these mistakes lately, those made most often first: where several lead to the answer,
    /// it is the one that was made before.
    pub(crate) fn mark_knowing(&self, reply: &Reply, lately: &[MistakeKind]) -> Mark {
        let right = self.answer.takes(reply, self.tolerance);
        let off = off::off(&self.answer, reply);
        let mistake = if right { None } else { self.looks_like(reply, lately) };
        let said = self.said(reply, right, off.as_deref(), mistake);
        Mark { right, off, mistake, said }
    }

    /// The question's mistake that leads there: one that was made lately, else the nearest, and of those as near the likeliest.
    fn looks_like(&self, reply: &Reply, lately: &[MistakeKind]) -> Option<MistakeKind> {
        let leads = |it: &&Mistake| it.answer.takes(reply, self.tolerance);
        let fits: Vec<&Mistake> = self.mistakes.iter().filter(leads).collect();
        let known = lately.iter().find(|kind| fits.iter().any(|it| it.kind == **kind)).copied();
        known.or_else(|| nearest(&fits, reply)).or_else(|| self.other_north(reply))
    }

    /// The right figures with the letter of another north.
    fn other_north(&self, reply: &Reply) -> Option<MistakeKind> {
        let (Answer::Bearing { north: asked, .. }, Reply::Bearing { degrees, north: Some(said) }) =
            (&self.answer, reply)
        else {
            return None;
        };
        let unsaid = Reply::Bearing { degrees: *degrees, north: None };
        self.answer.takes(&unsaid, self.tolerance).then(|| between(*said, *asked)).flatten()
    }

    fn said(
        &self,
        reply: &Reply,
        right: bool,
        off: Option<&str>,
        mistake: Option<MistakeKind>,
    ) -> Vec<String> {
        let near = self.how_near().map_or(String::new(), |near| format!(" {near}"));
        let mut said = vec![match (right, off) {
            (true, None) => "Right.".to_owned(),
            (true, Some(off)) => format!("Right: {off}, and{near} is near enough."),
            (false, Some(off)) => format!("Not so: {off}."),
            (false, None) => "Not so.".to_owned(),
        }];
        if let Some(mistake) = mistake {
            said.push(format!("It looks like {mistake}."));
            said.push(mistake.advice().to_owned());
        } else if let (false, Some(asked)) = (right, self.other_size(reply)) {
            said.push(asked);
        }
        if !right || off.is_some() {
            said.push(format!("It is {}.", self.told()));
        }
        said
    }

    /// That a reference has another number of figures than was asked for.
    fn other_size(&self, reply: &Reply) -> Option<String> {
        let (Answer::Reference { square, .. }, Reply::Reference(given)) = (&self.answer, reply)
        else {
            return None;
        };
        let (asked, side) = (square.side.as_metres(), given.side.as_metres());
        ((asked - side).abs() > 0.5).then(|| {
            format!(
                "The reference asked for names a square of {asked:.0} m, yours one of {side:.0} m."
            )
        })
    }

    /// The right answer in words.
    #[must_use]
    pub fn told(&self) -> String {
        match &self.answer {
            Answer::Choice(index) => {
                let chosen = self.choices.get(*index).map(|choice| choice.text.clone());
                chosen.unwrap_or_else(|| letter(*index).to_string())
            }
            answer => answer.to_string(),
        }
    }
}

/// The mistake whose answer lies nearest to a reply, the first of those as near.
fn nearest(fits: &[&Mistake], reply: &Reply) -> Option<MistakeKind> {
    let nearer = |best: &Mistake, it: &Mistake| {
        it.answer.apart(reply).unwrap_or(0.0) < best.answer.apart(reply).unwrap_or(0.0) - HAIR
    };
    let nearest = fits.iter().copied().reduce(|best, it| if nearer(best, it) { it } else { best });
    nearest.map(|it| it.kind)
}

/// Which mistake it is to give a bearing of one north for that of another.
fn between(said: NorthOf, asked: NorthOf) -> Option<MistakeKind> {
    Some(match (said, asked) {
        (NorthOf::Grid, NorthOf::True) => MistakeKind::GridForTrue,
        (NorthOf::True, NorthOf::Grid) => MistakeKind::TrueForGrid,
        (NorthOf::True, NorthOf::Magnetic) => MistakeKind::TrueForMagnetic,
        (NorthOf::Magnetic, NorthOf::True) => MistakeKind::MagneticForTrue,
        (NorthOf::Grid, NorthOf::Magnetic) => MistakeKind::GridForMagnetic,
        (NorthOf::Magnetic, NorthOf::Grid) => MistakeKind::MagneticForGrid,
        _ => return None,
    })
}

/// What rounds to a figure counts as it, and a decimal fraction has a last bit.
const HAIR: f64 = 1e-6;

impl Answer {
    /// Whether a reply is this answer, within a tolerance.
    pub(crate) fn takes(&self, reply: &Reply, tolerance: Tolerance) -> bool {
        match (self, reply) {
            (Answer::Reference { square, at, .. }, Reply::Reference(given)) => {
                let alike = (square.side - given.side).as_metres().abs() < 0.5;
                alike && within(given, *at, metres(tolerance))
            }
            (Answer::Square { square, .. }, Reply::At(at)) => {
                within(square, *at, metres(tolerance))
            }
            (Answer::Letters(letters), Reply::Letters(given)) => letters == given,
            (Answer::Bearing { north, .. }, Reply::Bearing { north: Some(said), .. })
                if said != north =>
            {
                false
            }
            (Answer::Choice(index), Reply::Choice(given)) => index == given,
            _ => self.apart(reply).is_some_and(|apart| apart <= self.most(tolerance) + HAIR),
        }
    }

    /// How far a reply is from this answer, in the measure of its tolerance; nothing where that is not told by one number.
    fn apart(&self, reply: &Reply) -> Option<f64> {
        Some(match (self, reply) {
            (Answer::Place { at, .. }, Reply::At(given)) => {
                (*at - *given).x.hypot((*at - *given).y)
            }
            (Answer::Bearing { degrees, .. }, Reply::Bearing { degrees: given, .. }) => {
                turn(*degrees, *given).abs()
            }
            (Answer::Amount { value, .. }, Reply::Amount(given)) => (value - given).abs(),
            (Answer::Clock(minute), Reply::Clock(given)) => later(*minute, *given).abs() as f64,
            (Answer::Position(at), Reply::Position(given)) => {
                let north = given.lat.as_degrees() - at.lat.as_degrees();
                let east = given.lon.degrees_east_of(at.lon);
                north.abs().max(east.abs()) * 60.0
            }
            _ => return None,
        })
    }

    /// The most that a reply may be off, in the same measure; without a tolerance of that kind what rounds to the answer.
    fn most(&self, tolerance: Tolerance) -> f64 {
        match (self, tolerance) {
            (Answer::Place { .. }, Tolerance::Metres(most))
            | (Answer::Bearing { .. }, Tolerance::Degrees(most))
            | (Answer::Amount { .. } | Answer::Clock(_), Tolerance::Units(most))
            | (Answer::Position(_), Tolerance::ArcMinutes(most)) => most,
            (Answer::Amount { value, .. }, Tolerance::Share(share)) => value.abs() * share,
            // No answer has more than a few decimals.
            (Answer::Amount { decimals, .. }, _) => 0.5 * 0.1_f64.powi(*decimals as i32),
            (Answer::Bearing { .. }, _) => 0.5,
            (Answer::Position(_), _) => 0.05,
            _ => 0.0,
        }
    }
}

fn metres(tolerance: Tolerance) -> f64 {
    if let Tolerance::Metres(metres) = tolerance { metres } else { 0.0 }
}

/// Whether a point lies in a square or so many metres beyond its edges.
fn within(square: &Square, at: Point, beyond: f64) -> bool {
    let (from, side) = (on_chart(square.south_west), square.side.as_metres());
    // A point within 0.1 mm short of a side counts as on it, as in a reference.
    let holds = |along: f64| along >= -beyond - 1e-4 && along < side + beyond - 1e-4;
    holds(at.x - from.x) && holds(at.y - from.y)
}

/// Degrees clockwise from one direction to another, the shorter way.
pub(crate) fn turn(from: f64, to: f64) -> f64 {
    let turned = (to - from).rem_euclid(360.0);
    if turned > 180.0 { turned - 360.0 } else { turned }
}

/// Minutes from one time of day to another, the shorter way.
pub(crate) fn later(from: i64, to: i64) -> i64 {
    let day = 24 * 60;
    let after = (to - from).rem_euclid(day);
    if after > day / 2 { after - day } else { after }
}
