//! The lines at the foot of the screen: what the program says, and the keys that matter now.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;

use super::ink::{self, Pen};
use super::inks::Inks;
use super::readings::Readings;
use crate::action::{self, Act, BETWEEN, hand};
use crate::layout::INVENTED;
use crate::state::{Hand, Saving, State, Tone};

/// Draws the line of notices, where there is one: a message, or what the route and the chart are
/// called; at its right end, whether the work is kept.
pub(super) fn notice(state: &State, readings: &Readings, inks: &Inks, buffer: &mut Buffer) {
    let area = state.layout().notice;
    let (kept, style) = kept(state, inks);
    // A long word about it still leaves half of the line.
    let kept = ink::fit(&kept, area.width / 2);
    let left = Rect { width: area.width.saturating_sub(ink::width(&kept) + 3), ..area };
    let mut pen = Pen::new(buffer, left);
    pen.skip(1);
    if !message(state, inks, &mut pen) && !work(state, inks, &mut pen) {
        titles(state, readings, inks, &mut pen);
    }
    let width = area.width.saturating_sub(1);
    Pen::new(buffer, Rect { width, ..area }).write_last(&kept, style);
}

/// Whether the work is kept, in words.
fn kept(state: &State, inks: &Inks) -> (String, Style) {
    match (failure(state), state.read_only()) {
        (_, Some(why)) => (format!("read-only: {why}"), inks.warn),
        (Some(failure), None) => (failure, inks.wrong),
        (None, None) if state.is_saved() => ("saved".to_owned(), inks.quiet),
        (None, None) => ("saving".to_owned(), inks.quiet),
    }
}

fn titles(state: &State, readings: &Readings, inks: &Inks, pen: &mut Pen<'_>) {
    if state.hand == Hand::Drill {
        pen.write("Practice", inks.figure).write("  on  ", inks.quiet);
        pen.write(&state.chart.title, inks.plain);
        return;
    }
    let route = match state.document.route().title.as_str() {
        "" => "Untitled route",
        title => title,
    };
    pen.write(route, inks.figure).write("  on  ", inks.quiet);
    pen.write(&state.chart.title, inks.plain);
    if !readings.measured.is_empty() {
        pen.write("  ·  ", inks.quiet).write(&readings.measured, inks.plain);
    }
    if !readings.warning.is_empty() {
        pen.write("  ·  ", inks.quiet).write(&readings.warning, inks.warn);
    }
    if !readings.notes.is_empty() {
        pen.write("  ·  ", inks.quiet).write(&readings.notes, inks.warn);
    }
}

/// Why the last save failed, if it did.
fn failure(state: &State) -> Option<String> {
    match &state.saving {
        Saving::Well => None,
        Saving::Failed(why) | Saving::FailedLeaving(why) => Some(format!("not saved: {why}")),
    }
}

/// Draws the line of hints, and a word about the chart at the right end.
pub(super) fn hints(state: &State, inks: &Inks, buffer: &mut Buffer) {
    let layout = state.layout();
    let mut pen = Pen::new(buffer, layout.hints);
    pen.write(&hand(state), inks.heading);
    let between = ink::width(BETWEEN);
    for (index, hint) in action::hints(state).iter().enumerate() {
        let left = hint.area.x - layout.hints.x;
        if index > 0 {
            pen.to(left - between).write(BETWEEN, inks.quiet);
        }
        pen.to(left).write(&hint.key, inks.key).write(" ", inks.plain).write(hint.word, inks.plain);
    }
    Pen::new(buffer, layout.status).write(status(state), inks.warn);
}

/// The word about the chart that is always on the screen.
fn status(state: &State) -> &'static str {
    match (state.chart.invented, state.hand) {
        (true, _) => INVENTED,
        (false, Hand::Drill) => PRACTICE,
        (false, _) => nav::text::CAUTION_IN_SHORT,
    }
}

/// The same for practice on the chart of a real place.
const PRACTICE: &str = "practice, not for navigation";

/// Writes what the program last had to say, if anything.
fn message(state: &State, inks: &Inks, pen: &mut Pen<'_>) -> bool {
    let Some(message) = &state.message else { return false };
    let style = match message.tone {
        Tone::Word => inks.plain,
        Tone::Refusal => inks.wrong,
    };
    pen.write(&message.text, style);
    true
}

/// Writes what is being done and how far it is, if it takes long, and how it is given up.
fn work(state: &State, inks: &Inks, pen: &mut Pen<'_>) -> bool {
    let Some((task, done)) = state.work.slow() else { return false };
    pen.write(task.words(), inks.plain);
    if let Some(done) = done {
        pen.write(&format!(", {:.0} %", 100.0 * done.clamp(0.0, 1.0)), inks.figure);
    }
    if let Some(key) = state.keymap.shown(Act::Back) {
        pen.write(" · ", inks.quiet).write(&key, inks.key).write(" gives it up", inks.plain);
    }
    true
}

/// Writes what takes the place of a reading on a screen without a line of notices, if anything
/// does: a message until the next key, work that takes long, that the route is not kept until it is.
pub(super) fn urgent(state: &State, inks: &Inks, pen: &mut Pen<'_>) -> bool {
    if message(state, inks, pen) || work(state, inks, pen) {
        return true;
    }
    let failure = failure(state);
    if let Some(failure) = &failure {
        pen.write(failure, inks.wrong);
    }
    failure.is_some()
}
