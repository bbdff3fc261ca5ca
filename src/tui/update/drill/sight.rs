//! What a question shows is brought in sight. Where it looks never follows from the answer before that is given.

use chart::{Extent, Point, View};
use practice::Shown;

use crate::State;
use crate::state::Stage;
use crate::update::cursor;
use crate::view::drill_given;

/// What is seen around what is shown, as a part of its size: some, and where a place is sought enough to seek in.
const AROUND: f64 = 0.3;
const TO_SEEK: f64 = 1.5;
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
            match around(&points, if seeks { TO_SEEK } else { AROUND }) {
                // A place on the chart, wherever.
                None if seeks => Some(state.chart.extent),
                wanted => wanted,
            }
        }
        Stage::Marked(put, told) => {
            let question = &put.question;
            let shown = question.shown.iter().chain(&question.drawn).flat_map(points);
            // The reader's own answer, too, if it lies on the chart: farther off the edge points at it.
            let extent = state.chart.extent;
            let yours = drill_given(question, told);
            let yours = yours.iter().flat_map(points).filter(|at| holds(extent, *at));
            let points: Vec<Point> = shown.chain(told.at).chain(yours).collect();
            let seen = state.view.extent(cells);
            let all_seen = points.iter().all(|at| holds(seen, *at));
            around(&points, AROUND).filter(|_| !all_seen)
        }
        _ => None,
    };
    if let Some(wanted) = wanted {
        cursor::look(state, View::fit(wanted, cells));
    }
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
        Shown::Point { at, .. } => vec![*at],
        Shown::Line { from, to, .. } => vec![*from, *to],
        Shown::Path(points) => points.clone(),
        Shown::Square(square) => {
            let (from, side) = (square.south_west, square.side.as_metres());
            let corner = Point { x: from.easting.as_metres(), y: from.northing.as_metres() };
            vec![corner, corner + Point { x: side, y: side }]
        }
    }
}
