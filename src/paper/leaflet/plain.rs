//! A document as plain text of 80 columns.

use unicode_width::UnicodeWidthStr;

use super::Leaflet;
use super::blocks::{Block, Field, Table};
use super::share::shares;
use crate::draw::Anchor;
use crate::plain::{COLUMNS, hanging, lines, paragraph};

/// Between two columns of a table.
const BETWEEN: usize = 2;
/// A line for a pen, and the least room for one in a cell.
const PEN: usize = 6;

impl Leaflet<'_> {
    /// The document as plain text, no line of it over 80 columns.
    #[must_use]
    pub fn text(&self) -> String {
        let mut out = Vec::new();
        paragraph(&mut out, "", &self.title);
        out.push("=".repeat(self.title.width().min(COLUMNS)));
        paragraph(&mut out, "", &self.subtitle);
        out.push(String::new());
        for block in &self.blocks {
            self::block(&mut out, block);
        }
        for words in &self.foot {
            paragraph(&mut out, "", words);
        }
        let mut text = out.join("\n");
        text.push('\n');
        text
    }
}

fn block(out: &mut Vec<String>, block: &Block<'_>) {
    match block {
        Block::Heading(words) => {
            paragraph(out, "", words);
            out.push("-".repeat(words.width().min(COLUMNS)));
            return;
        }
        Block::NewPage => return,
        Block::Together(blocks) => {
            blocks.iter().for_each(|inner| self::block(out, inner));
            return;
        }
        Block::Paragraph(words) | Block::Strong(words) => paragraph(out, "", words),
        Block::List(points) => points.iter().for_each(|words| hanging(out, "- ", words)),
        Block::Steps(steps) => {
            for (index, words) in steps.iter().enumerate() {
                hanging(out, &format!("{:>2}. ", index + 1), words);
            }
        }
        Block::Boxes(ticks) => {
            for tick in ticks {
                hanging(out, if tick.ticked { "[x] " } else { "[ ] " }, &tick.words);
            }
        }
        Block::Fields(fields) => fields.iter().for_each(|field| self::field(out, field)),
        Block::Rules(count) => out.extend((0..*count).map(|_| "_".repeat(COLUMNS))),
        Block::Table(table) => self::table(out, table),
        Block::Figure(figure) if figure.in_words.is_empty() => return,
        Block::Figure(figure) => paragraph(out, "", &format!("[{}]", figure.in_words)),
    }
    out.push(String::new());
}

fn field(out: &mut Vec<String>, field: &Field) {
    if !field.written.is_empty() {
        hanging(out, "", &format!("{}: {}", field.label, field.written));
        return;
    }
    paragraph(out, "", &format!("{}:", field.label));
    let Some(last) = out.last_mut() else { return };
    let room = COLUMNS.saturating_sub(last.width() + 1);
    if room < 3 * PEN {
        out.push("_".repeat(COLUMNS));
    } else {
        last.push(' ');
        last.push_str(&"_".repeat(room));
    }
}

fn table(out: &mut Vec<String>, table: &Table) {
    let Some(widths) = widths(table) else {
        table.rows.iter().for_each(|row| hanging(out, "- ", &table.in_a_row(row)));
        return;
    };
    let heads: Vec<String> = table.columns.iter().map(|column| column.head.clone()).collect();
    if heads.iter().any(|head| !head.is_empty()) {
        row(out, table, &heads, &widths);
        let rules: Vec<String> = widths.iter().map(|width| "-".repeat(*width)).collect();
        out.push(rules.join(&" ".repeat(BETWEEN)));
    }
    for cells in &table.rows {
        let blank = |(index, width): (usize, &usize)| match Table::cell(cells, index) {
            "" if table.pen => "_".repeat(*width),
            cell => cell.to_owned(),
        };
        let cells: Vec<String> = widths.iter().enumerate().map(blank).collect();
        row(out, table, &cells, &widths);
    }
}

/// How wide the columns are; nothing where they have no room.
fn widths(table: &Table) -> Option<Vec<usize>> {
    let (mut least, mut wanted) = (Vec::new(), Vec::new());
    for (index, column) in table.columns.iter().enumerate() {
        let cells = table.rows.iter().map(|row| Table::cell(row, index));
        let all: Vec<&str> = cells.chain([column.head.as_str()]).collect();
        let blank = table.pen && table.rows.iter().any(|row| Table::cell(row, index).is_empty());
        let pen = if blank { PEN } else { 1 };
        let word = |words: &&str| words.split(' ').map(UnicodeWidthStr::width).max().unwrap_or(0);
        let one = all.iter().map(word).max().unwrap_or(0).min(COLUMNS / 4);
        let whole = all.iter().map(|words| words.width()).max().unwrap_or(0);
        let words = if column.whole { whole } else { one };
        least.push(words.max(pen) as f64);
        wanted.push(whole.max(pen) as f64);
    }
    let between = BETWEEN * table.columns.len().saturating_sub(1);
    let shares = shares(&least, &wanted, COLUMNS.checked_sub(between)? as f64)?;
    Some(shares.into_iter().map(|share| share.floor() as usize).collect())
}

fn row(out: &mut Vec<String>, table: &Table, cells: &[String], widths: &[usize]) {
    let wrapped = |(cell, width): (&String, &usize)| lines(cell, *width).collect::<Vec<_>>();
    let words: Vec<Vec<String>> = cells.iter().zip(widths).map(wrapped).collect();
    let high = words.iter().map(Vec::len).max().unwrap_or(0);
    for line in 0..high {
        let cell = |(index, width): (usize, &usize)| {
            let words = words[index].get(line).map(String::as_str).unwrap_or_default();
            let free = " ".repeat(width.saturating_sub(words.width()));
            match table.columns[index].anchor {
                Anchor::Right => format!("{free}{words}"),
                Anchor::Left | Anchor::Middle => format!("{words}{free}"),
            }
        };
        let cells: Vec<String> = widths.iter().enumerate().map(cell).collect();
        out.push(cells.join(&" ".repeat(BETWEEN)).trim_end().to_owned());
    }
}
