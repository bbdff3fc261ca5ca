//! What the water does at the moment, in words.

use jiff::{SignedDuration, Timestamp};
use nav::text;
use nav::tide::{Height, Turn, Water};

use super::landing;
use crate::glyphs::arrow;
use crate::state::{PortDay, State};

/// What the pane, the folded lines and the curve say; what is not known is empty.
#[derive(Debug, Clone, Default)]
pub(in crate::view) struct Said {
    /// `Sun 14 Jun 10:30`.
    pub(in crate::view) moment: String,
    /// `10:30`.
    pub(in crate::view) clock: String,
    /// `UTC-2`.
    pub(in crate::view) zone: String,
    /// `departure +2 h 00`, or that time runs.
    pub(in crate::view) of: String,
    /// The same where there is less room.
    pub(in crate::view) of_in_short: String,
    /// The port that heights are of.
    pub(in crate::view) port: String,
    /// `2.1 m`.
    pub(in crate::view) height: String,
    /// `rising`.
    pub(in crate::view) tendency: &'static str,
    /// The next two turns.
    pub(in crate::view) turns: Vec<Next>,
    /// `4.1 m`.
    pub(in crate::view) range: String,
    /// `0.83`: 0 at mean neaps, 1 at mean springs.
    pub(in crate::view) factor: String,
    /// `springs`.
    pub(in crate::view) near: &'static str,
    /// `↗ 038°T`, or that nothing is known.
    pub(in crate::view) set: String,
    /// `1.2 kn`.
    pub(in crate::view) drift: String,
    /// When the stream turns.
    pub(in crate::view) turn: Option<(String, String)>,
    /// How the ground or the landing at the cursor stands to the water.
    pub(in crate::view) ground: String,
}

/// A high or low water to come.
#[derive(Debug, Clone)]
pub(in crate::view) struct Next {
    /// `high`.
    pub(in crate::view) word: &'static str,
    /// `13:42`.
    pub(in crate::view) clock: String,
    /// `4.6 m`.
    pub(in crate::view) height: String,
    /// `3 h 12`.
    pub(in crate::view) away: String,
}

/// What is said of the stream where nothing is known of it.
const NO_DATA: &str = "no data";

/// What the water does at the moment; nothing on a chart without tides.
pub(in crate::view) fn said(state: &State) -> Option<Said> {
    let tides = state.tides()?;
    let moment = state.moment_on_clock();
    let mut said = Said {
        moment: moment.strftime("%a %-d %b %H:%M").to_string(),
        clock: moment.strftime("%H:%M").to_string(),
        zone: zone(state),
        ..Said::default()
    };
    (said.of, said.of_in_short) = of(state);
    let Ok(day) = &state.moment.day else {
        said.set = NO_DATA.to_owned();
        return Some(said);
    };
    if let Some(port) = state.port()
        && let (Some(gauge), Some(port)) = (tides.gauges().get(port), day.ports().get(port))
    {
        said.port = gauge.name().to_owned();
        tide(state, port, &mut said);
    }
    if !tides.stations().is_empty() {
        stream(state, &mut said);
    }
    said.ground = landing::words(state);
    Some(said)
}

/// The zone that clock times are in.
fn zone(state: &State) -> String {
    match &state.document.route().departure {
        Some(departure) => departure.zone_name(),
        None => {
            let moment = state.moment_on_clock();
            plan::Departure::at(&moment).map(|at| at.zone_name()).unwrap_or_default()
        }
    }
}

/// Whether time runs by itself, or how far the moment is from the departure; and in short.
fn of(state: &State) -> (String, String) {
    let same = |words: &str| (words.to_owned(), words.to_owned());
    if state.moment.is_playing() {
        return same("time runs");
    }
    let Some(departs) = &state.document.route().departure else { return same("") };
    let from = state.moment.at().duration_since(departs.moment().timestamp());
    match from {
        from if from.abs() < SignedDuration::from_mins(1) => {
            ("at departure".into(), "departure".into())
        }
        from if from.abs() >= SignedDuration::from_hours(24) => same(""),
        from => {
            let sign = if from.is_negative() { '-' } else { '+' };
            let away = format!("{sign}{}", text::duration(from.abs()));
            (format!("departure {away}"), away)
        }
    }
}

/// How near a turn of the tide is the turn, for words.
const AT_A_TURN: SignedDuration = SignedDuration::from_mins(5);

fn tide(state: &State, port: &PortDay, said: &mut Said) {
    let at = state.moment.at();
    said.height = port.height(at).map(metres).unwrap_or_default();
    said.tendency = tendency(port, at);
    let to_come = port.turns.iter().filter(|turn| turn.at > at).take(2);
    said.turns = to_come.map(|turn| next(state, turn)).collect();
    said.range =
        port.day.range.map(|range| format!("{:.1} m", range.as_metres())).unwrap_or_default();
    if let Some(factor) = port.day.factor {
        said.factor = format!("{factor:.2}");
        said.near = match factor {
            factor if factor >= 0.85 => "springs",
            factor if factor <= 0.15 => "neaps",
            _ => "between",
        };
    }
}

fn tendency(port: &PortDay, at: Timestamp) -> &'static str {
    let near = |turn: &&Turn| turn.at.duration_since(at).abs() <= AT_A_TURN;
    match (port.turns.iter().find(near), port.next(at)) {
        (Some(Turn { water: Water::High, .. }), _) => "high water",
        (Some(Turn { water: Water::Low, .. }), _) => "low water",
        (None, Some(Turn { water: Water::High, .. })) => "rising",
        (None, Some(Turn { water: Water::Low, .. })) => "falling",
        (None, None) => "",
    }
}

fn next(state: &State, turn: &Turn) -> Next {
    Next {
        word: if turn.water == Water::High { "high" } else { "low" },
        clock: clock(state, turn.at),
        height: metres(turn.height),
        away: text::duration(turn.at.duration_since(state.moment.at())),
    }
}

fn stream(state: &State, said: &mut Said) {
    let known = state.flows().zip(state.shares_here());
    let Some((flows, shares)) = known else {
        said.set = NO_DATA.to_owned();
        return;
    };
    let at = state.moment.at();
    let Some(stream) = flows.at(shares, at) else {
        said.set = NO_DATA.to_owned();
        return;
    };
    said.drift = format!("{:.1} kn", stream.drift.as_knots());
    // What is still sets nowhere.
    said.set = match said.drift.as_str() {
        "0.0 kn" => "still".to_owned(),
        _ => format!("{} {}", arrow(stream, up(state), state.settings.dots), stream.set),
    };
    let turns = flows.run(shares).map(|run| run.turns()).unwrap_or_default();
    said.turn = turns
        .into_iter()
        .find(|turn| turn.at > at)
        .map(|turn| (clock(state, turn.at), text::duration(turn.at.duration_since(at))));
}

/// How far the chart's up lies east of true north at the cursor, in degrees.
fn up(state: &State) -> f64 {
    let on_grid = state.position().and_then(|at| state.chart.grid.forward(at).ok());
    on_grid.map_or(0.0, |on_grid| on_grid.convergence.as_degrees_east())
}

/// `13:42` on the clock of the moment.
pub(in crate::view) fn clock(state: &State, at: Timestamp) -> String {
    text::clock(&at.to_zoned_datetime(state.clock().clone()))
}

/// `2.1 m`, and no minus before a zero.
pub(in crate::view) fn metres(height: Height) -> String {
    let text = format!("{:.1} m", height.as_metres());
    if text == "-0.0 m" { "0.0 m".to_owned() } else { text }
}
