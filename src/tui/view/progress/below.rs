//! Under the plot: the kinds of exercise, and what recurs.

use practice::Kind;
use ratatui::buffer::Buffer;

use super::Sheet;
use super::list::{cell, right};
use crate::layout::ProgressParts;
use crate::view::ink::{self, Pen};

/// The columns of a kind: its name, its level, its strength; then comes when it is due.
const NAME: u16 = 13;
const LEVEL: u16 = 8;
const STRENGTH: u16 = 6;
/// From so many columns on everything is named.
const BROAD: u16 = 53;
/// From so many lines on those that come next have a heading.
const NEXT: usize = 6;

pub(super) fn draw(sheet: &Sheet<'_>, parts: &ProgressParts, buffer: &mut Buffer) {
    let width = parts.recurs_width();
    let lines: Vec<String> =
        sheet.recurs().flat_map(|it| ink::wrapped(&it.said(), width)).collect();
    let kinds = sheet.kinds();
    let (left, right) = parts.below(kinds.len(), lines.len());
    let mut pen = Pen::new(buffer, left);
    let words = if sheet.skill.is_some() { "its kinds" } else { "what comes next" };
    if usize::from(left.height) > kinds.len().min(NEXT) {
        pen.write(words, sheet.inks.quiet).down();
    }
    for kind in kinds {
        row(sheet, kind, &mut pen);
    }
    let mut pen = Pen::new(buffer, right);
    for (number, line) in lines.iter().enumerate() {
        let cut = pen.lines_left() == 1 && number + 1 < lines.len();
        let line = if cut { format!("{line} …") } else { line.clone() };
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
    let broad = pen.room() >= BROAD - NAME;
    pen.write(&cell(&format!("level {}", item.level.number()), LEVEL), inks.plain);
    pen.write(if broad { " strength" } else { "" }, inks.quiet);
    pen.write(&right(&item.per_cent(), STRENGTH - 2), inks.figure).write(" %", inks.quiet);
    pen.write(if broad { "  due" } else { "" }, inks.quiet);
    pen.write(&format!(" {}", sheet.progress.due(item.due)), inks.plain).down();
}
