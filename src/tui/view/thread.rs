//! What is read while a shore is traced.

use chart::trace::Kind;
use nav::{Length, text};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use super::fold::Field;
use super::ink::Pen;
use super::inks::Inks;
use super::plot;
use crate::action::Act;
use crate::state::{CaughtOn, Reading, State};

/// What the panes say of the trace; what is not known is empty.
#[derive(Debug, Clone, Default)]
pub(super) struct Traced {
    /// What the figures are of.
    pub(super) of: String,
    pub(super) nautical_miles: String,
    pub(super) kilometres: String,
    pub(super) straight_nautical_miles: String,
    pub(super) straight_kilometres: String,
    /// `2.15 times`.
    pub(super) longer: String,
    pub(super) time: String,
    /// The first stretch from true, grid and magnetic north.
    pub(super) first: [String; 3],
    /// The last stretch.
    pub(super) last: [String; 3],
    /// How the line is wished.
    pub(super) laid: String,
    /// What the cursor catches.
    pub(super) catches: String,
    /// What should be known about the line.
    pub(super) warning: String,
    /// `slope -0.12`.
    pub(super) slope: String,
    /// What to do first.
    pub(super) advice: String,
}

/// What is read of the trace.
pub(super) fn traced(state: &State) -> Traced {
    let mut traced = Traced {
        of: of(state),
        laid: laid(state),
        catches: catches(state),
        warning: warning(state),
        advice: advice(state),
        ..Traced::default()
    };
    if let Some(reading) = state.thread.reading() {
        figures(state, reading, &mut traced);
    }
    traced
}

fn figures(state: &State, reading: &Reading, traced: &mut Traced) {
    let both = |length: Option<Length>| {
        length.map(|it| (text::nautical_miles(it), text::kilometres(it))).unwrap_or_default()
    };
    (traced.nautical_miles, traced.kilometres) = both(reading.length);
    (traced.straight_nautical_miles, traced.straight_kilometres) = both(reading.straight);
    traced.longer = reading.times_longer().map(|it| format!("{it:.2}")).unwrap_or_default();
    let pace = state.document.route().pace;
    let time = reading.length.and_then(|length| pace.time_for(length));
    traced.time = time.map(text::duration).unwrap_or_default();
    let norths = |bearings: Option<plan::Bearings>| {
        let Some(it) = bearings else { return Default::default() };
        let grid = it.from_grid.map(|b| b.to_string()).unwrap_or_default();
        let magnetic = it.from_magnetic.map(|b| b.to_string()).unwrap_or_default();
        [it.from_true.to_string(), grid, magnetic]
    };
    (traced.first, traced.last) = (norths(reading.first), norths(reading.last));
    traced.slope = reading.slope.map(|slope| format!("slope {slope:.2}")).unwrap_or_default();
}

fn of(state: &State) -> String {
    let thread = &state.thread;
    let anchors = match thread.anchors().len() {
        0 => "no anchor yet".to_owned(),
        1 => "1 anchor".to_owned(),
        count => format!("{count} anchors"),
    };
    let leg = thread.set().leg.map(|leg| format!("leg {}, ", leg + 1)).unwrap_or_default();
    let on = if thread.live().is_some() { " and the cursor" } else { "" };
    format!("{leg}{anchors}{on}")
}

fn laid(state: &State) -> String {
    let set = state.thread.set();
    let off = match set.stand_off {
        Length::ZERO => "on the shore".to_owned(),
        off if state.thread.is_laid() => format!("{} off", text::kilometres(off)),
        off => format!("{} off, not yet", text::kilometres(off)),
    };
    match set.step {
        Length::ZERO => off,
        step => format!("{off}, step {}", text::kilometres(step)),
    }
}

/// What the next anchor would be on.
fn catches(state: &State) -> String {
    let Some(caught) = state.thread.caught else { return String::new() };
    let enter = state.keymap.shown(Act::Anchor).unwrap_or_default();
    match caught.on {
        CaughtOn::First if !state.thread.anchors().is_empty() => {
            format!("{enter} leads the line right round")
        }
        CaughtOn::First | CaughtOn::Shore => {
            format!("catches the shore, {} off", text::kilometres(caught.distance))
        }
        CaughtOn::Waypoint(index) => format!("catches waypoint {}", index + 1),
        CaughtOn::Nothing if state.thread.free => "a free point; no shore is caught".to_owned(),
        CaughtOn::Nothing => match reach(state) {
            Some(reach) => format!("no shore within {reach}: a free point"),
            None => "a free point".to_owned(),
        },
    }
}

