//! The readings of a small screen, folded into two lines.

use ratatui::buffer::Buffer;
use ratatui::style::Style;

use super::fix;
use super::fold::{Field, fold};
use super::foot;
use super::ink::{Pen, fit};
use super::inks::Inks;
use super::readings::Readings;
use super::thread;
use super::water;
use crate::state::State;
use plan::table::StretchRow;

/// The columns between two fields.
const GAP: u16 = 2;

/// Draws the two lines: the leg that is read, then the cursor and the whole route.
/// Whatever the program has to say stands in place of the second until the next key.
pub(super) fn draw(state: &State, readings: &Readings, inks: &Inks, buffer: &mut Buffer) {
    let mut pen = Pen::new(buffer, state.layout().folded);
    let (leg, mut place) = match (&readings.traced, &readings.fix) {
        (_, Some(read)) => (
            fix::line_fields(read),
            fix::place_fields(read, &readings.reference, &readings.position),
        ),
        (Some(traced), None) => (
            thread::line_fields(traced),
            thread::place_fields(traced, &readings.reference, &readings.position),
        ),
        (None, None) => (leg(readings), place(readings)),
    };
    if let (Some(water), None, None) = (&readings.water, &readings.traced, &readings.fix) {
        place.splice(1..1, water::fields(water));
    }
    line(&mut pen, leg, inks);
    if !foot::urgent(state, inks, &mut pen) {
        line(&mut pen, place, inks);
    }
}

fn leg(readings: &Readings) -> Vec<Field> {
    let Readings { of, leg, so_far, .. } = readings;
    let (first, last) = readings.ends().unzip();
    let magnetic = |end: Option<&StretchRow>| end.map_or("", |it| &it.from_magnetic).to_owned();
    if leg.nautical_miles.is_empty() {
        return vec![Field::new(0, readings.advice.as_str())];
    }
    vec![
        Field::new(3, of.as_str()),
        Field::new(5, leg.from_true.as_str()),
        Field::new(7, leg.from_grid.as_str()),
        Field::new(0, leg.from_magnetic.as_str()),
        Field::new(2, prefixed("steer", &readings.steer)),
        Field::new(4, prefixed("back", &leg.back_magnetic)),
        Field::new(0, prefixed("first", &magnetic(first))),
        Field::new(4, prefixed("last", &magnetic(last))),
        Field::new(1, leg.nautical_miles.as_str()),
        Field::new(6, leg.kilometres.as_str()),
        Field::new(2, leg.time.as_str()),
        Field::new(3, prefixed("arrive", &so_far.clock)),
    ]
}

fn place(readings: &Readings) -> Vec<Field> {
    // A warning is worth more than a name, and is told in full where the legs are.
    let near = match readings.warning.as_str() {
        "" => Field::new(8, readings.near.as_str()),
        warning => Field::new(1, fit(warning, 30)),
    };
    vec![
        Field::new(0, readings.reference.as_str()),
        Field::new(4, readings.position.as_str()),
        Field::new(6, readings.shore.as_str()),
        Field::new(7, readings.measured.as_str()),
        near,
        Field::new(5, prefixed("whole", &readings.whole.nautical_miles)),
        Field::new(9, readings.whole.elapsed.as_str()),
    ]
}

/// `word` before `text`; nothing before nothing.
fn prefixed(word: &str, text: &str) -> String {
    if text.is_empty() { String::new() } else { format!("{word} {text}") }
}

fn line(pen: &mut Pen<'_>, fields: Vec<Field>, inks: &Inks) {
    let style = |field: &Field| -> Style {
        let is_figure = field.text.starts_with(|c: char| c.is_ascii_digit());
        if is_figure { inks.figure } else { inks.plain }
    };
    for field in fold(fields, GAP, pen.room()) {
        pen.write(&field.text, style(&field)).skip(GAP);
    }
    pen.down();
}
