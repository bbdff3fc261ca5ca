//! The plot over time: per cent right by week, and under it, quieter, how many questions were put.

use practice::memory::Gone;
use practice::memory::plot::{BLOCKS, Columns, PLAIN};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use super::Sheet;
use super::list::right;
use crate::layout::ProgressParts;
use crate::view::ink::Pen;

/// The columns of the scale, with the line beside it.
const SCALE: u16 = 6;
/// The fewest weeks that are shown, and the most cells that one is wide.
const FEW: usize = 12;
const WIDEST: usize = 6;

/// Which weeks, and how wide.
#[derive(Clone, Copy)]
struct Span {
    weeks: usize,
    wide: usize,
}

impl Span {
    /// From the first week with answers, or the last that there is room for; never fewer than a quarter of a year.
    fn of(all: &Gone, monday: jiff::civil::Date, width: u16) -> Span {
        let room = usize::from(width.saturating_sub(SCALE));
        let weeks = all.span(monday).max(FEW).min(room);
        let wide = room.checked_div(weeks).unwrap_or(1).clamp(1, WIDEST);
        Span { weeks, wide }
    }
}

pub(super) fn draw(sheet: &Sheet<'_>, gone: &Gone, parts: &ProgressParts, buffer: &mut Buffer) {
    let (inks, monday) = (sheet.inks, sheet.progress.monday);
    let span = Span::of(&sheet.progress.all, monday, parts.plot.width);
    let name = sheet.skill.map_or("all together", |skill| skill.name());
    let mut pen = Pen::new(buffer, parts.title);
    pen.write(name, inks.heading).write(": right by week, in per cent", inks.plain);
    pen.write_last(&format!("{} right of {} put", gone.right, gone.answered), inks.figure);
    let heights = if sheet.plain { PLAIN } else { BLOCKS };
    // The last row is the line under the columns.
    let columns = |rows: u16| Columns { heights, rows: usize::from(rows), wide: span.wide };
    let rows = parts.plot.height.saturating_sub(1);
    let large = columns(rows);
    let shares = gone.shares(monday, span.weeks);
    let mut pen = Pen::new(buffer, parts.plot);
    for (row, line) in (0..).zip(large.drawn(&shares)) {
        let scale = scale(row, rows).map(|share| share.to_string()).unwrap_or_default();
        pen.write(&right(&scale, SCALE - 2), inks.quiet).write(" │", inks.quiet);
        bars(&line, row > 0 && !scale.is_empty(), sheet, &mut pen);
        pen.down();
    }
    pen.write(&right("0", SCALE - 2), inks.quiet).write(" └", inks.quiet);
    pen.write(&large.axis(monday, span.weeks), inks.quiet);
    let months = large.months(monday, span.weeks);
    Pen::new(buffer, parts.months).skip(SCALE).write(&months, inks.plain);
    put(sheet, gone, (span, columns(parts.put.height)), parts.put, buffer);
}

/// Which per cent are written beside a row of so many: 100 at the top, and the quarters or the half that its foot is at.
fn scale(row: u16, rows: u16) -> Option<u16> {
    let step = if rows >= 8 { 25 } else { 50 };
    let share = 100 * (rows - row - 1);
    let even = share.is_multiple_of(rows * step);
    match row {
        0 => Some(100),
        _ => (even && share > 0).then_some(share / rows),
    }
}

/// A row of columns; where its foot is at a figure of the scale, with dots between them there.
fn bars(line: &str, ruled: bool, sheet: &Sheet<'_>, pen: &mut Pen<'_>) {
    let inks = sheet.inks;
    let runs: Vec<char> = line.chars().collect();
    for run in runs.chunk_by(|a, b| (*a == ' ') == (*b == ' ')) {
        let text: String = run.iter().collect();
        match run.first() {
            Some(' ') if ruled => pen.write(&".".repeat(run.len()), inks.quiet),
            Some(' ') => pen.skip(u16::try_from(run.len()).unwrap_or(u16::MAX)),
            _ => pen.write(&text, inks.across),
        };
    }
}

/// How many questions were put in each week, as high as the most in any.
fn put(
    sheet: &Sheet<'_>,
    gone: &Gone,
    (span, columns): (Span, Columns),
    area: Rect,
    buffer: &mut Buffer,
) {
    let weeks = gone.weeks_to(sheet.progress.monday, span.weeks);
    let most = weeks.iter().flatten().map(|week| week.answered).max().unwrap_or(0);
    let share = |answered: usize| answered as f64 / most.max(1) as f64;
    let values: Vec<Option<f64>> =
        weeks.iter().map(|week| Some(share(week.as_ref()?.answered))).collect();
    let style = sheet.inks.quiet;
    let mut pen = Pen::new(buffer, area);
    for (row, line) in columns.drawn(&values).iter().enumerate() {
        let words = match row {
            0 => most.to_string(),
            1 => "put".to_owned(),
            _ => String::new(),
        };
        pen.write(&right(&words, SCALE - 2), style).write("  ", style);
        pen.write(line.trim_end(), style).down();
    }
}
