//! The list: all together and each skill, with its last weeks.

use practice::memory::{Gone, plot};
use ratatui::buffer::Buffer;

use super::Sheet;
use crate::layout::{ProgressParts, window};
use crate::view::ink::{self, Pen};

/// The columns of a row: the mark of the chosen one, the name, the levels, when it comes back.
const MARK: u16 = 2;
const NAME: u16 = 22;
const LEVEL: u16 = 6;
const DUE: u16 = 11;
/// The columns of right answers and of the per cent, each with a gap.
const SCORE: u16 = 11;
const SHARE: u16 = 5;
/// The least width in which the right answers have a column.
const BROAD: u16 = 70;
/// The most weeks in a row.
const WEEKS: u16 = 52;

/// Which columns there are.
#[derive(Clone, Copy)]
struct Columns {
    score: u16,
    weeks: u16,
}

impl Columns {
    fn of(width: u16) -> Columns {
        let score = if width >= BROAD { SCORE } else { 0 };
        let room = width.saturating_sub(MARK + NAME + score + SHARE + 1 + LEVEL + DUE);
        Columns { score, weeks: room.min(WEEKS) }
    }
}

pub(super) fn draw(sheet: &Sheet<'_>, chosen: usize, parts: &ProgressParts, buffer: &mut Buffer) {
    let columns = Columns::of(parts.list.width);
    head(sheet, columns, parts, buffer);
    let mut pen = Pen::new(buffer, parts.list);
    let first = window(sheet.progress.rows(), chosen, parts.list.height);
    for index in first..sheet.progress.rows() {
        let Some((skill, gone)) = sheet.progress.row(index) else { break };
        let name = skill.map_or("all together", |skill| skill.name());
        row(sheet, (name, gone), index == chosen, columns, &mut pen);
    }
}

fn head(sheet: &Sheet<'_>, columns: Columns, parts: &ProgressParts, buffer: &mut Buffer) {
    let style = sheet.inks.quiet;
    let mut pen = Pen::new(buffer, parts.head);
    pen.skip(MARK).write(&cell("skill", NAME), style);
    if columns.score > 0 {
        pen.write(&right("right", columns.score), style);
    }
    pen.write(&right("%", SHARE), style).skip(1);
    let weeks = match columns.weeks {
        weeks @ 17.. => format!("its last {weeks} weeks"),
        weeks @ 8.. => format!("{weeks} weeks"),
        _ => "weeks".to_owned(),
    };
    pen.write(&cell(&weeks, columns.weeks), style);
    pen.write(&cell(" level", LEVEL), style).write(" due", style);
}

fn row(
    sheet: &Sheet<'_>,
    (name, gone): (&str, &Gone),
    chosen: bool,
    columns: Columns,
    pen: &mut Pen<'_>,
) {
    let inks = sheet.inks;
    let style = |plain| if chosen { inks.chosen } else { plain };
    let plain = style(inks.plain);
    pen.write(if chosen { "▸ " } else { "  " }, plain).write(&cell(name, NAME), plain);
    if columns.score > 0 {
        pen.write(&right(&gone.score(), columns.score), plain);
    }
    pen.write(&right(&gone.per_cent(), SHARE), style(inks.figure)).write(" ", plain);
    let weeks = plot::small(&gone.shares(sheet.progress.monday, usize::from(columns.weeks)));
    pen.write(&weeks, style(inks.across));
    let (level, due) = (format!(" {}", gone.level()), sheet.progress.due(gone.due));
    let now = if due == "now" { inks.key } else { inks.plain };
    pen.write(&cell(&level, LEVEL), plain).write(&cell(&format!(" {due}"), DUE), style(now));
    if chosen {
        let gap = " ".repeat(usize::from(pen.room()));
        pen.write(&gap, plain);
    }
    pen.down();
}

/// A text in so many columns, from the left.
pub(super) fn cell(text: &str, columns: u16) -> String {
    let text = ink::fit(text, columns);
    let gap = columns.saturating_sub(ink::width(&text));
    format!("{text}{}", " ".repeat(usize::from(gap)))
}

/// A text in so many columns, to the right.
pub(super) fn right(text: &str, columns: u16) -> String {
    let gap = columns.saturating_sub(ink::width(text));
    format!("{}{text}", " ".repeat(usize::from(gap)))
}
