//! What a question shows is brought in sight. Where it looks never follows from the answer before that is given.

use chart::{Extent, Point, View};
use practice::Shown;

use crate::State;
use crate::state::{Put, Stage, Told};
use crate::update::cursor;
use crate::view::drill_given;

/// What is seen around what is shown, as a part of its size: some, and where a place is sought enough to seek in.
const AROUND: f64 = 0.3;
const TO_SEEK: f64 = 1.5;
/// How far off the reader's own answer is brought in sight.
const OWN: f64 = 2.0;
/// What is smaller than this part of what is seen is looked at more closely.
const SMALL: f64 = 0.4;
/// The least that is seen around, in metres: names and grid lines to go by.
const LEAST: f64 = 1_000.0;

/// Brings the question in hand in sight, and once it is marked what is drawn of its answer.
pub(super) fn bring(state: &mut State) {
    let cells = state.cells();
    // A screen without a drawing shows nothing, and must not forget what was looked at.
    if cells.columns == 0 || cells.rows == 0 {
        return;
    }
    let Some(drill) = &state.practice.drill else { return };
    let wanted = match &drill.stage {
        Stage::Asked(put) => {
            let seeks = put.question.asks_for_place();
            let points: Vec<Point> = put.question.shown.iter().flat_map(points).collect();
            // Places to choose from stand on the chart, the right one among the others.
            let choices: Vec<Point> = put.question.choices.iter().filter_map(|it| it.at).collect();
            let of = around(&points, if seeks { TO_SEEK } else { AROUND });
            match of.or_else(|| around(&choices, AROUND)) {
                // A place on the chart, wherever.
                None if seeks => Some(state.chart.extent),
                wanted => wanted,
            }
        }
        Stage::Marked(put, told) => answered(state, put, told),
        _ => None,
    };
    if let Some(wanted) = wanted {
        cursor::look(state, View::fit(wanted, cells));
    }
}

/// What shows the answers, if they are not all seen yet, or so small that one could be taken for the other.
fn answered(state: &State, put: &Put, told: &Told) -> Option<Extent> {
    let question = &put.question;
    let shown = question.shown.iter().chain(&question.drawn).flat_map(points);
    let mut all: Vec<Point> = shown.chain(told.at).collect();
    // The reader's own answer, too, unless it is so far off that nothing of the rest would be seen: the edge points at it then.
    let own = around(&all, OWN);
    let yours = drill_given(question, told);
    all.extend(yours.iter().flat_map(points).filter(|at| own.is_some_and(|own| holds(own, *at))));
    let seen = state.view.extent(state.cells());
    let wanted = around(&all, AROUND)?;
    let is_small = wanted.width() < SMALL * seen.width() && wanted.height() < SMALL * seen.height();
    let all_seen = all.iter().all(|at| holds(seen, *at));
    (is_small || !all_seen).then_some(wanted)
}

/// What lies about some points; nothing of none.
fn around(points: &[Point], part: f64) -> Option<Extent> {
    let first = points.first()?;
    let (mut low, mut high) = (*first, *first);
    for Point { x, y } in points {
        low = Point { x: low.x.min(*x), y: low.y.min(*y) };
        high = Point { x: high.x.max(*x), y: high.y.max(*y) };
    }
    let more = (part * (high.x - low.x).max(high.y - low.y)).max(LEAST);
    let more = Point { x: more, y: more };
    Some(Extent::new(low - more, high + more))
}

fn holds(extent: Extent, at: Point) -> bool {
    let (low, high) = (extent.min(), extent.max());
    (low.x..=high.x).contains(&at.x) && (low.y..=high.y).contains(&at.y)
}

/// The points of what is shown.
fn points(shown: &Shown) -> Vec<Point> {
    match shown {
        Shown::Point { at, .. } | Shown::Tick { at, .. } => vec![*at],
        Shown::Line { from, to, .. } => vec![*from, *to],
        Shown::Path(points) => points.clone(),
        Shown::Square(square) => {
            let (from, side) = (square.south_west, square.side.as_metres());
            let corner = Point { x: from.easting.as_metres(), y: from.northing.as_metres() };
            vec![corner, corner + Point { x: side, y: side }]
        }
    }
}
