//! What practice shows on the chart: what is asked for, and once it is marked the right answer and the reader's own.
//!
//! Shapes tell them apart, in one colour too. A point keeps the chart's sign that stands there, in round brackets where it is
//! asked for, in square ones where it is the answer, in pointed ones where it is the reader's; where no sign stands each
//! has its own. A line is thin, double, or dashed, with dots where an hour of it is over; where the dashed one ends stands the reader's sign. A point that is out of sight is pointed at
//! from the edge.

use super::Scene;
use super::names::Label;
use super::over::Room;
use super::sheet::{Sheet, Taken};
use crate::glyphs::DotSet;
use crate::theme::{Role, Theme};
use chart::Point;
use chart::dots::{Mask, Raster, path};
use nav::Square;
use practice::{Choice, Shown};
use ratatui::buffer::Buffer;

/// What practice shows.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Drilled<'a> {
    /// What is to be looked at.
    pub asked: &'a [Shown],
    /// What can be chosen from; those that are places are shown by their letters.
    pub choices: &'a [Choice],
    /// The right answer.
    pub answer: &'a [Shown],
    /// The reader's own.
    pub yours: &'a [Shown],
}

/// Whose a thing is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Whose {
    /// The question's.
    Asked,
    /// The right answer's.
    Answer,
    /// The reader's.
    Yours,
}

impl Whose {
    fn role(self) -> Role {
        match self {
            Whose::Asked => Role::Asked,
            Whose::Answer => Role::Answer,
            Whose::Yours => Role::Yours,
        }
    }

    /// The sign of a point where the chart has none.
    pub(crate) fn sign(self, dots: DotSet) -> char {
        match (self, dots == DotSet::Ascii) {
            (Whose::Asked, false) => '○',
            (Whose::Answer, false) => '◎',
            (Whose::Yours, false) => '⊗',
            (Whose::Asked, true) => 'o',
            (Whose::Answer, true) => 'O',
            (Whose::Yours, true) => 'X',
        }
    }

    /// What stands on both sides of a point.
    pub(crate) fn brackets(self) -> (char, char) {
        match self {
            Whose::Asked => ('(', ')'),
            Whose::Answer => ('[', ']'),
            Whose::Yours => ('<', '>'),
        }
    }
}

/// The least side of a square, in columns, that is drawn: of a smaller one the point in it is.
const LEAST_SQUARE: f64 = 3.0;

/// How many dots the two lines of an answer lie apart.
const RAILS: f64 = 3.0;

/// Draws it over signs and lines of the chart, and gives the words that are to be written beside it.
pub(super) fn draw(
    scene: &Scene<'_>,
    theme: &Theme,
    sheet: &mut Sheet,
    buffer: &mut Buffer,
    room: &mut Room,
) -> Vec<Label> {
    let Drilled { asked, choices, answer, yours } = scene.drilled;
    // The answer comes last, so that nothing covers it.
    let all = [(Whose::Asked, asked), (Whose::Yours, yours), (Whose::Answer, answer)];
    let mut labels = Vec::new();
    for (whose, shown) in all {
        lines(whose, shown, theme, sheet, buffer, room);
    }
    for (letter, choice) in ('a'..='z').zip(choices) {
        if let Some(at) = choice.at {
            point(Whose::Asked, at, theme, sheet, buffer);
            labels.push(label(Whose::Asked, at, letter.encode_utf8(&mut [0; 4]), sheet));
        }
    }
    for (whose, shown) in all {
        for it in shown {
            // What is called by one name twice is written once.
            let is_new = |words: &str| labels.iter().all(|label: &Label| label.words != words);
            if let Some((at, words)) = named(it).filter(|(_, words)| is_new(words)) {
                labels.push(label(whose, at, words, sheet));
            }
            match it {
                Shown::Point { at, .. } => point(whose, *at, theme, sheet, buffer),
                Shown::Tick { at, .. } => tick(whose, *at, theme, sheet, buffer),
                _ => {}
            }
        }
    }
    if let Some(at) = end_of(yours) {
        point(Whose::Yours, at, theme, sheet, buffer);
    }
    labels
}

