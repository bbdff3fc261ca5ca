//! The jump box: a place written in any usual form, and what it is understood as.

use ratatui::buffer::Buffer;

use super::super::ink::Pen;
use super::super::inks::Inks;
use super::super::line;
use super::{frame, row};
use crate::layout::{OverlayLayout, window};
use crate::state::Jump;

pub(super) fn draw(jump: &Jump, parts: &OverlayLayout, inks: &Inks, buffer: &mut Buffer) {
    frame(parts.area, "Go to", "Enter goes there · Esc stays", inks, buffer);
    let mut pen = Pen::new(buffer, parts.line);
    pen.write("› ", inks.key);
    line::draw(&mut pen, &jump.line, inks.figure);
    let mut pen = Pen::new(buffer, parts.note.union(parts.rows));
    match &jump.wrong {
        Some(wrong) => return pen.words(wrong, inks.wrong),
        None if jump.line.text().trim().is_empty() => {
            pen.write("a grid reference, a latitude and longitude, or a name", inks.quiet)
        }
        None => &mut pen,
    };
    let first = window(jump.found.len(), jump.row, parts.rows.height);
    let mut pen = Pen::new(buffer, parts.rows);
    let shown = usize::from(parts.rows.height);
    for (index, found) in jump.found.iter().enumerate().skip(first).take(shown) {
        row(&mut pen, &found.title, found.kind.word(), index == jump.row, inks);
    }
}
