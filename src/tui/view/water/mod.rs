//! The Water pane: the tide and the stream at the moment.

mod landing;
#[cfg(test)]
mod tests;
pub(super) mod words;

use ratatui::buffer::Buffer;

use super::fold::Field;
use super::ink::{self, Pen};
use super::inks::Inks;
use crate::state::State;
use words::{Next, Said};

/// From this width on there is room between the figures, as in the panes above.
const ROOMY: u16 = 42;

/// From this height on every figure has a line of its own.
const WHOLE: u16 = 8;

/// Draws the pane.
pub(super) fn draw(state: &State, said: &Said, inks: &Inks, buffer: &mut Buffer) {
    let area = state.layout().water;
    let steps = if area.width >= ROOMY { (13, 10) } else { (12, 8) };
    let mut pane = Pane { pen: Pen::new(buffer, area), inks, steps };
    pane.heading(&said.port);
    if area.height >= WHOLE {
        whole(&mut pane, said);
    } else {
        short(&mut pane, said);
    }
}

struct Pane<'a> {
    pen: Pen<'a>,
    inks: &'a Inks,
    /// Where the first figure begins, and the columns to the next.
    steps: (u16, u16),
}

impl Pane<'_> {
    fn heading(&mut self, port: &str) {
        let Pane { pen, inks, .. } = self;
        pen.write("Water", inks.heading).write(" ", inks.quiet);
        let word = ink::fit(port, pen.room().saturating_sub(3));
        let rule =
            pen.room().saturating_sub(if word.is_empty() { 0 } else { ink::width(&word) + 1 });
        pen.write(&"─".repeat(usize::from(rule)), inks.quiet);
        pen.write_last(&word, inks.plain).down();
    }

    /// A line: its label, figures, and a word behind them.
    fn line(&mut self, label: &str, figures: &[&str], word: &str) {
        let Pane { pen, inks, steps } = self;
        pen.skip(2).write(label, inks.quiet);
        let mut left = steps.0;
        for figure in figures {
            pen.to(left).write(figure, inks.figure);
            left += steps.1;
        }
        if !word.is_empty() {
            pen.to(left).write(word, inks.quiet);
        }
        pen.down();
    }

    /// How far away something is in time, with a word before it where there is room.
    fn away(&self, away: &str) -> String {
        if self.pen.room() >= ROOMY { format!("in {away}") } else { away.to_owned() }
    }

    fn moment(&mut self, said: &Said) {
        let Pane { pen, inks, .. } = self;
        pen.skip(2).write(&said.moment, inks.figure);
        pen.skip(1).write(&said.zone, inks.quiet);
        let of = if ink::width(&said.of) < pen.room() { &said.of } else { &said.of_in_short };
        pen.write_last(of, inks.plain).down();
    }

    fn figure_and_word(&mut self, figure: &str, word: &str) {
        let Pane { pen, inks, .. } = self;
        pen.skip(2).write(figure, inks.figure).write(word, inks.quiet).down();
    }

    fn ground(&mut self, said: &Said) {
        self.pen.skip(2).write(&said.ground, self.inks.plain).down();
    }
}

fn whole(pane: &mut Pane<'_>, said: &Said) {
    pane.moment(said);
    let known = !said.port.is_empty();
    if known {
        pane.line("height", &[&said.height], said.tendency);
        for Next { word, clock, height, away } in &said.turns {
            let away = pane.away(away);
            pane.line(word, &[clock, height], &away);
        }
        pane.line("range", &[&said.range, &said.factor], said.near);
    }
    if !said.set.is_empty() {
        pane.line("stream", &[&said.set, &said.drift], "");
        let (clock, away) = said.turn.clone().unwrap_or_default();
        if !clock.is_empty() {
            let away = pane.away(&away);
            pane.line("turns", &[&clock], &away);
        } else if !said.drift.is_empty() {
            pane.line("turns", &[], "not within a day");
        } else {
            pane.line("", &[], "");
        }
    }
    pane.ground(said);
}

fn short(pane: &mut Pane<'_>, said: &Said) {
    pane.moment(said);
    if !said.port.is_empty() {
        let next = said.turns.first();
        let next = next.map(|it| format!(", {} {} {}", it.word, it.clock, it.height));
        pane.figure_and_word(&said.height, &next.unwrap_or_default());
    }
    if !said.set.is_empty() {
        let stream = format!("{} {}", said.set, said.drift);
        let turn = said.turn.as_ref().map(|(clock, _)| format!(", turns {clock}"));
        pane.figure_and_word(stream.trim_end(), &turn.unwrap_or_default());
    }
    pane.ground(said);
}

/// The water in the line of a small screen that tells of the cursor: tide, stream, ground.
pub(super) fn fields(said: &Said) -> [Field; 3] {
    let tide = match said.height.as_str() {
        "" => said.clock.clone(),
        height => format!("{} {height} {}", said.clock, said.tendency),
    };
    let stream = match (said.set.as_str(), said.drift.as_str()) {
        ("", _) => String::new(),
        (none, "") => format!("stream: {none}"),
        (set, drift) => format!("{set} {drift}"),
    };
    let rank = if said.drift.is_empty() { 5 } else { 2 };
    [Field::new(1, tide), Field::new(rank, stream), Field::new(3, said.ground.as_str())]
}
