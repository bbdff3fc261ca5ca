//! Tables: columns as wide as what stands in them, one of which takes what is left and wraps. A cell may be large, and
//! have words under its own.

use super::{leading, lines};
use crate::draw::{Anchor, Ink, Item, Mm, Outline, Pt, Spot, Stroke, Text};
use crate::font::{self, Face};

/// A column.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Column {
    /// What stands over it.
    pub head: String,
    /// What stands over the words that lie under those of its cells; or empty.
    pub under: String,
    /// At which end its words stand.
    pub anchor: Anchor,
    /// Whether it takes the width that is left; its words are wrapped.
    pub wraps: bool,
    /// Whether more room parts it from the next, so that figures are not read together.
    pub apart: bool,
}

/// What stands in a row under one column.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Cell {
    /// The words.
    pub words: String,
    /// Their face.
    pub face: Face,
    /// Whether they are larger than the rest, to be read at arm's length.
    pub large: bool,
    /// Words in small type under them; or empty.
    pub under: String,
}

/// A row: a cell for each column, and under them words across the table.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Row {
    /// The cells.
    pub cells: Vec<Cell>,
    /// Words under them, across the table, from the column that wraps or, where that is the last, from the second; or
    /// empty.
    pub note: String,
}

/// A table in one size of type.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    columns: Vec<Column>,
    rows: Vec<Row>,
    size: Pt,
    /// Of each column where it begins, from the table's left edge, and how wide it is.
    places: Vec<(Mm, Mm)>,
    width: Mm,
}

/// How much larger large words are.
const LARGE: f64 = 1.5;
/// How much farther down the first base line lies in a row with large words, as a part of the size of type: figures
/// have no accents.
const LOWER: f64 = 0.8 * LARGE - 0.93;
/// Room between two columns, as a part of the size of type.
const GAP: f64 = 0.55;
/// Room above and below the words of a row, as a part of the size of type.
const PAD: f64 = 0.16;
/// The least width of the column that wraps, as a part of the size of type.
const LEAST_WRAPPED: f64 = 6.0;

impl Cell {
    /// Words in the regular face.
    pub fn new(words: impl Into<String>) -> Cell {
        Cell { words: words.into(), ..Cell::default() }
    }

    /// Words in bold.
    pub fn bold(words: impl Into<String>) -> Cell {
        Cell { words: words.into(), face: Face::Bold, ..Cell::default() }
    }

    /// The same, large.
    #[must_use]
    pub fn large(self) -> Cell {
        Cell { large: true, ..self }
    }

    /// The same with words under it.
    #[must_use]
    pub fn over(self, under: impl Into<String>) -> Cell {
        Cell { under: under.into(), ..self }
    }

    fn is_empty(&self) -> bool {
        self.words.is_empty() && self.under.is_empty()
    }

    /// The size of its words in a table of this size.
    fn size(&self, size: Pt) -> Pt {
        if self.large { size * LARGE } else { size }
    }

    fn width(&self, size: Pt) -> Mm {
        let under = font::width(Face::Regular, &self.under, size);
        font::width(self.face, &self.words, self.size(size)).max(under)
    }
}

impl Column {
    fn new(head: &str, anchor: Anchor, wraps: bool) -> Column {
        Column { head: head.to_owned(), under: String::new(), anchor, wraps, apart: false }
    }

    /// A column of figures, which stand at its right end.
    pub fn figures(head: &str) -> Column {
        Column::new(head, Anchor::Right, false)
    }

    /// A column of words.
    pub fn words(head: &str) -> Column {
        Column::new(head, Anchor::Left, false)
    }

    /// The column that takes what is left.
    pub fn wrapped(head: &str) -> Column {
        Column::new(head, Anchor::Left, true)
    }

    /// The same with words under its head.
    #[must_use]
    pub fn over(self, under: &str) -> Column {
        Column { under: under.to_owned(), ..self }
    }

    /// The same, with more room after it.
    #[must_use]
    pub fn apart(self) -> Column {
        Column { apart: true, ..self }
    }

