//! The chart, as the state has it.

use chart::Point;
use chart::trace::Anchor;
use jiff::SignedDuration;
use nav::{GridPoint, text};
use ratatui::buffer::Buffer;

use super::drill;
use super::fix;
use crate::State;
use crate::draw::{
    self, AnchorMark, Clock, Cursor, Drawer, Drilled, FixLine, Fixing, Norths, Sailing, Scene,
    Tracing, Waypoint,
};
use crate::glyphs::DotSet;
use crate::state::{CaughtOn, Chosen, Hand, Stage};
use crate::theme::Theme;

/// Draws the chart with the route, the leg under the pencil and the cursor; with practice in hand what that shows in place of
/// everything that is the reader's.
pub(super) fn draw(state: &State, theme: &Theme, buffer: &mut Buffer, drawer: &mut Drawer) {
    if state.hand == Hand::Drill {
        return practised(state, theme, buffer, drawer);
    }
    let route = state.document.route();
    let shown = state.shown_points();
    // A point that the grid does not reach is never on the chart; far off, it keeps its number.
    let waypoints: Vec<Waypoint<'_>> = shown
        .iter()
        .zip(&route.points)
        .map(|(at, waypoint)| Waypoint { at: at.unwrap_or(OFF), name: &waypoint.name })
        .collect();
    let pencil = pencil(state, &shown);
    let tracks: Vec<Option<&[Point]>> =
        (0..shown.len().saturating_sub(1)).map(|leg| state.track(leg)).collect();
    let anchors = anchors(state);
    let lines = fix::lines(state);
    let arrows = state.arrows();
    let curves = curves(state);
    let clocks = clocks(state);
    let scene = Scene {
        waypoints: &waypoints,
        chosen_leg: state.lit_leg(),
        chosen_waypoint: match state.chosen {
            Some(Chosen::Point(index)) => Some(index),
            _ => None,
        },
        tracks: &tracks,
        tracing: tracing(state, &anchors),
        fixing: fixing(state, &lines),
        pencil: pencil.as_slice(),
        sailing: Sailing { tracks: &curves, clocks: &clocks, boat: state.boat() },
        streams: &arrows,
        ..bare(state)
    };
    draw::chart(&scene, theme, state.layout().chart, buffer, drawer);
}

/// The chart, and nothing on it but the cursor.
fn bare(state: &State) -> Scene<'_> {
    Scene {
        chart: &state.chart,
        shapes: &state.shapes,
        shores: &state.shores,
        grid: &state.chart.grid,
        view: state.view,
        waypoints: &[],
        chosen_leg: None,
        chosen_waypoint: None,
        tracks: &[],
        tracing: Tracing::default(),
        fixing: Fixing::default(),
        pencil: &[],
        sailing: Sailing::default(),
        drilled: Drilled::default(),
        cursor: Some(Cursor { at: state.cursor, hand: hand(state) }),
        norths: norths(state),
        pace: Some(state.document.route().pace.speed()),
        dots: state.settings.dots,
        covered: state.covered(),
        streams: &[],
        names: state.settings.names,
        grid_lines: state.settings.grid,
    }
}

/// Draws the chart with what the question shows and, once it is marked, with the answers.
fn practised(state: &State, theme: &Theme, buffer: &mut Buffer, drawer: &mut Drawer) {
    let stage = state.practice.drill.as_ref().map(|drill| &drill.stage);
    let yours;
    let drilled = match stage {
        Some(Stage::Asked(put)) => Drilled {
            asked: &put.question.shown,
            choices: &put.question.choices,
            ..Drilled::default()
        },
        Some(Stage::Marked(put, told)) => {
            yours = drill::given(&put.question, told);
            Drilled {
                asked: &put.question.shown,
                choices: &put.question.choices,
                answer: &put.question.drawn,
                yours: &yours,
            }
        }
        _ => Drilled::default(),
    };
    let scene = Scene { drilled, ..bare(state) };
    draw::chart(&scene, theme, state.layout().chart, buffer, drawer);
}

/// Farther away than any chart.
const OFF: Point = Point { x: -1e9, y: -1e9 };

/// From the last waypoint to the cursor, while the pencil is in hand and carries nothing.
fn pencil(state: &State, shown: &[Option<Point>]) -> Vec<Point> {
    let from = match state.hand {
        Hand::Plot { carried: None } => shown.last().copied().flatten(),
        _ => None,
    };
    from.map_or_else(Vec::new, |from| vec![from, state.cursor])
}

