//! A question with a line to answer in, and how the answer is understood.

use ratatui::buffer::Buffer;

use super::super::ink::Pen;
use super::super::inks::Inks;
use super::super::line;
use super::frame;
use crate::layout::OverlayLayout;
use crate::state::Ask;

pub(super) fn draw(ask: &Ask, parts: &OverlayLayout, inks: &Inks, buffer: &mut Buffer) {
    frame(parts.area, &ask.question.title(), "Enter takes it · Esc leaves it", inks, buffer);
    let mut pen = Pen::new(buffer, parts.line);
    pen.write("› ", inks.key);
    line::draw(&mut pen, &ask.line, inks.figure);
    let mut pen = Pen::new(buffer, parts.note);
    match &ask.answer {
        Ok(answer) => pen.words(&answer.words, inks.plain),
        Err(wrong) => pen.words(wrong, inks.wrong),
    }
    pen.write(ask.question.example(), inks.quiet);
}