    /// The room between it and the next, as a part of the size of type.
    const fn gap(&self) -> f64 {
        if self.apart { GAP * 2.5 } else { GAP }
    }

    /// Its head as a cell.
    fn cell(&self) -> Cell {
        Cell::bold(self.head.as_str()).over(self.under.as_str())
    }
}

impl Table {
    /// A table in this size of type and width; columns in which nothing stands are left out. Nothing where it is
    /// too wide.
    #[must_use]
    pub fn new(columns: &[Column], rows: &[Row], size: Pt, width: Mm) -> Option<Table> {
        let filled = |index: &usize| {
            rows.iter().any(|row| row.cells.get(*index).is_some_and(|cell| !cell.is_empty()))
        };
        let kept: Vec<usize> = (0..columns.len()).filter(filled).collect();
        let columns: Vec<Column> =
            kept.iter().filter_map(|index| columns.get(*index)).cloned().collect();
        let cells = |row: &Row| {
            kept.iter().map(|index| row.cells.get(*index).cloned().unwrap_or_default()).collect()
        };
        let rows: Vec<Row> =
            rows.iter().map(|row| Row { cells: cells(row), note: row.note.clone() }).collect();
        let places = places(&columns, &rows, size, width)?;
        Some(Table { columns, rows, size, places, width })
    }

    /// How many rows it has.
    #[must_use]
    pub fn rows(&self) -> usize {
        self.rows.len()
    }

    /// How high its head is.
    #[must_use]
    pub fn head_height(&self) -> Mm {
        let two = self.columns.iter().any(|column| !column.under.is_empty());
        leading(self.size) * if two { 2.0 } else { 1.0 } + self.pad() * 2.0
    }

    /// How high a row is.
    #[must_use]
    pub fn row_height(&self, index: usize) -> Mm {
        let Some(row) = self.rows.get(index) else { return Mm::ZERO };
        let count = self.lines_of(row) + self.note(row).len();
        self.lower(row) + leading(self.size) * count as f64 + self.pad() * 2.0
    }

    fn pad(&self) -> Mm {
        Mm::from(self.size) * PAD
    }

    /// How much farther down the first base line of a row lies for its large words.
    fn lower(&self, row: &Row) -> Mm {
        let large = row.cells.iter().any(|cell| cell.large && !cell.words.is_empty());
        if large { Mm::from(self.size) * LOWER } else { Mm::ZERO }
    }

    /// How many lines the cells of a row have, at least one.
    fn lines_of(&self, row: &Row) -> usize {
        let cells = self.columns.iter().zip(&row.cells).zip(&self.places);
        let all = cells.map(|((column, cell), (_, width))| self.lines(column, cell, *width).len());
        all.max().unwrap_or(0).max(1)
    }

    /// The lines of a cell, each with its face and size.
    fn lines(&self, column: &Column, cell: &Cell, width: Mm) -> Vec<(String, Face, Pt)> {
        let part = |words: &str, face: Face, size: Pt| -> Vec<(String, Face, Pt)> {
            let all = if column.wraps {
                lines(face, words, size, width)
            } else if words.is_empty() {
                Vec::new()
            } else {
                vec![words.to_owned()]
            };
            all.into_iter().map(|line| (line, face, size)).collect()
        };
        let mut all = part(&cell.words, cell.face, cell.size(self.size));
        if all.is_empty() && !column.wraps && !cell.under.is_empty() {
            // What lies under nothing stays where it is looked for.
            all.push((String::new(), cell.face, self.size));
        }
        all.extend(part(&cell.under, Face::Regular, self.size));
        all
    }

    /// Where notes begin: at the column that wraps, or, where that is the last and narrow, at the second.
    fn note_left(&self) -> Mm {
        let wraps = self.columns.iter().position(|column| column.wraps);
        let is_last = |index: &usize| index + 1 == self.columns.len();
        let index = wraps.map(|index| if is_last(&index) { 1.min(index) } else { index });
        index.and_then(|index| self.places.get(index)).map_or(Mm::ZERO, |(left, _)| *left)
    }

    fn note(&self, row: &Row) -> Vec<String> {
        lines(Face::Regular, &row.note, self.size, self.width - self.note_left())
    }

