//! A distance along the shore, as dividers find it.

use chart::coast::ShorePoint;
use chart::measure::{Line, Start};
use chart::trace::{Anchor, Way, Wishes, lay, patient};
use chart::{Point, measure};
use nav::Length;

use super::Throw;
use super::far::amount;
use crate::ground::Ground;
use crate::words::whole;
use crate::{MistakeKind, Question, Shown, Tolerance, Unit};

/// How far is it along the shore?
pub(super) fn along(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let landings = throw.ground.ashore();
    let ((from, start), (to, end)) = (throw.dice.pick(landings)?, throw.dice.pick(landings)?);
    let places = (*start, *end);
    let ways = ways(throw.ground, places)?;
    let longest = throw.level.of([9.0, 16.0, 24.0]);
    // Every bend counts there, so that dividers find at most that.
    let across = (from.at - to.at).x.hypot((from.at - to.at).y) / 1000.0;
    if !(1.2..2.0 * longest).contains(&ways.0) || (throw.choosy && ways.0 < 1.3 * across) {
        return None;
    }
    let points = laid(throw.ground, places, Way::Shorter)?;
    let grid = &throw.ground.chart.grid;
    let line = Line::on_grid(grid, points.iter().copied(), false).ok()?;
    let straight = line.straight()?.as_kilometres();
    let step = throw.level.of([500.0, 500.0, 250.0]);
    let found = walked(&line, step)?;
    if !(1.2..longest).contains(&found) || (throw.choosy && found < straight * 1.3) {
        return None;
    }
    let right = whole(found, 0.1)? as f64 / 10.0;
    let text = format!(
        "How far is it along the shore from {} to {}, the shorter way round, with dividers opened to {step} m? In kilometres.",
        from.name, to.name
    );
    let near = Tolerance::Share(0.12);
    let mut question = Question::new(text, amount(right, Unit::Kilometres), near, grid);
    question.basis = "dividers set down a little to the side of where another hand sets them find some per cent more or less: \
                      common practice, no published source";
    question.shown = vec![
        Shown::Point { at: from.at, label: from.name.clone() },
        Shown::Point { at: to.at, label: to.name.clone() },
    ];
    question.hints = vec![
        match step {
            250.0 => "Open the dividers to a quarter of a grid square's side: 250 m.".to_owned(),
            _ => "Open the dividers to half of a grid square's side: 500 m.".to_owned(),
        },
        "Walk them along the high water line, and add what is left over at the end.".to_owned(),
    ];
    question.steps = vec![
        format!("Walked along the shore, dividers of {step} m find {right:.1} km."),
        format!(
            "Straight across it is {straight:.1} km, which goes over land or leaves the bays out."
        ),
    ];
    whole(straight, 0.1)?;
    question.drawn = vec![Shown::Path(points)];
    let mut drawn = |kind, value, way| {
        question.mistake_drawn(kind, amount(value, Unit::Kilometres), vec![way]);
    };
    let across = Shown::Line { from: from.at, to: to.at, label: format!("{straight:.1} km") };
    drawn(MistakeKind::StraightForShore, straight, across);
    if ways.1 < 2.5 * ways.0
        && let Some(other) = laid(throw.ground, places, Way::Longer)
        && let Ok(line) = Line::on_grid(grid, other.iter().copied(), false)
        && let Some(length) = walked(&line, step)
    {
        drawn(MistakeKind::OtherWayRound, length, Shown::Path(other));
    }
    let mut mistake = |kind, value| question.mistake(kind, amount(value, Unit::Kilometres));
    mistake(MistakeKind::MilesForKilometres, found / 1.852);
    mistake(MistakeKind::WrongScale, found * 2.0);
    mistake(MistakeKind::WrongScale, found / 2.0);
    Some(question)
}

/// How long the shorter and the longer way round are along every bend, in kilometres; nothing where there is but one line of
/// shore, or none, between them.
fn ways(ground: &Ground<'_>, (from, to): (ShorePoint, ShorePoint)) -> Option<(f64, f64)> {
    let line =
        ground.coast.line(from.line).filter(|line| from.line == to.line && line.is_closed())?;
    let between = (line.length_to(&from) - line.length_to(&to)).abs().as_kilometres();
    let other = line.length().as_kilometres() - between;
    Some((between.min(other), between.max(other)))
}

/// The shore from one place to the other.
fn laid(ground: &Ground<'_>, (from, to): (ShorePoint, ShorePoint), way: Way) -> Option<Vec<Point>> {
    let anchors = [(Anchor::Shore(from), way), (Anchor::Shore(to), way)];
    let laid = lay(ground.coast, &anchors, Wishes::default(), &patient).ok()?;
    (laid.points.len() > 1).then_some(laid.points)
}

/// The length in kilometres that dividers find; nothing where they find another one from the other end, as on a shore with
/// a narrow bay that one walk enters and the other steps over.
fn walked(line: &measure::Line, step: f64) -> Option<f64> {
    let step = Length::from_metres(step).ok()?;
    let one = line.walk(step, Start::FIRST).ok()?.length().as_kilometres();
    let other = line.walk(step, Start::LAST).ok()?.length().as_kilometres();
    ((one - other).abs() < 0.08 * one).then_some(one)
}
