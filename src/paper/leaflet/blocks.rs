//! What a document is made of.

use super::Figure;
use crate::draw::{Anchor, Mm};

/// A part of a document.
#[derive(Debug, Clone)]
pub enum Block<'a> {
    /// A heading over what follows, never alone at the end of a page.
    Heading(String),
    /// Words.
    Paragraph(String),
    /// Words in bold, close over what follows.
    Strong(String),
    /// Points, in no order.
    List(Vec<String>),
    /// Steps, numbered from one.
    Steps(Vec<String>),
    /// Points with a box to tick.
    Boxes(Vec<Tick>),
    /// Things to be filled in, beside each other where they have room.
    Fields(Vec<Field>),
    /// So many empty lines for a pen.
    Rules(usize),
    /// A table.
    Table(Table),
    /// A drawing.
    Figure(Figure<'a>),
    /// What follows begins a new page.
    NewPage,
    /// What stays together on a page, if a page has room for it.
    Together(Vec<Block<'a>>),
}

/// Something to tick.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Tick {
    /// What it is.
    pub words: String,
    /// Whether it is ticked already.
    pub ticked: bool,
}

/// Something to be filled in.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Field {
    /// What belongs there.
    pub label: String,
    /// What is known of it; a line for a pen where that is empty.
    pub written: String,
}

/// A table, each column of which wraps where it must. Where even so it has no room, each row is written one thing
/// after the other.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Table {
    /// The columns.
    pub columns: Vec<Column>,
    /// The rows, a cell for each column.
    pub rows: Vec<Vec<String>>,
    /// Whether it is written in: lines around every cell, and room for a pen in the empty ones.
    pub pen: bool,
}

/// A column.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Column {
    /// What stands over it.
    pub head: String,
    /// At which end its words stand.
    pub anchor: Anchor,
    /// How wide it is at least.
    pub least: Mm,
    /// Whether its words stay in one line, as a position does.
    pub whole: bool,
}

impl Tick {
    /// An empty box.
    pub fn new(words: impl Into<String>) -> Tick {
        Tick { words: words.into(), ticked: false }
    }
}

impl Field {
    /// A line for a pen.
    pub fn blank(label: impl Into<String>) -> Field {
        Field { label: label.into(), written: String::new() }
    }

    /// What is known already; a line for a pen where it is empty.
    pub fn of(label: impl Into<String>, written: impl Into<String>) -> Field {
        Field { label: label.into(), written: written.into() }
    }
}

impl Column {
    /// A column of words.
    pub fn words(head: impl Into<String>) -> Column {
        Column { head: head.into(), anchor: Anchor::Left, least: Mm::ZERO, whole: false }
    }

    /// A column of figures, which stand at its right end.
    pub fn figures(head: impl Into<String>) -> Column {
        Column { anchor: Anchor::Right, ..Column::words(head) }
    }

    /// The same, at least so wide.
    #[must_use]
    pub fn at_least(self, width: Mm) -> Column {
        Column { least: width, ..self }
    }

    /// The same, with its words in one line.
    #[must_use]
    pub fn whole(self) -> Column {
        Column { whole: true, ..self }
    }
}

impl Table {
    /// A table to read.
    #[must_use]
    pub fn new(columns: Vec<Column>, rows: Vec<Vec<String>>) -> Table {
        Table { columns, rows, pen: false }
    }

    /// A table to write in.
    #[must_use]
    pub fn for_a_pen(columns: Vec<Column>, rows: Vec<Vec<String>>) -> Table {
        Table { columns, rows, pen: true }
    }

    /// The words of a cell, or nothing.
    pub(super) fn cell(row: &[String], column: usize) -> &str {
        row.get(column).map(String::as_str).unwrap_or_default()
    }

    /// A row with one thing after the other, each after what stands over it; an empty cell is a line for a pen, or
    /// left out of a table that is not written in.
    pub(super) fn in_a_row(&self, row: &[String]) -> String {
        let mut parts = Vec::new();
        for (index, column) in self.columns.iter().enumerate() {
            let cell = match Table::cell(row, index) {
                "" if self.pen => "________",
                "" => continue,
                cell => cell,
            };
            parts.push(match column.head.as_str() {
                "" => cell.to_owned(),
                head => format!("{head}: {cell}"),
            });
        }
        parts.join(" · ")
    }
}
