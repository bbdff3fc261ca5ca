//! Practice beside the chart or under it: the question, the answer, what came of it, and how it went in the end.

mod ends;
mod given;
mod marked;
mod put;
mod rows;
#[cfg(test)]
mod tests;

pub(crate) use given::given;

use practice::{Kind, Level};
use ratatui::buffer::Buffer;
use ratatui::layout::{Position as Cell, Rect};

use super::foot;
use super::ink::{self, Pen};
use super::inks::Inks;
use crate::layout::Shape;
use crate::state::{Drill, Put, Stage, State};
use rows::{Part, Row, Rows, piece};

/// What stands at the edges of the pane, left and right: at the right the signs of what is out of sight.
const MARGIN: u16 = 2;

/// From this width on what is practised stands in the heading.
const BROAD: u16 = 58;

/// The rows that what scrolls keeps, however much stands under it.
const KEPT: usize = 2;

/// All rows: those that always stand, above and below, and those between that scroll.
struct Page<'a> {
    head: Rows<'a>,
    body: Rows<'a>,
    foot: Rows<'a>,
    /// The first row of the body that is wished for.
    top: usize,
}

/// Where the parts of a page stand.
struct Placed {
    body: Rect,
    foot: Rect,
    /// The first row of the body that is shown.
    first: usize,
}

impl<'a> Page<'a> {
    /// What there is to say, in so many columns.
    fn of(state: &'a State, width: u16) -> Page<'a> {
        let airy = Shape::of(state.size).has_column();
        let rows = || Rows::new(words_in(width), airy);
        let mut page = Page { head: rows(), body: rows(), foot: rows(), top: 0 };
        page.head.room = width;
        let Some(drill) = &state.practice.drill else { return page };
        page.top = drill.top();
        match &drill.stage {
            Stage::Throwing => ends::throwing(drill, &mut page),
            Stage::Asked(put) => put::asked(state, drill, put, &mut page),
            Stage::Marked(put, told) => {
                marked::marked(state.settings.dots, drill, put, told, &mut page)
            }
            Stage::Over => ends::over(state, drill, &mut page),
            Stage::Nothing => ends::nothing(&mut page),
        }
        if let Some(why) = &state.practice.not_kept {
            page.foot.words(format!("Your answers are not kept: {why}"), Part::Warn);
        }
        page
    }

    /// The heading: what it is, and how far it has come, which is never cut.
    fn headed(&mut self, title: String, word: String) {
        let room = self.head.room;
        let word = match word.strip_prefix("question ") {
            Some(short) if ink::width(&title) + ink::width(&word) + 3 > room => short.to_owned(),
            _ => word,
        };
        let end = room.saturating_sub(ink::width(&word));
        let title = ink::fit(&title, end.saturating_sub(3)).into_owned();
        let from = ink::width(&title) + 1;
        let rule = "─".repeat(usize::from(end.saturating_sub(from + 1)));
        self.head.row(vec![
            piece(0, title, Part::Heading),
            piece(from, rule, Part::Quiet),
            piece(end, word, Part::Plain),
        ]);
    }

    /// The heading of a question: the skill, how hard it is, and which question it is.
    fn headed_by(&mut self, drill: &Drill, put: &Put) {
        let of = of(put.question.kind, put.question.level);
        let word = far(drill, put);
        if self.head.room >= BROAD {
            return self.headed(of, word);
        }
        self.headed("Practice".to_owned(), word);
        self.head.row(vec![piece(MARGIN, of, Part::Quiet)]);
        self.head.gap();
    }

    fn placed(&self, area: Rect) -> Placed {
        let height = usize::from(area.height);
        let head = self.head.rows.len().min(height);
        let kept = self.body.rows.len().min(KEPT);
        let foot = self.foot.rows.len().min(height.saturating_sub(head + kept));
        let room = height - head - foot;
        let shown = self.body.rows.len().min(room);
        let rows = |from: usize, rows: usize| {
            // All of them are within the area's height.
            let (from, rows) = (from as u16, rows as u16);
            Rect { y: area.y + from, height: rows, ..area }
        };
        Placed {
            body: rows(head, shown),
            foot: rows(head + shown, foot),
            first: self.top.min(self.body.rows.len() - shown),
        }
    }
}

/// The columns that words have in a pane of so many.
fn words_in(width: u16) -> u16 {
    width.saturating_sub(2 * MARGIN)
}

/// `grid references, level 2`
fn of(kind: Kind, level: Level) -> String {
    format!("{}, level {}", kind.skill(), level.number())
}

/// `question 3 of 10`, `question 12, 7 min left` as of when it was put.
fn far(drill: &Drill, put: &Put) -> String {
    let of = drill.sitting.count().map_or(String::new(), |count| format!(" of {count}"));
    let left = drill.until.map(|until| until.duration_since(put.since).as_secs());
    let left = match left {
        None => String::new(),
        Some(..=0) => ", the last".to_owned(),
        Some(left) => format!(", {} min left", (left + 59) / 60),
    };
    format!("question {}{of}{left}", put.number)
}

/// Draws practice, while it is in hand.
pub(super) fn draw(state: &State, inks: &Inks, buffer: &mut Buffer) {
    let area = state.layout().drill;
    let page = Page::of(state, area.width);
    let placed = page.placed(area);
    let mut pen = Pen::new(buffer, area);
    let said = !Shape::of(state.size).has_column() && foot::urgent(state, inks, &mut pen);
    if said {
        pen.down();
    }
    for row in page.head.rows.iter().skip(usize::from(said)) {
        row.draw(&mut pen, inks);
        pen.down();
    }
    let rows = page.body.rows.iter().skip(placed.first);
    column(rows.take(usize::from(placed.body.height)), placed.body, inks, buffer);
    column(page.foot.rows.iter().take(usize::from(placed.foot.height)), placed.foot, inks, buffer);
    let last = placed.first + usize::from(placed.body.height);
    more(placed.body, placed.first > 0, last < page.body.rows.len(), inks, buffer);
}

/// Draws rows, one above the other, within the pane's margins.
fn column<'a>(
    rows: impl Iterator<Item = &'a Row<'a>>,
    area: Rect,
    inks: &Inks,
    buffer: &mut Buffer,
) {
    let width = words_in(area.width);
    let mut pen = Pen::new(buffer, Rect { x: area.x + MARGIN, width, ..area });
    for row in rows {
        row.draw(&mut pen, inks);
        pen.down();
    }
}

