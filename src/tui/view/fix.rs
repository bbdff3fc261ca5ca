//! What is read and drawn of a fix from bearings.

use chart::Point;
use nav::fix::{FixError, GOOD_CUT};
use nav::{Length, geodesic, text};
use plan::table::Style;

use super::fold::Field;
use super::readings::reference;
use crate::action::Act;
use crate::draw::FixLine;
use crate::state::{Fixed, Hand, State, Taken};

/// What no figure of a fix has in it.
pub(super) const LEFT_OUT: &str = "Left out: the compass's own error, iron near it, a mark taken for \
    another, and the way made between bearings.";

/// The same where there is less room.
const LEFT_OUT_IN_SHORT: &str = "compass error left out";

/// What lines that cut at less than is good ask for.
const NARROW_CUT: &str = "narrow cut: take a mark across";

/// What is read of the bearings in hand; what is not known is empty.
#[derive(Debug, Clone, Default)]
pub(super) struct FixRead {
    /// How many bearings there are.
    pub(super) of: String,
    /// The bearings.
    pub(super) rows: Vec<BearingRow>,
    /// The grid reference of the fix.
    pub(super) reference: String,
    /// Its latitude and longitude.
    pub(super) position: String,
    /// The angle at which the lines cut.
    pub(super) cut: String,
    /// A word about it.
    pub(super) narrow: &'static str,
    /// How large the triangle is.
    pub(super) triangle: String,
    /// Which of its corners tell so.
    pub(super) corner: &'static str,
    /// `3° off`: how far off bearings may be.
    pub(super) off: String,
    /// How far the fix may go by that.
    pub(super) reach: String,
    /// Which way.
    pub(super) along: String,
    /// What the cursor has caught.
    pub(super) catches: String,
    /// What to do next, where there is no fix.
    pub(super) advice: String,
    /// What should be known about the fix.
    pub(super) warning: String,
}

/// One bearing.
#[derive(Debug, Clone)]
pub(super) struct BearingRow {
    /// As it was read.
    pub(super) read: String,
    /// From true north.
    pub(super) from_true: String,
    /// Of what.
    pub(super) name: String,
    /// Whether it is chosen.
    pub(super) chosen: bool,
}

/// What is read of the bearings.
pub(super) fn read(state: &State) -> FixRead {
    let taken = state.bearings.taken();
    let fixed = state.fixed();
    let mut read = FixRead {
        of: match taken.len() {
            0 => "no bearing yet".to_owned(),
            1 => "1 bearing".to_owned(),
            count => format!("{count} bearings"),
        },
        rows: rows(state, fixed.as_ref().and_then(|fixed| fixed.as_ref().ok())),
        off: format!("{}° off", state.bearings.error.as_degrees()),
        catches: catches(state),
        ..FixRead::default()
    };
    match &fixed {
        Some(Ok(fixed)) => figures(state, fixed, &mut read),
        Some(Err(why)) => read.warning = no_fix(why),
        None => read.advice = advice(state, taken.first()),
    }
    read
}

fn no_fix(why: &FixError) -> String {
    format!("no fix: {why}")
}

fn figures(state: &State, fixed: &Fixed, read: &mut FixRead) {
    let at = fixed.fix.position;
    read.reference = reference(state, at);
    let style = Style::new(state.settings.figures, state.settings.angles);
    read.position = text::position(at, style.angles);
    read.cut = format!("{:.0}°", fixed.cut.as_degrees());
    let is_narrow = fixed.cut.as_degrees() < GOOD_CUT;
    read.narrow = match fixed.triangle() {
        _ if is_narrow => "narrow",
        Some(_) => "the widest",
        None => "",
    };
    if let Some(size) = fixed.triangle() {
        read.triangle = text::kilometres(size);
        let some_only = fixed.fix.left_out > 0 && !is_narrow;
        read.corner = if some_only { "by cuts from 30°" } else { "to its far corner" };
    }
    if is_narrow {
        read.warning = NARROW_CUT.to_owned();
    }
    read.reach = text::kilometres(fixed.reach.by);
    let [one, other] = [fixed.reach.along, fixed.reach.along.back()];
    let along = if one.as_degrees() < 180.0 { one } else { other };
    read.along = format!("along {along}");
    let turned = fixed.turned.iter().zip(state.bearings.taken()).find(|(turned, _)| **turned);
    if let Some((_, taken)) = turned {
        read.warning =
            format!("crosses behind {}: is {} from it to you?", taken.mark.name, taken.read);
    }
}

