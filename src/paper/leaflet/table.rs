//! A table on a page.

use super::blocks::Table;
use super::share::shares;
use crate::draw::{Anchor, Area, Ink, Item, Mm, Outline, Pt, Size, Spot, Stroke, Text};
use crate::font::{self, Face};
use crate::map::LEAST;
use crate::set::{leading, lines};

/// A table in one size of type, row by row, each with its upper left corner in that of the page.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Rows {
    /// The head; nothing high where nothing stands over any column.
    pub(super) head: Drawn,
    /// The rows.
    pub(super) rows: Vec<Drawn>,
}

/// Something drawn, and how high it is.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Drawn {
    pub(super) items: Vec<Item>,
    pub(super) height: Mm,
}

/// Room beside the words of a cell, as a part of the size of type.
const BESIDE: f64 = 0.28;
/// Room above and below them.
const PAD: f64 = 0.18;
/// A row that is written in.
const PEN: Mm = Mm(7.0);
/// No column needs more of the width than this part of it: longer words are broken.
const MOST_LEAST: f64 = 0.22;

/// Lays a table in this width: in this size of type, or the largest smaller one that has room. Nothing where none has,
/// or a row is higher than half of `high`.
pub(super) fn lay(table: &Table, size: Pt, width: Mm, high: Mm) -> Option<Rows> {
    let mut size = size;
    loop {
        let laid = Setting::new(table, size, width).map(|setting| setting.rows());
        if let Some(rows) = laid {
            let fits = |row: &Drawn| row.height + rows.head.height <= high / 2.0;
            return rows.rows.iter().all(fits).then_some(rows);
        }
        if size <= LEAST {
            return None;
        }
        size = (size - Pt(0.5)).max(LEAST);
    }
}

struct Setting<'a> {
    table: &'a Table,
    size: Pt,
    /// Where each column begins, and how wide it is, room beside its words included.
    places: Vec<(Mm, Mm)>,
    width: Mm,
}

impl<'a> Setting<'a> {
    fn new(table: &'a Table, size: Pt, width: Mm) -> Option<Setting<'a>> {
        let beside = Mm::from(size) * BESIDE * 2.0;
        let mut least = Vec::new();
        let mut wanted = Vec::new();
        for (index, column) in table.columns.iter().enumerate() {
            let cells = table.rows.iter().map(|row| (Face::Regular, Table::cell(row, index)));
            let all: Vec<(Face, &str)> =
                cells.chain([(Face::Bold, column.head.as_str())]).collect();
            let widest = |words: &mut dyn Iterator<Item = (Face, &str)>| {
                words.map(|(face, words)| font::width(face, words, size)).fold(Mm::ZERO, Mm::max)
            };
            let whole = widest(&mut all.iter().copied());
            let one = widest(
                &mut all
                    .iter()
                    .flat_map(|(face, words)| words.split(' ').map(|word| (*face, word))),
            );
            let words = if column.whole { whole } else { one.min(width * MOST_LEAST) };
            least.push((words.max(column.least) + beside).0);
            wanted.push((whole.max(column.least) + beside).0);
        }
        let mut shares = shares(&least, &wanted, width.0)?;
        if table.pen {
            // What is left is for the pen.
            let more = (width.0 - shares.iter().sum::<f64>()) / shares.len().max(1) as f64;
            shares.iter_mut().for_each(|share| *share += more);
        }
        let mut left = Mm::ZERO;
        let place = |share| {
            let place = (left, Mm(share));
            left += Mm(share);
            place
        };
        let places: Vec<(Mm, Mm)> = shares.into_iter().map(place).collect();
        let width = if table.pen { width } else { left.min(width) };
        Some(Setting { table, size, places, width })
    }

    fn rows(&self) -> Rows {
        let heads: Vec<&str> = self.table.columns.iter().map(|column| &column.head[..]).collect();
        let none = heads.iter().all(|head| head.is_empty());
        let head = if none { Drawn::default() } else { self.row(&heads, Face::Bold) };
        let cells = |row: &Vec<String>| {
            let cells: Vec<&str> =
                (0..self.places.len()).map(|index| Table::cell(row, index)).collect();
            self.row(&cells, Face::Regular)
        };
        Rows { head, rows: self.table.rows.iter().map(cells).collect() }
    }

    fn row(&self, cells: &[&str], face: Face) -> Drawn {
        let pad = Mm::from(self.size) * PAD;
        let beside = Mm::from(self.size) * BESIDE;
        let wrapped = |(words, (_, width)): (&&str, &(Mm, Mm))| {
            // The last bits of a sum may make words that fit exactly just miss.
            lines(face, words, self.size, *width - beside * 2.0 + Mm(1e-6))
        };
        let words: Vec<Vec<String>> = cells.iter().zip(&self.places).map(wrapped).collect();
        let high = words.iter().map(Vec::len).max().unwrap_or(0).max(1);
        let mut height = leading(self.size) * high as f64 + pad * 2.0;
        if self.table.pen && cells.iter().any(|cell| cell.is_empty()) && face == Face::Regular {
            height = height.max(PEN);
        }
        let mut items = self.lines_of(height, face);
        for (index, lines) in words.into_iter().enumerate() {
            let (left, width) = self.places[index];
            let anchor = self.table.columns[index].anchor;
            let x = match anchor {
                Anchor::Left => left + beside,
                Anchor::Middle => left + width / 2.0,
                Anchor::Right => left + width - beside,
            };
            for (line, words) in lines.into_iter().enumerate() {
                let y = pad + font::ascent(self.size) + leading(self.size) * line as f64;
                let text = Text { face, anchor, ..Text::new(words, Spot { x, y }, self.size) };
                items.push(text.into());
            }
        }
        Drawn { items, height }
    }

    /// The lines of a row: around every cell of a table that is written in, else under it.
    fn lines_of(&self, height: Mm, face: Face) -> Vec<Item> {
        if self.table.pen {
            let cell = |(left, width): &(Mm, Mm)| {
                let corner = Spot { x: *left, y: Mm::ZERO };
                let area = Area::at(corner, Size { width: *width, height });
                Item::stroke(Outline::rectangle(area), Stroke::black(0.15))
            };
            return self.places.iter().map(cell).collect();
        }
        let ends = [Mm::ZERO, self.width].map(|x| Spot { x, y: height });
        let width = if face == Face::Bold { 0.3 } else { 0.1 };
        vec![Item::stroke(Outline::line(ends), Stroke::new(Ink::Grey(0.3), Mm(width)))]
    }
}
