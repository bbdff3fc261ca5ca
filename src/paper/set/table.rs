//! Tables: columns as wide as what stands in them, one of which takes what is left and wraps.

use super::{leading, lines};
use crate::draw::{Anchor, Area, Ink, Item, Mm, Outline, Pt, Spot, Stroke, Text};
use crate::font::{self, Face};

/// A column.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Column {
    /// What stands over it.
    pub head: String,
    /// At which end its words stand.
    pub anchor: Anchor,
    /// Whether it takes the width that is left; its words are wrapped.
    pub wraps: bool,
}

/// What stands in a row under one column.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Cell {
    /// The words.
    pub words: String,
    /// Their face.
    pub face: Face,
}

/// A row: a cell for each column, and under them words across the table.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Row {
    /// The cells.
    pub cells: Vec<Cell>,
    /// Words under them, from the column that wraps to the right edge; or empty.
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

/// Room between two columns, as a part of the size of type.
const GAP: f64 = 0.55;
/// Room above and below the words of a row, as a part of the size of type.
const PAD: f64 = 0.16;
/// The least width of the column that wraps, as a part of the size of type.
const LEAST_WRAPPED: f64 = 6.0;

impl Cell {
    /// Words in the regular face.
    pub fn new(words: impl Into<String>) -> Cell {
        Cell { words: words.into(), face: Face::Regular }
    }

    /// Words in bold.
    pub fn bold(words: impl Into<String>) -> Cell {
        Cell { words: words.into(), face: Face::Bold }
    }

    fn width(&self, size: Pt) -> Mm {
        font::width(self.face, &self.words, size)
    }
}

impl Column {
    /// A column of figures, which stand at its right end.
    pub fn figures(head: &str) -> Column {
        Column { head: head.to_owned(), anchor: Anchor::Right, wraps: false }
    }

    /// A column of words.
    pub fn words(head: &str) -> Column {
        Column { head: head.to_owned(), anchor: Anchor::Left, wraps: false }
    }

    /// The column that takes what is left.
    pub fn wrapped(head: &str) -> Column {
        Column { head: head.to_owned(), anchor: Anchor::Left, wraps: true }
    }
}

impl Table {
    /// A table in this size of type and width; columns in which nothing stands are left out. Nothing where it is
    /// too wide.
    #[must_use]
    pub fn new(columns: &[Column], rows: &[Row], size: Pt, width: Mm) -> Option<Table> {
        let filled = |index: &usize| {
            rows.iter().any(|row| row.cells.get(*index).is_some_and(|cell| !cell.words.is_empty()))
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
        leading(self.size) + self.pad() * 2.0
    }

    /// How high a row is.
    #[must_use]
    pub fn row_height(&self, index: usize) -> Mm {
        let lines =
            self.rows.get(index).map_or(0, |row| self.row_lines(row).len() + self.note(row).len());
        leading(self.size) * lines.max(1) as f64 + self.pad() * 2.0
    }

    fn pad(&self) -> Mm {
        Mm::from(self.size) * PAD
    }

    /// The words of the cell that wraps, line by line; one line of a row without.
    fn row_lines(&self, row: &Row) -> Vec<String> {
        let cells = self.columns.iter().zip(&row.cells).zip(&self.places);
        let wrapped = cells.filter(|((column, _), _)| column.wraps);
        let all =
            wrapped.map(|((_, cell), (_, width))| lines(cell.face, &cell.words, self.size, *width));
        all.max_by_key(Vec::len)
            .filter(|lines| !lines.is_empty())
            .unwrap_or_else(|| vec![String::new()])
    }

    /// Where notes begin: at the column that wraps.
    fn note_left(&self) -> Mm {
        let wraps = self.columns.iter().zip(&self.places).find(|(column, _)| column.wraps);
        wraps.map_or(Mm::ZERO, |(_, (left, _))| *left)
    }

    fn note(&self, row: &Row) -> Vec<String> {
        lines(Face::Regular, &row.note, self.size, self.width - self.note_left())
    }

    /// Its head with the rule under it, the upper left corner there.
    #[must_use]
    pub fn head(&self, at: Spot) -> Vec<Item> {
        let base = self.base(at.y);
        let mut items = Vec::new();
        for (column, place) in self.columns.iter().zip(&self.places) {
            items.extend(self.text(&column.head, Face::Bold, column.anchor, *place, at.x, base));
        }
        items.push(self.rule(Spot { x: at.x, y: at.y + self.head_height() }, 0.3));
        items
    }

    /// A row with the rule under it, the upper left corner there.
    #[must_use]
    pub fn row(&self, index: usize, at: Spot) -> Vec<Item> {
        let Some(row) = self.rows.get(index) else { return Vec::new() };
        let mut items = Vec::new();
        for ((column, cell), place) in self.columns.iter().zip(&row.cells).zip(&self.places) {
            let all = if column.wraps { self.row_lines(row) } else { vec![cell.words.clone()] };
            for (line, words) in all.iter().enumerate() {
                let base = self.base(at.y) + leading(self.size) * line as f64;
                items.extend(self.text(words, cell.face, column.anchor, *place, at.x, base));
            }
        }
        let above = self.row_lines(row).len();
        for (line, words) in self.note(row).into_iter().enumerate() {
            let base = self.base(at.y) + leading(self.size) * (above + line) as f64;
            items.push(
                Text::new(words, Spot { x: at.x + self.note_left(), y: base }, self.size).into(),
            );
        }
        items.push(self.rule(Spot { x: at.x, y: at.y + self.row_height(index) }, 0.1));
        items
    }

    /// The first base line of what begins at this height.
    fn base(&self, top: Mm) -> Mm {
        top + self.pad() + Mm::from(self.size) * 0.93
    }

    fn rule(&self, at: Spot, width: f64) -> Item {
        let end = at.moved(self.width, Mm::ZERO);
        Item::stroke(Outline::line([at, end]), Stroke::new(Ink::Grey(0.3), Mm(width)))
    }

    fn text(
        &self,
        words: &str,
        face: Face,
        anchor: Anchor,
        (left, width): (Mm, Mm),
        from: Mm,
        base: Mm,
    ) -> Option<Item> {
        if words.is_empty() {
            return None;
        }
        let x = from
            + match anchor {
                Anchor::Left => left,
                Anchor::Middle => left + width / 2.0,
                Anchor::Right => left + width,
            };
        let text = Text { face, anchor, ..Text::new(words, Spot { x, y: base }, self.size) };
        Some(text.into())
    }

    /// The area of a cell of the row whose upper left corner lies there: of the row's first line.
    #[must_use]
    pub fn cell_area(&self, column: usize, at: Spot) -> Option<Area> {
        let (left, width) = *self.places.get(column)?;
        Some(Area { left: at.x + left, top: at.y, width, height: self.head_height() })
    }
}

/// Where the columns lie; nothing where they have no room.
fn places(columns: &[Column], rows: &[Row], size: Pt, width: Mm) -> Option<Vec<(Mm, Mm)>> {
    let em = Mm::from(size);
    let natural = |index: usize, column: &Column| {
        let cells = rows.iter().filter_map(|row| row.cells.get(index)).map(|cell| cell.width(size));
        cells.fold(font::width(Face::Bold, &column.head, size), Mm::max)
    };
    let mut widths: Vec<Mm> =
        columns.iter().enumerate().map(|(index, column)| natural(index, column)).collect();
    let gaps = em * GAP * columns.len().saturating_sub(1) as f64;
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
    let place = |width: Mm| {
        let at = x;
        x += width + em * GAP;
        (at, width)
    };
    Some(widths.into_iter().map(place).collect())
}