/// The tracks of the legs on one heading.
fn curves(state: &State) -> Vec<&[Point]> {
    let legs = state
        .sailed()
        .into_iter()
        .flat_map(|sailed| (0..sailed.passage.legs.len()).filter_map(|leg| sailed.track(leg)));
    legs.collect()
}

/// The minutes from one clock time on the chart to the next, and how many columns the group goes
/// meanwhile at least.
const CLOCKS: [i64; 6] = [10, 15, 30, 60, 120, 240];
const APART: f64 = 14.0;

/// The clock times of the passage, as far apart as the zoom has room for.
fn clocks(state: &State) -> Vec<Clock> {
    let Some(sailed) = state.sailed() else { return Vec::new() };
    let speed = state.document.route().pace.speed();
    let columns = |minutes: i64| {
        let way = speed.over(SignedDuration::from_mins(minutes));
        way.as_metres() / state.view.metres_per_column
    };
    let Some(step) = CLOCKS.into_iter().find(|step| columns(*step) >= APART) else {
        return Vec::new();
    };
    let marks = sailed.passage.marks(SignedDuration::from_mins(step), state.clock());
    let clock = |mark: plan::passage::Mark| {
        let words = text::clock(&mark.when.to_zoned_datetime(state.clock().clone()));
        Some(Clock { at: state.point_of(mark.at)?, words })
    };
    marks.into_iter().filter_map(clock).collect()
}

/// The anchors of the trace, and how they are marked.
fn anchors(state: &State) -> Vec<(Point, AnchorMark)> {
    let lit = state.hand.carried_anchor().or(state.thread.chosen);
    let lit = lit.filter(|_| state.hand.traces());
    let anchors = state.thread.shown_anchors().iter().enumerate();
    anchors
        .map(|(index, (anchor, _))| {
            let mark = match anchor {
                _ if lit == Some(index) => AnchorMark::Chosen,
                Anchor::Shore(_) => AnchorMark::Shore,
                Anchor::Free(_) => AnchorMark::Free,
            };
            (anchor.at(), mark)
        })
        .collect()
}

/// The trace, with the piece to the cursor and what that has caught.
fn tracing<'a>(state: &'a State, anchors: &'a [(Point, AnchorMark)]) -> Tracing<'a> {
    let thread = &state.thread;
    // Where an anchor stands already, that is what is seen.
    let stands = |at: Point| anchors.iter().any(|anchor| anchor.0 == at);
    let caught = thread
        .caught
        .filter(|caught| caught.on != CaughtOn::Nothing && !stands(caught.anchor.at()));
    Tracing {
        line: thread.line().map_or(&[], |laid| &laid.points),
        live: thread.live().map_or(&[], |laid| &laid.points),
        anchors,
        caught: caught.map(|caught| caught.anchor.at()),
    }
}

/// The lines of the bearings taken, the fix, and what the cursor has caught.
fn fixing<'a>(state: &State, lines: &'a [FixLine]) -> Fixing<'a> {
    let place = state.fixed().and_then(Result::ok);
    let caught = (state.hand == Hand::Fix).then(|| state.sighted()).flatten();
    Fixing {
        lines,
        place: place.and_then(|fixed| state.point_of(fixed.fix.position)),
        caught: caught.map(|mark| mark.at).filter(|at| *at != state.cursor),
    }
}

/// The sign of what is in hand.
fn hand(state: &State) -> char {
    let ascii = state.settings.dots == DotSet::Ascii;
    match state.hand {
        Hand::Look if ascii => 'o',
        Hand::Look => '○',
        Hand::Plot { carried: None } => '+',
        Hand::Plot { carried: Some(_) } if ascii => '*',
        Hand::Plot { carried: Some(_) } => '◆',
        Hand::Trace { carried: None } => '~',
        Hand::Trace { carried: Some(_) } if ascii => '*',
        Hand::Trace { carried: Some(_) } => '◆',
        Hand::Fix if ascii => '^',
        Hand::Fix => '△',
        Hand::Drill if ascii => 'x',
        Hand::Drill => '✕',
    }
}

/// The norths in the middle of what is looked at.
fn norths(state: &State) -> Option<Norths> {
    let Point { x, y } = state.view.centre;
    let middle = state.chart.grid.inverse(GridPoint::from_metres(x, y).ok()?).ok()?;
    let variation = state.document.route().variation.at(middle.position, state.year());
    Some(Norths { convergence: middle.convergence, variation: variation.variation })
}