/// Where the last line ends, unless there is a point that tells where it leads.
fn end_of(shown: &[Shown]) -> Option<Point> {
    if shown.iter().any(|it| matches!(it, Shown::Point { .. })) {
        return None;
    }
    shown.iter().rev().find_map(|it| match it {
        Shown::Line { to, .. } => Some(*to),
        Shown::Path(points) => points.last().copied(),
        _ => None,
    })
}

/// Draws lines and the outlines of squares as dots.
fn lines(
    whose: Whose,
    shown: &[Shown],
    theme: &Theme,
    sheet: &mut Sheet,
    buffer: &mut Buffer,
    room: &mut Room,
) {
    let is_line = |it: &Shown| !matches!(it, Shown::Point { .. } | Shown::Tick { .. });
    if !shown.iter().any(is_line) {
        return;
    }
    let fine = sheet.dots.size().0 > 1;
    let metres = sheet.view.metres_per_column / f64::from(sheet.dots.size().0);
    let dots = room.empty(sheet);
    for it in shown {
        match it {
            Shown::Point { .. } | Shown::Tick { .. } => {}
            Shown::Line { from, to, .. } => side(whose, &[*from, *to], sheet, fine, metres, dots),
            Shown::Path(points) => {
                for pair in points.windows(2) {
                    side(whose, pair, sheet, fine, metres, dots);
                }
            }
            Shown::Square(square) => {
                if square.side.as_metres() >= LEAST_SQUARE * sheet.view.metres_per_column {
                    stroke(whose, &corners(square), &sheet.raster, sheet.dots, dots);
                }
            }
        }
    }
    room.lay_firmly(theme.ink(whose.role()), sheet, buffer);
}

/// Draws a straight line; that of an answer twice, where the dots are fine enough.
fn side(whose: Whose, ends: &[Point], sheet: &Sheet, fine: bool, metres: f64, dots: &mut Mask) {
    let &[from, to] = ends else { return };
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let length = dx.hypot(dy);
    if whose != Whose::Answer || !fine || length == 0.0 {
        return stroke(whose, ends, &sheet.raster, sheet.dots, dots);
    }
    let aside = Point { x: -dy / length, y: dx / length } * (metres * RAILS / 2.0);
    for by in [aside, aside * -1.0] {
        stroke(whose, &[from + by, to + by], &sheet.raster, sheet.dots, dots);
    }
}

/// Draws a line through points, that of the reader in dashes of three parts and gaps of two.
fn stroke(whose: Whose, points: &[Point], raster: &Raster, set: DotSet, dots: &mut Mask) {
    let part = u64::from(set.size().0);
    path(raster, points, |x, y, count| {
        if whose != Whose::Yours || count / part % 5 < 3 {
            dots.set(x, y);
        }
    });
}

/// The corners of a square, round to the first again.
fn corners(square: &Square) -> [Point; 5] {
    let (west, south) =
        (square.south_west.easting.as_metres(), square.south_west.northing.as_metres());
    let side = square.side.as_metres();
    [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side), (0.0, 0.0)]
        .map(|(x, y)| Point { x: west + x, y: south + y })
}