/// How near a shore has to be to be caught, on the ground.
fn reach(state: &State) -> Option<String> {
    let here = state.position()?;
    let there = chart::Point { x: state.cursor.x + state.reach(), ..state.cursor };
    let distance = nav::geodesic::inverse(here, state.position_of(there)?).distance;
    Some(text::kilometres(distance))
}

/// The first thing that should be known about the line.
fn warning(state: &State) -> String {
    let thread = &state.thread;
    let pieces = [thread.line(), thread.live()].into_iter().flatten();
    for piece in pieces.flat_map(|laid| &laid.pieces) {
        match piece.kind {
            Kind::Straight { touch: Some(touch), .. } => {
                return match state.position_of(touch.on.at) {
                    Some(at) => {
                        format!("touches land at {}", super::readings::reference(state, at))
                    }
                    None => "touches land".to_owned(),
                };
            }
            Kind::Straight { ashore: true, .. } => return "a straight piece is on land".to_owned(),
            Kind::Along { off: Some(off), .. } if off.narrow => {
                return "keeps to the shore where there is no room to stand off".to_owned();
            }
            _ => {}
        }
    }
    String::new()
}

fn advice(state: &State) -> String {
    let Some(key) = state.keymap.shown(Act::Anchor) else { return String::new() };
    match state.thread.anchors().len() {
        0 => format!("{key} puts the first anchor on the shore"),
        _ => format!("{key} puts the next anchor; the line lays itself"),
    }
}

/// What the line measures that is kept beside the route: `trace 8.0 km`.
pub(super) fn measured(state: &State) -> String {
    let kept = state.thread.has_line() && !state.hand.traces();
    let reading = state.thread.reading().filter(|_| kept);
    let length = reading.and_then(|reading| reading.length);
    length.map(|length| format!("trace {}", text::kilometres(length))).unwrap_or_default()
}

/// The line of a small screen that says what the line measures.
pub(super) fn line_fields(traced: &Traced) -> Vec<Field> {
    if traced.kilometres.is_empty() {
        return vec![Field::new(0, traced.advice.as_str())];
    }
    let worded = |word: &str, figure: &str, behind: &str| match figure {
        "" => String::new(),
        figure => format!("{word}{figure}{behind}"),
    };
    vec![
        Field::new(6, traced.of.as_str()),
        Field::new(0, traced.kilometres.as_str()),
        Field::new(1, traced.nautical_miles.as_str()),
        Field::new(3, worded("", &traced.longer, " × straight")),
        Field::new(2, traced.time.as_str()),
        Field::new(4, worded("first ", &traced.first[2], "")),
        Field::new(5, worded("last ", &traced.last[2], "")),
        Field::new(7, traced.slope.as_str()),
    ]
}

/// The line of a small screen that says where the cursor is and what it catches.
pub(super) fn place_fields(traced: &Traced, reference: &str, position: &str) -> Vec<Field> {
    vec![
        Field::new(0, reference),
        Field::new(2, traced.warning.as_str()),
        Field::new(1, traced.catches.as_str()),
        Field::new(3, traced.laid.as_str()),
        Field::new(4, position),
    ]
}

/// The columns that a step and its length take, with the gap behind them.
const TABLE: (u16, u16) = (9, 19);

/// Draws what dividers find at each step, and beside it how that changes with the step.
pub(super) fn dividers(state: &State, area: Rect, inks: &Inks, buffer: &mut Buffer) {
    let reading = state.thread.reading().cloned().unwrap_or_default();
    let mut pen = Pen::new(buffer, area);
    for (step, length) in &reading.walks {
        let length = length.map_or_else(|| "–".to_owned(), text::kilometres);
        pen.skip(2).write(&whole(*step), inks.quiet).to(TABLE.0).write(&length, inks.figure).down();
    }
    let left = TABLE.1.min(area.width);
    let beside = Rect { x: area.x + left, width: area.width - left, ..area };
    plot::draw(&reading, state.settings.dots, beside, inks, buffer);
}

/// A step without decimals: `2 km`, `500 m`.
fn whole(step: Length) -> String {
    match step.as_metres() {
        metres if metres >= 1000.0 => format!("{} km", metres / 1000.0),
        metres => format!("{metres} m"),
    }
}