/// Draws the signs of what is out of sight above and below.
fn more(area: Rect, above: bool, below: bool, inks: &Inks, buffer: &mut Buffer) {
    let mut sign = |glyph: &str, y: u16| {
        let x = area.right().saturating_sub(1);
        Pen::new(buffer, Rect::new(x, y, 1, 1)).write(glyph, inks.key);
    };
    if above {
        sign("▲", area.y);
    }
    if below {
        sign("▼", area.bottom().saturating_sub(1));
    }
}

/// The rows that practice asks for where it stands under the chart: while a question stands always the same, so that the chart
/// does not move under the hand.
pub(crate) fn rows_wanted(state: &State) -> u16 {
    if Shape::of(state.size) != Shape::Folded {
        return 0;
    }
    let width = state.size.width;
    let drill = state.practice.drill.as_ref();
    let rows = match drill.map(|drill| &drill.stage) {
        Some(Stage::Asked(put)) => put::rows_wanted(state, put, width),
        Some(Stage::Marked(put, _)) => {
            let page = Page::of(state, width);
            let all = page.head.rows.len() + page.body.rows.len() + page.foot.rows.len();
            all.max(put::rows_wanted(state, put, width))
        }
        _ => usize::from(u16::MAX),
    };
    u16::try_from(rows).unwrap_or(u16::MAX)
}

/// The first row of the last page of what scrolls: no `top` needs to be larger.
pub(crate) fn last_top(state: &State) -> usize {
    let area = state.layout().drill;
    let page = Page::of(state, area.width);
    page.body.rows.len() - usize::from(page.placed(area).body.height)
}

/// How many rows a page of what scrolls has, less one that is seen again.
pub(crate) fn page_rows(state: &State) -> usize {
    let area = state.layout().drill;
    let height = Page::of(state, area.width).placed(area).body.height;
    usize::from(height.saturating_sub(1).max(1))
}

/// The choice of the question that stands in a cell of the screen.
pub(crate) fn choice_at(state: &State, cell: Cell) -> Option<usize> {
    state.practice.asked()?;
    let area = state.layout().drill;
    let page = Page::of(state, area.width);
    let Placed { body, first, .. } = page.placed(area);
    if !body.contains(cell) {
        return None;
    }
    let row = page.body.rows.get(first + usize::from(cell.y - body.y))?;
    row.choice_at(cell.x.checked_sub(body.x + MARGIN)?)
}

/// Whether a cell of the screen is the line in which the question that stands is answered.
pub(crate) fn is_answer(state: &State, cell: Cell) -> bool {
    let area = state.layout().drill;
    state.practice.asked().is_some() && {
        let page = Page::of(state, area.width);
        let foot = page.placed(area).foot;
        let line = page.foot.rows.iter().position(|row| !row.pieces.is_empty());
        foot.contains(cell) && line == Some(usize::from(cell.y - foot.y))
    }
}
