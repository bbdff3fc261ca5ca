//! A distance along the shore, as dividers find it.

use std::sync::OnceLock;

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

/// How wide the dividers are opened, in metres, by level.
const STEPS: [f64; 3] = [500.0, 500.0, 250.0];

/// How long a way along the shore may be, in kilometres, by level.
const LONGEST: [f64; 3] = [9.0, 16.0, 24.0];

/// The ways along a ground's shores from landing to landing, each walked when it is first asked for.
#[derive(Debug, Clone)]
pub(crate) struct Shores(Vec<Pair>);

/// Two landings on one closed line of shore, by their numbers; the lengths are in kilometres.
#[derive(Debug, Clone)]
struct Pair {
    from: usize,
    to: usize,
    /// The two ways round along every bend: dividers find at most that.
    shorter: f64,
    longer: f64,
    across: f64,
    walks: [OnceLock<Option<Walk>>; 3],
}

/// The shorter way as dividers find it, and the other way round where it is not much longer.
#[derive(Debug, Clone)]
struct Walk {
    points: Vec<Point>,
    straight: f64,
    found: f64,
    other: Option<(Vec<Point>, f64)>,
}

impl Shores {
    /// Every two landings of a ground between which a question may be asked.
    pub(crate) fn of(ground: &Ground<'_>) -> Shores {
        let landings = ground.ashore();
        let along = |on: &ShorePoint| {
            let line = ground.coast.line(on.line).filter(|line| line.is_closed())?;
            Some((line.length_to(on).as_kilometres(), line.length().as_kilometres()))
        };
        let places: Vec<Option<(f64, f64)>> = landings.iter().map(|(_, on)| along(on)).collect();
        let longest = LONGEST.into_iter().fold(0.0, f64::max);
        let mut pairs = Vec::new();
        for (from, (start, one)) in landings.iter().enumerate() {
            for (to, (end, other)) in landings.iter().enumerate() {
                let (Some(here), Some(there)) = (places[from], places[to]) else { continue };
                let between = (here.0 - there.0).abs();
                let (shorter, longer) =
                    (between.min(here.1 - between), between.max(here.1 - between));
                if one.line != other.line || !(LEAST..2.0 * longest).contains(&shorter) {
                    continue;
                }
                let across = (start.at - end.at).x.hypot((start.at - end.at).y) / 1000.0;
                let walks = Default::default();
                pairs.push(Pair { from, to, shorter, longer, across, walks });
            }
        }
        Shores(pairs)
    }
}

/// The least way that is asked for, in kilometres.
const LEAST: f64 = 1.2;

/// How far is it along the shore?
pub(super) fn along(throw: &mut Throw<'_, '_>) -> Option<Question> {
    let ground = throw.ground;
    let pair = throw.dice.pick(&ground.shores().0)?;
    let longest = throw.level.of(LONGEST);
    if pair.shorter >= 2.0 * longest || (throw.choosy && pair.shorter < 1.3 * pair.across) {
        return None;
    }
    let step = throw.level.of(STEPS);
    let walk = pair.walks[throw.level as usize].get_or_init(|| pair.walk(ground, step)).as_ref()?;
    let bends = walk.found >= walk.straight * 1.3;
    if !(LEAST..longest).contains(&walk.found) || (throw.choosy && !bends) {
        return None;
    }
    question(ground, pair, walk, step)
}

impl Pair {
    fn walk(&self, ground: &Ground<'_>, step: f64) -> Option<Walk> {
        let grid = &ground.chart.grid;
        let places = (ground.ashore().get(self.from)?.1, ground.ashore().get(self.to)?.1);
        let line = |points: &[Point]| Line::on_grid(grid, points.iter().copied(), false).ok();
        let points = laid(ground, places, Way::Shorter)?;
        let shorter = line(&points)?;
        let other = || {
            let points = laid(ground, places, Way::Longer)?;
            let found = walked(&line(&points)?, step)?;
            Some((points, found))
        };
        Some(Walk {
            straight: shorter.straight()?.as_kilometres(),
            found: walked(&shorter, step)?,
            other: if self.longer < 2.5 * self.shorter { other() } else { None },
            points,
        })
    }
}

fn question(ground: &Ground<'_>, pair: &Pair, walk: &Walk, step: f64) -> Option<Question> {
    let (from, to) = (&ground.ashore().get(pair.from)?.0, &ground.ashore().get(pair.to)?.0);
    let Walk { points, straight, found, other } = walk;
    let (straight, found) = (*straight, *found);
    let right = whole(found, 0.1)? as f64 / 10.0;
    whole(straight, 0.1)?;
    let text = format!(
        "How far is it along the shore from {} to {}, the shorter way round, with dividers opened to {step} m? In kilometres.",
        from.name, to.name
    );
    let near = Tolerance::Share(0.12);
    let grid = &ground.chart.grid;
    let mut question = Question::new(text, amount(right, Unit::Kilometres), near, grid);
    question.basis = "dividers set down a little to the side of where another hand sets them find some per cent more or less: \
                      common practice, no published source";
    question.shown = vec![
        Shown::Point { at: from.at, label: from.name.clone() },
        Shown::Point { at: to.at, label: to.name.clone() },
    ];
    let (steps, rest) = steps(found, step)?;
    question.hints = vec![
        match step {
            250.0 => "Open the dividers to a quarter of a grid square's side: 250 m.".to_owned(),
            _ => "Open the dividers to half of a grid square's side: 500 m.".to_owned(),
        },
        "Walk them along the high water line, and add what is left over at the end.".to_owned(),
        format!("They go into it about {steps} times."),
    ];
    question.steps = vec![
        format!(
            "Walked along the shore it is {steps} times {step} m, and {rest} m over: {right:.1} km."
        ),
        format!(
            "Straight across it is {straight:.1} km, which goes over land or leaves the bays out."
        ),
    ];
    question.drawn = vec![Shown::Path(points.clone())];
    let mut drawn = |kind, value, way| {
        question.mistake_drawn(kind, amount(value, Unit::Kilometres), vec![way]);
    };
    let across = Shown::Line { from: from.at, to: to.at, label: format!("{straight:.1} km") };
    drawn(MistakeKind::StraightForShore, straight, across);
    if let Some((other, length)) = other {
        drawn(MistakeKind::OtherWayRound, *length, Shown::Path(other.clone()));
    }
    let mut mistake = |kind, value| question.mistake(kind, amount(value, Unit::Kilometres));
    mistake(MistakeKind::MilesForKilometres, found / 1.852);
    mistake(MistakeKind::WrongScale, found * 2.0);
    mistake(MistakeKind::WrongScale, found / 2.0);
    Some(question)
}

/// How often the dividers go into a length in kilometres, and how many metres are over, to the next ten; nothing where the last
/// step all but ends there.
fn steps(found: f64, step: f64) -> Option<(i64, i64)> {
    let times = found * 1000.0 / step;
    let over = times.fract();
    let rest = 10 * whole(over * step, 10.0)?;
    (1e-4..1.0 - 1e-4).contains(&over).then_some((times.floor() as i64, rest))
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
