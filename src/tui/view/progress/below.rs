//! Under the plot: the kinds of exercise, and what recurs.

use practice::Kind;
use ratatui::buffer::Buffer;

use super::Sheet;
use super::list::{cell, right};
use crate::layout::ProgressParts;
use crate::view::ink::{self, Pen};

/// The columns of a kind: its name, its level, how well it is remembered, when it comes back.
const NAME: u16 = 14;
const LEVEL: u16 = 9;
const KEPT: u16 = 16;
const DUE: u16 = 12;

pub(super) fn draw(sheet: &Sheet<'_>, parts: &ProgressParts, buffer: &mut Buffer) {
    let width = parts.recurs_width();
    let lines: Vec<String> =
        sheet.recurs().flat_map(|it| ink::wrapped(&it.said(), width)).collect();
    let kinds = sheet.kinds();
    let (left, right) = parts.below(kinds.len(), lines.len());
    let mut pen = Pen::new(buffer, left);
    for kind in kinds {
        row(sheet, kind, &mut pen);
    }
    let mut pen = Pen::new(buffer, right);
    for line in lines {
        pen.write(&line, sheet.inks.warn).down();
    }
}

fn row(sheet: &Sheet<'_>, kind: Kind, pen: &mut Pen<'_>) {
    let inks = sheet.inks;
    pen.write(&cell(kind.name(), NAME), inks.figure);
    let Some(item) = sheet.progress.schedule.item(kind).filter(|item| item.due.is_some()) else {
        pen.write("not asked yet", inks.quiet).down();
        return;
    };
    pen.write(&cell(&format!("level {}", item.level.number()), LEVEL), inks.plain);
    pen.write(&right(&item.per_cent(), 3), inks.figure);
    pen.write(&cell(" % tomorrow", KEPT - 3), inks.quiet);
    pen.write(&cell(&format!("due {}", sheet.progress.due(item.due)), DUE), inks.plain).down();
}