    /// Its head with the rule under it, the upper left corner there.
    #[must_use]
    pub fn head(&self, at: Spot) -> Vec<Item> {
        let cells: Vec<Cell> = self.columns.iter().map(Column::cell).collect();
        let mut items = self.cells(&cells, Spot { x: at.x, y: self.base(at.y) });
        items.push(self.rule(Spot { x: at.x, y: at.y + self.head_height() }, 0.3));
        items
    }

    /// A row with the rule under it, the upper left corner there.
    #[must_use]
    pub fn row(&self, index: usize, at: Spot) -> Vec<Item> {
        let Some(row) = self.rows.get(index) else { return Vec::new() };
        let base = self.base(at.y) + self.lower(row);
        let mut items = self.cells(&row.cells, Spot { x: at.x, y: base });
        let above = self.lines_of(row);
        for (line, words) in self.note(row).into_iter().enumerate() {
            let y = base + leading(self.size) * (above + line) as f64;
            items.push(Text::new(words, Spot { x: at.x + self.note_left(), y }, self.size).into());
        }
        items.push(self.rule(Spot { x: at.x, y: at.y + self.row_height(index) }, 0.1));
        items
    }

    /// Cells side by side, their first base line there.
    fn cells(&self, cells: &[Cell], at: Spot) -> Vec<Item> {
        let mut items = Vec::new();
        for ((column, cell), place) in self.columns.iter().zip(cells).zip(&self.places) {
            let x = at.x + anchored(column.anchor, *place);
            let all = self.lines(column, cell, place.1).into_iter().enumerate();
            for (line, (words, face, size)) in all.filter(|(_, (words, ..))| !words.is_empty()) {
                let at = Spot { x, y: at.y + leading(self.size) * line as f64 };
                let text = Text { face, anchor: column.anchor, ..Text::new(words, at, size) };
                items.push(text.into());
            }
        }
        items
    }

    /// The first base line of what begins at this height.
    fn base(&self, top: Mm) -> Mm {
        top + self.pad() + font::ascent(self.size)
    }

    fn rule(&self, at: Spot, width: f64) -> Item {
        let end = at.moved(self.width, Mm::ZERO);
        Item::stroke(Outline::line([at, end]), Stroke::new(Ink::Grey(0.3), Mm(width)))
    }
}

/// How far right words with this anchor stand in a column that begins there and is so wide.
fn anchored(anchor: Anchor, (left, width): (Mm, Mm)) -> Mm {
    match anchor {
        Anchor::Left => left,
        Anchor::Middle => left + width / 2.0,
        Anchor::Right => left + width,
    }
}

/// Where the columns lie; nothing where they have no room.
fn places(columns: &[Column], rows: &[Row], size: Pt, width: Mm) -> Option<Vec<(Mm, Mm)>> {
    let em = Mm::from(size);
    let natural = |index: usize, column: &Column| {
        let cells = rows.iter().filter_map(|row| row.cells.get(index)).map(|cell| cell.width(size));
        cells.fold(column.cell().width(size), Mm::max)
    };
    let mut widths: Vec<Mm> =
        columns.iter().enumerate().map(|(index, column)| natural(index, column)).collect();
    let between = columns.len().saturating_sub(1);
    let gaps = em * columns.iter().take(between).map(Column::gap).sum::<f64>();
    let wraps = columns.iter().position(|column| column.wraps);
    let others = widths.iter().enumerate().filter(|(index, _)| Some(*index) != wraps);
    let left = width - gaps - others.map(|(_, width)| *width).sum::<Mm>();
    match wraps {
        Some(wraps) => {
            let least = widths[wraps].min(em * LEAST_WRAPPED);
            if left < least {
                return None;
            }
            widths[wraps] = left;
        }
        None if left < Mm::ZERO => return None,
        None => {}
    }
    let mut x = Mm::ZERO;
    let place = |(width, column): (Mm, &Column)| {
        let at = x;
        x += width + em * column.gap();
        (at, width)
    };
    Some(widths.into_iter().zip(columns).map(place).collect())
}
