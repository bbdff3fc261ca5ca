//! What is read of the line of the trace: at once where it is short, beside the loop where it is not.

use std::sync::Arc;

use chart::Point;
use chart::measure::{self, Start, Walk};
use nav::magnetic::{DecimalYear, VariationSource};
use nav::{Grid, GridPoint, Length, Pace, Position, geodesic};
use plan::{Along, Frame, Line};

use crate::job::{Outcome, Task, Watch};
use crate::state::Reading;
use crate::{Command, State};

/// A line of at most so many points is read at once.
const AT_ONCE: usize = 400;

/// What a line is read with.
#[derive(Debug, Clone)]
struct Question {
    points: Vec<Point>,
    grid: Grid,
    variation: VariationSource,
    date: DecimalYear,
    pace: Pace,
}

/// Whether the line has to be read anew although it is the same: the variation has changed.
pub(super) fn is_due(state: &State) -> bool {
    state.thread.reading.is_some() && state.thread.read_with != Some(with(state))
}

fn with(state: &State) -> (VariationSource, DecimalYear) {
    (state.document.route().variation, state.year())
}

/// Reads the line as it is shown.
pub(super) fn measure(state: &mut State) -> Vec<Command> {
    let points: Vec<Point> = state.thread.shown_points().collect();
    let (variation, date) = with(state);
    state.thread.read_with = Some((variation, date));
    let ended = state.work.drop(Task::Read).then_some(Command::Abandon(Task::Read));
    if points.len() < 2 {
        state.thread.reading = None;
        return ended.into_iter().collect();
    }
    let (grid, pace) = (state.chart.grid.clone(), state.document.route().pace);
    let question = Question { points, grid, variation, date, pace };
    if question.points.len() <= AT_ONCE {
        state.thread.reading = read(&question, &crate::job::Unwatched).map(Arc::new);
        return ended.into_iter().collect();
    }
    let job = state.work.ask(Task::Read, move |watch| {
        read(&question, watch).map(|reading| Outcome::Read(Arc::new(reading)))
    });
    vec![Command::Compute(job)]
}

/// Reads a line; nothing once it is not wanted any more, or where the grid does not reach.
fn read(question: &Question, watch: &dyn Watch) -> Option<Reading> {
    let Question { points, grid, variation, date, pace } = question;
    let positions = positions(points, grid, watch)?;
    let (from, to) = (*positions.first()?, *positions.last()?);
    let frame = Frame { grid, variation: *variation, date: Some(*date), pace: *pace };
    let mut reading =
        Reading { straight: Some(geodesic::inverse(from, to).distance), ..Reading::default() };
    if let Some(inner) = positions.get(1..positions.len().saturating_sub(1))
        && let Ok(line) = Line::new(inner.iter().copied())
    {
        let along = Along::new(line, &[], Length::ZERO, Length::ZERO);
        let leg = plan::lay_along(from, to, &along, &frame);
        reading.length = Some(leg.distance);
        if let Some(traced) = leg.along {
            reading.first = traced.stretches.first().and_then(|stretch| stretch.bearings);
            reading.last = traced.stretches.last().and_then(|stretch| stretch.bearings);
        }
    }
    let line = measure::Line::new(positions, false);
    let mut walks: Vec<Walk> = Vec::new();
    for step in steps() {
        if !watch.go_on(None) {
            return None;
        }
        let walk = line.walk(step, Start::FIRST).ok();
        // Dividers opened wider than the line is long make no step.
        let walk = walk.filter(|walk| walk.steps > 0);
        reading.walks.push((step, walk.map(|walk| walk.length())));
        walks.extend(walk);
    }
    reading.slope = measure::slope(&walks).map(|slope| slope.slope);
    Some(reading)
}

/// How wide the dividers are opened.
fn steps() -> [Length; 5] {
    [2_000.0, 1_000.0, 500.0, 200.0, 100.0].map(|metres| metres * Length::METRE)
}

/// How many points are looked at before it is asked whether to go on.
const BETWEEN_QUESTIONS: usize = 4096;

fn positions(points: &[Point], grid: &Grid, watch: &dyn Watch) -> Option<Vec<Position>> {
    let mut positions = Vec::with_capacity(points.len());
    for (index, part) in points.chunks(BETWEEN_QUESTIONS).enumerate() {
        if !watch.go_on(Some((index * BETWEEN_QUESTIONS) as f64 / points.len() as f64)) {
            return None;
        }
        for point in part {
            let on_grid = GridPoint::from_metres(point.x, point.y).ok()?;
            positions.push(grid.inverse(on_grid).ok()?.position);
        }
    }
    Some(positions)
}
