//! Moving the cursor and what is looked at.

use chart::{Extent, Point, View};
use nav::Figures;
use nav::text::AngleForm;

use crate::State;
use crate::action::Act;
use crate::state::Held;

/// How much one step of the wheel or of a key zooms.
const ZOOM: f64 = std::f64::consts::SQRT_2;

/// How many cells from the edge of the drawing the cursor is kept.
const MARGIN: f64 = 2.0;

/// The part of the drawing that one step of panning moves by.
const PAN: f64 = 0.25;

pub(super) fn act(state: &mut State, act: Act) {
    use Act::*;
    match act {
        CursorLeft | CursorRight | CursorUp | CursorDown | TenthWest | TenthEast | TenthNorth
        | TenthSouth => {
            if let Some(by) = step(state, act) {
                put(state, state.cursor + by);
            }
        }
        ZoomIn => zoom(state, true, state.cursor),
        ZoomOut => zoom(state, false, state.cursor),
        WholeChart => look(state, View::fit(state.chart.extent, state.cells())),
        WholeRoute => whole_route(state),
        Centre => look(state, View::new(state.cursor, state.view.metres_per_column)),
        PanWest => pan(state, -1.0, 0.0),
        PanEast => pan(state, 1.0, 0.0),
        PanNorth => pan(state, 0.0, -1.0),
        PanSouth => pan(state, 0.0, 1.0),
        _ => {}
    }
}

/// The step on the chart's grid that an action makes, of the cursor or of a waypoint.
pub(super) fn step(state: &State, act: Act) -> Option<Point> {
    use Act::*;
    let (across, down) = state.dot();
    let tenth = state.tenth();
    let (x, y) = match act {
        CursorLeft | NudgeWest => (-across, 0.0),
        CursorRight | NudgeEast => (across, 0.0),
        CursorUp | NudgeNorth => (0.0, down),
        CursorDown | NudgeSouth => (0.0, -down),
        TenthWest | NudgeTenthWest => (-tenth, 0.0),
        TenthEast | NudgeTenthEast => (tenth, 0.0),
        TenthNorth | NudgeTenthNorth => (0.0, tenth),
        TenthSouth | NudgeTenthSouth => (0.0, -tenth),
        _ => return None,
    };
    Some(Point { x, y })
}

/// Puts the cursor on a point of the chart, or as near as the chart goes, and shows it.
pub(super) fn put(state: &mut State, point: Point) {
    set(state, point);
    show(state);
}

/// Puts the cursor on a point of the chart, or as near as the chart goes, seen or not.
pub(super) fn set(state: &mut State, point: Point) {
    state.cursor = held(state.chart.extent, point);
}

/// Moves what is looked at by as little as shows the cursor.
pub(super) fn show(state: &mut State) {
    let cells = state.cells();
    // A screen without a drawing shows nothing, and must not forget what was looked at.
    if cells.columns > 0 && cells.rows > 0 {
        state.view = state.view.showing(cells, state.cursor, MARGIN);
    }
}

/// Zooms in or out while `fixed` keeps its place.
pub(super) fn zoom(state: &mut State, closer: bool, fixed: Point) {
    let factor = if closer { ZOOM } else { 1.0 / ZOOM };
    look(state, state.view.zoomed(factor, fixed));
}

/// Looks at `view`, its middle held on the chart, and takes the cursor along if it is left behind.
pub(super) fn look(state: &mut State, view: View) {
    state.view = view.held_in(state.chart.extent);
    let cells = state.cells();
    // What the pointer drags stays with the pointer.
    let dragged = matches!(state.held, Some(Held::Waypoint { .. } | Held::Anchor { .. }));
    if cells.columns == 0 || cells.rows == 0 || dragged {
        return;
    }
    let shown = state.view.extent(cells);
    let inset = MARGIN * state.view.metres_per_column;
    let room = |low: f64, high: f64, inset: f64| {
        let inset = inset.min((high - low) / 2.0);
        (low + inset, high - inset)
    };
    let (west, east) = room(shown.min().x, shown.max().x, inset);
    let (south, north) = room(shown.min().y, shown.max().y, inset * chart::COLUMNS_PER_ROW);
    let Point { x, y } = state.cursor;
    if !(west..=east).contains(&x) || !(south..=north).contains(&y) {
        let point = Point { x: x.clamp(west, east), y: y.clamp(south, north) };
        set(state, point);
    }
}

pub(super) fn next_angles(state: &mut State) {
    let now = state.settings.angles;
    let mut from_here = AngleForm::ALL.into_iter().cycle().skip_while(|form| *form != now);
    state.settings.angles = from_here.nth(1).unwrap_or_default();
    state.say(format!("positions in {}", state.settings.angles.name()));
}

pub(super) fn next_figures(state: &mut State) {
    state.settings.figures = match state.settings.figures {
        Figures::Four => Figures::Six,
        Figures::Six => Figures::Eight,
        Figures::Eight => Figures::Ten,
        Figures::Two | Figures::Ten => Figures::Four,
    };
    let count = 2 * state.settings.figures.each();
    state.say(format!("references in {count} figures"));
}

fn pan(state: &mut State, across: f64, down: f64) {
    let cells = state.cells();
    // By whole cells, so that the picture moves as it is and need not be sent again.
    let part = |cells: u16| (f64::from(cells) * PAN).round().max(1.0);
    let (columns, rows) = (part(cells.columns), part(cells.rows));
    look(state, state.view.panned(across * columns, down * rows));
}

fn whole_route(state: &mut State) {
    let mut points = state.shown_points().into_iter().flatten();
    let Some(first) = points.next() else { return };
    let (mut low, mut high) = (first, first);
    for Point { x, y } in points {
        low = Point { x: low.x.min(x), y: low.y.min(y) };
        high = Point { x: high.x.max(x), y: high.y.max(y) };
    }
    // Some water around it, and at least a few hundred metres for a route of one point.
    let around = (0.1 * (high.x - low.x).max(high.y - low.y)).max(250.0);
    let around = Point { x: around, y: around };
    let view = View::fit(Extent::new(low - around, high + around), state.cells());
    look(state, view);
}

fn held(extent: Extent, Point { x, y }: Point) -> Point {
    Point { x: x.clamp(extent.min().x, extent.max().x), y: y.clamp(extent.min().y, extent.max().y) }
}