fn rows(state: &State, fixed: Option<&Fixed>) -> Vec<BearingRow> {
    let taken = state.bearings.taken().iter().enumerate();
    taken
        .map(|(index, taken)| {
            let sight = fixed.and_then(|fixed| fixed.sights.get(index).copied());
            let sight = sight.unwrap_or_else(|| state.sight(taken, None));
            BearingRow {
                read: taken.read.to_string(),
                from_true: sight.bearing.to_string(),
                name: taken.mark.name.clone(),
                chosen: state.bearings.chosen == Some(index),
            }
        })
        .collect()
}

fn catches(state: &State) -> String {
    let Some(mark) = state.sighted() else { return String::new() };
    match state.bearings.of(mark.at).and_then(|index| state.bearings.taken().get(index)) {
        Some(taken) => format!("on {}, {}", mark.name, taken.read),
        None if mark.named => format!("catches {}", mark.name),
        None => "catches no mark: this place itself".to_owned(),
    }
}

fn advice(state: &State, first: Option<&Taken>) -> String {
    let Some(key) = state.keymap.shown(Act::TakeBearing) else { return String::new() };
    match first {
        None => format!("{key} takes the bearing of the mark that is caught"),
        Some(taken) => {
            format!("{} of {}; a second line makes a fix", taken.read, taken.mark.name)
        }
    }
}

/// The line of a small screen that says where the fix is and how good.
pub(super) fn line_fields(read: &FixRead) -> Vec<Field> {
    if read.reference.is_empty() {
        let words = if read.warning.is_empty() { &read.advice } else { &read.warning };
        return vec![Field::new(0, words.as_str())];
    }
    let triangle = match read.triangle.as_str() {
        "" => String::new(),
        size => format!("triangle {size}"),
    };
    vec![
        Field::new(0, format!("fix {}", read.reference)),
        Field::new(1, triangle),
        Field::new(2, format!("cut {}", read.cut)),
        Field::new(1, format!("{}: {}", read.off, read.reach)),
        Field::new(3, LEFT_OUT_IN_SHORT),
        Field::new(4, read.position.as_str()),
    ]
}

/// The line of a small screen that says where the cursor is and what it catches.
pub(super) fn place_fields(read: &FixRead, reference: &str, position: &str) -> Vec<Field> {
    let warning = if read.reference.is_empty() { "" } else { &read.warning };
    vec![
        Field::new(0, reference),
        Field::new(2, warning),
        Field::new(1, read.catches.as_str()),
        Field::new(4, position),
    ]
}

/// The lines of position on the chart, from each mark past the fix, or as far as the chart goes.
pub(super) fn lines(state: &State) -> Vec<FixLine> {
    let fixed = state.fixed().and_then(Result::ok);
    let taken = state.bearings.taken().iter().enumerate();
    let line = |(index, taken): (usize, &Taken)| {
        let chosen = state.hand == Hand::Fix && state.bearings.chosen == Some(index);
        let to = end(state, index, taken, fixed.as_ref())?;
        Some(FixLine { from: taken.mark.at, to, chosen })
    };
    taken.filter_map(line).collect()
}

/// How far past the fix a line goes: a tenth of the way to it, and past the triangle's corners.
const PAST: f64 = 0.1;

fn end(state: &State, index: usize, taken: &Taken, fixed: Option<&Fixed>) -> Option<Point> {
    let mark = taken.mark.position;
    let Some(fixed) = fixed else {
        let extent = state.chart.extent;
        let across = Length::from_metres(extent.width().hypot(extent.height())).ok()?;
        let away = state.sight(taken, None).bearing.back();
        // Where the grid ends before the line does, a part of it is still there.
        let ends = [1.0, 0.5, 0.2].map(|part| geodesic::direct(mark, away, across * part));
        return ends.into_iter().find_map(|end| state.point_of(end.position));
    };
    let sight = fixed.sights.get(index)?;
    let to_fix = geodesic::inverse(mark, fixed.fix.position);
    // The line passes the fix by as much as its bearing is off there.
    let turned = fixed.turned.get(index).copied().unwrap_or_default();
    let seen = if turned { to_fix.bearing_at_start } else { to_fix.bearing_at_end.back() };
    let away = to_fix.bearing_at_start.turned(seen.turn_to(sight.bearing));
    // A corner where two lines hardly cut may lie far off.
    let corners = (1.5 * fixed.fix.error).min(to_fix.distance);
    let length = to_fix.distance * (1.0 + PAST) + corners;
    state.point_of(geodesic::direct(mark, away, length).position)
}