/// Marks a point, or points at it from the edge where it is out of sight.
fn point(whose: Whose, at: Point, theme: &Theme, sheet: &mut Sheet, buffer: &mut Buffer) {
    let style = theme.ink(whose.role());
    if let Some((cell, arrow)) = at_the_edge(at, sheet) {
        for (column, glyph) in [(cell.0, arrow), (inwards(cell.0, sheet), whose.sign(sheet.dots))] {
            sheet.put((column, cell.1), glyph, style, buffer);
            sheet.take(column, cell.1, Taken::WORDS.and(Taken::SIGN));
        }
        return;
    }
    let Some((column, row)) = sheet.cell_of(at) else { return };
    let is_sign =
        |sheet: &Sheet, column| sheet.taken(column, row).is_some_and(|t| t.has(Taken::SIGN));
    let own = [Whose::Asked, Whose::Answer, Whose::Yours].map(|whose| whose.sign(sheet.dots));
    match sheet.screen(column, row, buffer) {
        // The chart's own sign stays: it is what is asked for.
        Some(cell)
            if is_sign(sheet, column) && !cell.symbol().chars().any(|c| own.contains(&c)) =>
        {
            super::sheet::ink(cell, style);
        }
        _ => sheet.put((column, row), whose.sign(sheet.dots), style, buffer),
    }
    sheet.take(column, row, Taken::WORDS.and(Taken::SIGN));
    let (left, right) = whose.brackets();
    for (column, bracket) in [(column - 1, left), (column + 1, right)] {
        if !is_sign(sheet, column) {
            sheet.put((column, row), bracket, style, buffer);
            sheet.take(column, row, Taken::WORDS);
        }
    }
}

/// Draws a mark on a line, where no sign stands.
fn tick(whose: Whose, at: Point, theme: &Theme, sheet: &mut Sheet, buffer: &mut Buffer) {
    let sign = if sheet.dots == DotSet::Ascii { '+' } else { '•' };
    let Some((column, row)) = sheet.cell_of(at) else { return };
    if sheet.taken(column, row).is_some_and(|taken| !taken.has(Taken::SIGN)) {
        sheet.put((column, row), sign, theme.ink(whose.role()), buffer);
        sheet.take(column, row, Taken::WORDS);
    }
}

/// For a point that is out of sight the cell at the edge from which an arrow points at it, and the arrow.
fn at_the_edge(at: Point, sheet: &Sheet) -> Option<((i32, i32), char)> {
    let (x, y) = sheet.view.cells_of(sheet.cells, at);
    let (width, height) = (f64::from(sheet.cells.columns), f64::from(sheet.cells.rows));
    let seen = (0.0..width).contains(&x) && (0.0..height).contains(&y);
    if seen || !x.is_finite() || !y.is_finite() || width < 1.0 || height < 1.0 {
        return None;
    }
    let cell = (x.clamp(0.0, width - 1.0) as i32, y.clamp(0.0, height - 1.0) as i32);
    // How far it lies beyond the nearest edge, a row being as high as two columns are wide.
    let beyond = |at: f64, end: f64| if at < 0.0 { at } else { (at - end).max(0.0) };
    let (aside, down) = (beyond(x, width), 2.0 * beyond(y, height));
    let ascii = sheet.dots == DotSet::Ascii;
    let arrow = match (aside.abs() >= down.abs(), aside > 0.0, down > 0.0) {
        (true, true, _) => ['▶', '>'],
        (true, false, _) => ['◀', '<'],
        (false, _, true) => ['▼', 'v'],
        (false, _, false) => ['▲', '^'],
    };
    Some((cell, arrow[usize::from(ascii)]))
}

/// The column beside an arrow at the edge, towards the middle.
fn inwards(column: i32, sheet: &Sheet) -> i32 {
    if 2 * column < i32::from(sheet.cells.columns) { column + 1 } else { column - 1 }
}

/// What a thing is called, and where that is to be written.
fn named(it: &Shown) -> Option<(Point, &str)> {
    match it {
        Shown::Point { at, label } | Shown::Tick { at, label } => Some((*at, label)),
        Shown::Line { from, to, label } => Some(((*from + *to) / 2.0, label)),
        Shown::Path(_) | Shown::Square(_) => None,
    }
}

/// The words beside a point; of one out of sight, where it is pointed at.
fn label(whose: Whose, at: Point, words: &str, sheet: &Sheet) -> Label {
    let at = match at_the_edge(at, sheet) {
        None => at,
        Some(((column, row), _)) => {
            let (x, y) = (f64::from(inwards(column, sheet)) + 0.5, f64::from(row) + 0.5);
            sheet.view.point_at(sheet.cells, x, y)
        }
    };
    Label { words: words.to_owned(), at, role: whose.role() }
}
